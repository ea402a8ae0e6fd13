"""What there is to say of the studs behind a frame: too few of them, and the slides that catch more."""

from __future__ import annotations

from typing import Final

from core.document.model import Mount, WallKind
from core.frame.job import FrameJob, between
from core.frame.studs import least_slide, shift_of, stud_lines, usual_overhang
from core.language import tr
from core.plan.model import Finding, Fix

WORTH_SAYING: Final = 0.05  # mm: less off the middle shows as nothing

NEEDED: Final[dict[WallKind, str]] = {
    "timber stud": "",
    "metal stud": tr("Thin metal holds little: it needs fixings made for it, or blocking put in behind the board"),
    "masonry": tr("It needs plugs or anchors that suit this very stone, brick or block, with their maker's load"),
    "unknown": tr("First find out what is behind its face: timber studs, metal studs or masonry"),
}


def kind_remark(job: FrameJob) -> Finding:
    """`wall-kind`: what a wall without timber studs needs; its fixings are not planned."""
    kind = job.project.wall.kind
    subject = (
        tr("What this wall is made of is not known") if kind == "unknown" else tr("This is a {kind} wall", kind=kind)
    )
    message = tr(
        "{subject}: no screws and no load are planned for these {length} of shelf. {NEEDED}.",
        subject=subject,
        length=job.show(job.shelf.length),
        NEEDED=NEEDED[kind],
    )
    return job.finding("warning", "wall-kind", message)


def stud_remark(job: FrameJob, mount: Mount, studs: tuple[float, ...], room: tuple[float, float]) -> Finding | None:
    """`no-stud`, `one-stud`: warnings where fewer than two studs are caught.

    room: where a stud's centre line must lie, from the wall's left edge; low > high where the frame is too short.
    """
    if len(studs) > 1:
        return None
    code = "one-stud" if studs else "no-stud"
    if room[0] > room[1]:
        length = job.show(job.shelf.length)
        message = tr(
            "A shelf {length} long has no room between its end ribs for a driver: no stud can be used.", length=length
        )
        return job.finding("warning", code, message)
    catch = tr("only the stud at {studs}", studs=job.show(studs[0])) if studs else tr("no stud")
    message = tr(
        "The frame catches {catch}; between {room} and {room2} from the wall's left edge it "
        "could be screwed to studs, and it needs two: move it, or put blocking in the wall.",
        catch=catch,
        room=job.show(room[0]),
        room2=job.show(room[1]),
    )
    return job.finding("warning", code, message, _slide_fixes(job, mount, room))


def shift_remark(job: FrameJob) -> Finding | None:
    """`frame-shift` (note): the frame is to stand farther off the middle than its play lets it."""
    play, asked = job.project.frame.side_play, job.shelf.frame_shift
    stands = shift_of(job.shelf, play)
    if abs(asked - stands) < WORTH_SAYING:
        return None
    message = tr(
        "The frame has {play} of play at each side and cannot stand {asked} off the middle: it stands {stands} off it.",
        play=job.show(play),
        asked=job.show(abs(asked)),
        stands=job.show(abs(stands)),
    )
    words = tr("Let it stand {stands} off the middle", stands=job.show(abs(stands)))
    return job.finding("note", "frame-shift", message, (job.set_shelf(words, "frame_shift", stands),))


def frame_slide(job: FrameJob, value: float, count: int) -> Fix:
    """The fix that slides the frame in its play, so that it stands `value` off the middle and catches so many studs."""
    moved = value - shift_of(job.shelf, job.project.frame.side_play)
    text = tr(
        "Slide the frame {moved} to the {side} in its shell, on to {count} studs",
        moved=job.show(abs(moved)),
        side="right" if moved > 0.0 else "left",
        count=count,
    )
    return job.set_shelf(text, "frame_shift", value)


def _slide_fixes(job: FrameJob, mount: Mount, room: tuple[float, float]) -> tuple[Fix, ...]:
    """The frame slid in its play, and the shelf slid along the wall, on to two studs."""
    wall, play = job.project.wall, job.project.frame.side_play
    shift = shift_of(job.shelf, play)
    slide = least_slide(wall, room, (-play - shift, play - shift))
    if slide is None:
        return _shelf_slides(job, mount, room)
    value = between(shift + slide[0], shift + slide[1], shift, job.unit)
    return (frame_slide(job, value, 2), *_shelf_slides(job, mount, room))


def _shelf_slides(job: FrameJob, mount: Mount, room: tuple[float, float]) -> tuple[Fix, ...]:
    wall = job.project.wall
    bounds = (-mount.x, wall.width - job.shelf.length - mount.x)
    if bounds[0] > bounds[1]:
        return ()
    slide = least_slide(wall, room, bounds)
    if slide is None:
        return ()
    x = between(*_well_held(job, mount, room, slide), mount.x, job.unit)
    side = "right" if x > mount.x else "left"
    text = tr("Move it {x} to the {side}, on to two studs", x=job.show(abs(x - mount.x)), side=side)
    return (job.set_shelf(text, "mount/x", x),)


def _well_held(
    job: FrameJob, mount: Mount, room: tuple[float, float], slide: tuple[float, float]
) -> tuple[float, float]:
    """Places of the shelf within a range of slides, those at which no end reaches far past its stud if there are any.

    Along the whole range the same studs are caught: those in the room at its one end and at its other. [mm]
    """
    low, high = mount.x + slide[0], mount.x + slide[1]
    studs, reach = (
        stud_lines(job.project.wall, room[0] + slide[1], room[1] + slide[0]),
        usual_overhang(job.shelf.length),
    )
    if not studs:
        return low, high
    least, most = max(low, studs[0] - reach), min(high, studs[-1] + reach - job.shelf.length)
    return (least, most) if least <= most else (low, high)
