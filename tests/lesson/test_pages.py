"""Pages: readable, complete, in beat order; sizes and density from the project's trade facts."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import HealthCheck, given, settings
from PIL import ImageFont

from narrate.exact.parser import parse
from narrate.exact.tree import Frac
from narrate.items.item import StripGiven
from narrate.lesson import drawing, palette
from narrate.lesson.marks import Box, Colour, Group, Page, Plain, Rule, Stack, Text
from narrate.lesson.pages import closing_page, overlaps, part_pages, title_page
from narrate.lesson.shows import Draw, Line, Multiples, PauseSign, Takeaway
from narrate.lesson.view import ChoiceShown, PartView
from narrate.outputs._svg import svg
from narrate.solution.figures import Bars, Layer, NumberLine, Point, Shade, Strip
from tests.lesson.generated import parts
from tests.lesson.samples import SAMPLES, Sample, told

LIBERATION = Path("/usr/share/fonts/truetype/liberation")


def pages_of(name: str) -> tuple[Page, ...]:
    sample = SAMPLES[name]()
    return part_pages(sample.view, sample.told)


def groups(page: Page) -> list[Group]:
    return [*page.base, *(build.group for build in page.builds)]


def marks(page: Page) -> Iterator[Plain]:
    yield page.heading
    for group in groups(page):
        yield from group.marks


def size(mark: Plain) -> int | None:
    return mark.size if isinstance(mark, Text | Stack) else None


def check(sample: Sample, pages: tuple[Page, ...]) -> None:
    """What must hold of the pages of any part."""
    beats = [each.beat.id for each in sample.told]
    assert [beat for page in pages for beat in page.beats] == beats
    assert len({page.title for page in pages}) == len(pages)
    for page in pages:
        assert page.beats
        assert overlaps(page) == []
        names = [group.name for group in groups(page)]
        assert len(set(names)) == len(names)
        assert all(group.alt and group.marks for group in groups(page))
        places = [page.beats.index(build.beat) for build in page.builds]
        assert places == sorted(places)
        assert all(size(mark) is None or size(mark) >= 1_800 for mark in marks(page))  # type: ignore[operator]


@pytest.mark.parametrize("name", SAMPLES)
def test_samples_are_readable_complete_and_in_order(name: str) -> None:
    check(SAMPLES[name](), pages_of(name))


@settings(max_examples=100, suppress_health_check=[HealthCheck.too_slow])
@given(parts())
def test_any_part_is_readable_complete_and_in_order(sample: Sample) -> None:
    check(sample, part_pages(sample.view, sample.told))


@pytest.mark.parametrize("name", SAMPLES)
def test_every_show_comes_with_its_beat(name: str) -> None:
    """One build for each show, and one for the rings in the lists of multiples that it has."""
    sample = SAMPLES[name]()
    built = [build.beat for page in pages_of(name) for build in page.builds]
    for each in sample.told:
        wanted = len(each.shows) + any(isinstance(s, Multiples) and s.ring for s in each.shows)
        assert built.count(each.beat.id) == wanted


@pytest.mark.parametrize("name", SAMPLES)
def test_maths_is_large_enough_for_a_phone(name: str) -> None:
    """Mathematics at least 36 pt, choices 28 pt (sizes: common guidance, no source)."""
    for page in pages_of(name)[1:]:
        for group in groups(page):
            if group.name.startswith("line "):
                assert max(size(mark) or 0 for mark in group.marks) >= 3_600


@pytest.mark.parametrize("name", ["story", "strip", "regroup", "select-all", "three"])
def test_an_item_of_ordinary_length_is_read_at_28_points(name: str) -> None:
    """At most 60 words (common guidance, no source)."""
    item = pages_of(name)[0]
    stem = next(group for group in item.base if group.name == "stem")
    assert min(mark.size for mark in stem.marks if isinstance(mark, Text)) >= 2_800


def test_a_page_holds_at_most_three_stacked_lines() -> None:
    for name in SAMPLES:
        for page in pages_of(name):
            lines = [g for g in groups(page) if g.name.startswith("line ")]
            stacked = [g for g in lines if any(isinstance(m, Stack) for m in g.marks)]
            assert len(stacked) <= 3
            assert len(lines) <= 6


def test_the_next_page_keeps_the_last_result() -> None:
    """The two ends of the last line of work."""
    work = pages_of("story")[1:]
    assert len(work) > 1
    for first, second in pairwise(work):
        last = [g.name for g in groups(first) if g.name.startswith("line ")][-1]
        sides = last.removeprefix("line ").split(" = ")
        assert " = ".join(dict.fromkeys((sides[0], sides[-1]))) in kept(second)


def test_fractions_stand_where_they_are_counted_together() -> None:
    """A sum in new pieces is not seen without where its pieces come from."""
    pages = pages_of("story")
    joined = next(p for p in pages if "line 15/20 + 4/20 = 19/20" in [g.name for g in groups(p)])
    seen = [*kept(joined), *(g.name for g in groups(joined) if g.name.startswith("line "))]
    for first, new in (("3/4", "15/20"), ("1/5", "4/20")):
        assert any(s.removeprefix("line ").startswith(first) and s.endswith(new) for s in seen)


def test_results_that_are_kept_are_labels_in_size() -> None:
    """Labels at least 20 points (common guidance, no source)."""
    texts = [
        size(mark)
        for name in SAMPLES
        for page in pages_of(name)
        for group in page.base
        if group.name.startswith("kept ")
        for mark in group.marks
    ]
    assert min(each for each in texts if each is not None) >= 2_000


def kept(page: Page) -> list[str]:
    """The results that a page keeps of those before it."""
    named = (group.name for group in page.base if group.name.startswith("kept "))
    return [result for name in named for result in name.removeprefix("kept ").split(", ")]


def test_what_was_struck_stays_struck() -> None:
    last = pages_of("story")[-1]
    assert {"strike A", "strike D"} <= {group.name for group in last.base}


def test_equals_signs_stand_in_one_column() -> None:
    for page in pages_of("story")[1:]:
        lines = [g for g in groups(page) if g.name.startswith("line ") and "=" in g.name]
        firsts = {
            min(m.x for m in g.marks if isinstance(m, Text) and m.lines == ("=",)) for g in lines
        }
        assert len(firsts) == min(1, len(lines))
    assert any("=" in g.name for page in pages_of("story")[1:] for g in groups(page))


@pytest.mark.parametrize("name", SAMPLES)
def test_every_text_is_as_wide_as_another_program_measures_it(name: str) -> None:
    """Measured by Pillow (FreeType) with Liberation Sans, which has Arial's widths."""
    faces = {
        bold: LIBERATION / f"LiberationSans-{style}.ttf"
        for bold, style in ((False, "Regular"), (True, "Bold"))
    }
    if not all(face.exists() for face in faces.values()):
        pytest.skip("fonts-liberation is not installed")
    fonts = {
        bold: ImageFont.truetype(str(face), 1_000, layout_engine=ImageFont.Layout.BASIC)
        for bold, face in faces.items()
    }
    for page in pages_of(name):
        for mark in marks(page):
            if isinstance(mark, Text):
                for line in mark.lines:
                    wide = fonts[mark.bold].getlength(line) * mark.size / 1_000
                    assert wide <= mark.width + 1


