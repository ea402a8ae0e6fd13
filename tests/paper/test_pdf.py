from collections.abc import Iterator
from datetime import date
from io import BytesIO
from itertools import combinations

import msgspec
import pdfplumber
import pytest
from pdfplumber.page import Page
from PySide6.QtGui import QGuiApplication

from app.paper.pdf import Paper, pdf_bytes
from core.document.model import Sheet, Shelf
from core.drawing.cutlist import cut_list_table
from core.drawing.cutorder import cut_order_table
from core.drawing.model import Ordinates
from core.drawing.sheet import draw_sheet
from core.plan.make import make_plan
from core.plan.model import Plan
from tests.drawing.plans import hallway, many, plan_of
from tests.paper.letters import LetteredPage, lettered_pages

pytestmark = pytest.mark.usefixtures("qapp")
MM = 72.0 / 25.4
DAY = date(2026, 11, 3)
SIZES = {"letter": (792.0, 612.0), "a4": (297.0 * MM, 210.0 * MM)}


def plain(text: str) -> str:
    """Words with single blanks: readers give a blank as a tab at times."""
    return " ".join(text.split())


BENCH = ("sheets", "saw", "cut list", "cut order", "offcuts", "loads", "findings")


def pages_of(plan: Plan, paper: Paper | None = None, names: tuple[str, ...] | None = BENCH) -> list[Page]:
    return pdfplumber.open(BytesIO(pdf_bytes(plan, paper, DAY, names))).pages


@pytest.fixture(scope="module")
def pages(qapp: QGuiApplication) -> list[Page]:
    return pages_of(plan_of("hallway"))


@pytest.fixture(scope="module")
def trouble(qapp: QGuiApplication) -> list[Page]:
    return pages_of(plan_of("too long"))


@pytest.fixture(scope="module")
def lettered(qapp: QGuiApplication) -> list[LetteredPage]:
    """Every page of a whole set, and of one with trouble."""
    wanted: list[tuple[str, tuple[str, ...] | None]] = [("hallway", None), ("too long", BENCH)]
    return [page for name, kinds in wanted for page in lettered_pages(pdf_bytes(plan_of(name), None, DAY, kinds))]


def texts(page: Page) -> str:
    return plain(page.extract_text() or "")


def all_words(page: Page) -> str:
    """Level and upright words of a page, upright ones read upwards."""
    level = [w["text"] for w in page.extract_words(keep_blank_chars=True)]
    chars = [c for c in page.chars if not c["upright"]]
    columns: dict[int, list[dict]] = {}
    for char in chars:
        columns.setdefault(round(char["x0"]), []).append(char)
    upright = ["".join(c["text"] for c in sorted(col, key=lambda c: -c["bottom"])) for col in columns.values()]
    return plain(" | ".join(level + upright))


def test_every_ordinate_is_on_the_sheets_page(pages: list[Page]) -> None:
    found = all_words(pages[0])
    for item in draw_sheet(plan_of("hallway"), "A1").items:
        if isinstance(item, Ordinates):
            for _, text in item.marks:
                assert text in found


def test_no_letter_is_smaller_than_nine_points(lettered: list[LetteredPage]) -> None:
    sizes = [char["size"] for page in lettered for char in page.chars]
    assert sizes
    assert min(sizes) >= 9.0


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_pages_have_a_true_check_bar(paper: Paper) -> None:
    """Every fourth page, one of each kind and more: one function frames them all."""
    for page in pages_of(plan_of("golden"), paper, None)[::4]:
        lengths = [abs(line["x1"] - line["x0"]) / MM for line in page.lines if line["top"] == line["bottom"]]
        assert any(abs(length - 100.0) <= 0.1 for length in lengths)
        assert any(abs(length - 101.6) <= 0.1 for length in lengths)
        assert "Print at 100 %" in texts(page)


def test_the_section_is_at_true_scale(pages: list[Page]) -> None:
    """The plies of a panel in section: the outline is as thick as the sheet."""
    page = next(p for p in pages if "Saw set-up" in texts(p))
    assert "1 : 1" in texts(page)
    thickness = plan_of("hallway").sheets[0].thickness
    heights = [abs(c["bottom"] - c["top"]) / MM for c in page.curves + page.rects + page.lines]
    assert any(abs(height - thickness) < 0.05 for height in heights)


def test_only_black_and_white(pages: list[Page], trouble: list[Page]) -> None:
    shades: set[float] = set()
    for page in [*pages, *trouble]:
        for thing in page.chars + page.lines + page.curves + page.rects:
            for name in ("stroking_color", "non_stroking_color"):
                colour = thing[name]
                shades |= {float(value) for value in (colour if isinstance(colour, tuple) else (colour or 0.0,))}
    assert shades <= {0.0, 1.0}


def letter_core(char: dict) -> tuple[float, float, float, float]:
    """The middle of a letter's box: letters that stand side by side never share any of it."""
    across, along = 0.25, 0.15
    wide, high = char["x1"] - char["x0"], char["bottom"] - char["top"]
    dx, dy = (along * wide, across * high) if char["upright"] else (across * wide, along * high)
    return (char["x0"] + dx, char["top"] + dy, char["x1"] - dx, char["bottom"] - dy)


