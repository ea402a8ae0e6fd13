"""The plan as its file has it: which values, under which keys, in which order. Lengths mm, angles degrees.

Only what is named here is promised to readers of the file; the plan's own values hold more.
"""

from __future__ import annotations

from typing import Any

import msgspec

from core.layout.proven.model import Proof
from core.plan.model import Finding, Frame, PlacedNet, Plan
from core.steps.steps import steps_of
from core.steps.words import step_words

FORMAT = "grainfold plan"
VERSION = 1
DECIMALS = 9  # of every number: drops float noise and nothing a bench could measure

_SHEET = ("id", "stock", "length", "width", "thickness", "used")
_NET = ("shelf", "sheet", "x", "y", "length", "width")
_PANEL = ("id", "shelf", "role", "sheet", "piece", "show", "inside")
_SEAM = (
    "id", "shelf", "between", "length", "bevel", "show_loss", "void_width", "void_area",
    "inside_gap", "outside_gap", "wedge_area", "glue_band", "figure",
)  # fmt: skip
_FRAME = ("shelf", "length", "depth", "height", "ribs", "studs")
_SCREW = ("x", "height", "length")
_PART = ("id", "role", "sheet", "piece", "length", "width", "thickness")
_CUT = ("n", "sheet", "piece", "kind", "at", "bevel", "keep", "makes", "pass")
_STEP = ("setup", "guide", "face", "flip")  # of the step a cut is made in
_SET_BY = ("means", "side", "of", "toe", "device", "edge", "stick", "reading", "bears", "seen", "stop", "back")
_PACKER = ("width", "pieces", "words")
_FALL = ("piece", "kind", "width", "lies")
_OFFCUT = ("sheet", "piece", "length", "width")
_LOAD = ("shelf", "governs", "spread_kg", "front_edge_kg")
_LOAD_MORE = ("factor", "rules", "own_kg", "band", "raise_by")  # beside the described keys
_PROOF = ("sheets", "cost", "bound", "priced", "lacking")
_SUPPLY = ("what", "quantity", "unit", "basis")

_ATTRIBUTES = {"pass": "pass_"}  # keys that are no names in Python


def plan_document(plan: Plan) -> dict[str, Any]:
    """The plan file's content in plain values, keys in the order the file has them."""
    return {
        "format": FORMAT,
        "version": VERSION,
        "project": plan.project.name,
        "sheets": _records(plan.sheets, _SHEET),
        "nets": [_net(net) for net in plan.nets],
        "panels": _records(plan.panels, _PANEL),
        "seams": _records(plan.seams, _SEAM),
        "frames": [_frame(frame) for frame in plan.frames],
        "cuts": _cuts(plan),
        "offcuts": _records(plan.offcuts, _OFFCUT),
        "loads": _records(plan.loads, _LOAD + _LOAD_MORE),
        "supplies": _records(plan.supplies, _SUPPLY),
        "findings": [_finding(finding) for finding in plan.findings],
        "proof": _proof(plan.proof),
    }


def _records(items: tuple[msgspec.Struct, ...], keys: tuple[str, ...]) -> list[dict[str, Any]]:
    return [_record(item, keys) for item in items]


def _record(item: msgspec.Struct, keys: tuple[str, ...]) -> dict[str, Any]:
    return {key: _plain(getattr(item, _ATTRIBUTES.get(key, key))) for key in keys}


def _cuts(plan: Plan) -> list[dict[str, Any]]:
    """The cuts, each with what its step tells the maker."""
    steps = {n: step for step in steps_of(plan) for n in step.cuts}
    notes = {step.number: list(step_words(plan, step).lines) for step in steps_of(plan)}
    records = []
    for cut in plan.cuts:
        step = steps[cut.n]
        more = _record(step, _STEP) | {
            "set_by": _record(step.set_by, _SET_BY),
            "packer": _record(step.packer, _PACKER) if step.packer else None,
            "falls": _records(tuple(fall for fall in step.falls if fall.piece in cut.makes), _FALL),
            "notes": notes[step.number],
        }
        records.append(_record(cut, _CUT) | more)
    return records


def _net(net: PlacedNet) -> dict[str, Any]:
    """A net; a panel cut apart from it has one key more, and so has one that lies turned end for end."""
    more: dict[str, Any] = {} if net.panel is None else {"panel": net.panel}
    return _record(net, _NET) | more | ({"turned": True} if net.turned else {})


def _frame(frame: Frame) -> dict[str, Any]:
    return _record(frame, _FRAME) | {
        "screws": _records(frame.screws, _SCREW),
        "parts": _records(frame.parts, _PART),
    }


def _finding(finding: Finding) -> dict[str, Any]:
    fixes = [{"text": fix.text, "set": {at: _plain(v) for at, v in fix.set.items()}} for fix in finding.fixes]
    return _record(finding, ("severity", "code", "about", "message")) | {"fixes": fixes}


def _proof(proof: Proof | None) -> dict[str, Any] | None:
    """What is known of the layout; null where nobody looked for a better one."""
    if proof is None:
        return None
    return _record(proof, _PROOF) | {"proven": proof.proven, "words": proof.words}


def _plain(value: Any) -> Any:
    if isinstance(value, float):
        return round(value, DECIMALS) + 0.0  # + 0.0: no minus zero
    if isinstance(value, list | tuple):
        return [_plain(item) for item in value]
    if isinstance(value, dict):
        return {key: _plain(item) for key, item in value.items()}
    return value