@pytest.mark.parametrize(
    ("wholes", "parts", "start", "end"),
    [(3, 10, Fraction(0), Fraction(22, 10)), (1, 20, Fraction(3, 4), Fraction(19, 20))],
)
def test_a_shaded_stretch_has_its_share_of_the_strip(
    wholes: int, parts: int, start: Fraction, end: Fraction
) -> None:
    layers = (
        Strip(of="bar", wholes=wholes, parts=parts),
        Shade(of="bar", start=start, end=end, tone="first", label=parse("1/2")),
    )
    figure = drawing.draw(layers, 60_000)
    strip, shade = figure.parts[0][0], figure.parts[1][0]
    assert isinstance(strip, Box)
    assert isinstance(shade, Box)
    assert shade.width / strip.width == pytest.approx(float((end - start) / wholes), abs=1e-4)
    assert shade.x / strip.width == pytest.approx(float(start / wholes), abs=1e-4)


def test_points_close_together_have_labels_apart() -> None:
    layers: tuple[Layer, ...] = (
        NumberLine(of="line", low=0, high=1, parts=1),
        *(
            Point(of="line", at=at, label=parse(f"{at}"))
            for at in (Fraction(18, 20), Fraction(19, 20), Fraction(3, 4))
        ),
    )
    figure = drawing.draw(layers, 24_000)
    places = [next(m for m in part if isinstance(m, Stack)) for part in figure.parts[1:]]
    spans = sorted((mark.x, mark.x + mark.width) for mark in places)
    assert all(right < left for (_, right), (left, _) in pairwise(spans))


