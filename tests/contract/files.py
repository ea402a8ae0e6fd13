"""The sample project of the file's description, and files that are no usable projects.

Each refused file stands with words its one line must have: where it is wrong, or what is.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from copy import deepcopy
from pathlib import Path
from typing import Any, Final

DATA: Final = Path(__file__).with_name("data")
SAMPLE_FILE: Final = DATA / "sample.grainfold"
SAMPLE: Final[dict[str, Any]] = json.loads(SAMPLE_FILE.read_text("utf-8"))

Refused = tuple[bytes, str]


def changed(edit: Callable[[dict[str, Any]], object]) -> bytes:
    """The sample after an edit."""
    document = deepcopy(SAMPLE)
    edit(document)
    return json.dumps(document).encode()


def put(place: str, value: object) -> bytes:
    """The sample with a value at a place like `shelves.0.depth`."""
    *way, last = place.split(".")

    def edit(document: Any) -> None:
        for key in way:
            document = document[int(key)] if isinstance(document, list) else document[key]
        document[int(last) if isinstance(document, list) else last] = value

    return changed(edit)


def without(place: str) -> bytes:
    """The sample without the key at a place."""
    *way, last = place.split(".")

    def edit(document: Any) -> None:
        for key in way:
            document = document[int(key)] if isinstance(document, list) else document[key]
        del document[last]

    return changed(edit)


def replaced(old: str, new: str) -> bytes:
    """The sample's text with a piece of it written otherwise: for what no JSON writer would write."""
    text = json.dumps(SAMPLE)
    start = text.index('"revisions"')  # they come last, and have the same keys once more
    assert text.count(old, 0, start) == 1, (old, text.count(old, 0, start))
    return text.replace(old, new, 1).encode()


SHELF: Final = SAMPLE["shelves"][0]
SHEET: Final = SAMPLE["sheets"][0]
AREA: Final = SHEET["keep_clear"][0]


def area(corners: list[list[float]]) -> bytes:
    """The sample with one area to keep clear, of these corners."""
    return put("sheets.0.keep_clear", [{"corners": corners}])


NOT_READ: Final[dict[str, Refused]] = {
    "empty": (b"", "empty"),
    "blank": (b" \n\t\n", "empty"),
    "only a byte order mark": (b"\xef\xbb\xbf", "empty"),
    "binary": (bytes(range(256)) * 20, "not UTF-8"),
    "a picture": (b"\x89PNG\r\n\x1a\n" + bytes(100), "not UTF-8"),
    "zero bytes": (bytes(1000), "not JSON"),
    "UTF-16": (json.dumps(SAMPLE).encode("utf-16"), "not UTF-8"),
    "Latin-1": (json.dumps({"name": "Küche"}, ensure_ascii=False).encode("latin-1"), "not UTF-8"),
    "a sentence": (b"three shelves, oak", "not JSON"),
    "cut off": (json.dumps(SAMPLE).encode()[:-40], "not JSON"),
    "two documents": (json.dumps(SAMPLE).encode() * 2, "not JSON"),
    "a comma too many": (replaced('"version": 1,', '"version": 1,,'), "line 1"),
    "single quotes": (b"{'format': 'grainfold project'}", "not JSON"),
    "a list": (b"[]", "must be an object"),
    "a number": (b"5", "must be an object"),
    "null": (b"null", "must be an object"),
    "100,000 lists deep": (b"[" * 100_000 + b"]" * 100_000, "more than 64 deep"),
    "100,000 lists open": (b"[" * 100_000, "more than 64 deep"),
    "100,000 objects deep": (b'{"a":' * 100_000 + b"1" + b"}" * 100_000, "more than 64 deep"),
    "65 deep": (replaced('"at": null', f'"at": {"[" * 62}{"]" * 62}'), "more than 64 deep"),
    "deep behind a quote": (b'{"\\"[]": ' + b"[" * 70 + b"]" * 70 + b"}", "more than 64 deep"),
    "over 16 MB": (b" " * (16 * 2**20) + json.dumps(SAMPLE).encode(), "16 MB"),
}

