"""Random questions as hypothesis strategies, and what must hold of every answer."""

from collections import Counter
from collections.abc import Sequence

from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from core.packing.one_d import Bar, BarAnswer, BarQuestion, Length
from core.packing.pack import PackAnswer, PackQuestion, SheetKind
from core.packing.tree import Node, Place, places
from core.packing.two_d import Rectangle
from core.sawing.blocks import Block, separable

SMALL = 1e-6  # mm: the layout's own tolerance


def tenths(least: float, most: float) -> st.SearchStrategy[float]:
    """Lengths in tenths of a millimetre, now and then with more digits, as computed lengths have. [mm]"""
    return st.one_of(
        st.integers(round(least * 10), round(most * 10)).map(lambda n: n / 10),
        st.floats(least, most, allow_nan=False),
    )


@st.composite
def bar_questions(draw: DrawFn) -> BarQuestion:
    """Up to 20 parts of up to 6 lengths from one to three kinds of bar, some limited."""
    bars = tuple(
        Bar(
            draw(tenths(400, 3000)),
            draw(st.sampled_from((1.0, 1.0, 2.0, 2.5, 0.0))),
            draw(st.sampled_from((None, None, 1, 2, 3))),
        )
        for _ in range(draw(st.integers(1, 3)))
    )
    if all(bar.count is None and bar.cost == 0 for bar in bars):
        bars = (Bar(bars[0].length), *bars[1:])
    parts = tuple(Length(draw(tenths(60, 1800)), draw(st.integers(1, 4))) for _ in range(draw(st.integers(1, 5))))
    return BarQuestion(parts, bars, draw(st.sampled_from((0.0, 2.2, 3.0))))


@st.composite
def rectangles(draw: DrawFn, kinds: int = 1) -> Rectangle:
    """A part that fits most sheets."""
    allowed = draw(st.sampled_from((None, (0,), (kinds - 1,))))
    return Rectangle(
        draw(tenths(100, 1500)),
        draw(tenths(50, 700)),
        draw(st.integers(1, 2)),
        draw(st.sampled_from((1.0, 2.0, 7.5))),
        draw(st.booleans()),
        allowed,
    )


@st.composite
def pack_questions(draw: DrawFn) -> PackQuestion:
    """Up to 10 parts on one or two kinds of sheet."""
    sheets = tuple(
        SheetKind(
            draw(tenths(800, 2500)),
            draw(tenths(500, 1250)),
            draw(st.sampled_from((1.0, 1.0, 2.0))),
            draw(st.sampled_from((None, None, 1, 2))),
        )
        for _ in range(draw(st.integers(1, 2)))
    )
    parts = tuple(draw(rectangles(len(sheets))) for _ in range(draw(st.integers(1, 5))))
    return PackQuestion(parts, sheets, draw(st.sampled_from((0.0, 2.2, 3.0))))


def check_bars(question: BarQuestion, answer: BarAnswer) -> None:
    """Every part is cut or missing, every bar is long enough and there are enough of it, bounds are on their side."""
    cut = Counter[int]()
    used = Counter(bar.bar for bar in answer.bars)
    for bar in answer.bars:
        cut.update(dict(bar.counts))
        lengths = sum((question.parts[part].length + question.kerf) * times for part, times in bar.counts)
        assert lengths - question.kerf <= question.bars[bar.bar].length + SMALL
        assert abs(bar.rest - max(0.0, question.bars[bar.bar].length - lengths)) <= SMALL
    for number, (part, missing) in enumerate(zip(question.parts, answer.missing, strict=True)):
        assert cut[number] + missing == part.count
    for number, kind in enumerate(question.bars):
        assert kind.count is None or used[number] <= kind.count
    assert answer.cost.bound <= answer.cost.reached + SMALL
    assert answer.rest.bound >= answer.rest.reached - SMALL
    if not any(answer.missing):
        assert abs(answer.cost.reached - sum(question.bars[bar.bar].cost for bar in answer.bars)) <= SMALL


def check_tree(node: Node, length: float, width: float, kerf: float, offcut: Sequence[float] | None) -> list[Place]:
    """The parts of a tree lie inside the sheet, and straight cuts part them and the offcut; returns the parts."""
    lying = list(places(node, kerf))
    boxes = [(p.x, p.y, p.x + p.length, p.y + p.width) for p in lying]
    if offcut is not None and offcut[2] > 0 and offcut[3] > 0:
        boxes.append((offcut[0], offcut[1], offcut[0] + offcut[2], offcut[1] + offcut[3]))
    for x0, y0, x1, y1 in boxes:
        assert x0 >= -SMALL
        assert y0 >= -SMALL
        assert x1 <= length + SMALL
        assert y1 <= width + SMALL
    assert separable([Block("", box) for box in boxes], kerf)
    return lying


def check_lying(place: Place, part: Rectangle) -> None:
    """A part lies in its own size, turned only if it may be."""
    assert part.turn or not place.turned
    size = (part.width, part.length) if place.turned else (part.length, part.width)
    assert (place.length, place.width) == size


def check_pack(question: PackQuestion, answer: PackAnswer) -> None:
    """Every part lies once or is missing, on a sheet it may come from; the offcut is as large as is said."""
    cut = Counter[int]()
    used = Counter(sheet.sheet for sheet in answer.sheets)
    for sheet in answer.sheets:
        kind = question.sheets[sheet.sheet]
        for place in check_tree(sheet.tree, kind.length, kind.width, question.kerf, sheet.offcut):
            part = question.parts[place.part]
            check_lying(place, part)
            assert part.kinds is None or sheet.sheet in part.kinds
            cut[place.part] += 1
    for number, (part, missing) in enumerate(zip(question.parts, answer.missing, strict=True)):
        assert cut[number] + missing == part.count
    for number, kind in enumerate(question.sheets):
        assert kind.count is None or used[number] <= kind.count
    assert answer.cost.bound <= answer.cost.reached + SMALL
    assert answer.offcut.bound >= answer.offcut.reached * (1 - 1e-9)
    areas = [sheet.offcut[2] * sheet.offcut[3] for sheet in answer.sheets if sheet.offcut is not None]
    assert abs(max(areas, default=0.0) - answer.offcut.reached) <= 1e-6 * max(1.0, answer.offcut.reached)