def test_a_struck_line_is_marked_wrong_by_a_word() -> None:
    page = pages_of("what-went-wrong")[1]
    wrong = next(b.group for b in page.builds if b.group.name.startswith("line "))
    assert any(isinstance(m, Text) and m.lines == ("not right",) for m in wrong.marks)
    assert any(isinstance(m, Rule) for m in wrong.marks)
    assert wrong.name not in [g.name for g in pages_of("what-went-wrong")[2].base]


# -- pages of things that are too long ---------------------------------------------------------


def long_part(characters: int) -> Sample:
    text = "The pupils carried water to the long bed and counted 3/4 of a barrel. " * 60
    view = PartView(
        label="Question 3",
        stimulus=text[:characters].rsplit(". ", 1)[0] + ".",
        ask="How much water is left?",
        choices=tuple(ChoiceShown(letter=letter, text="3/4") for letter in "ABCD"),
    )
    beats = told(
        "long",
        ("read", [PauseSign("Pause here.")]),
        ("asked", []),
        ("work", [Line(tree=parse("3/4 = 15/20"))]),
        ("take-along", [Takeaway("Count pieces of one size.")]),
    )
    return Sample(view=view, told=beats)


@pytest.mark.parametrize("characters", [300, 800, 1_400, 2_000, 3_500])
def test_a_long_stem_is_readable(characters: int) -> None:
    sample = long_part(characters)
    check(sample, part_pages(sample.view, sample.told))


def test_a_stem_of_two_thousand_characters_leaves_its_question_over_the_work() -> None:
    sample = long_part(2_000)
    last = part_pages(sample.view, sample.told)[-1]
    stem = next(group for group in last.base if group.name == "stem")
    shown = " ".join(line for m in stem.marks if isinstance(m, Text) for line in m.lines)
    assert "How much water is left?" in shown


def test_numbers_of_twelve_digits_fit() -> None:
    number = "999999999999"
    tree = parse(f"{number}/{number} + {number}/{number} = {number}/{number}")
    view = PartView(
        label="Question 5",
        ask="Add.",
        choices=tuple(ChoiceShown(letter=x, text=f"{number}/{number}") for x in "ABCDEF"),
    )
    sample = Sample(view=view, told=told("big", ("read", []), ("work", [Line(tree=tree)])))
    check(sample, part_pages(sample.view, sample.told))


def test_a_strip_of_twelve_wholes_in_hundredths_is_drawn_plainly() -> None:
    view = PartView(
        label="Question 8",
        ask="How much is shaded?",
        boxes=("number",),
        strip=StripGiven(wholes=12, parts=100),
    )
    strip = Strip(of="strip", wholes=12, parts=100)
    shade = Shade(of="strip", start=Fraction(0), end=Fraction(1), tone="first", label=parse("1"))
    sample = Sample(
        view=view, told=told("fine", ("read", []), ("work", [Draw(strip), Draw(shade)]))
    )
    check(sample, part_pages(sample.view, sample.told))


# -- first and last pages, the checker, colours, SVG -------------------------------------------


def test_title_and_closing_pages_are_readable() -> None:
    beats = told("review", ("greet", []))
    first = title_page("Garden week", "Adding and subtracting fractions", beats)
    last = closing_page("What to take along", ["Make the pieces one size.", "Count them."], beats)
    assert overlaps(first) == overlaps(last) == []
    assert first.beats == last.beats == ("review.1.greet",)


