"""What is still nominal in the window: told beside the findings, confirmed with one click, and led to its field."""

from __future__ import annotations

from functools import partial

from app.bottomline.line import BottomLine
from app.rule import Rule
from app.store import Store
from core.findings.nominal import Nominal, as_measured, still_nominal
from core.language import tr


class Measuring:
    """Listens to the bottom line's list."""

    def __init__(self, store: Store, line: BottomLine, rule: Rule) -> None:
        self._store, self._line, self._rule = store, line, rule
        line.nominal_list.done_asked.connect(self._done)
        line.nominal_list.field_asked.connect(self._show_field)

    def refresh(self) -> None:
        """Tell what is nominal in the newest plan; a hand that drags has other things to look at."""
        plan = self._store.planner.plan
        if plan.whole is None:
            self._line.show_nominal(still_nominal(plan))

    def _done(self, one: Nominal) -> None:
        self._store.end_run()
        self._store.apply(tr("{word}: {done}", word=one.word, done=one.done), partial(as_measured, one=one))

    def _show_field(self, one: Nominal) -> None:
        if one.of:
            self._store.choose_stock(one.of)
        section, *_, name = one.field.strip("/").split("/")
        self._rule.show_field({"sheets": "sheet"}.get(section, section), name)
