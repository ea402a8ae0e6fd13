"""Random jobs for the order of cuts: one or two shelves on sheets they fit, and every kind of saw."""

import msgspec
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn

from core.document.model import Project, Saw
from tests.strategies import projects


@st.composite
def jobs(draw: DrawFn, max_shelves: int = 2, min_shelves: int = 1) -> Project:
    """A job whose saw is a guided one that leans either way, with the show face up or down, or a table saw."""
    project = draw(projects(max_shelves=max_shelves, min_shelves=min_shelves))
    kind, lean, face = draw(st.sampled_from(SAWS))
    saw: Saw = msgspec.structs.replace(project.saw, kind=kind, lean=lean, face=face)
    if draw(st.booleans()):  # alike in section, so that they can share a band
        first = project.shelves[0]
        shelves = tuple(
            msgspec.structs.replace(s, depth=first.depth, height=first.height, scribe=first.scribe)
            for s in project.shelves
        )
        project = msgspec.structs.replace(project, shelves=shelves)
    return msgspec.structs.replace(project, saw=saw)


SAWS = [(kind, lean, face) for kind in ("guided", "table") for lean in ("under", "away") for face in ("up", "down")]
