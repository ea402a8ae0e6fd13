"""Pictures from anywhere: each opens, or says why not in one sentence."""

from __future__ import annotations

import struct
import zlib
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from core.photo import PhotoError
from core.photo.opening import open_picture, read_picture
from tests.photo.synthetic import file_of

WOOD = np.random.default_rng(1).integers(90, 200, (60, 80, 3)).astype(np.uint8)
PHOTO = Image.fromarray(WOOD)


def exif(turn: int) -> Image.Exif:
    marks = Image.Exif()
    marks[0x0112] = turn
    return marks


def png_head(across: int, down: int) -> bytes:
    """A PNG that says it is that large and holds next to nothing: a bomb where it is believed."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", across, down, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(bytes(1000))) + chunk(b"IEND", b"")
    )


SIXTEEN = Image.fromarray((np.arange(60 * 80).reshape(60, 80) * 13).astype(np.uint16))
GOOD = {
    "JPEG": file_of(PHOTO),
    "PNG": file_of(PHOTO, "PNG"),
    "WebP": file_of(PHOTO, "WEBP", lossless=True),
    "TIFF": file_of(PHOTO, "TIFF"),
    "packed TIFF": file_of(PHOTO, "TIFF", compression="tiff_lzw"),
    "CMYK": file_of(PHOTO.convert("CMYK")),
    "CMYK TIFF": file_of(PHOTO.convert("CMYK"), "TIFF"),
    "grey": file_of(PHOTO.convert("L"), "PNG"),
    "16-bit": file_of(SIXTEEN, "PNG"),
    "16-bit TIFF": file_of(SIXTEEN, "TIFF"),
    "real numbers": file_of(Image.fromarray(np.linspace(0, 1, 4800, dtype=np.float32).reshape(60, 80)), "TIFF"),
    "see-through": file_of(PHOTO.convert("RGBA"), "PNG"),
    "256 colours": file_of(PHOTO.convert("P"), "PNG"),
    "256 colours, one clear": file_of(PHOTO.convert("P"), "PNG", transparency=0),
    "one bit": file_of(PHOTO.convert("1"), "PNG"),
    "animated": file_of(PHOTO, "WEBP", save_all=True, append_images=[PHOTO.rotate(90)], duration=50),
    "animated PNG": file_of(PHOTO, "PNG", save_all=True, append_images=[PHOTO.rotate(180)]),
    "several pages": file_of(PHOTO, "TIFF", save_all=True, append_images=[PHOTO]),
}
BAD = {
    "empty": (b"", "empty"),
    "text": (b"three shelves, oak\n" * 50, "no JPEG"),
    "another kind": (file_of(PHOTO, "GIF"), "no JPEG"),
    "cut JPEG": (file_of(PHOTO)[:-700], "breaks off"),
    "cut PNG": (file_of(PHOTO, "PNG")[:3000], "breaks off"),
    "cut WebP": (file_of(PHOTO, "WEBP")[:400], ""),
    "cut TIFF": (file_of(PHOTO, "TIFF", compression="tiff_lzw")[:600], ""),
    "only a head": (file_of(PHOTO)[:30], ""),
    "noise after the head": (file_of(PHOTO, "PNG")[:60] + bytes(range(256)) * 8, ""),
    "one pixel": (file_of(PHOTO.resize((1, 1)), "PNG"), "1 × 1 pixels"),
    "a line": (file_of(Image.new("RGB", (100_000, 1)), "PNG"), "100000 × 1 pixels"),
    "a bomb": (png_head(30_000, 30_000), "megapixels"),
    "a large bomb": (png_head(2_000_000_000, 2_000_000_000), ""),
    "just too large": (png_head(12_000, 9_000), "megapixels"),
}


@pytest.mark.parametrize("kind", GOOD)
def test_what_opens(kind: str) -> None:
    picture = open_picture(GOOD[kind])
    assert (picture.mode, picture.size) == ("RGB", (80, 60))
    assert np.asarray(picture).std() > 3.0


@pytest.mark.parametrize("kind", BAD)
def test_what_does_not(kind: str) -> None:
    data, word = BAD[kind]
    with pytest.raises(PhotoError) as caught:
        open_picture(data)
    assert word in str(caught.value)
    assert len(str(caught.value).splitlines()) == 1


def test_the_colours_are_the_pictures_own() -> None:
    assert (np.asarray(open_picture(GOOD["PNG"])) == WOOD).all()
    assert (np.asarray(open_picture(GOOD["WebP"])) == WOOD).all()
    assert (np.asarray(open_picture(GOOD["see-through"])) == WOOD).all()
    deep = np.asarray(open_picture(GOOD["16-bit"]))[..., 0].astype(int)
    assert np.abs(deep - np.asarray(SIXTEEN) / 257.0).max() < 1.0


def test_a_cmyk_picture_keeps_its_light_and_dark() -> None:
    """Pillow's own conversion there and back is what is expected: an inverted one would be far off."""
    back = np.asarray(open_picture(GOOD["CMYK TIFF"])).astype(int)
    assert np.abs(back - WOOD).mean() < 3.0


@pytest.mark.parametrize("turn", range(1, 9))
def test_a_turned_picture_stands_upright(turn: int) -> None:
    """EXIF 2.3: tag 0x0112. Each turn is made by its own definition: where the first row and column are seen."""
    ways = {2: lambda a: a[:, ::-1], 3: lambda a: a[::-1, ::-1], 4: lambda a: a[::-1], 5: lambda a: a.swapaxes(0, 1)}
    ways |= {6: lambda a: np.rot90(a, -1), 7: lambda a: np.rot90(a, 2).swapaxes(0, 1), 8: lambda a: np.rot90(a)}
    for kind in ("PNG", "TIFF"):
        upright = np.asarray(open_picture(file_of(PHOTO, kind, exif=exif(turn))))
        assert (upright == ways.get(turn, lambda a: a)(WOOD)).all()


def test_a_large_picture_is_read_no_finer_than_needed() -> None:
    large = file_of(PHOTO.resize((2400, 1800)))
    assert open_picture(large, 500).size == (600, 450)
    assert open_picture(large, 1300).size == (2400, 1800)
    assert open_picture(large).size == (2400, 1800)


def test_files(tmp_path: Path) -> None:
    good = tmp_path / "sheet.png"
    good.write_bytes(GOOD["JPEG"])  # the wrong ending: what is in it counts
    assert open_picture(read_picture(good)).size == (80, 60)
    for path in (tmp_path, tmp_path / "none.jpg", "a\0b"):
        with pytest.raises(PhotoError):
            read_picture(path)
