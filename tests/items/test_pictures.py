"""A teacher's own picture: found, judged by what it holds, refused with one clear line.

How files of other formats begin is from their own specifications, from memory; the picture files
here are written by Pillow or by hand.
"""

from __future__ import annotations

import io
import struct
import zlib
from pathlib import Path

import pytest
from PIL import Image

from narrate.items.item import PictureGiven
from narrate.items.loading import load
from narrate.items.pictures import MAX_BYTES

ITEM = """\
items:
  - id: bed
    stimulus:
      image: {image}
      alt: {alt}
    stem: What is 1/2 + 1/4?
    boxes: [numerator, denominator]
"""


def saved(kind: str, size: tuple[int, int] = (60, 40), **more: object) -> bytes:
    memory = io.BytesIO()
    Image.new("RGB", size, "white").save(memory, format=kind, **more)
    return memory.getvalue()


def png_head(width: int, height: int) -> bytes:
    """A PNG that says it is so large, with next to nothing in it."""

    def chunk(name: bytes, data: bytes) -> bytes:
        return (
            struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))
        )

    head = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    body = chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"\0" * 100)) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + body


def faults(tmp_path: Path, name: str, data: bytes | None, alt: str = "A plan of the bed.") -> str:
    """What is told of an item with a picture, without the file's name; "" where all is well."""
    if data is not None:
        (tmp_path / name).write_bytes(data)
    return faults_of(tmp_path, ITEM.format(image=name, alt=alt))


def faults_of(tmp_path: Path, text: str) -> str:
    file = tmp_path / "beds.yaml"
    file.write_text(text, encoding="utf-8")
    found = load([file]).faults
    return "\n".join(str(fault).removeprefix(f"{file}:") for fault in found)


@pytest.mark.parametrize(
    ("kind", "name"), [("PNG", "plan.png"), ("JPEG", "IMG_20240101123456.JPG")]
)
def test_a_png_or_jpeg_is_taken_as_it_is(tmp_path: Path, kind: str, name: str) -> None:
    data = saved(kind)
    assert faults(tmp_path, name, data) == ""
    stimulus = load([tmp_path / "beds.yaml"]).reviews[0].items[0].stimulus
    assert stimulus is not None
    assert stimulus.picture == PictureGiven(
        data=data,
        kind="png" if kind == "PNG" else "jpeg",
        width=60,
        height=40,
        alt="A plan of the bed.",
    )


def test_a_picture_in_a_folder_below_is_found(tmp_path: Path) -> None:
    (tmp_path / "plans").mkdir()
    assert faults(tmp_path, "plans/bed.png", saved("PNG")) == ""


@pytest.mark.parametrize(
    ("data", "what"),
    [
        (saved("GIF"), "is a GIF picture"),
        (saved("BMP"), "is a BMP picture"),
        (saved("TIFF"), "is a TIFF picture"),
        (saved("WEBP"), "is a WebP picture"),
        (b"%PDF-1.7\n", "is a PDF document"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "is an SVG drawing"),
        (b"\0\0\0\x18ftypheic", "is a HEIC or AVIF picture, or a video"),
        (b"PK\x03\x04....", "is an office document or zip file"),
        (b"just words", "is no picture that I know"),
        (b"", "is empty"),
    ],
)
def test_another_kind_of_file_is_named(tmp_path: Path, data: bytes, what: str) -> None:
    """By what it holds, though its name ends in .png."""
    told = faults(tmp_path, "bed.png", data)
    assert told == f'4:14: the picture "bed.png" {what}; save it as PNG or JPEG'


def test_a_missing_picture(tmp_path: Path) -> None:
    right = "check its name, capitals too, and that it is in the review's folder"
    assert faults(tmp_path, "bed.png", None) == f'4:14: the picture "bed.png" is not there; {right}'


@pytest.mark.parametrize(
    ("name", "wrong"),
    [
        ("../bed.png", "lies outside the review's folder"),
        ("plans/../../bed.png", "lies outside the review's folder"),
        ("/pictures/bed.png", "is named by a whole path"),
        ("'C:\\bed.png'", "is named by a whole path"),
    ],
)
def test_a_picture_outside_the_folder(tmp_path: Path, name: str, wrong: str) -> None:
    inside = tmp_path / "reviews"
    inside.mkdir()
    (tmp_path / "bed.png").write_bytes(saved("PNG"))
    told = faults_of(inside, ITEM.format(image=name, alt="A bed."))
    plain = name.strip("'")
    right = "put it in the review's folder and write its name"
    assert told == f'4:14: the picture "{plain}" {wrong}; {right}'


