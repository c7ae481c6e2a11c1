"""Pictures in the deck's package: each file once, however many slides show it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from hashlib import sha256

from narrate.lesson.marks import Page, Picture

_EMBEDDED = re.compile(rb'r:embed="(rIdPicture[0-9a-f]+)"')


def name(picture: Picture) -> str:
    """The file's name in the package: the same data, the same name."""
    return f"picture-{_digest(picture)}.{picture.kind}"


def relationship(picture: Picture) -> str:
    """What a slide calls the picture by."""
    return f"rIdPicture{_digest(picture)}"


def _digest(picture: Picture) -> str:
    return sha256(picture.data).hexdigest()[:16]


def media(pages: Iterable[Page]) -> dict[str, bytes]:
    """The data of all pictures on some pages, by name."""
    return {name(mark): mark.data for page in pages for mark in _pictures(page)}


def _pictures(page: Page) -> Iterator[Picture]:
    for group in (*page.base, *(build.group for build in page.builds)):
        yield from (mark for mark in group.marks if isinstance(mark, Picture))


def embedded(slide: bytes, files: Mapping[str, bytes]) -> list[tuple[str, str]]:
    """The relationships of a slide to pictures: what it calls each, and the file's name."""
    wanted = sorted({found.decode() for found in _EMBEDDED.findall(slide)})
    by_call = {f"rIdPicture{file[8:].partition('.')[0]}": file for file in files}
    return [(call, by_call[call]) for call in wanted]
