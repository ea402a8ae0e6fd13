"""Where a sheet stands out from its ground: a proposal of its four corners, for the maker to put right."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

import numpy as np
from numpy.typing import NDArray

from core.photo.homography import Floats, Quad, corner_complaint

if TYPE_CHECKING:
    from PIL.Image import Image

Flags = NDArray[np.bool_]

LOOKED_AT: Final = 320  # pixels of the longer side: enough for the first look
REFINED: Final = 1600  # and for the second, along the sides
SPREAD: Final = 24  # steps of colour that the ground itself varies by
INSET: Final = 0.08  # of the picture: corners where nothing stands out


def proposed_corners(picture: Image) -> tuple[Quad, bool]:
    """Lower left, lower right, upper right and upper left corner, as shares of the picture's sides, and whether they
    were found: where nothing stands out they are a rectangle a little inside the picture."""
    small = _reduced(picture, LOOKED_AT)
    inside = _sheet_in(small)
    quad = _quad_of(inside) if inside is not None else None
    if quad is None or corner_complaint(quad.tolist()):
        return ((INSET, 1 - INSET), (1 - INSET, 1 - INSET), (1 - INSET, INSET), (INSET, INSET)), False
    fine = _reduced(picture, REFINED)
    scale = np.array([fine.shape[1] / small.shape[1], fine.shape[0] / small.shape[0]])
    refined = _refined(fine, quad * scale, 3.0 * float(scale.max()))
    if corner_complaint(refined.tolist()):
        refined = quad * scale
    shares = refined / (fine.shape[1], fine.shape[0])
    return _as_quad(shares), True


def _as_quad(points: Floats) -> Quad:
    a, b, c, d = ((float(x), float(y)) for x, y in points)
    return (a, b, c, d)


def _reduced(picture: Image, side: int) -> Floats:
    """The picture as numbers (down, across, 3), shrunk to about that many pixels."""
    factor = max(1, round(max(picture.size) / side))
    small = picture.reduce(factor) if factor > 1 else picture
    result: Floats = np.asarray(small).astype(np.float64)
    return result


def _sheet_in(small: Floats) -> Flags | None:
    """The pixels that belong to what stands out; None where nothing does."""
    far = _from_ground(small)
    level = _parting(far)
    part = far > level
    inner, outer = far[part], far[~part]
    if not inner.size or not outer.size or inner.mean() - outer.mean() < SPREAD:
        return None
    piece = _largest(_opened(part))
    share = piece.mean()
    return piece if 0.04 < share < 0.97 else None


def _from_ground(small: Floats) -> Floats:
    """How far each pixel's colour is from the colours along the picture's border."""
    rim = np.concatenate([small[:3].reshape(-1, 3), small[-3:].reshape(-1, 3), small[:, :3].reshape(-1, 3)])
    rim = np.concatenate([rim, small[:, -3:].reshape(-1, 3)])
    middles = [np.median(rim, axis=0)]
    for _ in range(2):  # a ground of two or three colours: floor and wall
        off = np.min([np.linalg.norm(rim - m, axis=1) for m in middles], axis=0)
        other = rim[off > 2.0 * SPREAD]
        if len(other) < 0.12 * len(rim):
            break
        middles.append(np.median(other, axis=0))
    result: Floats = np.min([np.linalg.norm(small - m, axis=2) for m in middles], axis=0)
    return result


def _parting(values: Floats) -> float:
    """The value that parts two heaps best. Source: Otsu 1979, from memory."""
    counts, edges = np.histogram(values, 128)
    middles = (edges[:-1] + edges[1:]) / 2.0
    below, above = np.cumsum(counts), counts.sum() - np.cumsum(counts)
    sums = np.cumsum(counts * middles)
    with np.errstate(divide="ignore", invalid="ignore"):
        gap = sums / below - (sums[-1] - sums) / above
        parted = np.nan_to_num(below * above * gap * gap)
    return float(edges[1 + int(parted.argmax())])


def _opened(part: Flags) -> Flags:
    """Without what is thinner than three pixels."""
    return _grown(~_grown(~part))


def _grown(part: Flags) -> Flags:
    padded = np.pad(part, 1, mode="edge")
    wide = padded[:, :-2] | padded[:, 1:-1] | padded[:, 2:]
    result: Flags = wide[:-2] | wide[1:-1] | wide[2:]
    return result


def _largest(part: Flags) -> Flags:
    """The largest connected piece."""
    from PIL import Image, ImageDraw

    canvas = Image.fromarray(part.astype(np.uint8) * 255).copy()
    best = np.zeros_like(part)
    for _ in range(12):
        left = np.asarray(canvas) == 255
        if left.sum() <= best.sum():
            break
        rows, columns = np.nonzero(left)
        at = len(rows) // 2
        ImageDraw.floodfill(canvas, (int(columns[at]), int(rows[at])), 128)
        piece = np.asarray(canvas) == 128
        if piece.sum() > best.sum():
            best = piece
        canvas = Image.fromarray(np.where(piece, 0, np.asarray(canvas)).astype(np.uint8)).copy()
    return best


def _quad_of(piece: Flags) -> Floats | None:
    """Four corners round a piece, lower left first, against the clock as the picture is seen."""
    rows, columns = np.nonzero(piece)
    if len(rows) < 16:
        return None
    at = np.stack([columns + 0.5, rows + 0.5], axis=1)
    hull = _hull(at)
    first = _farthest_four(hull)
    down = first[:, 1]
    start = int(np.argmax(down - first[:, 0]))  # lowest and leftmost
    ordered = np.roll(first, -start, axis=0)
    if _turn(ordered[0], ordered[1], ordered[2]) > 0.0:  # y runs down: against the clock as seen is a negative area
        ordered = np.roll(ordered[::-1], 1, axis=0)
    result: Floats = ordered
    return result


def _hull(points: Floats) -> Floats:
    """The convex hull, by Andrew's chains."""
    ordered = points[np.lexsort((points[:, 1], points[:, 0]))]

    def chain(way: Floats) -> list[Floats]:
        kept: list[Floats] = []
        for point in way:
            while len(kept) > 1 and _turn(kept[-2], kept[-1], point) <= 0.0:
                kept.pop()
            kept.append(point)
        return kept[:-1]

    rows = _ends_of_rows(ordered)
    return np.array(chain(rows) + chain(rows[::-1]))


