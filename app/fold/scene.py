"""A scene: all that is drawn, as one array of rows and the runs of it that are drawn in one go. No Qt, no OpenGL here.

A row has eight numbers. In a batch of triangles: place, outward normal, texture coordinates. In a stroke: see
`strokes.rows_of`. Texture coordinates of a sheet's face are (x / length, 1 - y / width), row 0 of the picture being
the sheet's upper edge; those of an edge are (mm along / `EDGE_SPAN`, depth / thickness).
"""

from __future__ import annotations

from functools import lru_cache
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from app.fold.meshes import GROUPS, Floats, Group, Solids, fold_matrices, frame_sticks, net_solids
from app.fold.standing import Offset, Standing
from app.fold.strokes import DRAWN, Style, box_outlines, net_lines, outline, rows_of
from core.document.model import Shelf
from core.geometry.net import Net
from core.plan.model import Frame, StockSheet
from core.solid.frame_solids import frame_solids

Rows = NDArray[np.float32]
Role = Literal["shell", "frame"]
Span = tuple[float, float]  # length and width of a sheet [mm]
Corner = tuple[float, float, float]

EDGE_SPAN = 512.0  # of an edge's picture, along the edge [mm]


class EdgeKey(NamedTuple):
    """Which plies an edge shows."""

    thickness: float  # [mm]
    veneer: float  # [mm]
    crosswise: bool  # it runs across the sheet's grain


class Batch(NamedTuple):
    """Triangles that share a picture: the face of a sheet (its id) or an edge."""

    role: Role
    group: Group
    picture: str | EdgeKey
    is_over: bool  # part of it may lie beside the sheet
    start: int
    length: int  # rows


class Stroke(NamedTuple):
    """Lines that share a pen."""

    style: Style
    start: int
    length: int  # rows


class Scene(NamedTuple):
    """What is drawn. `points` (N, 3) hold all solids between them, for fitting. [mm]"""

    rows: Rows
    batches: tuple[Batch, ...]
    strokes: tuple[Stroke, ...]
    points: Floats
    sheets: dict[str, StockSheet]
    is_see_through: bool


Key = tuple[Role, Group, str | EdgeKey, bool]  # what a batch is drawn with


class _Pile:
    """Runs of rows, gathered by what they are drawn with."""

    def __init__(self) -> None:
        self.solids: dict[Key, list[Rows]] = {}
        self.lines: dict[Style, list[Rows]] = {}

    def batches(self) -> tuple[Batch, ...]:
        """The solids' runs, which come first."""
        found, at = [], 0
        for key, runs in self.solids.items():
            length = sum(len(run) for run in runs)
            found.append(Batch(*key, at, length))
            at += length
        return tuple(found)

    def strokes(self, start: int) -> tuple[Stroke, ...]:
        """The lines' runs, which follow."""
        found, at = [], start
        for style, runs in self.lines.items():
            length = sum(len(run) for run in runs)
            found.append(Stroke(style, at, length))
            at += length
        return tuple(found)

    def rows(self) -> Rows:
        """All of them."""
        parts = [run for runs in (*self.solids.values(), *self.lines.values()) for run in runs]
        return np.concatenate(parts) if parts else np.zeros((0, 8), np.float32)


class _Shell(NamedTuple):
    """One shell's rows, final, and the box that holds it."""

    solids: dict[tuple[Group, int], Rows]  # by group and home
    lines: dict[Style, Rows]
    low: Corner
    high: Corner


def build_scene(shelves: tuple[Standing, ...], fold: float, selected: str = "") -> Scene:
    """The scene of these shelves, folded so far, with what is selected outlined."""
    pile = _Pile()
    boxes: list[tuple[Corner, Corner]] = []
    for one in shelves:
        shell, homes = _shell(one, fold), one.homes
        for (group, number), rows in shell.solids.items():
            home = homes[number]
            is_over = home.is_over and group == "show"
            picture = _picture(home.sheet, group, one.thickness)
            pile.solids.setdefault(("shell", group, picture, is_over), []).append(rows)
        for style, lines in shell.lines.items():
            pile.lines.setdefault(style, []).append(lines)
        if one.frame is not None:
            _add_frame(one, one.frame, pile)
        pile.lines.setdefault("chosen", []).append(_chosen(one, fold, selected))
        boxes.append(_with_home(one, shell))
    batches = pile.batches()
    strokes = pile.strokes(batches[-1].start + batches[-1].length if batches else 0)
    sheets = {home.sheet.id: home.sheet for one in shelves for home in one.homes}
    return Scene(pile.rows(), batches, strokes, _corners(boxes), sheets, any(one.frame for one in shelves))


def _shell(one: Standing, fold: float) -> _Shell:
    homes = tuple((home.origin, (home.sheet.length, home.sheet.width)) for home in one.homes)
    return _shell_at(one.net, one.thickness, homes, fold, one.outside_gap, one.shell)


Homes = tuple[tuple[tuple[float, float], Span], ...]  # origin and sheet of the net, then of each panel cut apart


