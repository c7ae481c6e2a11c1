"""What a pupil can make out: contrast in both looks, sizes, words a step, room for captions.

Contrast is that of WCAG 2.2 (success criteria 1.4.3 and 1.4.11, level AA), worked out here by
itself over pages as they are, fills under words and lines included. Sizes are the project's own
(its trade facts: a page of 13.333 × 7.5 inches; common guidance, no source).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache

import pytest

from narrate.items.item import Item, PictureGiven, Review
from narrate.items.loading import load
from narrate.lesson.block import Area, area
from narrate.lesson.lesson import Lesson
from narrate.lesson.marks import (
    PAGE_HEIGHT,
    Box,
    Colour,
    Dot,
    Group,
    Page,
    Path,
    Picture,
    Plain,
    Rule,
    Stack,
    Text,
)
from narrate.lesson.pages import part_pages
from narrate.lesson.palette import LOOKS, Palette
from narrate.lesson.shows import StemMark
from narrate.lesson.view import PartView
from narrate.lesson.wording import Words
from narrate.pipeline import make_lesson
from tests.generated import parts
from tests.lesson.samples import SAMPLES
from tests.lesson.told import DEMO

TEXT, LARGE, GRAPHIC = 4.5, 3.0, 3.0
LARGE_SIZE = 1_800
"""WCAG 2.2: large text is 18 pt and more."""


def _lesson(items: Sequence[Item]) -> Lesson:
    review = Review(id="r", title="R", grade=5, language="en", items=tuple(items))
    lesson, _, _ = make_lesson(review, Words("en"))
    assert lesson is not None
    return lesson


@cache
def demo() -> tuple[Page, ...]:
    (review,) = load([DEMO]).reviews
    return _lesson(review.items).pages


@cache
def made() -> tuple[Page, ...]:
    """Pages of 500 items made up at random."""
    return _lesson(tuple(dict.fromkeys(item for item, _ in parts(500, seed=77)))).pages


@cache
def samples() -> tuple[Page, ...]:
    """Pages told by hand: every show and every figure."""
    made = (sample() for sample in SAMPLES.values())
    return tuple(page for each in made for page in part_pages(each.view, each.told))


PAGES = pytest.mark.parametrize("pages", [demo, made, samples], ids=["demo", "made", "samples"])


def groups(page: Page) -> list[Group]:
    heading = Group(name="heading", alt=page.title, marks=(page.heading,))
    return [heading, *page.base, *(build.group for build in page.builds)]


# -- contrast ----------------------------------------------------------------------------------


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    channels = [int(colour[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return sum(w * c for w, c in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


@cache
def ratio(first: str, second: str) -> float:
    """Contrast ratio as WCAG 2.2 defines it."""
    dark, light = sorted((luminance(first), luminance(second)))
    return (light + 0.05) / (dark + 0.05)


@dataclass(frozen=True, slots=True)
class Pair:
    """A colour on a ground, and how far apart they must be."""

    colour: Colour
    ground: Colour
    least: float
    what: str


def grounds(mark: Plain, earlier: Sequence[Plain]) -> set[Colour]:
    """What a mark is drawn on: the paper, and what was filled under it before, topmost first."""
    own, found = area(mark), set[Colour]()
    for under in reversed(earlier):
        fill = under.fill if isinstance(under, Box | Dot | Path) else None
        if fill is None or not area(under).meets(Area(own.x, own.y, own.width + 1, own.height + 1)):
            continue
        if isinstance(under, Path) and isinstance(mark, Path) and fill == mark.line:
            continue  # the head of an arrow, which the next one starts from
        found.add(fill)
        if isinstance(under, Box) and area(under).holds(own):
            return found | ({"paper"} if under.hatched else set())
    return found | {"paper"}


def pairs(page: Page) -> Iterator[Pair]:
    """Every colour that must be told from its ground on a page at its end.

    Builds only add: what is on the page earlier is on its end as well, or covered in it by what is
    drawn later, and a mark's ground is what was drawn before it.
    """
    drawn: list[Plain] = []
    for group in groups(page):
        for mark in group.marks:
            under = grounds(mark, drawn)
            for colour, least in _told(mark):
                yield from (Pair(colour, ground, least, group.name) for ground in under)
            if (
                isinstance(mark, Box | Dot | Path)
                and mark.fill
                and mark.line not in (None, mark.fill)
            ):
                assert mark.line
                yield Pair(mark.line, mark.fill, GRAPHIC, group.name)
            drawn.append(mark)


def _told(mark: Plain) -> Iterator[tuple[Colour, float]]:
    match mark:
        case Text(size=size, colour=colour):
            yield colour, LARGE if size >= LARGE_SIZE else TEXT
        case Stack(size=size, colour=colour):
            yield colour, LARGE if size >= LARGE_SIZE else TEXT
        case Rule(colour=colour):
            yield colour, GRAPHIC
        case Box(line=line, fill=fill, hatched=hatched):
            if line:
                yield line, GRAPHIC
            if fill and (hatched or line is None):
                yield fill, GRAPHIC
        case Dot(line=line, fill=fill) | Path(line=line, fill=fill):
            # A halo of paper is no mark of its own: it parts a point from what is under it.
            if line and line != "paper":
                yield line, GRAPHIC
            if fill and line is None:
                yield fill, GRAPHIC
        case Picture():
            pass


@PAGES
@pytest.mark.parametrize("look", LOOKS)
def test_every_word_and_line_stands_out_from_what_it_is_on(pages: object, look: str) -> None:
    assert callable(pages)
    palette: Palette = LOOKS[look]
    found = {pair for page in pages() for pair in pairs(page)}
    assert len({(pair.colour, pair.ground) for pair in found}) > 8
    weak = {
        (pair.colour, pair.ground, pair.what)
        for pair in found
        if ratio(palette[pair.colour], palette[pair.ground]) < pair.least
    }
    assert weak == set()


@pytest.mark.parametrize("look", LOOKS)
def test_words_reach_the_ratio_of_small_text_on_paper_and_in_boxes(look: str) -> None:
    """More than is asked of text so large: 4.5 to 1 for a projector in a bright room."""
    palette = LOOKS[look]
    for colour in ("ink", "pen", "quiet"):
        for ground in ("paper", "panel") if colour != "quiet" else ("paper",):
            assert ratio(palette[colour], palette[ground]) >= TEXT


def test_stripes_on_the_board_are_well_above_what_is_asked() -> None:
    """Stripes are thin: on a dark ground 3 to 1 was too faint to look at."""
    board = LOOKS["dark"]
    assert min(ratio(board[colour], board["paper"]) for colour in ("second", "third")) >= 4


def test_looks_have_the_same_roles() -> None:
    assert set(LOOKS["light"]) == set(LOOKS["dark"]) == set(Colour.__args__)  # type: ignore[attr-defined]


def test_a_weak_pair_is_found() -> None:
    """Pen on the first amount's fill would be 2.2 to 1 on paper."""
    page = demo()[2]
    box = Box(x=10_000, y=10_000, width=9_000, height=9_000, fill="first")
    rule = Rule(x1=11_000, y1=12_000, x2=15_000, y2=12_000, weight=200, colour="pen")
    planted = Group(name="planted", alt="a line", marks=(box, rule))
    page = Page(title="P", heading=page.heading, base=(planted,), builds=(), beats=())
    assert Pair("pen", "first", GRAPHIC, "planted") in set(pairs(page))