WRONG_HEAD: Final[dict[str, Refused]] = {
    "no format": (without("format"), "format: this key is missing"),
    "other format": (put("format", "other project"), "format: must be"),
    "a plan": ((DATA / "plan_sample.json").read_bytes(), "grainfold plan"),
    "format of the wrong type": (put("format", 1), "format: must be"),
    "no version": (without("version"), "version: this key is missing"),
    "future version": (put("version", 2), "newer"),
    "version 0": (put("version", 0), "version: 0"),
    "version 1.0": (replaced('"version": 1,', '"version": 1.0,'), "version: must be a whole number"),
    "version as text": (put("version", "1"), "version: must be a whole number"),
    "version true": (put("version", True), "version: must be a whole number"),
    "endless version": (put("version", 10**200), "newer"),
}

WRONG_KEYS: Final[dict[str, Refused]] = {
    "no sheets": (without("sheets"), "sheets: this key is missing"),
    "no shelves": (without("shelves"), "shelves: this key is missing"),
    "sheet without width": (without("sheets.0.width"), "sheets[0].width: this key is missing"),
    "shelf without depth": (without("shelves.0.depth"), "shelves[0].depth: this key is missing"),
    "shelf without id": (without("shelves.0.id"), "shelves[0].id: this key is missing"),
    "mount without top": (without("shelves.0.mount.top"), "shelves[0].mount.top: this key is missing"),
    "unknown key": (put("colour", "oak"), "colour: unknown key"),
    "unknown key inside": (put("shelves.0.dept", 3), "shelves[0].dept: unknown key; did you mean depth?"),
    "unknown key in studs": (put("wall.studs.gap", 3), "wall.studs.gap: unknown key"),
    "a key with a line end": (put("shelves.0.a\nb", 3), r"a\nb"),
    "a key of half a character": (put("saw.\ud800", 3), "saw"),
    "a very long key": (put("x" * 100_000, 3), "unknown key"),
    "duplicate key": (replaced('"units": "in"', '"units": "in", "units": "mm"'), "units: this key is written"),
    "duplicate key inside": (replaced('"depth": 210', '"depth": 210, "depth": 211'), "shelves[0].depth: this key"),
    "duplicate key, same value": (replaced('"kerf": 2.2', '"kerf": 2.2, "kerf": 2.2'), "saw.kerf: this key"),
    "duplicate key, spelt otherwise": (replaced('"kerf": 2.2', r'"kerf": 2.2, "ker\u0066": 2.2'), "saw.kerf"),
    "duplicate format": (replaced('"version": 1,', '"version": 1, "format": 3,'), "format: this key"),
}

WRONG_TYPES: Final[dict[str, Refused]] = {
    "text for a number": (put("shelves.0.depth", "210"), "shelves[0].depth: must be a number"),
    "true for a number": (put("shelves.0.height", True), "shelves[0].height: must be a number"),
    "null for a number": (put("saw.kerf", None), "saw.kerf: must be a number"),
    "list for a number": (put("saw.kerf", [2.2]), "saw.kerf: must be a number"),
    "object for a number": (put("glue_line", {}), "glue_line: must be a number"),
    "number for a text": (put("shelves.0.id", 7), "shelves[0].id: must be a text"),
    "number for the name": (put("name", 7), "name: must be a text"),
    "fraction for a whole number": (put("sheets.0.quantity", 1.5), "sheets[0].quantity: must be a whole"),
    "1.0 for a whole number": (put("sheets.0.quantity", 1.0), "sheets[0].quantity: must be a whole"),
    "true for a whole number": (put("screw.per_stud", True), "screw.per_stud: must be a whole"),
    "list for an object": (put("saw", []), "saw: must be an object"),
    "object for a list": (put("shelves", {}), "shelves: must be a list"),
    "text for a list": (put("sheets", "A"), "sheets: must be a list"),
    "text for a shelf": (put("shelves.0", "ledge"), "shelves[0]: must be an object"),
    "text for studs": (put("wall.studs", "16"), "wall.studs: must be an object"),
    "text among the studs": (put("wall.studs", [200, "600"]), "wall.studs[1]: must be a number"),
    "a pin of one number": (put("shelves.0.at", [5]), "shelves[0].at: must be a list of 2"),
    "a pin of three": (put("shelves.0.at", [5, 5, 5]), "shelves[0].at: must be a list of 2"),
    "a pin of texts": (put("shelves.0.at", ["5", 5]), "shelves[0].at[0]: must be a number"),
    "an end that is none": (put("shelves.0.left", "closed"), 'shelves[0].left: must be "mitred" or "open"'),
    "number for an end": (put("shelves.0.left", 1), "shelves[0].left: must be"),
    "a unit that is none": (put("units", "furlong"), "units: must be"),
    "ends from nowhere": (put("shelves.0.ends_from", "back"), "shelves[0].ends_from: must be"),
    "an unknown lean": (put("saw.lean", "left"), "saw.lean: must be"),
}

