"""A net in its parts: what is cut out of a sheet in one, and each panel that is cut apart from it.

The whole tree is what is folded; the parts are what is laid on sheets. Every part is a net of its own, its origin at
its own lower left corner, its grain along x as in the whole.
"""

from __future__ import annotations

from functools import lru_cache

import msgspec

from core.geometry.net import Net

Shift = tuple[float, float]


def main_part(net: Net) -> Net:
    """The net without its panels that are cut apart; itself where there are none."""
    return _main(net) if net.apart else net


def apart_part(net: Net, role: str) -> Net:
    """A panel that is cut apart, as a net of one; KeyError where the net has no such panel."""
    panel = msgspec.structs.replace(net.panel(role), x=0.0, y=0.0, parent=None, hinge=None)
    return Net(net.owner, (panel,), (), panel.length, panel.width, net.loss, turned=net.turned)


def part_of(net: Net, role: str | None) -> Net:
    """The part that is placed under a role: None for the main one."""
    return main_part(net) if role is None else apart_part(net, role)


def part_origin(net: Net, role: str) -> Shift:
    """Where the lower left corner of the part with that panel is in the whole net. [mm]"""
    if role in net.apart:
        panel = net.panel(role)
        return (panel.x, panel.y)
    return _corner(net) if net.apart else (0.0, 0.0)


@lru_cache(maxsize=1024)
def _main(net: Net) -> Net:
    x, y = _corner(net)
    kept = [p for p in net.panels if p.role not in net.apart]
    panels = tuple(msgspec.structs.replace(p, x=p.x - x, y=p.y - y) for p in kept)
    joints = tuple(j for j in net.joints if not set(j.panels) & set(net.apart))
    length, width = max(p.x + p.length for p in panels), max(p.y + p.width for p in panels)
    return Net(net.owner, panels, joints, length, width, net.loss, turned=net.turned)


def _corner(net: Net) -> Shift:
    kept = [p for p in net.panels if p.role not in net.apart]
    return (min(p.x for p in kept), min(p.y for p in kept))