# -- sizes -------------------------------------------------------------------------------------


def sizes(group: Group) -> list[int]:
    return [mark.size for mark in group.marks if isinstance(mark, Text | Stack)]


def words_of(group: Group) -> int:
    return len(group.alt.split())


@PAGES
def test_nothing_is_set_under_18_points(pages: object) -> None:
    assert callable(pages)
    assert all(size >= 1_800 for page in pages() for g in groups(page) for size in sizes(g))


@pytest.mark.parametrize("pages", [demo, made])
def test_mathematics_is_at_least_36_points(pages: object) -> None:
    """Every line of work (its note is a label)."""
    assert callable(pages)
    lines = [g for page in pages() for g in groups(page) if g.name.startswith("line ")]
    assert lines
    for group in lines:
        maths = [
            mark.size
            for mark in group.marks
            if isinstance(mark, Stack)
            or (isinstance(mark, Text) and not re.search("[a-z]{2}", mark.lines[0]))
        ]
        assert maths
        assert min(maths) >= 3_600, group.name


@pytest.mark.parametrize("pages", [demo, made])
def test_an_item_is_read_at_28_points_its_answer_at_36(pages: object) -> None:
    """Items of at most 60 words (the trade facts' limit for a slide); more than five choices may be
    set at 28 as well."""
    assert callable(pages)
    seen = 0
    for page in pages():
        named = {group.name: group for group in groups(page)}
        if "pause sign" not in named or words_of(named["stem"]) > 60:
            continue
        seen += 1
        texts = [m.size for m in named["stem"].marks if isinstance(m, Text)]
        assert min(texts, default=2_800) >= 2_800, named["stem"].alt
        if "choices" in named:
            stacks = [m.size for m in named["choices"].marks if isinstance(m, Stack)]
            least = 3_600 if named["choices"].alt.count(";") < 5 else 2_800
            assert min(stacks, default=least) >= least, named["stem"].alt
    assert seen > 10


