"""The teacher's own pictures: found beside the review, judged before they are decoded.

A picture is judged by what it holds, never by its name. Size is read from its head, so that one
which would unpack into gigabytes is refused without being unpacked.
"""

from __future__ import annotations

import io
import warnings
from pathlib import Path, PurePosixPath, PureWindowsPath
from typing import Any, Literal

from narrate.items.item import PictureGiven
from narrate.items.texts import Flaw, shorten

MAX_BYTES = 10_000_000
MAX_PIXELS = 40_000_000
"""More than a phone's camera gives, a hundred times what a slide shows."""

SAVE_AS = "save it as PNG or JPEG"

_KINDS: tuple[tuple[int, bytes, Literal["png", "jpeg"]], ...] = (
    (0, b"\x89PNG\r\n\x1a\n", "png"),
    (0, b"\xff\xd8\xff", "jpeg"),
)
_OTHERS = (
    (0, b"GIF8", "a GIF picture"),
    (0, b"%PDF", "a PDF document"),
    (0, b"BM", "a BMP picture"),
    (0, b"II*\x00", "a TIFF picture"),
    (0, b"MM\x00*", "a TIFF picture"),
    (8, b"WEBP", "a WebP picture"),
    (4, b"ftyp", "a HEIC or AVIF picture, or a video"),
    (0, b"<svg", "an SVG drawing"),
    (0, b"<?xml", "an SVG drawing or other XML"),
    (0, b"PK\x03\x04", "an office document or zip file"),
)
"""How files begin that teachers have at hand, at which byte; each format's own specification."""


def read_picture(folder: Path, name: str, alt: str) -> PictureGiven | Flaw:
    """The picture called `name` in a review's folder (or deeper), or what is wrong with it."""
    found = _find(folder, name)
    if isinstance(found, Flaw):
        return found
    try:
        size = found.stat().st_size
        if size > MAX_BYTES:
            most = f"make it smaller: at most {MAX_BYTES // 10**6} MB"
            return _flaw(name, f"has {size:,} bytes", most)
        data = found.read_bytes()
    except OSError as error:
        return _flaw(name, f"cannot be read ({error.strerror})", "check who may read it")
    return _judge(name, data, alt)


def _flaw(name: str, wrong: str, right: str) -> Flaw:
    return Flaw(f'the picture "{shorten(name)}" {wrong}', right)


def _find(folder: Path, name: str) -> Path | Flaw:
    """The file, if it is one and lies in the folder, links followed."""
    inside = "put it in the review's folder and write its name"
    if PurePosixPath(name).is_absolute() or PureWindowsPath(name).anchor:
        return _flaw(name, "is named by a whole path", inside)
    try:
        path = folder / name
        if not path.resolve().is_relative_to(folder.resolve()):
            return _flaw(name, "lies outside the review's folder", inside)
        if path.is_dir():
            return _flaw(name, "is a folder", "name a file in it")
        if path.is_file():
            return path
    except (OSError, ValueError):
        pass
    where = "its folder" if len(PurePosixPath(name).parts) > 1 else "the review's folder"
    return _flaw(name, "is not there", f"check its name, capitals too, and that it is in {where}")


def _judge(name: str, data: bytes, alt: str) -> PictureGiven | Flaw:
    kind = next((kind for at, head, kind in _KINDS if data.startswith(head, at)), None)
    if kind is None:
        what = next((what for at, head, what in _OTHERS if data.startswith(head, at)), "")
        if not data:
            return _flaw(name, "is empty", SAVE_AS)
        return _flaw(name, f"is {what}" if what else "is no picture that I know", SAVE_AS)
    return _decoded(name, data, kind, alt)


def _decoded(name: str, data: bytes, kind: Literal["png", "jpeg"], alt: str) -> PictureGiven | Flaw:
    from PIL import Image  # half a build's start-up time, and few reviews have pictures

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            opened = Image.open(io.BytesIO(data), formats=[kind.upper()])
            width, height = opened.size
            if width * height > MAX_PIXELS:
                return _too_many(name, width, height)
            opened.load()
            data, (width, height) = _upright(opened, data, kind)
    except Image.DecompressionBombError:
        return _flaw(name, "is far too large", f"use at most {MAX_PIXELS // 10**6} million pixels")
    except Exception:  # decoders fail in many ways, and all mean the same
        return _flaw(name, "is broken", "save it again, and look whether it opens")
    return PictureGiven(data=data, kind=kind, width=width, height=height, alt=alt)


def _too_many(name: str, width: int, height: int) -> Flaw:
    most = f"make it smaller: at most {MAX_PIXELS // 10**6} million pixels"
    return _flaw(name, f"is {width:,} by {height:,} pixels", most)


def _upright(
    opened: Any, data: bytes, kind: Literal["png", "jpeg"]
) -> tuple[bytes, tuple[int, int]]:
    """A photo that is to be turned before it is shown, turned: not every program does it."""
    from PIL import ExifTags, ImageOps

    if opened.getexif().get(ExifTags.Base.Orientation, 1) == 1:
        return data, opened.size
    turned = ImageOps.exif_transpose(opened)
    memory = io.BytesIO()
    turned.save(memory, format=kind.upper(), **({"quality": 92} if kind == "jpeg" else {}))
    return memory.getvalue(), turned.size
