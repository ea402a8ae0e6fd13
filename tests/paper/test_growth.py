"""The plan set takes a time that grows with the cuts, not faster; and its first page waits for none of the rest."""

from time import process_time

import pytest

from app.paper.pdf import frame_of, pdf_bytes
from app.paper.plan_set import kinds_of
from core.plan.make import make_plan
from core.plan.model import Plan
from tests.bench.planning import many_shelves

pytestmark = pytest.mark.usefixtures("qapp")
FEW, MANY = 3, 12
MOST = 1.8  # times as long for a cut: sheets are fuller; measured ratios lie under 1.3


def seconds(plan: Plan) -> float:
    """Time of the processor for the whole set, steps and all."""
    start = process_time()
    pdf_bytes(plan, "letter")
    return process_time() - start


def test_growth() -> None:
    pdf_bytes(make_plan(many_shelves(1)), "letter")  # loads what is loaded at first use
    spent = {}
    for count in (FEW, MANY):
        plan = make_plan(many_shelves(count))
        spent[count] = seconds(plan) / len(plan.cuts)
    assert spent[MANY] / spent[FEW] < MOST


def test_the_first_page_waits_for_nothing() -> None:
    plan = make_plan(many_shelves(MANY))
    start = process_time()
    first = next(iter(kinds_of()[0].make(plan, frame_of(plan, "letter"))))
    alone = process_time() - start
    assert first.title
    assert alone < 0.1 * seconds(plan)
