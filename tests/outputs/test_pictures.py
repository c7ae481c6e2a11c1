"""Pictures without an office program show what LibreOffice shows of the same slides.

Drawn by resvg (PyPI resvg_py) from our SVG; held against LibreOffice's PDF of the flat deck, read
by poppler (`pdftotext -bbox`, `pdftoppm`).
"""

from __future__ import annotations

import io
import re
import shutil
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass, replace
from html import unescape
from pathlib import Path

import pytest
from PIL import Image, ImageChops, ImageFilter

from narrate.items.loading import load
from narrate.items.picking import pick
from narrate.lesson.lesson import Lesson
from narrate.lesson.marks import Page, Text
from narrate.lesson.palette import DARK
from narrate.lesson.timeline import predict
from narrate.lesson.wording import Words
from narrate.outputs import USUAL, Options, deck, find_outputs, make_options, pictures
from narrate.outputs._raster import rasters
from narrate.outputs._sheets import sheets
from narrate.outputs._svg import svg
from narrate.pipeline import make_lesson
from tests.outputs.libreoffice import convert
from tests.outputs.samples_deck import sample, times
from tests.outputs.templates_made import BOARD, template

FLAT = Options(builds="flat")
DEMO = Path(__file__).resolve().parents[2] / "problems" / "garden-week.yaml"

TOLERANCE = 200
"""Two points, in hundredths: what a text may stand off its place (of 960 × 540 points)."""

ROUGHLY = 0.001
"""The share of a picture that may differ plainly. Out of focus by 4 pixels of 640, letters that
LibreOffice kerns and we do not are alike; a struck choice more or less is not."""


def lesson() -> Lesson:
    """A part with a strip and boxes, and one with choices and a number line."""
    reviews = load([DEMO]).reviews
    (first,), (second,) = pick(reviews, "compost.1"), pick(reviews, "rain-barrel")
    both = replace(first, items=(*first.items, *second.items))
    told, _, _ = make_lesson(both, Words("en"))
    assert told is not None
    return told


@dataclass(frozen=True)
class Drawn:
    """One page as LibreOffice draws it: words with their boxes (points × 100), and a picture."""

    words: list[tuple[str, float, float, float, float]]
    picture: Image.Image


@dataclass(frozen=True)
class Both:
    """A lesson, and its decks as LibreOffice draws them."""

    lesson: Lesson
    flat: list[Drawn]
    by_hand: list[Drawn]


@pytest.fixture(scope="module")
def both(tmp_path_factory: pytest.TempPathFactory) -> Both:
    if shutil.which("pdftoppm") is None:
        pytest.skip("poppler (pdftoppm) is not installed")
    folder, told = tmp_path_factory.mktemp("pictures"), lesson()
    for name, options in (("flat", FLAT), ("hand", USUAL)):
        with (folder / f"{name}.pptx").open("wb") as sink:
            deck.write(told, predict(told), options, sink)
    convert(folder, "pdf", "flat.pptx", "hand.pptx")
    return Both(told, list(drawn(folder, "flat")), list(drawn(folder, "hand")))


def drawn(folder: Path, name: str) -> Iterator[Drawn]:
    for command in (
        ["pdftotext", "-bbox", f"{name}.pdf", f"{name}.html"],
        ["pdftoppm", "-scale-to-x", "640", "-scale-to-y", "360", "-png", f"{name}.pdf", name],
    ):
        subprocess.run(command, cwd=folder, check=True, capture_output=True, timeout=120)
    pages = (folder / f"{name}.html").read_text("utf-8").split("<page ")[1:]
    files = sorted(folder.glob(f"{name}-*.png"))
    for page, file in zip(pages, files, strict=True):
        found = re.findall(
            r'<word xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">(.*?)</word>',
            page,
        )
        words = [(unescape(w), *(float(at) * 100 for at in places)) for *places, w in found]
        yield Drawn(words, Image.open(file).convert("L"))  # type: ignore[arg-type]


def texts(page: Page) -> Iterator[Text]:
    yield page.heading
    for group in page.base:
        yield from (mark for mark in group.marks if isinstance(mark, Text))


def astray(page: Page, seen: Drawn) -> list[str]:
    """Lines of the page that do not begin and stand, within the tolerance, where the page says.

    A sign between two fractions is left to the pictures: poppler joins it to a digit beside it. It
    joins the whole of a small mixed number, too: then it stands within the joined word.
    """
    found = []
    for mark in texts(page):
        for number, line in enumerate(mark.lines):
            words = line.split()
            if words[-1:] == ["("]:
                words.pop()
            if any(map(str.isalnum, line)) and not any(
                _is_at(seen, start, words, mark, mark.y + number * mark.leading)
                for start in range(len(seen.words))
            ):
                found.append(f"{line!r} at {mark.x}, {mark.y}")
    return found


def _is_at(seen: Drawn, start: int, words: list[str], mark: Text, top: int) -> bool:
    run = seen.words[start : start + len(words)]
    if len(words) == 1 and words[0].isdigit() and words[0] != run[0][0]:
        joined, left, upper, right, lower = run[0]
        inside = left - TOLERANCE <= mark.x <= right and upper <= top + mark.size // 2 <= lower
        return words[0] in joined and inside
    if [word[0] for word in run] != words:
        return False
    left, right, upper = run[0][1], run[-1][3], run[0][2]
    if mark.align == "centre":
        across = (left + right) / 2 - (mark.x + mark.width / 2)
    else:
        across = left - mark.x
    return abs(across) <= TOLERANCE and abs(upper - top) <= TOLERANCE


