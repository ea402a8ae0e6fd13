"""What is known of a layout: how few sheets it takes, and whether fewer would do."""

from __future__ import annotations

import msgspec

from core.language import tr


class Proof(msgspec.Struct, frozen=True, gc=False):
    """How little a layout takes, frame parts included, and what no layout can go below.

    A net, or a run of nets that share a band, is parted from the sheet as a rectangle; within that every edge-to-edge
    cutting is allowed for.
    """

    sheets: int  # taken by the layout
    cost: float  # of them: their prices, or how many they are
    bound: float  # no layout for everything costs less
    priced: bool  # the cost is a price
    lacking: int = 0  # shelves and frame parts without room
    settled: bool = True  # where something lacks room: it is known that not everything fits

    @property
    def proven(self) -> bool:
        """Is it known that nothing is better: no cheaper layout, or no room for everything?"""
        return self.settled if self.lacking else self.cost <= self.bound + 1e-6

    @property
    def words(self) -> str:
        """One sentence without its full stop; '' where there is nothing to lay out."""
        if self.lacking:
            return (
                tr("Not everything fits: proven") if self.settled else tr("Whether everything can fit is not settled")
            )
        if not self.sheets:
            return ""
        taken = f"{self.sheets} {tr('sheet') if self.sheets == 1 else tr('sheets')}"
        if self.priced:
            taken += tr(" at {cost:,.2f}", cost=self.cost)
        if self.proven:
            return tr("{taken}, proven {priced}", taken=taken, priced="cheapest" if self.priced else "fewest")
        if self.priced:
            return tr(
                "{taken}; less than {bound:,.2f} is ruled out, what lies between is not settled",
                taken=taken,
                bound=self.bound,
            )
        return f"{taken}; {self._open(round(self.bound))}"

    def _open(self, least: int) -> str:
        last = self.sheets - 1
        between = str(last) if last == least else f"{least} {tr('and') if last == least + 1 else tr('to')} {last}"
        return (
            tr("fewer than {least} is ruled out, {between} not settled", least=least, between=between)
            if least > 1
            else tr("{between} not settled", between=between)
        )
