"""Work left out, to be written by hand: what stays is what a pupil needs to follow (own design)."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path

import pytest

from narrate.items.item import Review
from narrate.items.loading import load
from narrate.lesson.blank import SHORTEST, without_work
from narrate.lesson.checking import overlaps
from narrate.lesson.lesson import Lesson
from narrate.lesson.marks import Group, Page, Rule
from narrate.lesson.wording import Words
from narrate.pipeline import make_lesson
from tests.generated import loaded, made

DEMO = Path(__file__).resolve().parents[2] / "problems" / "garden-week.yaml"
WORK = re.compile(r"line \S+ [=+−×÷]|kept |multiples of ")


def told(review: Review) -> Lesson:
    lesson, _, _ = make_lesson(review, Words("en"))
    assert lesson is not None
    return lesson


def lessons() -> list[Lesson]:
    """The demo, and fifty made items."""
    items = tuple(item for item, _ in loaded(made(50, seed=5)))
    (demo,) = load([DEMO]).reviews
    return [told(demo), told(Review(id="r", title="R", grade=5, language="en", items=items))]


def groups(page: Page) -> list[Group]:
    return [*page.base, *(build.group for build in page.builds)]


@pytest.fixture(scope="module", params=[0, 1], ids=["demo", "made"])
def pair(request: pytest.FixtureRequest) -> tuple[Lesson, Lesson]:
    lesson = lessons()[request.param]
    return lesson, without_work(lesson)


def test_slides_and_beats_stay(pair: tuple[Lesson, Lesson]) -> None:
    full, blank = pair
    assert blank.beats == full.beats
    assert [page.beats for page in blank.pages] == [page.beats for page in full.pages]
    assert [page.heading for page in blank.pages] == [page.heading for page in full.pages]


def test_no_work_is_left_and_each_line_of_it_is_an_empty_one(pair: tuple[Lesson, Lesson]) -> None:
    found = 0
    for full, blank in zip(pair[0].pages, pair[1].pages, strict=True):
        work = [g for g in groups(full) if WORK.match(g.name) and not g.name.startswith("ring")]
        empty = [g for g in groups(blank) if g.name.startswith("empty line ")]
        assert not [g.name for g in groups(blank) if WORK.match(g.name)]
        assert len(empty) >= len(work)
        assert all(len(g.marks) == 1 and isinstance(g.marks[0], Rule) for g in empty)
        found += len(work)
    assert found > 100


def test_stem_choices_and_drawings_stay(pair: tuple[Lesson, Lesson]) -> None:
    for full, blank in zip(pair[0].pages, pair[1].pages, strict=True):
        kept = groups(blank)
        for group in groups(full):
            if ": " in group.name and not group.name.startswith(("line", "mark", "strike")):
                assert group in kept  # a figure, named after what it shows
            if group.name.startswith(("stem", "choices", "answer boxes", "strike", "mark")):
                assert group in kept


def test_the_answer_is_not_written_in_its_boxes(pair: tuple[Lesson, Lesson]) -> None:
    names = [group.name for page in pair[1].pages for group in groups(page)]
    assert not [name for name in names if name.startswith("answer ") and name != "answer boxes"]


def test_nothing_overlaps(pair: tuple[Lesson, Lesson]) -> None:
    assert [fault for page in pair[1].pages for fault in overlaps(page)] == []


def test_names_are_unique_on_a_page(pair: tuple[Lesson, Lesson]) -> None:
    for page in pair[1].pages:
        names = [group.name for group in groups(page)]
        assert len(set(names)) == len(names)


def test_most_lines_are_long_enough_to_write_on(pair: tuple[Lesson, Lesson]) -> None:
    lines = [
        mark.x2 - mark.x1
        for page in pair[1].pages
        for group in groups(page)
        for mark in group.marks
        if group.name.startswith("empty line ") and isinstance(mark, Rule)
    ]
    assert sum(length >= SHORTEST * 3 // 4 for length in lines) > len(lines) * 3 // 4


def test_lines_of_work_are_as_far_apart_as_each_other(pair: tuple[Lesson, Lesson]) -> None:
    """On a page with three lines of work or more and no figure among them."""
    seen = 0
    for full, blank in zip(pair[0].pages, pair[1].pages, strict=True):
        names = [g.name for g in groups(full)]
        if any(": " in name and not name.startswith(("line", "mark")) for name in names):
            continue
        work = [g.name for g in groups(full) if re.match(r"(line|kept|multiples of) ", g.name)]
        empty = [g.marks[0] for g in groups(blank) if g.name.startswith("empty line ")]
        places = [
            mark.y1
            for name, mark in zip(work, empty, strict=True)
            if name.startswith("line") and isinstance(mark, Rule)
        ]
        steps = [lower - upper for upper, lower in pairwise(places)]
        if len(steps) > 1:
            seen += 1
            assert max(steps) - min(steps) <= 1, work
    assert seen


def test_greeting_and_closing_are_as_they_were(pair: tuple[Lesson, Lesson]) -> None:
    full, blank = pair
    assert (blank.pages[0], blank.pages[-1]) == (full.pages[0], full.pages[-1])
