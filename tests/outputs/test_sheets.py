"""A flat deck: a slide for each build, for programs that ignore animations.

Read back by python-pptx; overflow, overlap and what leaves the slide by PyPI ooxml-integrity.
"""

from __future__ import annotations

import io
import json
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from ooxml_integrity import check_pptx
from openxml_audit import validate_pptx
from pptx import Presentation
from pptx.util import Emu

from narrate.lesson.lesson import Lesson
from narrate.lesson.marks import Page
from narrate.lesson.timeline import predict
from narrate.outputs import USUAL, Options, deck, lesson_json
from narrate.outputs._sheets import sheet_numbers, sheets, states
from tests.outputs.samples_deck import sample
from tests.outputs.test_deck_plays import ITEMS, demo, demos, many

FLAT = Options(builds="flat")


def opened(lesson: Lesson, options: Options = FLAT) -> Any:
    sink = io.BytesIO()
    deck.write(lesson, predict(lesson), options, sink)
    return Presentation(sink)


@pytest.fixture(scope="module")
def told() -> Lesson:
    return demo()


def of_page(page: Page) -> list[Page]:
    return list(states(page))


class TestStates:
    def test_one_for_each_build_and_one_before_where_something_is_told(self, told: Lesson) -> None:
        for page in told.pages:
            before = not page.builds or page.builds[0].beat != page.beats[0]
            assert len(of_page(page)) == len(page.builds) + before

    def test_each_has_one_group_more(self, told: Lesson) -> None:
        for page in told.pages:
            for one, after in pairwise(of_page(page)):
                assert after.base[:-1] == one.base

    def test_the_last_is_the_page_at_its_end(self, told: Lesson) -> None:
        for page in told.pages:
            last = of_page(page)[-1]
            assert last.base == (*page.base, *(build.group for build in page.builds))
            assert last.heading == page.heading

    def test_every_beat_is_told_on_its_builds_slides_in_order(self, told: Lesson) -> None:
        for page in told.pages:
            beats = [beat for state in of_page(page) for beat in state.beats]
            assert list(dict.fromkeys(beats)) == list(page.beats)
            for beat in page.beats:
                builds = sum(build.beat == beat for build in page.builds)
                assert beats.count(beat) == max(1, builds)

    def test_by_hand_a_page_is_a_slide(self, told: Lesson) -> None:
        assert sheets(told, USUAL) == told.pages


class TestDeck:
    @pytest.fixture(scope="class")
    @classmethod
    def flat(cls, told: Lesson) -> Any:
        return opened(told)

    def test_nothing_moves(self, flat: Any) -> None:
        for slide in flat.slides:
            assert not list(slide.element.iter("{*}timing", "{*}transition"))

    def test_the_words_of_the_beat_are_in_the_notes_of_each(self, flat: Any, told: Lesson) -> None:
        said = {beat.id: beat.say for beat in told.beats}
        for slide, page in zip(flat.slides, sheets(told, FLAT), strict=True):
            notes = slide.notes_slide.notes_text_frame.text
            assert all(said[beat] in notes for beat in page.beats)

    def test_shapes_are_those_of_the_deck_by_hand(self, flat: Any, told: Lesson) -> None:
        names = [[shape.name for shape in slide.shapes] for slide in flat.slides]
        by_hand = [[shape.name for shape in slide.shapes] for slide in opened(told, USUAL).slides]
        assert all(name in names for name in by_hand)

    def test_sections_hold_all_slides(self, flat: Any, tmp_path: Path) -> None:
        path = tmp_path / "deck.pptx"
        flat.save(path)
        assert [str(error) for error in validate_pptx(str(path)).errors] == []

    def test_lesson_json_names_the_slide_that_shows_all_a_beat_shows(
        self, flat: Any, told: Lesson
    ) -> None:
        sink = io.BytesIO()
        lesson_json.write(told, predict(told), FLAT, sink)
        whole = json.loads(sink.getvalue())
        assert whole["slides"] == len(flat.slides)
        for beat in whole["beats"]:
            shapes = [shape.name for shape in flat.slides[beat["slide"] - 1].shapes]
            assert set(beat["builds"]) <= set(shapes)

    def test_slides_count_on(self, told: Lesson) -> None:
        numbers = list(sheet_numbers(told, FLAT).values())
        assert numbers == sorted(numbers)
        assert numbers[-1] == len(sheets(told, FLAT))


def faults(lesson: Lesson, folder: Path) -> list[str]:
    path = folder / f"{lesson.review}.pptx"
    with path.open("wb") as sink:
        deck.write(lesson, predict(lesson), FLAT, sink)
    return [str(finding) for finding in check_pptx(str(path))]


class TestNothingOverflows:
    """PyPI ooxml-integrity finds nothing in any state of any slide."""

    @pytest.mark.parametrize("review", [0, 1], ids=["fractions", "numbers"])
    def test_demo(self, review: int, tmp_path: Path) -> None:
        assert faults(demos()[review], tmp_path) == []

    def test_200_made_items(self, tmp_path: Path) -> None:
        """Two hundred items, each state of each page; it takes most of a minute."""
        assert [fault for lesson in many(ITEMS) for fault in faults(lesson, tmp_path)] == []

    def test_it_sees_what_is_planted(self, tmp_path: Path) -> None:
        """A text moved over another, and one moved off the slide."""
        for left in (Emu(12_000_000), Emu(457_200)):
            made = opened(sample())
            shapes = {shape.name: shape for shape in made.slides[1].shapes}
            shapes["stem"].left = left
            shapes["stem"].top = shapes["Title"].top
            path = tmp_path / f"{left}.pptx"
            made.save(path)
            assert check_pptx(str(path))


def test_a_page_without_beats_between_builds() -> None:
    """Beats that show nothing are told on the slide that is seen while they are said."""
    page = sample().pages[1]
    first, second = page.beats
    page = replace(page, builds=page.builds[:1], beats=(first, second))
    (only,) = of_page(page)
    assert only.beats == (first, second)