def _ends_of_rows(points: Floats) -> Floats:
    """Of each column only the first and the last: no other is on the hull."""
    x = points[:, 0]
    change = np.nonzero(np.diff(x))[0]
    result: Floats = points[np.unique(np.concatenate([[0], change, change + 1, [len(points) - 1]]))]
    return result


def _turn(a: Floats, b: Floats, c: Floats) -> float:
    return float((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]))


def _farthest_four(hull: Floats) -> Floats:
    """The four points of the hull that hold the most between them: two ends of a diagonal, and what is farthest off
    it on either side, over all diagonals."""
    thin = hull[:: max(1, len(hull) // 120)]
    best, found = -1.0, thin[:4]
    for i in range(len(thin)):
        for j in range(i + 2, len(thin)):
            way = thin[j] - thin[i]
            off = way[0] * (thin[:, 1] - thin[i, 1]) - way[1] * (thin[:, 0] - thin[i, 0])
            high, low = int(off.argmax()), int(off.argmin())
            if off[high] - off[low] > best and off[high] > 0.0 > off[low]:
                best, found = float(off[high] - off[low]), thin[[i, low, j, high]]
    return found


def _refined(fine: Floats, quad: Floats, reach: float) -> Floats:
    """Each side laid along the steepest change of tone near it; the corners are where the sides meet."""
    tone = fine.sum(axis=2)
    lines = [_side(tone, quad[n], quad[(n + 1) % 4], reach) for n in range(4)]
    return np.array([_meeting(lines[n - 1], lines[n]) for n in range(4)])


def _side(tone: Floats, start: Floats, end: Floats, reach: float) -> tuple[Floats, Floats]:
    """A point and a direction of the edge near a side."""
    way = end - start
    length = float(np.hypot(*way))
    way = way / length
    across = np.array([-way[1], way[0]])
    at = start + np.linspace(0.06, 0.94, 120)[:, None] * (end - start)
    steps = np.arange(-np.ceil(reach), np.ceil(reach) + 1.0)
    places = at[:, None, :] + steps[None, :, None] * across
    x = np.clip(places[..., 0], 0, tone.shape[1] - 1).astype(int)
    y = np.clip(places[..., 1], 0, tone.shape[0] - 1).astype(int)
    jump = np.abs(np.diff(tone[y, x], axis=1))
    off = _peak(jump) + steps[0] + 0.5
    along = (at - start) @ way
    for _ in range(6):  # a line through most of them
        line = np.polyfit(along, off, 1)
        miss = np.abs(off - np.polyval(line, along))
        keep = miss <= max(0.75, 1.5 * float(np.median(miss)))
        if keep.all() or keep.sum() < 12:
            break
        along, off = along[keep], off[keep]
    slope, rise = line
    direction = way + slope * across
    return start + rise * across, direction


def _peak(jump: Floats) -> Floats:
    """Where each row is highest, between its steps."""
    at = jump.argmax(axis=1)
    inner = np.clip(at, 1, jump.shape[1] - 2)
    rows = np.arange(len(jump))
    before, here, after = jump[rows, inner - 1], jump[rows, inner], jump[rows, inner + 1]
    bend = before - 2.0 * here + after
    shift = np.divide(before - after, 2.0 * bend, out=np.zeros_like(bend), where=bend < 0.0)
    result: Floats = inner + np.clip(shift, -0.5, 0.5)
    return result


def _meeting(first: tuple[Floats, Floats], second: tuple[Floats, Floats]) -> Floats:
    """Where two lines meet; the second's own point where they run alike."""
    (p, a), (q, b) = first, second
    turn = a[0] * b[1] - a[1] * b[0]
    if abs(turn) < 1e-6:
        return q
    share = ((q[0] - p[0]) * b[1] - (q[1] - p[1]) * b[0]) / turn
    result: Floats = p + share * a
    return result