@pytest.mark.parametrize("pages", [demo, made])
def test_labels_are_at_least_20_points(pages: object) -> None:
    """Labels of figures, lists at the side, reasons beside strikes."""
    assert callable(pages)
    for page in pages():
        for group in groups(page):
            if ": " in group.name or group.name.startswith(("multiples", "strike")):
                assert min(sizes(group), default=2_000) >= 2_000, group.name


@pytest.mark.parametrize("pages", [demo, made])
def test_the_stem_stays_in_sight_at_22_points(pages: object) -> None:
    """On work pages, where it has at most 35 words."""
    assert callable(pages)
    seen = 0
    for page in pages():
        named = {group.name: group for group in groups(page)}
        stem = named.get("stem")
        if stem is None or "pause sign" in named or words_of(stem) > 35:
            continue
        seen += 1
        texts = [m.size for m in stem.marks if isinstance(m, Text)]
        assert min(texts, default=2_200) >= 2_200, stem.alt
    assert seen > 10


# -- density -----------------------------------------------------------------------------------


@PAGES
def test_a_step_brings_at_most_seven_words_of_prose(pages: object) -> None:
    """Besides the item's own words and the sentence to take along (trade facts, section 3.1)."""
    assert callable(pages)
    for page in pages():
        for build in page.builds:
            if build.group.name == "take along":
                continue
            texts = [m for m in build.group.marks if isinstance(m, Text)]
            words = [word for m in texts for line in m.lines for word in line.split()]
            prose = [word for word in words if re.search("[A-Za-z]{2}", word)]
            assert len(prose) <= 7, build.group.alt


@PAGES
def test_a_page_holds_three_stacked_lines_or_six_plain_ones(pages: object) -> None:
    assert callable(pages)
    for page in pages():
        lines = [g for g in groups(page) if g.name.startswith("line ") and page.builds]
        stacked = [g for g in lines if any(isinstance(mark, Stack) for mark in g.marks)]
        assert 2 * len(stacked) + len(lines) - len(stacked) <= 6


@PAGES
def test_the_lowest_fifth_is_clear_at_every_build(pages: object) -> None:
    assert callable(pages)
    for page in pages():
        for group in groups(page):
            assert all(area(mark).bottom <= PAGE_HEIGHT * 4 // 5 for mark in group.marks), (
                group.name
            )


# -- marks that come as they are spoken of -----------------------------------------------------


@pytest.mark.parametrize("pages", [demo, made, samples])
def test_a_common_multiple_is_ringed_only_when_all_lists_are_there(pages: object) -> None:
    assert callable(pages)
    seen = 0
    for page in pages():
        shown = [build.group.name for build in page.builds]
        lists = [at for at, name in enumerate(shown) if name.startswith("multiples of")]
        rings = [at for at, name in enumerate(shown) if " in multiples of " in name]
        if len(lists) > 1 and rings:
            seen += 1
            assert min(rings) > max(lists)
    assert seen


