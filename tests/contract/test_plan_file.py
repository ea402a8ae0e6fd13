"""The plan as a file: its keys as described, its numbers whole, its ids known; and the cut list."""

from __future__ import annotations

import csv
import io
import json
from typing import Any

import msgspec
import pytest
from hypothesis import given, settings

from core.document import Project
from core.document.load import load_project, parse_project
from core.document.patch import apply_pointers
from core.export.cut_list_csv import csv_bytes, cut_list
from core.export.plan_json import json_bytes
from core.lengths import Unit, parse_length
from core.plan.contract import plan_document
from core.plan.least import least_layout
from core.plan.make import make_plan
from core.plan.model import Fix, Load, Plan, Supply
from tests.conftest import examples
from tests.contract.files import DATA, SAMPLE_FILE
from tests.strategies import projects

DESCRIBED: dict[str, Any] = json.loads((DATA / "plan_sample.json").read_text("utf-8"))
EXAMPLE = load_project(SAMPLE_FILE)
MORE_KEYS = {  # beyond the description
    "seams": {"outside_gap"},
    "cuts": {"setup", "guide", "face", "flip", "set_by", "packer", "falls", "notes"},
    "loads": {"factor", "rules", "own_kg", "band", "raise_by"},
}
MORE_MEMBERS = ["proof"]


@pytest.fixture(scope="module")
def plan() -> Plan:
    """The sample's plan, with one of everything that a plan can hold."""
    made = make_plan(EXAMPLE)
    return msgspec.structs.replace(
        made,
        loads=(Load("ledge", "screw withdrawal", 20.0, 10.0),),
        supplies=(Supply("glue", 0.1, "kg", "a guess"),),
    )


@pytest.fixture(scope="module")
def crowded() -> Plan:
    """A plan with a shelf that finds no room."""
    return make_plan(apply_pointers(EXAMPLE, {"/sheets/0/length": 1500.0}))


def written(plan: Plan) -> dict[str, Any]:
    document: dict[str, Any] = json.loads(json_bytes(plan))
    return document


def test_the_members_are_the_described_ones_in_their_order(plan: Plan) -> None:
    assert list(written(plan)) == [*DESCRIBED, *MORE_MEMBERS]
    assert {key: written(plan)[key] for key in ("format", "version", "project")} == {
        key: DESCRIBED[key] for key in ("format", "version", "project")
    }


@pytest.mark.parametrize("member", ["sheets", "nets", "panels", "seams", "frames", "cuts", "offcuts", "loads"])
def test_records_have_the_described_keys_in_their_order(member: str, plan: Plan) -> None:
    records = written(plan)[member]
    assert records
    for record in records:
        keys = [key for key in record if key not in MORE_KEYS.get(member, ())]
        assert keys == list(DESCRIBED[member][0])


def test_records_within_a_frame_have_the_described_keys(plan: Plan) -> None:
    for frame in written(plan)["frames"]:
        assert frame["parts"]
        assert frame["screws"]
        for inner in ("parts", "screws"):
            for record in frame[inner]:
                assert list(record) == list(DESCRIBED["frames"][0][inner][0])


def test_values_are_of_the_described_kinds(plan: Plan) -> None:
    """Number for number, text for text, list for list: of the sample's own project."""

    def kind(value: object) -> str:
        return "number" if isinstance(value, int | float) else type(value).__name__

    for member in ("sheets", "nets", "panels", "cuts", "offcuts", "loads"):
        for record in written(plan)[member]:
            for key, value in DESCRIBED[member][0].items():
                assert kind(record[key]) == kind(value), (member, key)


def test_the_described_numbers_are_the_samples_own(plan: Plan) -> None:
    """What the description's sample says of its own project, to the digits it gives."""
    document = written(plan)
    net, described = document["nets"][0], DESCRIBED["nets"][0]
    assert [net[key] for key in ("length", "width")] == pytest.approx(
        [described[key] for key in ("length", "width")], abs=0.05
    )
    seam = next(s for s in document["seams"] if s["id"] == "ledge/top-front")
    for key, value in DESCRIBED["seams"][0].items():
        expected = pytest.approx(value, abs=0.051) if isinstance(value, float) else value
        assert seam[key] == expected, key
    frame, described = document["frames"][0], DESCRIBED["frames"][0]
    for key in ("length", "depth", "height"):
        assert frame[key] == pytest.approx(described[key], abs=0.05)
    assert frame["studs"] == pytest.approx(described["studs"])