@lru_cache(maxsize=128)
def _shell_at(net: Net, thickness: float, homes: Homes, fold: float, gap: float, offset: Offset) -> _Shell:
    """Kept, since under a dragging hand most shelves stay as they are."""
    flat = _on_sheet(net, thickness, homes)
    matrices = fold_matrices(net, fold, gap)
    places = matrices.moved(flat.rows[:, :3], flat.owner) + offset
    rows = np.empty(flat.rows.shape, np.float32)
    rows[:, :3] = places
    rows[:, 3:6] = matrices.turned(flat.rows[:, 3:6], flat.owner)
    rows[:, 6:] = flat.rows[:, 6:]
    drawn = net_lines(net, fold == 1.0 and gap == 0.0)
    lines = rows_of(matrices.moved(drawn.ends, drawn.owner) + offset).astype(np.float32)
    return _Shell(
        _by_home(net, flat, rows),
        {style: lines[6 * drawn.runs[style].start : 6 * drawn.runs[style].stop] for style in DRAWN},
        _corner(places.min(axis=0)),
        _corner(places.max(axis=0)),
    )


def _by_home(net: Net, flat: Solids, rows: Rows) -> dict[tuple[Group, int], Rows]:
    """The rows by group and by home: 0 for the net, then one for each panel cut apart."""
    if not net.apart:
        return {(group, 0): rows[flat.runs[group]] for group in GROUPS}
    homes = _home_of(net)[flat.owner]
    runs = ((group, number, flat.runs[group]) for group in GROUPS for number in range(1 + len(net.apart)))
    return {(group, number): rows[run][homes[run] == number] for group, number, run in runs}


def _home_of(net: Net) -> NDArray[np.intp]:
    """The number of each panel's home."""
    return np.array([1 + net.apart.index(p.role) if p.role in net.apart else 0 for p in net.panels], np.intp)


@lru_cache(maxsize=64)
def _on_sheet(net: Net, thickness: float, homes: Homes) -> Solids:
    """A net's solids with texture coordinates."""
    flat = net_solids(net, thickness)
    if not net.apart:
        return flat._replace(rows=_textured(flat, thickness, *homes[0]))
    faces = slice(0, flat.runs["inside"].stop)
    number = _home_of(net)[flat.owner[faces]]
    origins, spans = (np.array(values)[number] for values in zip(*homes, strict=True))
    return flat._replace(rows=_textured(flat, thickness, origins, spans))


def _textured(solids: Solids, thickness: float, origin: tuple[float, float] | Floats, span: Span | Floats) -> Floats:
    """A copy of the rows with texture coordinates for the picture coordinates.

    origin, span: for all, or (N, 2) with one for each row of a face. [mm]
    """
    rows = solids.rows.copy()
    faces = slice(0, solids.runs["inside"].stop)
    edges = slice(solids.runs["long"].start, None)
    rows[faces, 6:] = (rows[faces, 6:] + origin) / span
    rows[faces, 7] = 1.0 - rows[faces, 7]
    rows[edges, 6:] /= (EDGE_SPAN, thickness)
    return rows


def _picture(sheet: StockSheet, group: Group, thickness: float) -> str | EdgeKey:
    if group in ("show", "inside"):
        return sheet.id
    return EdgeKey(thickness, sheet.source.veneer, group == "cross")


# The frame


def _add_frame(one: Standing, frame: Frame, pile: _Pile) -> None:
    solids, lines = _frame_at(frame, one.shelf, one.thickness, (one.sheet.length, one.sheet.width), one.home)
    for group, rows in solids.items():
        pile.solids.setdefault(("frame", group, _picture(one.sheet, group, frame.thickness), False), []).append(rows)
    pile.lines.setdefault("stick", []).append(lines)


@lru_cache(maxsize=128)
def _frame_at(
    frame: Frame, shelf: Shelf, thickness: float, span: Span, offset: Offset
) -> tuple[dict[Group, Rows], Rows]:
    sticks = frame_sticks(frame, shelf, thickness)
    rows = _textured(sticks.solids, frame.thickness, (0.0, 0.0), span)
    rows[:, :3] += offset
    final = rows.astype(np.float32)
    edges = box_outlines(sticks.lows, sticks.highs) + offset
    return {group: final[sticks.solids.runs[group]] for group in GROUPS}, rows_of(edges).astype(np.float32)


# What is selected, and what holds it all


def _chosen(one: Standing, fold: float, selected: str) -> Rows:
    """Lines round the selection, if it is of this shelf."""
    owner, _, about = selected.partition("/")
    if owner != one.shelf.id:
        return np.zeros((0, 8), np.float32)
    lines = outline(one.net, about, fold_matrices(one.net, fold, one.outside_gap)) + one.shell
    if not len(lines) and one.frame is not None:
        for solid in frame_solids(one.frame, one.shelf, one.thickness):
            if solid.part.id == selected:
                lines = box_outlines(np.array([solid.low]), np.array([solid.high])) + one.home
    return rows_of(lines).astype(np.float32)


def _with_home(one: Standing, shell: _Shell) -> tuple[Corner, Corner]:
    """The box of a shell and, where its frame is seen, of the place it goes to."""
    x, y, z = shell.low
    return (x, y, z - one.off if one.frame is not None else z), shell.high


def _corners(boxes: list[tuple[Corner, Corner]]) -> Floats:
    """The eight corners of every box, (8 N, 3)."""
    ends = np.array(boxes).reshape(-1, 2, 3)
    picks = np.array([(i, j, k) for i in (0, 1) for j in (0, 1) for k in (0, 1)])
    result: Floats = ends[:, picks, np.arange(3)].reshape(-1, 3)
    return result


def _corner(point: Floats) -> Corner:
    x, y, z = point.tolist()
    return (x, y, z)