WRONG_VALUES: Final[dict[str, Refused]] = {
    "NaN": (replaced('"kerf": 2.2', '"kerf": NaN'), "saw.kerf: must be a finite"),
    "infinity": (replaced('"depth": 210', '"depth": Infinity'), "shelves[0].depth: must be a finite"),
    "minus infinity": (replaced('"depth": 210', '"depth": -Infinity'), "shelves[0].depth: must be a finite"),
    "NaN among the studs": (put("wall.studs", [float("nan")]), "wall.studs[0]: must be a finite"),
    "1e400": (replaced('"depth": 210', '"depth": 1e400'), "shelves[0].depth: must be a finite"),
    "1e300": (put("shelves.0.length", 1e300), "shelves[0].length: must be at most"),
    "a number of 5,000 digits": (replaced('"depth": 210', f'"depth": {"9" * 5000}'), "shelves[0].depth: must be"),
    "a quantity of 5,000 digits": (replaced('"quantity": 1', f'"quantity": {"9" * 5000}'), "sheets[0].quantity"),
    "a quantity of 200 digits": (replaced('"quantity": 1', f'"quantity": {"9" * 200}'), "sheets[0].quantity"),
    "negative": (put("shelves.0.depth", -210), "shelves[0].depth: must be more than 0"),
    "zero": (put("shelves.0.height", 0), "shelves[0].height: must be more than 0"),
    "minus zero": (put("shelves.0.height", -0.0), "shelves[0].height: must be more than 0"),
    "just too large": (put("shelves.0.length", 100_000.001), "shelves[0].length: must be at most"),
    "sheet of no length": (put("sheets.0.length", 0), "sheets[0].length: must be more than 0"),
    "sheet of no thickness": (put("sheets.0.thickness", 0), "sheets[0].thickness: must be more than 0"),
    "negative trim": (put("sheets.0.trim", -1), "sheets[0].trim: must be at least 0"),
    "negative quantity": (put("sheets.0.quantity", -1), "sheets[0].quantity: must be at least 0"),
    "no kerf": (put("saw.kerf", 0), "saw.kerf: must be more than 0"),
    "a kerf of a log": (put("saw.kerf", 20.5), "saw.kerf: must be at most 20 mm"),
    "an absurd bevel": (put("saw.overcut", 44.9), "saw.overcut: must be at most 5°"),
    "an absurd undercut": (put("saw.overcut", -5.01), "saw.overcut: must be at least -5°"),
    "a tilt past lying": (put("saw.tilt_max", 91), "saw.tilt_max: must be at most 90°"),
    "half a layer": (put("frame.back_layers", 0.5), "frame.back_layers: must be a whole"),
    "no back rail": (put("frame.back_layers", 0), "frame.back_layers: must be at least 1"),
    "eleven screws": (put("screw.per_stud", 11), "screw.per_stud: must be at most 10"),
    "studs of lead": (put("wall.gravity", 11.3), "wall.gravity: must be at most 1.5"),
    "studs without end": (put("wall.studs", {"spacing": 1e-9}), "wall.studs.spacing"),
    "no such wall": (put("wall.kind", "straw"), 'or "timber stud" or "unknown", is "straw"'),
    "studs on one spot": (put("wall.studs", {"spacing": 0}), "wall.studs.spacing: must be more than 0"),
    "studs that run back": (put("wall.studs", {"spacing": -400}), "wall.studs.spacing: must be more than 0"),
    "a gap in front of the wall": (put("wall.bow", [[300, -2]]), "wall.bow[0][1]: a gap must be at least 0"),
    "two readings in one place": (put("wall.bow", [[300, 2], [300, 3]]), "wall.bow[1][0]: 300 mm is already"),
    "501 readings": (put("wall.bow", [[n, 1] for n in range(501)]), "wall.bow: at most 500"),
    "a reading without a gap": (put("wall.bow", [[300]]), "wall.bow[0]: must be a list of 2 numbers"),
    "an alcove of two widths": (put("wall.alcove.top", [900, 900]), "wall.alcove.top: must be a list of 3 numbers"),
    "an alcove without room": (put("wall.alcove.top", [900, 900, 0]), "wall.alcove.top[2]: must be more than 0"),
    "a socket without size": (put("wall.keep_outs.0.width", 0), "wall.keep_outs[0].width: must be more than 0"),
    "201 keep-outs": (
        put("wall.keep_outs", [{"x": 0, "y": 0, "width": 1, "height": 1}] * 201),
        "keep_outs: at most 200",
    ),
    "1,001 studs": (put("wall.studs", [1.0] * 1001), "wall.studs: at most 1000"),
    "a pin far off": (put("shelves.0.at", [0, 1e6]), "shelves[0].at[1]: must be at most"),
    "2,001 shelves": (put("shelves", [SHELF | {"id": str(n)} for n in range(2001)]), "shelves: at most 2000"),
    "501 sheets": (put("sheets", [SHEET | {"id": str(n)} for n in range(501)]), "sheets: at most 500"),
    "empty sheets": (put("sheets", []), "sheets: at least one"),
    "duplicate shelf ids": (put("shelves", [SHELF, SHELF]), 'shelves[1].id: "ledge" is already'),
    "duplicate sheet ids": (put("sheets", [SHEET, SHEET]), 'sheets[1].id: "A" is already'),
    "an id with /": (put("shelves.0.id", "ledge/top"), "shelves[0].id: must have no /"),
    "a sheet's id with /": (put("sheets.0.id", "A/1"), "sheets[0].id: must have no /"),
    "an empty id": (put("shelves.0.id", ""), "shelves[0].id: must not be empty"),
    "a blank id": (put("sheets.0.id", " "), "sheets[0].id: must not be empty"),
    "an id over lines": (put("shelves.0.id", "ledge\nerror"), "shelves[0].id: has a character"),
    "an id that rings": (put("shelves.0.id", "ledge\x07"), "shelves[0].id: has a character"),
    "half a character": (put("name", "\ud800"), "name: has a character"),
    "a panel apart that is none": (put("shelves.0.apart", ["front"]), "shelves[0].apart[0]: must be"),
    "a panel apart in no list": (put("shelves.0.apart", "top"), "shelves[0].apart: must be a list"),
    "a panel apart twice": (put("shelves.0.apart", ["top", "top"]), 'shelves[0].apart: "top" is named twice'),
    "an open end apart": (
        put("shelves.0", SHELF | {"left": "open", "apart": ["left"]}),
        "shelves[0].apart: the left end is open",
    ),
    "a strip apart that ends are cut from": (
        put("shelves.0", SHELF | {"ends_from": "top", "apart": ["top", "left"]}),
        "shelves[0].apart: the right end is cut from the top strip",
    ),
    "a name of 5,000": (put("name", "x" * 5000), "name: must have at most"),
    "a photograph of no name": (put("sheets.0.photos.0.file", " "), "photos[0].file: must not be empty"),
    "a photograph elsewhere": (put("sheets.0.photos.0.file", "../a.jpg"), "photos[0].file: must be a plain file name"),
    "a photograph of another folder": (put("sheets.0.photos.0.file", "a\\b.jpg"), "photos[0].file: must be a plain"),
    "a photograph called dots": (put("sheets.0.photos.0.file", ".."), "photos[0].file: must be a plain"),
    "a checksum that is none": (put("sheets.0.photos.0.sum", "12ab"), "photos[0].sum: must be 64"),
    "three corners": (put("sheets.0.photos.0.corners", [[0, 0], [1, 0], [1, 1]]), "photos[0].corners: four corners"),
    "crossed corners": (
        put("sheets.0.photos.0.corners", [[0, 0], [1, 1], [1, 0], [0, 1]]),
        "photos[0].corners: the sides cross",
    ),
    "corners on a line": (
        put("sheets.0.photos.0.corners", [[0, 0], [0.5, 0.5], [1, 1], [0, 1]]),
        "photos[0].corners: three corners lie on one line",
    ),
    "corners far off": (put("sheets.0.photos.0.corners.0", [3, 0]), "photos[0].corners[0][0]: must be at most 2"),
    "a part without room": (put("sheets.0.photos.0.part", [10, 10, 10, 90]), "photos[0].part: must be x0, y0, x1, y1"),
    "a lens like a fish's": (put("sheets.0.photos.0.lens", 0.5), "photos[0].lens: must be at most"),
    "too much evened": (put("sheets.0.photos.0.even", 1.1), "photos[0].even: must be at most 1"),
    "21 photographs": (put("sheets.0.photos", [SHEET["photos"][0]] * 21), "sheets[0].photos: at most 20"),
    "half a seed": (put("sheets.0.figure.seed", 0.5), "sheets[0].figure.seed: must be a whole"),
    "a wood that is none": (put("sheets.0.figure.wood", "stone"), 'or "walnut", is "stone"'),
    "an area of two corners": (area([[0, 0], [9, 9]]), "keep_clear[0].corners: at least 3 corners"),
    "an area of no corners": (area([]), "keep_clear[0].corners: at least 3 corners"),
    "an area of no size": (area([[0, 0], [5, 5], [9, 9]]), "keep_clear[0].corners: the corners lie on one line"),
    "an area in one place": (area([[5, 5]] * 4), "keep_clear[0].corners: the corners lie on one line"),
    "an area like a bow tie": (area([[0, 0], [9, 9], [9, 0], [0, 9]]), "touch or cross each other at x 4.5, y 4.5"),
    "an area that goes back": (area([[0, 0], [9, 0], [4, 0], [4, 9]]), "keep_clear[0].corners: the sides touch"),
    "an area without end": (area([[0, 0], [9, 0], [9, 1e9]]), "keep_clear[0].corners[2][1]: must be at most"),
    "an area at NaN": (area([[0, 0], [9, 0], [9, float("nan")]]), "corners[2][1]: must be a finite"),
    "an area of 101 corners": (area([[n, n * n] for n in range(101)]), "corners: at most 100 corners, there are 101"),
    "101 areas": (put("sheets.0.keep_clear", [AREA] * 101), "sheets[0].keep_clear: at most 100 areas"),
    "an area of a kind that is none": (
        put("sheets.0.keep_clear", [AREA | {"kind": "knot"}]),
        "keep_clear[0].kind: must",
    ),
    "an area for nobody": (put("sheets.0.keep_clear", [AREA | {"of": "all"}]), "keep_clear[0].of: must be"),
    "an area with a colour": (put("sheets.0.keep_clear", [AREA | {"colour": 1}]), "keep_clear[0].colour: unknown key"),
    "an area without corners": (put("sheets.0.keep_clear", [{}]), "keep_clear[0].corners: this key is missing"),
    "an area that is a list": (put("sheets.0.keep_clear", [[[0, 0]]]), "keep_clear[0]: must be an object"),
    "a revision without a name": (put("revisions.0.name", ""), "revisions[0].name: must not be empty"),
    "a revision of no day": (put("revisions.0.day", "yesterday"), "revisions[0].day: must be a day"),
    "two revisions of one name": (put("revisions", SAMPLE["revisions"] * 2), "revisions[1].name"),
    "a revision in a revision": (
        put("revisions.0.project.revisions", SAMPLE["revisions"]),
        "revisions[0].project.revisions: a revision has no",
    ),
    "a revision that is no project": (put("revisions.0.project.shelves.0.depth", -1), "shelves[0].depth: must be"),
    "a revision without a project": (without("revisions.0.project"), "revisions[0].project: this key is missing"),
    "unknown sheet": (put("shelves.0.sheet", "B"), 'shelves[0].sheet: there is no sheet "B"'),
}

REFUSED: Final[dict[str, Refused]] = NOT_READ | WRONG_HEAD | WRONG_KEYS | WRONG_TYPES | WRONG_VALUES
