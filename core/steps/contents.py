"""What becomes of each piece, and what a piece is called at the bench."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import msgspec

from core.drawing.measure import clean
from core.drawing.names import letter, of_several, part_word
from core.language import tr
from core.plan.model import Plan
from core.sawing.piece import Box
from core.steps.bench import Pass

ENDS = ("left", "right")
ORDER = ("top", "front", "bottom", "left", "right")
ONE = tr(", one piece")
MANY = 4  # parts named one by one; more are counted
TOLD = 3  # runs of them that are told where they are more
SERIES = 3  # names that count on, told by the first and the last


class Contents(msgspec.Struct, gc=False):
    """Of one plan: what each piece ends as.

    parts: ids of the panels and frame parts that come out of each piece; a finished one has its own.
    offcuts: names of the pieces that are worth keeping.
    sawn: names of the pieces that are sawn further.
    """

    parts: dict[str, tuple[str, ...]]
    offcuts: frozenset[str]
    sawn: frozenset[str]
    strips: dict[str, str]  # the strip each end lies in: 'ledge/left' -> 'ledge/front'
    panels: frozenset[str]
    letters: dict[str, str]  # of each shelf; '' where there is only one
    wholes: dict[str, int]  # panels of each shelf's net
    apart: frozenset[str]  # panels that are cut apart from their nets
    rank: dict[str, int]  # of each frame part, in the plan's order
    seams: dict[tuple[str, str], str]  # letter by panel id and edge
    places: dict[str, Box]  # the show face of each panel that lies on a sheet
    names: dict[str, str]  # of parts, remembered
    words: dict[str, str]  # for pieces, remembered


def contents_of(plan: Plan) -> Contents:
    """Reads the cuts backwards, from what is kept to the sheets."""
    parts: dict[str, tuple[str, ...]] = {p.piece: (p.id,) for p in plan.panels if p.piece}
    parts |= {p.piece: (p.id,) for f in plan.frames for p in f.parts if p.piece}
    for cut in reversed(plan.cuts):
        parts[cut.piece] = tuple(part for made in reversed(cut.makes) if made for part in parts.get(made, ()))
    strips, wholes = {}, {}
    for net in plan.shapes:
        wholes[net.owner] = len(net.panels) - len(net.apart)
        for panel in net.panels:
            if panel.role in ENDS and panel.parent:
                strips[f"{net.owner}/{panel.role}"] = f"{net.owner}/{panel.parent}"
    shelves = [s.id for s in plan.project.shelves]
    return Contents(
        parts=parts,
        offcuts=frozenset(o.piece for o in plan.offcuts),
        sawn=frozenset(c.piece for c in plan.cuts),
        strips=strips,
        panels=frozenset(p.id for p in plan.panels),
        letters={s: letter(i) if len(shelves) > 1 else "" for i, s in enumerate(shelves)},
        wholes=wholes,
        apart=frozenset(f"{net.owner}/{role}" for net in plan.shapes for role in net.apart),
        rank={p.id: i for i, p in enumerate(p for f in plan.frames for p in f.parts)},
        seams=_seam_letters(plan),
        places={
            p.id: (p.x, p.y, p.x + p.show[0], p.y + p.show[1])
            for p in plan.panels
            if p.x is not None and p.y is not None
        },
        names={},
        words={},
    )


def _seam_letters(plan: Plan) -> dict[tuple[str, str], str]:
    """The letter of the seam at each mitred edge, by panel id and edge name."""
    letters = {seam.id: seam.letter for seam in plan.seams}
    return {
        (f"{net.owner}/{role}", edge): letters[f"{net.owner}/{joint.name}"]
        for net in plan.shapes
        for joint in net.joints
        for role, edge in zip(joint.panels, joint.edges, strict=True)
        if f"{net.owner}/{joint.name}" in letters
    }


def piece_words(contents: Contents, piece: str) -> str:
    """What to call a piece: 'top + front, one piece', 'bottom', 'the whole net', 'stock for rib 3, rib 4', 'offcut'.

    Frame parts that come out of a panel's strip later are not named with it.
    """
    if piece not in contents.words:
        contents.words[piece] = _piece_words(contents, piece)
    return contents.words[piece]


def _piece_words(contents: Contents, piece: str) -> str:
    parts = contents.parts.get(piece, ())
    if not parts:
        return tr("offcut") if piece in contents.offcuts else tr("waste")
    panels = [p for p in parts if p in contents.panels]
    if not panels:
        return _frame_words(contents, parts, piece in contents.sawn)
    shelves = dict.fromkeys(p.rpartition("/")[0] for p in panels)
    return _panel_words(contents, panels) if len(shelves) == 1 else _nets_words(contents, panels)


def side_words(contents: Contents, work: Pass, pieces: Sequence[str]) -> str:
    """What lies on one side of a pass: one piece, or several laid back toe to toe."""
    if not pieces:
        return tr("nothing")
    empty = [name for name in pieces if not contents.parts.get(name)]
    words = [piece_words(contents, name) for name in pieces if contents.parts.get(name)]
    if len(words) > 1:
        words = [word.removesuffix(ONE) for word in words]
    if not empty or len(pieces) == 1:
        return listed(alike(words or [piece_words(contents, name) for name in empty]))
    stubs = [_stub_of(contents, work, name) for name in empty]
    return listed(
        [
            *words,
            tr("stubs of {listed}", listed=listed(stubs))
            if len(stubs) > 1
            else tr("stub of {listed}", listed=listed(stubs)),
        ]
    )


def _stub_of(contents: Contents, work: Pass, name: str) -> str:
    """The strip that a piece without parts is the end of."""
    before = next(cut.piece for cut in work.cuts if name in cut.makes)
    return piece_words(contents, before).removesuffix(ONE)


def listed(words: Sequence[str]) -> str:
    """One, two and three; names that are lists themselves are kept apart by semicolons."""
    if len(words) == 1:
        return words[0]
    if any(", " in word or tr(" and ") in word for word in words):
        return "; ".join(words)
    return tr("{join} and {words}", join=", ".join(words[:-1]), words=words[-1])


def alike(names: Sequence[str]) -> Sequence[str]:
    """Names that differ in their first word alone, as one: 'top, bottom and front of A and B'."""
    firsts, rests = zip(*(name.partition(" ")[::2] for name in names), strict=True)
    if len(names) > 1 and rests[0] and len(set(rests)) == 1:
        return (f"{listed(firsts)} {rests[0]}",)
    return names


def in_series(names: Sequence[str]) -> list[str]:
    """Names that count on are told as one: 'A rib 1', 'A rib 2', 'A rib 3' as 'A ribs 1 to 3'."""
    series: list[list[str]] = []
    for name in names:
        if series and name == _next(series[-1][-1]):
            series[-1].append(name)
        else:
            series.append([name])
    return [told for some in series for told in (some if len(some) < SERIES else [_first_to_last(some)])]


def wood_in_words(names: Sequence[str]) -> str:
    """Pieces by name; those that are each for one part of a frame are told together, in their order."""
    told: list[str] = []
    parts: list[str] = []
    for name in (*names, ""):
        if name and (part := _only_part(name)):
            parts.append(part)
            continue
        if len(parts) == 1:
            told.append(the(tr("stock for ") + parts[0]))
        elif parts:
            told.append(tr("the stock for each of {parts}", parts=listed(in_series(parts))))
        parts = []
        told += [the(name)] if name else []
    return listed(told)


def _only_part(name: str) -> str:
    """'rib 3' of 'stock for rib 3'; '' of what is for several parts, or no stock."""
    start = tr("stock for ")
    part = name.removeprefix(start)
    several = (", ", tr(" and "), f" {tr('{first} to {last}', first='', last='').strip()} ")
    return "" if part == name or any(mark in part for mark in several) else part


def _next(name: str) -> str:
    """The name that counts on: 'A rib 2' after 'A rib 1'; '' after one with no number."""
    words, _, number = name.rpartition(" ")
    return f"{words} {int(number) + 1}" if number.isdecimal() else ""


def _first_to_last(series: Sequence[str]) -> str:
    name, _, first = series[0].rpartition(" ")
    return tr("{first} to {last}", first=f"{of_several(name)} {first}", last=series[-1].rpartition(" ")[2])


def the(words: str) -> str:
    """'the front', 'the whole net'; what has a letter or a number of its own keeps it alone: 'A front', 'rib 1'."""
    numbered = words[-1:].isdigit() and not words.startswith(tr("stock for "))
    return words if words.startswith("the ") or not words[:1].islower() or numbered else tr("the {words}", words=words)


def names_of(contents: Contents, parts: Iterable[str]) -> list[str]:
    """Parts by the names that stand on them: 'A top', or 'top' where there is one shelf."""
    return [contents.names.get(part) or _name(contents, part) for part in parts]


def _name(contents: Contents, part: str) -> str:
    shelf, _, role = part.rpartition("/")
    name = contents.names[part] = clean(f"{contents.letters.get(shelf, '')} {part_word(role)}".strip())
    return name


def _panel_words(contents: Contents, panels: Sequence[str]) -> str:
    """Panels of one shelf still in one piece; ends go with the strip they are cut from."""
    shelf = panels[0].rpartition("/")[0]
    net, apart = _parted(contents, panels)
    if net and apart:
        return listed([_panel_words(contents, net).removesuffix(ONE), *names_of(contents, apart)]) + ONE
    if len(panels) == contents.wholes[shelf] and len(panels) > 1:
        return (
            tr("the whole net of {letters}", letters=contents.letters[shelf])
            if contents.letters[shelf]
            else tr("the whole net")
        )
    alone = _without_ends(contents, panels)
    words = " + ".join([*names_of(contents, alone[:1]), *(part_word(p.rpartition("/")[2]) for p in alone[1:])])
    if len(alone) > 1:
        return words + ONE
    return tr("{part} end", part=words) if alone[0] in contents.strips else words


def _without_ends(contents: Contents, panels: Sequence[str]) -> list[str]:
    """The panels in their order, without ends whose strip is there too."""
    alone = [p for p in panels if contents.strips.get(p) not in panels]
    return sorted(alone, key=lambda p: ORDER.index(role) if (role := p.rpartition("/")[2]) in ORDER else len(ORDER))


def _nets_words(contents: Contents, panels: Sequence[str]) -> str:
    """Panels of several shelves in one piece: whole nets, or strips of a run that are ripped together."""
    shelves = sorted({p.rpartition("/")[0] for p in panels}, key=list(contents.letters).index)
    marks = [contents.letters[shelf] for shelf in shelves]
    whose = listed(marks) if len(marks) <= MANY else tr("{marks} shelves", marks=len(marks))
    net, apart = _parted(contents, panels)
    if len(net) == sum(contents.wholes[shelf] for shelf in shelves):
        return listed([tr("nets of {whose}", whose=whose), *names_of(contents, apart)]) + ONE
    alone = _without_ends(contents, panels)
    roles = list(dict.fromkeys(part_word(p.rpartition("/")[2]) for p in alone))
    if len(alone) < len(roles) * len(shelves) and len(alone) <= MANY:  # one's right beside another's left
        return " + ".join(names_of(contents, alone)) + ONE
    return tr("{join} of {whose}{ONE}", join=" + ".join(roles), whose=whose, ONE=ONE)


def _parted(contents: Contents, panels: Sequence[str]) -> tuple[list[str], list[str]]:
    """The panels of nets, and those that are cut apart."""
    if contents.apart.isdisjoint(panels):
        return list(panels), []
    return [p for p in panels if p not in contents.apart], [p for p in panels if p in contents.apart]


def _frame_words(contents: Contents, parts: Sequence[str], sawn: bool) -> str:
    names = names_of(contents, sorted(parts, key=contents.rank.__getitem__))
    if len(names) == 1 and not sawn:
        return names[0]
    series = in_series(names)
    if len(names) > MANY and len(series) > TOLD:
        return tr("stock for {first} and {more} more", first=names[0], more=len(names) - 1)
    return tr("stock for ") + listed(series)
