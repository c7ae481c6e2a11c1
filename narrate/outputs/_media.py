"""Pictures and sounds in the deck's package: each file once, however many slides have it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from hashlib import sha256

from narrate.lesson.marks import Page, Picture

_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_KINDS = {
    "Picture": f"{_OFFICE}/image",
    "Sound": f"{_OFFICE}/audio",
    "Media": "http://schemas.microsoft.com/office/2007/relationships/media",
}
"""The relationships of slides to files: the start of the name we give it, and its type.

A sound has two: the standard's own, and the one by which later programs find it in the package.
"""
_CALLED = re.compile(rb'r:(?:embed|link)="(rId(Picture|Sound|Media)([0-9a-f]+))"')

TYPES = {"png": "image/png", "jpeg": "image/jpeg", "m4a": "audio/mp4", "wav": "audio/wav"}
"""What a file of each kind is, as content types say it."""


def name(picture: Picture) -> str:
    """The file's name in the package: the same data, the same name."""
    return f"picture-{_digest(picture)}.{picture.kind}"


def relationship(picture: Picture) -> str:
    """What a slide calls the picture by."""
    return f"rIdPicture{_digest(picture)}"


def _digest(picture: Picture) -> str:
    return digest(picture.data)


def digest(data: bytes) -> str:
    """What a file is known by: the same data, the same name."""
    return sha256(data).hexdigest()[:16]


def media(pages: Iterable[Page]) -> dict[str, bytes]:
    """The data of all pictures on some pages, by name."""
    return {name(mark): mark.data for page in pages for mark in _pictures(page)}


def _pictures(page: Page) -> Iterator[Picture]:
    for group in (*page.base, *(build.group for build in page.builds)):
        yield from (mark for mark in group.marks if isinstance(mark, Picture))


def called(slide: bytes, files: Mapping[str, bytes]) -> list[tuple[str, str, str]]:
    """The relationships of a slide to files: what it calls each, the type, and the file's name."""
    wanted = sorted({tuple(part.decode() for part in found) for found in _CALLED.findall(slide)})
    names = {file.partition("-")[2].partition(".")[0]: file for file in files}
    return [(call, _KINDS[kind], names[own]) for call, kind, own in wanted]
