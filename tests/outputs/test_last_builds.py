"""What a slide shows after its last build is what its last flat slide shows.

LibreOffice draws a slide with all its builds; of the flat decks it is given the last slide of each
page. Both demo reviews, and an item of each form (`tests/generated.py`). Texts are held against the
places that our own pictures draw them at.
"""

from __future__ import annotations

import io
import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from PIL import ImageChops
from pptx import Presentation

from narrate.lesson.lesson import Lesson
from narrate.lesson.marks import Page
from narrate.lesson.timeline import predict
from narrate.outputs import USUAL, Options, deck
from narrate.outputs._sheets import sheets
from tests.outputs.libreoffice import convert
from tests.outputs.test_deck_plays import demos, many
from tests.outputs.test_pictures import Drawn, astray, drawn

FLAT = Options(builds="flat")
FORMS = 14
"""One made item of each form."""

NAMES = ("garden-week", "kitchen-market", "made")


@dataclass(frozen=True)
class Shown:
    """The pages of a lesson at their ends, each as LibreOffice draws it, built up and flat."""

    pages: list[Page]
    by_hand: list[Drawn]
    flat: list[Drawn]


def last_slides(lesson: Lesson) -> list[int]:
    """For each page the place of its last slide in the flat deck."""
    beats = [page.beats[-1] for page in sheets(lesson, FLAT)]
    return [len(beats) - 1 - beats[::-1].index(page.beats[-1]) for page in lesson.pages]


def written(lesson: Lesson, options: Options) -> io.BytesIO:
    sink = io.BytesIO()
    deck.write(lesson, predict(lesson), options, sink)
    return sink


def only(sink: io.BytesIO, kept: list[int]) -> Any:
    """A deck that shows only these of its slides, whose parts stay as they were written."""
    shown: Any = Presentation(sink)
    numbers = shown.slides._sldIdLst
    for place, number in enumerate(list(numbers)):
        if place not in kept:
            numbers.remove(number)
    for extension in shown.element.findall("{*}extLst"):  # its sections name all slides
        shown.element.remove(extension)
    return shown


@pytest.fixture(scope="module")
def shown(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Shown]:
    if shutil.which("pdftoppm") is None:
        pytest.skip("poppler (pdftoppm) is not installed")
    folder = tmp_path_factory.mktemp("last")
    lessons = dict(zip(NAMES, (*demos(), *many(FORMS, at_once=FORMS)), strict=True))
    for name, lesson in lessons.items():
        (folder / f"{name}-hand.pptx").write_bytes(written(lesson, USUAL).getvalue())
        only(written(lesson, FLAT), last_slides(lesson)).save(folder / f"{name}-flat.pptx")
    convert(folder, "pdf", *(f"{name}-{form}.pptx" for name in NAMES for form in ("hand", "flat")))
    return {name: Shown(*_seen(folder, name, lesson)) for name, lesson in lessons.items()}


def _seen(folder: Path, name: str, lesson: Lesson) -> Iterator[list[Any]]:
    flat = sheets(lesson, FLAT)
    yield [flat[at] for at in last_slides(lesson)]
    for form in ("hand", "flat"):
        yield list(drawn(folder, f"{name}-{form}"))


@pytest.mark.parametrize("name", NAMES)
class TestLastBuild:
    def test_the_flat_slide_is_the_same_to_the_pixel(
        self, shown: dict[str, Shown], name: str
    ) -> None:
        found = shown[name]
        assert len(found.pages) > 25
        for page, seen, flat in zip(found.pages, found.by_hand, found.flat, strict=True):
            width, height = seen.picture.size
            clear = (0, 0, width, height * 9 // 10)  # the slides' numbers differ
            apart = ImageChops.difference(flat.picture.crop(clear), seen.picture.crop(clear))
            assert apart.getbbox() is None, page.title

    def test_every_text_stands_where_our_pictures_have_it(
        self, shown: dict[str, Shown], name: str
    ) -> None:
        for page, seen in zip(shown[name].pages, shown[name].flat, strict=True):
            assert astray(page, seen) == [], page.title