def test_a_fix_is_written_as_pointers(crowded: Plan) -> None:
    finding = msgspec.structs.replace(
        crowded.findings[0], fixes=(Fix("make it shorter", {"/shelves/0/depth": 1 / 3, "/shelves/0/at": None}),)
    )
    found = written(msgspec.structs.replace(crowded, findings=(finding,)))["findings"]
    assert list(found[0]) == list(DESCRIBED["findings"][0])
    assert found[0]["fixes"] == [
        {"text": "make it shorter", "set": {"/shelves/0/depth": pytest.approx(1 / 3, abs=1e-9), "/shelves/0/at": None}}
    ]


def test_the_proof_is_told_where_there_is_one(plan: Plan) -> None:
    assert written(plan)["proof"] is None
    found = least_layout(EXAMPLE)
    told = written(make_plan(EXAMPLE, found.layout, found.proof))["proof"]
    assert (told["sheets"], told["bound"], told["proven"], told["lacking"]) == (1, 1, True, 0)
    assert told["words"]


def test_what_finds_no_room_stands_without_a_sheet(crowded: Plan) -> None:
    document = written(crowded)
    assert document["nets"] == []
    assert {panel["role"] for panel in document["panels"]} == {"top", "front", "bottom", "left", "right"}
    assert {(panel["sheet"], panel["piece"]) for panel in document["panels"]} == {(None, None)}
    assert "no-room" in {finding["code"] for finding in document["findings"]}


def test_no_shelves_is_a_plan_with_nothing_in_it() -> None:
    document = written(make_plan(msgspec.structs.replace(EXAMPLE, shelves=())))
    assert list(document) == [*DESCRIBED, *MORE_MEMBERS]
    for member in ("nets", "panels", "seams", "frames", "cuts", "loads"):
        assert document[member] == [], member


def numbers(value: Any) -> list[float]:
    if isinstance(value, dict):
        value = list(value.values())
    if isinstance(value, list):
        return [number for item in value for number in numbers(item)]
    return [value] if isinstance(value, int | float) else []


def test_numbers_lose_float_noise_and_nothing_else(plan: Plan) -> None:
    noisy = msgspec.structs.replace(plan.nets[0], x=0.1 + 0.2, y=-0.0, width=1234.567891234567)
    net = written(msgspec.structs.replace(plan, nets=(noisy,)))["nets"][0]
    assert (net["x"], str(net["y"]), net["width"]) == (0.3, "0.0", 1234.567891235)


def test_a_number_that_is_none_is_a_bug_and_never_written(plan: Plan) -> None:
    broken = msgspec.structs.replace(plan.nets[0], x=float("nan"))
    with pytest.raises(ValueError, match="JSON compliant"):
        json_bytes(msgspec.structs.replace(plan, nets=(broken,)))


@settings(max_examples=examples(50, 1000))
@given(projects())
def test_every_id_in_a_plan_is_known(project: Project) -> None:
    document = json.loads(json_bytes(make_plan(project)))
    shelves = {shelf.id for shelf in project.shelves}
    sheets = [sheet["id"] for sheet in document["sheets"]]
    parts = [part for frame in document["frames"] for part in frame["parts"]]
    panels = [panel["id"] for panel in document["panels"]]
    named = [*panels, *(part["id"] for part in parts)]
    assert len(sheets) == len(set(sheets))
    assert len(named) == len(set(named))
    for record in (*document["nets"], *document["panels"], *document["seams"], *document["frames"]):
        assert record["shelf"] in shelves
    for record in (*document["nets"], *document["cuts"], *document["offcuts"]):
        assert record["sheet"] in sheets
    for record in (*document["panels"], *parts):
        assert (record["sheet"] in sheets) if record["piece"] else record["sheet"] is None
    for seam in document["seams"]:
        assert set(seam["between"]) <= set(panels)
    for finding in document["findings"]:
        assert finding["about"] in {"", *shelves, *named, *sheets, *(s.id for s in project.sheets)}


@settings(max_examples=examples(20, 200))
@given(projects())
def test_every_fix_can_be_applied(project: Project) -> None:
    for finding in make_plan(project).findings:
        for fix in finding.fixes:
            assert apply_pointers(project, fix.set) != project, fix


# The cut list