def overlaps(page: LetteredPage) -> Iterator[tuple[str, str]]:
    cells: dict[tuple[int, int], list[tuple[str, tuple[float, float, float, float]]]] = {}
    for char in page.chars:
        if char["text"].isalnum():  # a comma may stand under a quotation mark
            box = letter_core(char)
            for place in {(int(box[i] // 40), int(box[j] // 40)) for i in (0, 2) for j in (1, 3)}:
                cells.setdefault(place, []).append((char["text"], box))
    for near in cells.values():
        for (one, a), (other, b) in combinations(near, 2):
            if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]:
                yield one, other


def test_no_texts_overlap_and_none_is_clipped(lettered: list[LetteredPage]) -> None:
    for page in lettered:
        assert list(overlaps(page)) == []
        frame = (12.0 if page.width > page.height else 4.0) * MM  # labels stand upright and have margins of their own
        for char in page.chars:
            assert frame <= char["x0"] < char["x1"] <= page.width - frame
            assert frame <= char["top"] < char["bottom"] <= page.height - frame


def test_fonts_are_embedded(pages: list[Page]) -> None:
    names = {char["fontname"] for page in pages for char in page.chars}
    assert names
    assert all("SourceSans" in name.replace(" ", "") for name in names)
    data = pdf_bytes(plan_of("hallway"), None, DAY)
    assert data.count(b"/FontFile2") >= 2


def test_pages_say_what_they_are(pages: list[Page]) -> None:
    for number, page in enumerate(pages, 1):
        text = texts(page)
        assert f"Page {number} of {len(pages)}" in text
        assert "Hallway ledges" in text
        assert "3 Nov 2026" in text
        assert "Lengths in inches" in text
    assert "Scale 1 : " in texts(pages[0])
    assert "show face up" in texts(pages[0])


@pytest.mark.parametrize(("units", "paper", "wanted"), [("in", None, "letter"), ("mm", None, "a4"), ("in", "a4", "a4")])
def test_paper_follows_the_units_or_the_wish(units: str, paper: Paper | None, wanted: str) -> None:
    page = pages_of(make_plan(hallway(units=units)), paper)[0]
    assert (page.width, page.height) == pytest.approx(SIZES[wanted], abs=1.0)


def test_tables_flow_over_pages_with_their_headings(pages: list[Page]) -> None:
    plan = plan_of("hallway")
    for table in (cut_list_table(plan), cut_order_table(plan)):
        own = [page for page in pages if f"{table.title}, part" in texts(page)]
        assert len(own) > 1
        rows: list[str] = []
        for page in own:
            words = texts(page)
            for column in table.columns:
                assert all(word in words for word in column.heading.split())
            rows.append(words)
        joined = " ".join(rows)
        for row in table.rows:
            assert " ".join(cell for cell in row if cell) in joined


def test_errors_are_boxed_on_the_first_page(pages: list[Page], trouble: list[Page]) -> None:
    assert "Do not cut" not in texts(pages[0])
    first = texts(trouble[0])
    assert "Do not cut" in first
    assert "too long" in first
    for finding in plan_of("too long").errors:
        assert plain(finding.message)[:40] in first


def test_cautions_are_printed_once(pages: list[Page]) -> None:
    found = [page for page in pages if "Unplug the saw" in texts(page)]
    assert len(found) == 1
    words = texts(found[0])
    assert all(part in words for part in ("Guard", "glasses", "ear", "mask", "Measure your own sheet", "test seam"))


@pytest.mark.parametrize(
    "name",
    ["", "🪵 Regal", "שלום עולם", "<b>&amp;", "x" * 5000, "a\x00b\nc", "\ud800", "مرحبا 3/4"],
)
def test_any_name_prints(name: str) -> None:
    shelf = Shelf(name or "s", 900.0, 200.0, 64.0)
    project = hallway(name=name, shelves=(shelf,), sheets=(Sheet(name[:60] or "A", 2440.0, 1220.0),))
    assert len(pages_of(make_plan(project))) >= 4


def test_a_plan_with_nothing_in_it_prints() -> None:
    pages = pages_of(make_plan(hallway(shelves=())))
    assert "Nothing yet" in texts(pages[1])


def test_many_errors_leave_room_for_the_drawing() -> None:
    shelves = tuple(msgspec.structs.replace(hallway().shelves[0], id=f"s{i}", length=3000.0 + i) for i in range(10))
    pages = pages_of(make_plan(hallway(shelves=shelves)))
    assert "More stands in the list of findings" in texts(pages[0])
    last = " ".join(texts(page) for page in pages[1:])
    assert all(f"s{i} does not fit" in last for i in range(10))


def test_one_page_for_each_sheet() -> None:
    plan = make_plan(many(5))
    pages = pages_of(plan)[: len(plan.sheets) + 1]
    assert ["Scale 1 : " in texts(page) for page in pages] == [True] * len(plan.sheets) + [False]
    assert len(plan.sheets) > 1