def test_a_link_that_leads_outside(tmp_path: Path) -> None:
    inside = tmp_path / "reviews"
    inside.mkdir()
    (tmp_path / "bed.png").write_bytes(saved("PNG"))
    (inside / "bed.png").symlink_to(tmp_path / "bed.png")
    told = faults_of(inside, ITEM.format(image="bed.png", alt="A bed."))
    assert "lies outside the review's folder" in told


def test_a_folder_is_no_picture(tmp_path: Path) -> None:
    (tmp_path / "bed.png").mkdir()
    told = faults(tmp_path, "bed.png", None)
    assert told == '4:14: the picture "bed.png" is a folder; name a file in it'


def test_a_file_of_too_many_bytes_is_not_read(tmp_path: Path) -> None:
    data = saved("PNG").ljust(MAX_BYTES + 1, b"\0")
    right = "make it smaller: at most 10 MB"
    told = faults(tmp_path, "bed.png", data)
    assert told == f'4:14: the picture "bed.png" has 10,000,001 bytes; {right}'


@pytest.mark.parametrize("side", [7_000, 12_000, 60_000])
def test_a_picture_of_too_many_pixels_is_not_unpacked(tmp_path: Path, side: int) -> None:
    """A few hundred bytes that would unpack to 6 MB up to 450 MB: refused by their head."""
    told = faults(tmp_path, "bed.png", png_head(side, side))
    assert told.startswith('4:14: the picture "bed.png" is ')
    assert "at most 40 million pixels" in told
    assert "broken" not in told


@pytest.mark.parametrize(
    "data",
    [
        saved("PNG", (300, 200))[:200],
        saved("JPEG", (300, 200))[:300],
        png_head(300, 200),
        b"\x89PNG\r\n\x1a\n" + b"\xff" * 50,
        b"\xff\xd8\xff" + b"\0" * 50,
    ],
)
def test_a_broken_picture(tmp_path: Path, data: bytes) -> None:
    told = faults(tmp_path, "bed.png", data)
    right = "save it again, and look whether it opens"
    assert told == f'4:14: the picture "bed.png" is broken; {right}'


def test_a_photo_to_be_turned_is_turned(tmp_path: Path) -> None:
    """Orientation 6 of EXIF 2.32 (4.6.4): rotate by 90 degrees to see it upright."""
    exif = Image.Exif()
    exif[0x0112] = 6
    assert faults(tmp_path, "bed.jpg", saved("JPEG", (60, 40), exif=exif)) == ""
    stimulus = load([tmp_path / "beds.yaml"]).reviews[0].items[0].stimulus
    assert stimulus is not None
    assert stimulus.picture is not None
    assert (stimulus.picture.width, stimulus.picture.height) == (40, 60)
    with Image.open(io.BytesIO(stimulus.picture.data)) as turned:
        assert turned.size == (40, 60)
        assert turned.getexif().get(0x0112, 1) == 1


def test_a_picture_needs_words(tmp_path: Path) -> None:
    (tmp_path / "bed.png").write_bytes(saved("PNG"))
    told = faults_of(tmp_path, ITEM.format(image="bed.png", alt="x").replace("      alt: x\n", ""))
    right = "add alt: with what the picture shows, in words, for those who cannot see it"
    assert told == f'4:14: "image" has no "alt"; {right}'


def test_words_need_a_picture(tmp_path: Path) -> None:
    told = faults_of(tmp_path, ITEM.format(image="x", alt="A bed.").replace("      image: x\n", ""))
    assert told == '4:7: "alt" needs an image; add image: with the picture\'s file'


def test_empty_words_and_misspelt_keys_are_told_once(tmp_path: Path) -> None:
    (tmp_path / "bed.png").write_bytes(saved("PNG"))
    empty = faults_of(tmp_path, ITEM.format(image="bed.png", alt='""'))
    assert empty == '5:12: "alt" is empty; fill it in, or leave the key out'
    misspelt = faults_of(tmp_path, ITEM.format(image="bed.png", alt="x").replace("image", "imgae"))
    assert misspelt == '4:7: unknown key "imgae"; did you mean "image"?'