def test_a_planted_overlap_is_found() -> None:
    page = pages_of("story")[1]
    line = next(build for build in page.builds if build.group.name.startswith("line "))
    twice = replace(line, group=replace(line.group, name="line again"))
    assert any(
        "overlap" in fault for fault in overlaps(replace(page, builds=(*page.builds, twice)))
    )


def test_a_mark_outside_its_room_is_found() -> None:
    rule = Rule(x1=0, y1=44_000, x2=5_000, y2=44_000, weight=100)
    low = Group(name="too low", alt="a line", marks=(rule,))
    page = replace(pages_of("story")[1], base=(low,), builds=())
    assert overlaps(page) == ["“too low” leaves its room"]


def luminance(colour: str) -> float:
    """Relative luminance as WCAG 2.2 defines it."""
    channels = [int(colour[at : at + 2], 16) / 255 for at in (0, 2, 4)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return sum(w * c for w, c in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def ratio(first: Colour, second: Colour) -> float:
    """Contrast ratio as WCAG 2.2 defines it."""
    one, other = (luminance(palette.LIGHT[name]) for name in (first, second))
    return (max(one, other) + 0.05) / (min(one, other) + 0.05)


@pytest.mark.parametrize("name", palette.TEXT_COLOURS)
def test_words_stand_out_from_paper(name: Colour) -> None:
    """WCAG 2.2, success criterion 1.4.3 (AA): 4.5 to 1."""
    assert ratio(name, "paper") >= 4.5
    assert palette.contrast(palette.LIGHT[name], palette.LIGHT["paper"]) == pytest.approx(
        ratio(name, "paper")
    )


@pytest.mark.parametrize("name", palette.LINE_COLOURS)
def test_lines_stand_out_from_paper(name: Colour) -> None:
    """WCAG 2.2, success criterion 1.4.11 (AA): 3 to 1."""
    assert ratio(name, "paper") >= 3


def test_pages_use_colours_only_as_the_palette_allows() -> None:
    """Words and lines in the colours that stand out; other fills have an outline of ink."""
    for name in SAMPLES:
        for page in pages_of(name):
            for mark in marks(page):
                if isinstance(mark, Text | Stack):
                    assert mark.colour in palette.TEXT_COLOURS
                if isinstance(mark, Rule):
                    assert mark.colour in palette.LINE_COLOURS
                if isinstance(mark, Box) and mark.fill not in (None, "paper", "pen"):
                    assert mark.line == "ink"


def test_words_in_filled_boxes_stand_out() -> None:
    """Digits on the pale ground of answer boxes are blue (WCAG 2.2, 1.4.3: 4.5 to 1, or 3 large:
    18 pt and more)."""
    assert ratio("pen", "panel") >= 3
    assert ratio("ink", "panel") >= 4.5


@pytest.mark.parametrize("name", SAMPLES)
def test_svg_is_well_formed_and_grows_with_the_builds(name: str) -> None:
    for page in pages_of(name):
        shown = [
            len(list(ElementTree.fromstring(svg(page, count)).iter()))
            for count in range(len(page.builds) + 1)
        ]
        assert shown == sorted(set(shown))
        assert svg(page) == svg(page, len(page.builds))


def test_parts_of_a_whole_are_compared_on_the_whole() -> None:
    """5/12 fills five twelfths of its bar, as it does of a line from 0 to 1."""
    amounts = (Fraction(5, 12), Fraction(3, 8))
    labels = (Frac(5, 12), Frac(3, 8))
    bars = Bars(
        of="bars",
        longer=amounts[0],
        shorter=amounts[1],
        longer_label=labels[0],
        shorter_label=labels[1],
    )
    boxes = [m for m in drawing.draw((bars,), 40_000).parts[0] if isinstance(m, Box)]
    whole = next(box.width for box in boxes if box.fill == "paper")
    shaded = [box.width for box in boxes if box.fill in {"first", "second"}]
    assert shaded == [pytest.approx(whole * amount, abs=2) for amount in amounts]
