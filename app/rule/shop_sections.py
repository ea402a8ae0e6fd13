"""What belongs to the shop rather than to one shelf: the saw, the frame's build, the glue."""

from __future__ import annotations

from app.rule.fields import NumberField
from app.rule.reading import ANGLE, COUNT, LENGTH, OPTIONAL_LENGTH, THICKNESS
from app.rule.rows import BoundSection, row_of
from app.rule.saw_profiles import SawProfiles
from app.rule.subject import FrameSubject, ProjectSubject, SawSubject, ScrewSubject
from app.store import Store
from app.theme import Theme
from core.document.model import SawKind
from core.lengths import show_angle, show_length, show_thickness


class SawSection(BoundSection):
    """The saw as it was measured."""

    def __init__(self, store: Store, theme: Theme) -> None:
        super().__init__("saw", theme, SawSubject(store))
        self._store = store
        self.profiles = SawProfiles(store, theme, self.body)
        self.rows.addWidget(self.profiles)
        self.listen(lambda _fresh: self.profiles.refresh())
        self.segments("kind", "Kind", (("guided", "guided"), ("table", "table")), "On a guide rail, or a table saw.")
        self.segments(
            "lean",
            "Foot leans",
            (("under", "under"), ("away", "away")),
            "Where the tilted blade's foot goes: under the guide rail or fence, or away from it.",
        )
        self.number("kerf", "Kerf", THICKNESS, "Width of the cut, square to the blade. Measure it: cut five, add up.")
        self.number("overcut", "Overcut", ANGLE, "Tilt past half the corner, so that the outside closes first.")
        self.number("bevel_sd", "Bevel spread", ANGLE, "How far your bevels stray, as a standard deviation.")
        self.number("allowance", "Clean-up", THICKNESS, "What the second cut of a V takes to clean the edge.")
        self.number("tilt_max", "Greatest tilt", ANGLE, "Where the saw's stop is.")
        self.number("depth_at_bevel", "Reach, tilted", LENGTH, "The longest bevel face the blade cuts through.")
        self.segments(
            "face",
            "Show face",
            (("up", "up"), ("down", "down")),
            "How the show face lies while bevels are cut. Down mirrors everything.",
        )
        length = row_of(self.number("guide_length", "Guide length", LENGTH, "Of the guide rail, or of the fence."))
        self.listen(lambda _fresh: length.set_label("Fence length" if self._is_table() else "Guide length"))
        tip = "A strip narrower than this needs a packer beside it."
        self._only("guided", self.number("guide_width", "Guide width", LENGTH, tip))
        tip = "How far a bevel's toe lands beyond the guide's edge."
        self._only("guided", self.number("guide_offset", "Toe from guide", LENGTH, tip))
        self._only("table", self.number("fence_travel", "Fence travel", LENGTH, "How far from the blade it goes."))

    def _is_table(self) -> bool:
        return self._store.project.saw.kind == "table"

    def _only(self, kind: SawKind, field: NumberField) -> None:
        """A row for saws of one kind."""
        row = row_of(field)
        self.listen(lambda _fresh: row.setVisible(self._store.project.saw.kind == kind))

    def title(self) -> str:
        return "Saw"

    def summary(self) -> str:
        saw = self._store.project.saw
        if saw.name:
            return saw.name
        return f"kerf {show_thickness(saw.kerf, self._store.unit)}, overcut {show_angle(saw.overcut)}"


class FrameSection(BoundSection):
    """How the hidden frame is to be built."""

    def __init__(self, store: Store, theme: Theme) -> None:
        super().__init__("frame", theme, FrameSubject(store))
        self._store = store
        self.number("spacing", "Rib spacing", LENGTH, "Centre to centre, at most.")
        self.number("back_layers", "Back rail layers", COUNT, "Two give the screws more to bear on.")
        self.number("front_layers", "Front rail layers", COUNT, "None leaves the ribs open at the front.")
        self.number("end_layers", "End rib layers", COUNT, "Ends are doubled: bearing close to the shell's end.")
        self.number("side_play", "Play at the sides", LENGTH, "Room at each side between frame and shell.")
        self.number(
            "front_play",
            "Play at the front",
            LENGTH,
            "The shell has to meet the wall before the frame meets the front.",
        )
        self.number("height_play", "Play in height", LENGTH, "Room for the shell to slide on.")
        self.number(
            "thickness",
            "Stock thickness",
            OPTIONAL_LENGTH,
            "Left empty: as thick as the shelf's own sheet.",
            "as the sheet",
        )

    def title(self) -> str:
        return "Frame"

    def summary(self) -> str:
        return f"ribs every {show_length(self._store.project.frame.spacing, self._store.unit, marks=False)}"


class ScrewSection(BoundSection):
    """The screws into the studs, and the room their driver needs."""

    def __init__(self, store: Store, theme: Theme) -> None:
        super().__init__("screw", theme, ScrewSubject(store))
        self._store = store
        self.number("diameter", "Diameter", THICKNESS, "Over the thread.")
        tip = "Left empty: rail layers, board, tile and bite, rounded up to what is sold."
        self.number("length", "Length", OPTIONAL_LENGTH, tip, "as sold")
        self.number("per_stud", "To a stud", COUNT, "One above the other, where the rail is high enough.")
        self.segments(
            "stand",
            "One stands",
            (("middle", "middle"), ("upper third", "upper third")),
            "In the rail's height: higher up it has a longer arm against tipping.",
        )
        self.number("bite", "Bite", LENGTH, "Thread in the stud, at least.")
        self.number("access_hole", "Driver's hole", LENGTH, "Through the front rail, in line with each screw.")
        self.number("clear", "Clear of ribs", LENGTH, "Between that hole's way and a rib.")

    def title(self) -> str:
        return "Screws"

    def summary(self) -> str:
        screw = self._store.project.screw
        size = show_thickness(screw.diameter, self._store.unit)
        return f"{size}, {'as sold' if screw.length is None else show_length(screw.length, self._store.unit)}"


class GlueSection(BoundSection):
    """The glue."""

    def __init__(self, store: Store, theme: Theme) -> None:
        super().__init__("glue", theme, ProjectSubject(store))
        self._store = store
        self.number(
            "glue_line", "Glue line", THICKNESS, "The widest gap your glue still bonds; 0.05 to 0.15 mm is typical."
        )

    def title(self) -> str:
        return "Glue"

    def summary(self) -> str:
        return f"bonds up to {show_thickness(self._store.project.glue_line, self._store.unit)}"