def rows(plan: Plan) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(cut_list(plan), newline=""), strict=True))


def test_the_cut_list_has_a_row_for_each_panel_and_part(plan: Plan) -> None:
    names = [(row["shelf"], row["part"]) for row in rows(plan)]
    panels = [("ledge", panel.role) for panel in plan.panels]
    parts = [("ledge", part.id.removeprefix("ledge/")) for frame in plan.frames for part in frame.parts]
    assert names == panels + parts
    assert len(names) == len(set(names)) > 5


def test_sizes_stand_in_mm_and_as_read(plan: Plan) -> None:
    top = next(row for row in rows(plan) if row["part"] == "top")
    assert (float(top["length (mm)"]), float(top["width (mm)"])) == (1320.0, 210.0)
    assert float(top["thickness (mm)"]) == 18.2
    assert [top[f"bevel at {edge} edge (degrees)"] for edge in ("left", "right", "lower", "upper")] == [
        "45.5",
        "45.5",
        "45.5",
        "0",
    ]
    for size in ("length", "width", "inside length", "inside width"):
        read = parse_length(top[f"{size} to read (in)"].rstrip(" +-"), Unit.INCH)
        assert read == pytest.approx(float(top[f"{size} (mm)"]), abs=25.4 / 64)


def test_a_metric_project_is_read_in_mm() -> None:
    plan = make_plan(apply_pointers(EXAMPLE, {"/units": "mm"}))
    top = next(row for row in rows(plan) if row["part"] == "top")
    assert (top["length to read (mm)"], top["thickness to read (mm)"]) == ("1320 mm", "18.2 mm")


def test_the_cut_list_keeps_to_rfc_4180(plan: Plan) -> None:
    """RFC 4180, 2: CRLF ends each record, each has as many fields as the header; and plain ASCII besides."""
    text = csv_bytes(plan).decode("ascii")
    assert text.endswith("\r\n")
    assert "\n" not in text.replace("\r\n", "")
    assert len({len(row) for row in csv.reader(io.StringIO(text, newline=""), strict=True)}) == 1


def test_what_finds_no_room_is_listed_without_a_sheet(crowded: Plan) -> None:
    found = [row for row in rows(crowded) if row["part"] == "top"]
    assert [(row["sheet"], row["piece"]) for row in found] == [("", "")]


@pytest.mark.parametrize("name", ["=1+1", "+1", "-1", "@sum", " =1+1", "=cmd|'calc'!A0", "＝1"])
def test_no_name_is_taken_for_a_formula(name: str) -> None:
    """Common practice: an apostrophe keeps a spreadsheet from reading a text that begins so as a formula."""
    plan = make_plan(apply_pointers(EXAMPLE, {"/shelves/0/id": name, "/sheets/0/id": name}))
    for row in rows(plan):
        assert row["shelf"] == "'" + name
        for cell in row.values():
            assert cell.lstrip()[:1] not in tuple("=+-@＝") or cell == ""


def test_names_with_commas_and_quotes_come_back() -> None:
    name = 'a "wide", low ledge; left'
    plan = make_plan(apply_pointers(EXAMPLE, {"/shelves/0/id": name}))
    assert {row["shelf"] for row in rows(plan)} == {name}


def test_the_plan_of_a_written_project_is_the_same() -> None:
    from core.document.save import dump_project

    again = parse_project(dump_project(EXAMPLE), "")
    assert plan_document(make_plan(again)) == plan_document(make_plan(EXAMPLE))


def test_each_cut_has_what_its_step_tells(plan: Plan) -> None:
    cuts = written(plan)["cuts"]
    assert all(MORE_KEYS["cuts"] <= cut.keys() for cut in cuts)
    assert [cut["setup"] for cut in cuts] == sorted(cut["setup"] for cut in cuts)
    for cut in cuts:
        assert cut["guide"] in ("low", "high")
        assert cut["notes"]
        assert {fall["piece"] for fall in cut["falls"]} <= set(cut["makes"])
        assert cut["set_by"]["toe"] >= 0
    by_pass: dict[int, list[dict[str, Any]]] = {}
    for cut in cuts:
        by_pass.setdefault(cut["pass"], []).append(cut)
    assert any(len(together) > 1 for together in by_pass.values())
    assert all(cut["set_by"] == together[0]["set_by"] for together in by_pass.values() for cut in together)
