"""The proof of a plan: its cuts, replayed, give exactly its panels, its parts, its offcuts and its waste."""

from __future__ import annotations

from core.geometry.net import EDGES, EdgeName
from core.geometry.parts import part_of
from core.language import tr
from core.plan.model import Panel, Plan
from core.sawing.piece import Piece, Side, volume
from core.sawing.replay import Replayed, ReplayError, ReplaySheet, replay

TOL = 1e-6  # mm


def prove(plan: Plan) -> Replayed:
    """Replay a plan and compare; returns what lies on the bench.

    Raises ReplayError with one sentence for the first thing that is not as the plan says. A plan that fails here is
    a mistake in this program, not in the design.
    """
    stock = [ReplaySheet(s.id, s.length, s.width, s.thickness) for s in plan.sheets]
    done = replay(stock, plan.cuts, plan.project.saw.kerf)
    named = _named(plan)
    if extra := set(done.pieces) - named:
        raise ReplayError(tr("piece {min} falls off, but the plan does not know it", min=min(extra)))
    if missing := named - set(done.pieces):
        raise ReplayError(tr("the plan promises piece {min}, but no cut makes it", min=min(missing)))
    for panel in plan.panels:
        if panel.piece is not None:
            _check_panel(panel, done.pieces[panel.piece])
    _check_parts(plan, done)
    _check_nets(plan)
    for sheet in stock:
        total = sum(volume(p, sheet.thickness) for n, p in done.pieces.items() if done.sheet_of[n] == sheet.id)
        whole = sheet.length * sheet.width * sheet.thickness
        if abs(total + done.sawdust[sheet.id] - whole) > 1e-9 * whole:
            raise ReplayError(tr("wood and sawdust do not add up to sheet {id}", id=sheet.id))
    return done


def _named(plan: Plan) -> set[str]:
    """Every piece the plan uses; raises where one is used twice."""
    uses = [p.piece for p in plan.panels if p.piece is not None]
    uses += [p.piece for f in plan.frames for p in f.parts if p.piece is not None]
    uses += [o.piece for o in plan.offcuts] + [w.piece for w in plan.leftovers]
    names = set(uses)
    if len(names) != len(uses):
        raise ReplayError(tr("piece {next} is used twice", next=next(n for n in uses if uses.count(n) > 1)))
    return names


def _side(piece: Piece, edge: EdgeName) -> Side:
    return {"low_x": piece.x_low, "high_x": piece.x_high, "low_y": piece.y_low, "high_y": piece.y_high}[edge]


def _check_panel(panel: Panel, piece: Piece) -> None:
    assert panel.x is not None
    assert panel.y is not None
    want = (panel.x, panel.y, panel.x + panel.show[0], panel.y + panel.show[1])
    _same_box(panel.id, piece, want)
    inside = piece.inside_box()
    size = (inside[2] - inside[0], inside[3] - inside[1])
    if any(abs(a - b) > TOL for a, b in zip(size, panel.inside, strict=True)):
        raise ReplayError(
            tr("{id}: its inside face is {size}, not {inside}", id=panel.id, size=size, inside=panel.inside)
        )
    for edge in EDGES:
        side = _side(piece, edge)
        if len(side) != 1 or (abs(side[0][0] - side[0][1]) > TOL) != (edge in panel.bevels):
            raise ReplayError(tr("{id}: edge {edge} is not sawn as it must be", id=panel.id, edge=edge))


def _same_box(name: str, piece: Piece, want: tuple[float, float, float, float]) -> None:
    have = piece.show_box()
    if any(abs(a - b) > TOL for a, b in zip(have, want, strict=True)):
        raise ReplayError(tr("{name}: its piece lies at {have}, not at {want}", name=name, have=have, want=want))


def _check_parts(plan: Plan, done: Replayed) -> None:
    for frame in plan.frames:
        for part in frame.parts:
            if part.piece is None:
                continue
            piece = done.pieces[part.piece]
            assert part.x is not None
            assert part.y is not None
            box = (part.x, part.y, part.x + part.length, part.y + part.width)
            _same_box(part.id, piece, box)
            if any(abs(a - b) > TOL for a, b in zip(piece.clear_box(), box, strict=True)):
                raise ReplayError(tr("{id}: not square through", id=part.id))
    for offcut in plan.offcuts:
        x0, y0, x1, y1 = done.pieces[offcut.piece].clear_box()
        if abs(x1 - x0 - offcut.length) > TOL or abs(y1 - y0 - offcut.width) > TOL:
            raise ReplayError(
                tr(
                    "offcut {piece} is {x1} x {y1} square through, not as the plan says",
                    piece=offcut.piece,
                    x1=x1 - x0,
                    y1=y1 - y0,
                )
            )


def _check_nets(plan: Plan) -> None:
    """Panels lie as their net says, so that every wrapping seam is one loss wide."""
    where = {p.id: p for p in plan.panels}
    shapes = {shape.owner: shape for shape in plan.shapes}
    for net in plan.nets:
        shape = shapes[net.shelf]
        for p in part_of(shape, net.panel).panels:
            panel = where[f"{shape.owner}/{p.role}"]
            assert panel.x is not None
            assert panel.y is not None
            if abs(panel.x - net.x - p.x) > TOL or abs(panel.y - net.y - p.y) > TOL:
                raise ReplayError(tr("{id} does not lie where its net says", id=panel.id))