@pytest.mark.parametrize("pages", [demo, made])
def test_a_strike_is_thin_over_the_text_and_firm_over_the_letter(pages: object) -> None:
    """What is struck can still be read: no line over it is thicker than 1.5 points."""
    assert callable(pages)
    strikes = [g for page in pages() for g in groups(page) if g.name.startswith("strike ")]
    assert strikes
    for strike in strikes:
        letter, *through = [mark for mark in strike.marks if isinstance(mark, Rule)]
        assert letter.weight >= 300
        assert through
        assert all(rule.weight <= 150 for rule in through)


def test_every_mark_of_the_stem_has_a_form_of_its_own() -> None:
    """Roles are told by box, dashes, one line or two: never by colour alone (WCAG 2.2, 1.4.1)."""
    from narrate.lesson.stem import drawn

    forms = set()
    for role in ("amount", "relationship", "unknown", "condition", "extra"):
        marks = drawn(Area(0, 0, 5_000, 2_000), role)
        forms.add(
            tuple(
                (type(m).__name__, getattr(m, "dashed", False), getattr(m, "y1", 0)) for m in marks
            )
        )
    assert len(forms) == 5


def test_a_phrase_in_the_question_is_marked_beside_its_line() -> None:
    """The question is underlined before: dashes upon that line would not be seen."""
    from narrate.lesson.stem import drawn

    area = Area(0, 0, 5_000, 2_000)
    (line,) = drawn(area, "unknown", asked=True)
    (dashes,) = drawn(area, "relationship", asked=True)
    assert isinstance(line, Rule)
    assert isinstance(dashes, Rule)
    assert dashes.y1 - dashes.weight // 2 > line.y1 + line.weight // 2


@pytest.mark.parametrize(
    ("stem", "phrase"),
    [
        ("Tea costs $2 and a bun costs $1. How much do they cost together?", "together"),
        ("A pot holds 2 plants more than a pan. A pan holds 3. How many is that?", "more than"),
    ],
)
def test_only_a_phrase_in_the_question_stands_off(stem: str, phrase: str) -> None:
    from narrate.lesson.stem import mark_group, paragraph

    view = PartView(label="Question 1", ask=stem)
    start = stem.index(phrase)
    show = StemMark(source="ask", start=start, end=start + len(phrase), role="relationship")
    group = mark_group([paragraph(stem, 2_400, 0, 0, 90_000, "ask")], show, view)
    assert group is not None
    weights = {mark.weight for mark in group.marks if isinstance(mark, Rule)}
    assert weights == ({250} if phrase == "together" else {200})


# -- a picture of the teacher's own ------------------------------------------------------------


def given(width: int, height: int) -> PictureGiven:
    return PictureGiven(data=b"...", kind="png", width=width, height=height, alt="A table.")


@pytest.mark.parametrize(
    "shape", [(900, 620), (1_600, 300), (400, 900), (10_000, 20), (20, 10_000)]
)
@pytest.mark.parametrize("name", SAMPLES)
def test_a_picture_keeps_its_shape_and_stays_in_sight(name: str, shape: tuple[int, int]) -> None:
    from dataclasses import replace

    from narrate.lesson.pages import overlaps

    sample = SAMPLES[name]()
    view = replace(sample.view, picture=given(*shape))
    pages = part_pages(view, sample.told)
    read = [page for page in pages if page.heading.size == pages[0].heading.size]
    for page in pages:
        assert overlaps(page) == []
        found = [g for g in page.base if g.name == "picture"]
        if not found and page in read:
            assert len(read) > 1  # too long for a page: a wide picture has what its last one leaves
            continue
        (picture,) = found
        assert picture.alt == "A table."
        (mark,) = picture.marks
        assert isinstance(mark, Picture)
        if max(shape) < 2_000:
            assert mark.width / mark.height == pytest.approx(shape[0] / shape[1], rel=0.02)
