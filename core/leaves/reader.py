"""The reader's edition: a plan that others can build from, with nothing of the wall it was made for."""

from __future__ import annotations

from typing import Final

import msgspec

from core.document.model import Units, Wall
from core.language import tr
from core.leaves.cover import cover_leaf
from core.leaves.model import Leaf, Words
from core.plan.make import make_plan
from core.plan.model import Plan

READ_FIRST: Final = (
    tr(
        "Check your own sheet: measure its thickness and the kerf of your blade, and plan anew "
        "by what you find. The inside sizes, the cavity and the frame follow from them."
    ),
    tr("The pages come twice, once in each unit. Use one of them from beginning to end; never mix the two."),
    tr(
        "Where your studs are decides where the frame's screws go, and its ribs have to keep "
        "clear of them: plan that on your own wall. Fixings, loads and wires are for your codes "
        "and for licensed practice."
    ),
    tr("Cut a test seam from scrap first. No number here is a rating: never to be climbed, sat or hung on."),
)


def public_plan(plan: Plan) -> Plan:
    """The same shelves, sheets and saw with no wall: no studs, no places, no screws. Nets lie where they lay."""
    project = plan.project
    shelves = tuple(msgspec.structs.replace(shelf, mount=None) for shelf in project.shelves)
    return make_plan(msgspec.structs.replace(project, shelves=shelves, wall=Wall()), plan.layout)


def in_unit(plan: Plan, units: Units) -> Plan:
    """The same plan, its lengths shown in a unit."""
    return msgspec.structs.replace(plan, project=msgspec.structs.replace(plan.project, units=units))


def reader_leaf(plan: Plan) -> Leaf:
    """The cover of the reader's edition, of a public plan."""
    leaf = cover_leaf(plan, wall=False)
    return Leaf(tr("Reader's plan"), (*leaf.blocks, Words(tr("Read this first"), READ_FIRST)), heading=leaf.heading)
