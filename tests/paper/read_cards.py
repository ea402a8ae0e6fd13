"""Cut cards read back from the text of a PDF: letters by their size and place, nothing else is known of the program."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import groupby
from typing import Any, NamedTuple

from app.paper.cardwords import MARKS
from tests.paper.letters import DOWN, lettered_pages
from tests.paper.recorder import Written

Char = dict[str, Any]

COLUMN = 0.575  # of the page: words stand at the left, drawings at the right
LARGE = 24.0  # points: the number that matters is at least so large
HEAD = 0.9  # of the size of the card's own number: titles and what the number is; sentences are smaller
INCH = 25.4
NUMBER = re.compile(r"^(?:(\d+)-(\d+)/(\d+)|(\d+)/(\d+)|(\d+(?:\.\d+)?))(\"| mm)( [+−])?$")
FACTS = re.compile(
    r"(?P<device>guide|fence|stop|no) (?P<where>on the (?:near|far|left|right) side|on what is kept|on the other side"
    r"|sound edge for the fence|stop) · blade (?:square|(?P<tilt>[\d.]+)°, foot (?P<way>under|away from) the"
    r" (?:guide|fence|stop|no)(?:, to the (?P<foot>near|far|left|right) side)?) · show face (?P<face>up|down)"
    r"(?P<flip> · flip)?"
)


HEADS = re.compile(r"Cards? (\d+)(?: to (\d+))? of (\d+)")


class ReadCard(NamedTuple):
    """What stands on one card; of a card for several cuts there is one for each."""

    number: int
    of: int
    title: str
    setting: str  # the number, large
    what: str  # what the number is
    device: str
    where: str
    tilt: float  # degrees, 0 for a square blade
    way: str  # of the blade's foot: 'under', 'away from' or ''
    foot: str  # 'near', 'far', 'left', 'right' or ''
    face: str
    flip: bool
    text: str  # everything, in order

    @property
    def kept(self) -> str:
        """'this' where what the guide lies on (or against) is kept, 'other' where the other side is."""
        return "this" if "this side is kept" in self.text else "other"


def read_cards(pdf: bytes) -> list[ReadCard]:
    """All cards of a PDF of cut cards, in order."""
    return [card for page in lettered_pages(pdf) for card in _cards(*page)]


def read_number(text: str) -> float:
    """A printed length as a maker reads it: + and − after it are a 64th of an inch. [mm]"""
    found = NUMBER.match(text)
    assert found, text
    whole, top, bottom, only_top, only_bottom, plain, unit, mark = found.groups()
    if plain is not None:
        value = float(plain)
    else:
        value = float(whole or 0) + float(top or only_top) / float(bottom or only_bottom)
    if unit == " mm":
        return value
    return INCH * (value + {None: 0.0, " +": 1 / 64, " −": -1 / 64}[mark])


def written_cards(words: list[Written], width: float, height: float) -> list[ReadCard]:
    """The cards of one page from its texts as they were drawn. width, height: of the page. [points]"""
    chars: list[Char] = []
    for one in words:
        x0, _, x1, y1 = one.box
        chars.append({"text": one.text, "x0": x0, "x1": x1, "bottom": y1 + DOWN * one.size, "size": one.size})
        chars[-1]["upright"] = one.level
    return list(_cards(chars, width, height))


def _cards(chars: list[Char], width: float, height: float) -> Iterator[ReadCard]:
    words = [c for c in chars if c["upright"] and c["x0"] < COLUMN * width and c["bottom"] < height - 90.0]
    lines = _lines(words)
    starts = [n for n, line in enumerate(lines) if HEADS.match(_text(line))]
    for start, end in zip(starts, [*starts[1:], len(lines)], strict=True):
        yield from _numbered(_card(lines[start:end]), _text(lines[start]))


def _numbered(card: ReadCard, head: str) -> Iterator[ReadCard]:
    """A card for each cut it is for; how many it asks for is how many its head counts."""
    found = HEADS.match(head)
    assert found, head
    first, last = int(found[1]), int(found[2] or found[1])
    asked = re.search(r"Cut (\d+) of these, a tick for each:", card.text)
    assert (int(asked[1]) if asked else 1) == last - first + 1, card.text
    for number in range(first, last + 1):
        yield card._replace(number=number, flip=card.flip and number == first)


def _lines(chars: list[Char]) -> list[list[Char]]:
    """Letters in lines of one size from the top down; where two sizes share a line, the larger first."""

    def key(char: Char) -> tuple[float, float]:
        return round(_baseline(char)), -round(float(char["size"]), 1)

    found = groupby(sorted(chars, key=lambda c: (*key(c), c["x0"])), key)
    return [sorted(line, key=lambda c: float(c["x0"])) for _, line in found]


def _baseline(char: Char) -> float:
    """Where a letter stands, from the page's upper edge, near enough. [points]"""
    return float(char["bottom"]) - DOWN * float(char["size"])


def _text(line: list[Char]) -> str:
    """A line's letters, a blank where there is a gap."""
    text, last = "", None
    for char in line:
        if last is not None and char["x0"] - last["x1"] > 0.15 * char["size"] and not text.endswith(" "):
            text += " "
        text += " " if char["text"].isspace() else char["text"]
        last = char
    return " ".join(text.split())


def _card(lines: list[list[Char]]) -> ReadCard:
    sizes = [float(line[0]["size"]) for line in lines]
    texts = [_text(line) for line in lines]
    head = HEADS.match(texts[0])
    assert head, texts[0]
    titles, setting, what, rest = [], [], [], []
    least, beside = HEAD * sizes[0], _baseline(lines[0][0])
    for size, text, line in zip(sizes, texts, lines, strict=True):
        if abs(_baseline(line[0]) - beside) < 2.0 or text == MARKS["in"]:
            continue
        if size >= LARGE:
            setting.append(text)
        elif size < least:
            rest.append(text)
        elif rest:
            what.append(text)
        else:
            titles.append(text)
    joined = " ".join(rest)
    facts = FACTS.search(joined)
    assert facts, joined
    told = facts.groupdict()
    return ReadCard(
        int(head[1]), int(head[3]), " ".join(titles), " ".join(setting), " ".join(what), told["device"], told["where"],
        float(told["tilt"] or 0.0), told["way"] or "", told["foot"] or "", told["face"], bool(told["flip"]), joined,
    )  # fmt: skip
