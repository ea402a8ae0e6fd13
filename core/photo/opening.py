"""Opening a picture from anywhere. Whatever the bytes hold, the outcome is a picture or one PhotoError."""

from __future__ import annotations

import hashlib
import io
import os
import stat
import warnings
from collections.abc import Mapping
from functools import cache
from typing import TYPE_CHECKING, Final

from core.document.errors import os_reason
from core.language import tr
from core.photo.errors import PhotoError

if TYPE_CHECKING:  # Pillow is imported when a picture is opened
    from PIL.Image import Image

FORMATS: Final = ("JPEG", "PNG", "WEBP", "TIFF")  # a phone's pictures of several images are JPEG for Pillow
MOST_PIXELS: Final = 100_000_000
MOST_BYTES: Final = 400 * 2**20
LEAST_SIDE: Final = 16  # pixels: less shows no wood
LONGEST_SIDE: Final = 65_000
# Kept of a picture: more is finer than any face, and halving it here saves the memory.
WORKING: Final = 30_000_000
ORIENTATION: Final = 0x0112  # the EXIF tag
# How a picture is turned to stand upright, by that tag. Source: EXIF 2.3, table "orientation", from memory.
TURNS: Final = {
    2: "FLIP_LEFT_RIGHT",
    3: "ROTATE_180",
    4: "FLIP_TOP_BOTTOM",
    5: "TRANSPOSE",
    6: "ROTATE_270",
    7: "TRANSVERSE",
    8: "ROTATE_90",
}


def read_picture(path: str | os.PathLike[str]) -> bytes:
    """The bytes of a picture's file. Raises PhotoError."""
    try:
        status = os.stat(path)
        if not stat.S_ISREG(status.st_mode):
            raise PhotoError(tr("is no file"))
        if status.st_size > MOST_BYTES:
            raise PhotoError(tr("is larger than {MOST_BYTES} MB", MOST_BYTES=MOST_BYTES // 2**20))
        with open(path, "rb") as stream:
            return stream.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        raise PhotoError(tr("cannot be read: {os_reason}", os_reason=os_reason(error))) from error


def checksum(data: bytes) -> str:
    """SHA-256 of a picture's bytes, in hexadecimal."""
    return hashlib.sha256(data).hexdigest()


def read_kept(path: str | os.PathLike[str], sum: str) -> bytes:
    """The bytes of a picture whose checksum is known. Raises PhotoError where it is not there or another one."""
    data = read_picture(path)
    if checksum(data) != sum:
        raise PhotoError(tr("is not the picture that it was"))
    return data


def troubles_beside(pictures: Mapping[str, str], folder: str | os.PathLike[str]) -> dict[str, str]:
    """What is wrong with pictures in a folder, by checksum. pictures: the file's name of each checksum."""
    found = {}
    for sum, name in pictures.items():
        try:
            read_kept(os.path.join(folder, name), sum)
        except PhotoError as error:
            found[sum] = str(error)
    return found


def open_picture(data: bytes, wanted: int = 0) -> Image:
    """The picture as RGB, its turn undone; of an animated one the first frame, what is see-through lies on white.

    wanted: pixels the longer side needs; a JPEG of more than twice as many is read at half size or less. 0: all.
    Raises PhotoError.
    """
    if not data:
        raise PhotoError(tr("is empty"))
    try:
        return _opened(data, wanted)
    except PhotoError:
        raise
    except MemoryError:
        raise PhotoError(tr("needs more memory than there is")) from None
    except Exception as error:  # decoders fail in as many ways as there are broken files
        raise PhotoError(_why(error)) from error


def _why(error: Exception) -> str:
    from PIL import Image, UnidentifiedImageError

    if isinstance(error, UnidentifiedImageError):
        return tr("is no JPEG, PNG, WebP or TIFF picture")
    if isinstance(error, Image.DecompressionBombWarning | Image.DecompressionBombError):
        return tr("has more than {MOST_PIXELS} megapixels", MOST_PIXELS=MOST_PIXELS // 10**6)
    if "truncated" in str(error) or "end of file" in str(error).lower():
        return tr("breaks off: part of the file is missing")
    return tr("is damaged and cannot be read")


@cache
def _prepare() -> None:
    """Once: a picture too large is refused from its head, before anything is unpacked."""
    from PIL import Image

    Image.MAX_IMAGE_PIXELS = MOST_PIXELS


def _opened(data: bytes, wanted: int) -> Image:
    from PIL import Image

    _prepare()
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # remarks on odd heads; what matters raises, and sizes are looked at below
        picture: Image.Image = Image.open(io.BytesIO(data), formats=FORMATS)
        _check(picture.size)
        if wanted:
            share = wanted / max(picture.size)
            picture.draft(None, (round(share * picture.width), round(share * picture.height)))  # never smaller
        picture.load()
        turned = picture.getexif().get(ORIENTATION, 1)  # a TIFF has been turned while it was read
        picture = _plain(picture)
        while picture.width * picture.height > WORKING:
            picture = picture.reduce(2)
        way = TURNS.get(turned)
        return picture if way is None else picture.transpose(Image.Transpose[way])


def _check(size: tuple[int, int]) -> None:
    across, down = size
    if across * down > MOST_PIXELS:
        millions = across * down / 1e6
        raise PhotoError(
            tr(
                "has {millions:.0f} megapixels, at most {MOST_PIXELS} are taken",
                millions=millions,
                MOST_PIXELS=MOST_PIXELS // 10**6,
            )
        )
    if min(size) < LEAST_SIDE:
        raise PhotoError(
            tr(
                "is {across} × {down} pixels, at least {LEAST_SIDE} each way are needed",
                across=across,
                down=down,
                LEAST_SIDE=LEAST_SIDE,
            )
        )
    if max(size) > LONGEST_SIDE:
        raise PhotoError(
            tr(
                "is {across} × {down} pixels, at most {LONGEST_SIDE} each way are taken",
                across=across,
                down=down,
                LONGEST_SIDE=LONGEST_SIDE,
            )
        )


def _plain(picture: Image) -> Image:
    """As RGB."""
    if picture.mode.startswith(("I", "F")):
        picture = _eight_bits(picture)
    if picture.mode in ("RGBA", "LA", "PA", "La", "RGBa") or "transparency" in picture.info:
        return _on_white(picture)
    return picture if picture.mode == "RGB" else picture.convert("RGB")


def _on_white(picture: Image) -> Image:
    from PIL import Image

    clear = picture.convert("RGBA")
    plain = Image.new("RGB", clear.size, "white")
    plain.paste(clear, mask=clear.getchannel("A"))
    return plain


def _eight_bits(picture: Image) -> Image:
    """Of 16 bits or of real numbers: whole range where it is 16 bits, else from the darkest to the lightest."""
    import numpy as np
    from PIL import Image

    values = np.asarray(picture).astype(np.float32)
    low, high = float(np.nan_to_num(values).min()), float(np.nan_to_num(values).max())
    if low >= 0.0 and 255.0 < high <= 65535.0:
        low, high = 0.0, 65535.0
    elif low >= 0.0 and high <= 255.0 and picture.mode != "F":
        low, high = 0.0, 255.0
    scaled = np.clip((np.nan_to_num(values) - low) * (255.0 / max(high - low, 1e-9)), 0.0, 255.0)
    return Image.fromarray(scaled.astype(np.uint8))
