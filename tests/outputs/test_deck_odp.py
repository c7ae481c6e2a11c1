"""Builds and places as an independent reader sees them: LibreOffice.

The deck is converted to OpenDocument (ODF 1.3 Part 3, 15: animation) and to pictures.
"""

from __future__ import annotations

import shutil
import subprocess
from itertools import groupby
from pathlib import Path

import pytest
from PIL import Image

from narrate.lesson.marks import Page
from narrate.outputs import USUAL, deck
from tests.outputs.libreoffice import Played, Steps, convert, played, slides
from tests.outputs.samples_deck import sample, times


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the sample deck as pptx, odp and pdf."""
    folder = tmp_path_factory.mktemp("deck")
    lesson = sample()
    with (folder / "deck.pptx").open("wb") as sink:
        deck.write(lesson, times(lesson), USUAL, sink)
    for kind in ("odp", "pdf"):
        convert(folder, kind, "deck.pptx")
    return folder


def intended(page: Page) -> Steps:
    """What the page means: a click for each beat, its later builds by themselves."""
    return [
        [
            Played(
                target=build.group.name,
                effect=build.effect,
                trigger="after-previous" if place else "on-click",
                subtype="from-left" if build.effect == "wipe" else None,
                delay=200 if place else 0,
            )
            for place, build in enumerate(builds)
        ]
        for _, builds in groupby(page.builds, key=lambda build: build.beat)
    ]


def test_every_slide_has_the_steps_effects_and_targets_of_its_page(folder: Path) -> None:
    _, pages = slides(folder / "deck.odp")
    assert [played(page) for page in pages] == [intended(page) for page in sample().pages]
    assert sum(len(played(page)) for page in pages) == 5


@pytest.fixture(scope="module")
def pictures(folder: Path) -> list[Image.Image]:
    """Each slide at 72 dots an inch times 2: 50 hundredths of a point to a pixel."""
    if shutil.which("pdftoppm") is None:
        pytest.skip("poppler (pdftoppm) is not installed")
    command = ["pdftoppm", "-r", "144", "-png", "deck.pdf", "slide"]
    subprocess.run(command, cwd=folder, check=True, capture_output=True, timeout=60)
    return [Image.open(file).convert("L") for file in sorted(folder.glob("slide-*.png"))]


def inked(picture: Image.Image, left: int, top: int, right: int, bottom: int) -> tuple[int, ...]:
    """The box around what is dark inside an area, in hundredths of a point."""
    area = picture.crop((left // 50, top // 50, right // 50, bottom // 50))
    box = area.point(lambda grey: 255 if grey < 128 else 0).getbbox()
    assert box is not None, "nothing is drawn there"
    return (
        left + box[0] * 50,
        top + box[1] * 50,
        left + box[2] * 50,
        top + box[3] * 50,
    )


ASCENT, FIGURE = 0.905, 0.688
"""Of Liberation Sans, which LibreOffice sets for Arial, in ems from its hhea and OS/2 tables:
from the top of a line to its base line; height of a capital, and of a figure without curves."""

TOLERANCE = 150
"""One and a half points: three pixels of the picture."""


class TestPlaces:
    """Text stands where the page says, in LibreOffice's picture of the deck."""

    def test_one_line(self, pictures: list[Image.Image]) -> None:
        """The title “That’s all” is set at 54 pt from (36, 160)."""
        left, top, _, bottom = inked(pictures[3], 3000, 15_000, 40_000, 24_000)
        base = 16_000 + ASCENT * 5400
        assert abs(bottom - base) <= TOLERANCE
        assert abs(top - (base - FIGURE * 5400)) <= 2 * TOLERANCE
        assert abs(left - 3600) <= 2 * TOLERANCE

    def test_base_lines_of_many_lines(self, pictures: list[Image.Image]) -> None:
        """The first letters of three lines, A, a and o, stand on base lines a leading apart."""
        for number in range(3):
            base = round(9000 + ASCENT * 2800 + number * 3360)
            bottom = inked(pictures[1], 3600, base - 1500, 5000, base + 600)[3]
            assert abs(bottom - base) <= TOLERANCE

    def test_digits_of_a_stack_stand_in_the_middle_of_their_halves(
        self, pictures: list[Image.Image]
    ) -> None:
        """“3/4” is 1.9 × 36 pt high from y = 90, its rule in the middle."""
        middle, gap = 9000 + 3420, (3420 - FIGURE * 3600) / 2
        rule = inked(pictures[2], 3500, middle - 200, 6000, middle + 200)
        top = inked(pictures[2], 3500, 8500, 6000, middle - 200)
        bottom = inked(pictures[2], 3500, middle + 200, 6000, 16_500)
        assert abs((rule[1] + rule[3]) / 2 - middle) <= TOLERANCE
        assert abs(top[3] - (middle - gap)) <= TOLERANCE
        assert abs(bottom[1] - (middle + gap)) <= TOLERANCE
