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
from core.language import tr
from core.lengths import show_angle, show_length, show_thickness


class SawSection(BoundSection):
    """The saw as it was measured."""

    def __init__(self, store: Store, theme: Theme) -> None:
        super().__init__("saw", theme, SawSubject(store))
        self._store = store
        self.profiles = SawProfiles(store, theme, self.body)
        self.rows.addWidget(self.profiles)
        self.listen(lambda _fresh: self.profiles.refresh())
        self.segments(
            "kind", tr("Kind"), (("guided", "guided"), ("table", "table")), tr("On a guide rail, or a table saw.")
        )
        self.segments(
            "lean",
            tr("Foot leans"),
            (("under", "under"), ("away", "away")),
            tr("Where the tilted blade's foot goes: under the guide rail or fence, or away from it."),
        )
        self.number(
            "kerf", tr("Kerf"), THICKNESS, tr("Width of the cut, square to the blade. Measure it: cut five, add up.")
        )
        self.number("overcut", tr("Overcut"), ANGLE, tr("Tilt past half the corner, so that the outside closes first."))
        self.number("bevel_sd", tr("Bevel spread"), ANGLE, tr("How far your bevels stray, as a standard deviation."))
        self.number("allowance", tr("Clean-up"), THICKNESS, tr("What the second cut of a V takes to clean the edge."))
        self.number("tilt_max", tr("Greatest tilt"), ANGLE, tr("Where the saw's stop is."))
        self.number("depth_at_bevel", tr("Reach, tilted"), LENGTH, tr("The longest bevel face the blade cuts through."))
        self.segments(
            "face",
            tr("Show face"),
            (("up", "up"), ("down", "down")),
            tr("How the show face lies while bevels are cut. Down mirrors everything."),
        )
        length = row_of(
            self.number("guide_length", tr("Guide length"), LENGTH, tr("Of the guide rail, or of the fence."))
        )
        self.listen(lambda _fresh: length.set_label(tr("Fence length") if self._is_table() else tr("Guide length")))
        tip = tr("A strip narrower than this needs a packer beside it.")
        self._only("guided", self.number("guide_width", tr("Guide width"), LENGTH, tip))
        tip = tr("How far a bevel's toe lands beyond the guide's edge.")
        self._only("guided", self.number("guide_offset", tr("Toe from guide"), LENGTH, tip))
        self._only(
            "table", self.number("fence_travel", tr("Fence travel"), LENGTH, tr("How far from the blade it goes."))
        )

    def _is_table(self) -> bool:
        return self._store.project.saw.kind == "table"

    def _only(self, kind: SawKind, field: NumberField) -> None:
        """A row for saws of one kind."""
        row = row_of(field)
        self.listen(lambda _fresh: row.setVisible(self._store.project.saw.kind == kind))

    def title(self) -> str:
        return tr("Saw")

    def summary(self) -> str:
        saw = self._store.project.saw
        if saw.name:
            return saw.name
        return tr(
            "kerf {kerf}, overcut {overcut}",
            kerf=show_thickness(saw.kerf, self._store.unit),
            overcut=show_angle(saw.overcut),
        )


class FrameSection(BoundSection):
    """How the hidden frame is to be built."""

    def __init__(self, store: Store, theme: Theme) -> None:
        super().__init__("frame", theme, FrameSubject(store))
        self._store = store
        self.number("spacing", tr("Rib spacing"), LENGTH, tr("Centre to centre, at most."))
        self.number("back_layers", tr("Back rail layers"), COUNT, tr("Two give the screws more to bear on."))
        self.number("front_layers", tr("Front rail layers"), COUNT, tr("None leaves the ribs open at the front."))
        self.number(
            "end_layers", tr("End rib layers"), COUNT, tr("Ends are doubled: bearing close to the shell's end.")
        )
        self.number("side_play", tr("Play at the sides"), LENGTH, tr("Room at each side between frame and shell."))
        self.number(
            "front_play",
            tr("Play at the front"),
            LENGTH,
            tr("The shell has to meet the wall before the frame meets the front."),
        )
        self.number("height_play", tr("Play in height"), LENGTH, tr("Room for the shell to slide on."))
        self.number(
            "thickness",
            tr("Stock thickness"),
            OPTIONAL_LENGTH,
            tr("Left empty: as thick as the shelf's own sheet."),
            tr("as the sheet"),
        )

    def title(self) -> str:
        return tr("Frame")

    def summary(self) -> str:
        return tr(
            "ribs every {spacing}",
            spacing=show_length(self._store.project.frame.spacing, self._store.unit, marks=False),
        )


class ScrewSection(BoundSection):
    """The screws into the studs, and the room their driver needs."""

    def __init__(self, store: Store, theme: Theme) -> None:
        super().__init__("screw", theme, ScrewSubject(store))
        self._store = store
        self.number("diameter", tr("Diameter"), THICKNESS, tr("Over the thread."))
        tip = tr("Left empty: rail layers, board, tile and bite, rounded up to what is sold.")
        self.number("length", tr("Length"), OPTIONAL_LENGTH, tip, tr("as sold"))
        self.number("per_stud", tr("To a stud"), COUNT, tr("One above the other, where the rail is high enough."))
        self.segments(
            "stand",
            tr("One stands"),
            (("middle", "middle"), ("upper third", "upper third")),
            tr("In the rail's height: higher up it has a longer arm against tipping."),
        )
        self.number("bite", tr("Bite"), LENGTH, tr("Thread in the stud, at least."))
        self.number("access_hole", tr("Driver's hole"), LENGTH, tr("Through the front rail, in line with each screw."))
        self.number("clear", tr("Clear of ribs"), LENGTH, tr("Between that hole's way and a rib."))

    def title(self) -> str:
        return tr("Screws")

    def summary(self) -> str:
        screw = self._store.project.screw
        size = show_thickness(screw.diameter, self._store.unit)
        return f"{size}, {(tr('as sold') if screw.length is None else show_length(screw.length, self._store.unit))}"


class GlueSection(BoundSection):
    """The glue."""

    def __init__(self, store: Store, theme: Theme) -> None:
        super().__init__("glue", theme, ProjectSubject(store))
        self._store = store
        self.number(
            "glue_line",
            tr("Glue line"),
            THICKNESS,
            tr("The widest gap your glue still bonds; 0.05 to 0.15 mm is typical."),
        )

    def title(self) -> str:
        return tr("Glue")

    def summary(self) -> str:
        return tr("bonds up to {glue_line}", glue_line=show_thickness(self._store.project.glue_line, self._store.unit))
