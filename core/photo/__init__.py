"""A photograph of a sheet, made into the sheet's face: opened, its corners found, straightened, its light evened.

Picture axes here: x to the right and y down from the upper left corner, pixel (i, j) covers i..i + 1, j..j + 1, the
camera's turn already undone. A picture travels as Pillow's image, in RGB; Pillow is imported when it is first used.
Pillow works without holding other threads, so whoever calls from a thread lets the window live.

    open_picture(data)           a picture from anywhere, or one sentence
    proposed_corners(picture)    where the sheet stands out from its ground
    homography(from, to)         the map of the plane that four corners give
    Lens, lens_from_edge         straight edges that a lens has bent
    straightened(...)            the face, in true millimetres
    evened(...)                  the light on it
"""

from core.photo.errors import PhotoError

__all__ = ["PhotoError"]
