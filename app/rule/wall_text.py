"""What is measured of a wall as text for one line, and read back from it. No Qt here.

studs   16; 32; 48                 centre lines from the left
bow     12: 3/8; 24: 1/4           place from the left: gap behind the straightedge
widths  44; 44-1/8; 44-1/4         an alcove at the back, in the middle, at the front; one width: the same at all three
"""

from __future__ import annotations

from core.lengths import Unit, parse_length, show_exact

Triple = tuple[float, float, float]


def _parts(text: str, mark: str = ";") -> list[str]:
    return [part.strip() for part in text.split(mark) if part.strip()]


def studs_text(studs: tuple[float, ...], unit: Unit) -> str:
    """Centre lines in one line."""
    return "; ".join(show_exact(x, unit) for x in studs)


def read_studs(text: str, unit: Unit) -> tuple[float, ...]:
    """Centre lines in the order they are typed. Raises ValueError with one sentence. [mm]"""
    return tuple(parse_length(part, unit) for part in _parts(text))


def bow_text(bow: tuple[tuple[float, float], ...], unit: Unit) -> str:
    """Readings in one line."""
    return "; ".join(f"{show_exact(x, unit)}: {show_exact(gap, unit)}" for x, gap in bow)


def read_bow(text: str, unit: Unit) -> tuple[tuple[float, float], ...]:
    """Readings (place, gap) in the order they are typed. Raises ValueError with one sentence. [mm]"""
    found = []
    for part in _parts(text):
        pair = _parts(part, ":")
        if len(pair) != 2:
            raise ValueError(f"{part}: type each reading as place: gap, with ; between readings")
        found.append((parse_length(pair[0], unit), parse_length(pair[1], unit)))
    return tuple(found)


def widths_text(widths: Triple | None, unit: Unit) -> str:
    """Three widths in one line, one where they are alike; nothing for none."""
    alike = widths is not None and len(set(widths)) == 1
    return "; ".join(show_exact(width, unit) for width in (widths or ())[: 1 if alike else None])


def read_widths(text: str, unit: Unit) -> Triple | None:
    """Back, middle and front, from one width that is the same at all; None for nothing. [mm]

    Raises ValueError with one sentence.
    """
    parts = _parts(text)
    if not parts:
        return None
    if len(parts) == 1:
        parts *= 3
    if len(parts) != 3:
        raise ValueError(f"type one width, or three with ; between them: back, middle, front; there are {len(parts)}")
    back, middle, front = (parse_length(part, unit) for part in parts)
    return back, middle, front