def plain_difference(first: Image.Image, second: Image.Image) -> float:
    """The share of pixels that differ by a tenth of the range, both out of focus."""
    soft = [each.convert("L").filter(ImageFilter.GaussianBlur(4)) for each in (first, second)]
    apart = ImageChops.difference(*soft).point(lambda grey: 255 if grey > 28 else 0)
    return apart.histogram()[255] / (apart.width * apart.height)


def ours(page: Page, builds: int, width: int) -> Image.Image:
    (data,) = rasters([(svg(page, builds), width)])
    return Image.open(io.BytesIO(data))


class TestAgainstLibreOffice:
    def test_every_text_stands_in_its_place(self, both: Both) -> None:
        pages = sheets(both.lesson, FLAT)
        assert len(pages) == len(both.flat) > 30
        for page, seen in zip(pages, both.flat, strict=True):
            assert astray(page, seen) == [], page.title

    def test_a_text_elsewhere_is_seen(self, both: Both) -> None:
        page = sheets(both.lesson, FLAT)[1]
        moved = replace(page, heading=replace(page.heading, x=page.heading.x + TOLERANCE * 2))
        assert len(astray(moved, both.flat[1])) == 1

    def test_pictures_look_the_same(self, both: Both) -> None:
        for page, seen in zip(sheets(both.lesson, FLAT), both.flat, strict=True):
            picture = ours(page, 0, seen.picture.width)
            numbered = (0, 0, 640, 324)  # without the slide's number
            differ = plain_difference(picture.crop(numbered), seen.picture.crop(numbered))
            assert differ <= ROUGHLY, (page.title, page.beats)

    @pytest.mark.parametrize("name", ["line ", "strike ", "bar: 3/4"])
    def test_a_missing_build_is_seen(self, both: Both, name: str) -> None:
        page = max(both.lesson.pages, key=lambda each: len(each.builds))
        (at,) = [n for n, each in enumerate(both.lesson.pages) if each is page]
        seen = both.by_hand[at].picture
        left_out = next(b for b in page.builds if b.group.name.startswith(name))
        less = replace(page, builds=tuple(b for b in page.builds if b is not left_out))
        assert plain_difference(ours(less, len(less.builds), seen.width), seen) > ROUGHLY


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("files")
    pictures.write(sample(), times(sample()), USUAL, folder)
    return folder


def size(path: Path) -> tuple[int, int]:
    with Image.open(path) as picture:
        return picture.size


class TestFiles:
    def test_it_is_asked_for_by_name(self) -> None:
        found = find_outputs()["pictures"]
        assert (found.FILE, found.DEFAULT) == ("pictures/", False)

    def test_each_slide_each_build_and_a_sheet_for_each_part(self, folder: Path) -> None:
        wanted = {f"slide-{n:02}.png" for n in range(1, 5)} | {"sheet-rain-barrel.1.png"}
        for number, page in enumerate(sample().pages, start=1):
            if page.builds:
                wanted |= {
                    f"slide-{number:02}-build-{k:02}.png" for k in range(len(page.builds) + 1)
                }
        assert {path.name for path in folder.iterdir()} == wanted

    def test_sizes(self, folder: Path) -> None:
        for path in folder.glob("slide-*.png"):
            assert size(path) == (1280, 720)
        assert size(folder / "sheet-rain-barrel.1.png")[0] == 2040

    def test_the_last_build_is_the_slide(self, folder: Path) -> None:
        last = max(folder.glob("slide-03-build-*.png"))
        assert last.read_bytes() == (folder / "slide-03.png").read_bytes()

    def test_same_bytes_again(self, folder: Path, tmp_path: Path) -> None:
        pictures.write(sample(), times(sample()), USUAL, tmp_path)
        for path in folder.iterdir():
            assert (tmp_path / path.name).read_bytes() == path.read_bytes()

    def test_the_dark_look(self, tmp_path: Path) -> None:
        pictures.write(sample(), times(sample()), Options(dark=True), tmp_path)
        ground = Image.open(tmp_path / "slide-01.png").convert("RGB").getpixel((2, 2))
        assert ground == tuple(bytes.fromhex(DARK["paper"]))

    def test_a_teachers_template_gives_its_colours(self, tmp_path: Path) -> None:
        """Her background, and her ink, F5F0E1, for the title."""
        school = tmp_path / "school.pptx"
        school.write_bytes(template(BOARD))
        chosen = make_options(builds="by-hand", dark=False, theme=school, templates=None)
        pictures.write(sample(), times(sample()), chosen, tmp_path)
        seen = Image.open(tmp_path / "slide-01.png").convert("RGB")
        assert seen.getpixel((2, 2)) == tuple(bytes.fromhex(BOARD["lt1"]))
        assert tuple(bytes.fromhex(BOARD["dk1"])) in {
            colour for _, colour in seen.getcolors(1_000_000) or ()
        }

    def test_many_are_drawn_by_all_processors_in_order(self) -> None:
        """The way for many gives what the way for few gives."""
        page = sample().pages[2]
        few = [(svg(page, k), 200) for k in range(5)]
        assert list(rasters(few * 6)) == list(rasters(few)) * 6
