"""Random shelves with their seams and nets, for the laws of folding."""

from __future__ import annotations

from typing import NamedTuple

from hypothesis import strategies as st
from msgspec.structs import replace

from core.document.model import Shelf
from core.geometry.net import Net
from core.geometry.seam import SeamSection, seam_section
from core.geometry.shell import shell_net
from tests.strategies import saws, sheets, shelves


class Case(NamedTuple):
    """A shelf, the section of its seams, and its net."""

    shelf: Shelf
    section: SeamSection
    net: Net


def case(shelf: Shelf, thickness: float = 18.2, kerf: float = 2.2, overcut: float = 0.5) -> Case:
    section = seam_section(thickness, kerf, overcut)
    return Case(shelf, section, shell_net(shelf, section.bevel, section.loss))


@st.composite
def cases(draw: st.DrawFn, overcut: st.SearchStrategy[float] | None = None) -> Case:
    """A shelf cut by a saw from a sheet; the saw's overcut may be asked for. [deg]"""
    saw, stock = draw(saws()), draw(sheets("A", "any"))
    if overcut is not None:
        saw = replace(saw, overcut=draw(overcut))
    shelf = draw(shelves("s", saw, stock))
    section = seam_section(stock.thickness, saw.kerf, saw.overcut, saw.allowance)
    return Case(shelf, section, shell_net(shelf, section.bevel, section.loss))
