"""A longer or wider sheet: the next that is usually sold, else the size that is needed."""

from __future__ import annotations

from collections.abc import Iterator

from core.document.model import Project, Sheet
from core.findings.words import ceiling, length, need
from core.language import tr
from core.layout.model import FIT, Misfit
from core.lengths import Unit
from core.plan.model import Fix
from core.stock.sizes import next_size


def larger_sheets(project: Project, misfit: Misfit) -> Iterator[Fix]:
    """A larger sheet in the place of the one the shelf comes nearest to fitting."""
    stock = misfit.stock
    if stock is None or misfit.reason != "large" or max(misfit.over_x, misfit.over_y) <= FIT:
        return
    number = next(i for i, sheet in enumerate(project.sheets) if sheet.id == stock.id)
    least = stock.length + max(0.0, misfit.over_x), stock.width + max(0.0, misfit.over_y)
    usual = next_size(*least, Unit(project.units))
    if usual is not None:
        yield _instead(project, number, stock, *usual)
    elif misfit.sheet is None:  # nothing is sold so large: say how large it would have to be
        yield _instead(project, number, stock, *_needed(project, stock, misfit))
    if misfit.sheet is None and stock.length != stock.width:
        yield _other_grain(project, number, stock)


def _needed(project: Project, stock: Sheet, misfit: Misfit) -> tuple[float, float]:
    return (
        ceiling(project, stock.length + misfit.over_x) if misfit.over_x > FIT else stock.length,
        ceiling(project, stock.width + misfit.over_y) if misfit.over_y > FIT else stock.width,
    )


def _instead(project: Project, number: int, stock: Sheet, long: float, wide: float) -> Fix:
    if abs(wide - stock.width) <= FIT:
        return Fix(tr("A sheet {need} long", need=need(project, long)), {f"/sheets/{number}/length": long})
    if abs(long - stock.length) <= FIT:
        return Fix(tr("A sheet {need} wide", need=need(project, wide)), {f"/sheets/{number}/width": wide})
    text = tr("A sheet {need} × {need2}", need=need(project, long), need2=need(project, wide))
    return Fix(text, {f"/sheets/{number}/length": long, f"/sheets/{number}/width": wide})


def _other_grain(project: Project, number: int, stock: Sheet) -> Fix:
    """The same size sold with its grain the other way: another sheet, never this one turned."""
    text = tr("A sheet with the grain along its {project}", project=length(project, stock.width))
    return Fix(text, {f"/sheets/{number}/length": stock.width, f"/sheets/{number}/width": stock.length})
