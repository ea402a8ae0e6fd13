"""How far a search got, and what it leaves open."""

from __future__ import annotations

import msgspec


class Reach(msgspec.Struct, frozen=True):
    """A value reached, the bound nothing can beat, and whether the two are known to meet."""

    reached: float
    bound: float
    proven: bool

    def note(self, what: str, unit: str = "", digits: int = 0) -> str:
        """One clause: what is proven, or between which numbers the answer lies. `what` names the value."""
        reached, bound = (f"{value:,.{digits}f}{unit and ' ' + unit}" for value in (self.reached, self.bound))
        if self.proven:
            return f"{what} {reached}, proven best"
        if self.bound > self.reached:
            return f"{what} {reached}; more than {bound} is ruled out, what lies between is not settled"
        return f"{what} {reached}; less than {bound} is ruled out, what lies between is not settled"
