"""Each thing comes on by what it is: a strike wipes, a line of work fades, a mark appears."""

from __future__ import annotations

from typing import get_args

import pytest

from narrate.lesson.effects import OF_LAYERS, OF_SHOWS, effect_of
from narrate.lesson.marks import Build
from narrate.lesson.shows import Draw, Show, StemMark
from narrate.outputs._timing import PRESETS
from narrate.solution.figures import Layer
from tests.outputs.test_deck_plays import FEW, demo, many

EXPECTED = {
    "strike ": "wipe",
    "line ": "fade",
    "mark amount ": "appear",
    "mark relationship ": "appear",
    "mark unknown ": "appear",
    "ring ": "appear",
    "multiples of ": "wipe",
    "answer ": "fade",
    "take along": "fade",
}
"""By the names that groups have. The first two, and that emphasis appears, are the issue's own."""


@pytest.fixture(scope="module")
def builds() -> list[Build]:
    lessons = [demo(), *many(FEW)]
    return [build for lesson in lessons for page in lesson.pages for build in page.builds]


@pytest.mark.parametrize("start", EXPECTED)
def test_by_what_it_is(builds: list[Build], start: str) -> None:
    found = [build for build in builds if build.group.name.startswith(start)]
    assert found
    assert {build.effect for build in found} == {EXPECTED[start]}


def test_all_three_effects_are_used_and_no_other(builds: list[Build]) -> None:
    assert {build.effect for build in builds} == set(PRESETS)


def test_every_show_and_every_layer_has_its_row() -> None:
    assert {*OF_SHOWS, Draw} == set(get_args(Show))
    assert set(OF_LAYERS) == set(get_args(Layer))


def test_a_number_that_is_not_needed_is_struck() -> None:
    extra = StemMark(source="ask", start=0, end=1, role="extra")
    assert effect_of(extra) == "wipe"


def test_a_list_grows_number_by_number(builds: list[Build]) -> None:
    """As many steps as it has numbers; everything else comes in one."""
    lists = [build for build in builds if build.group.name.startswith("multiples of ")]
    for build in lists:
        assert build.steps == build.group.alt.partition(":")[2].count(",") + 1
    assert {build.steps for build in builds if build not in lists} == {1}


def test_what_lists_share_is_ringed_in_all_of_them_at_once(builds: list[Build]) -> None:
    """One build, so that no ring is seen without the other."""
    rings = [build for build in builds if " in multiples of " in build.group.name]
    assert any(len(build.group.marks) > 1 for build in rings)
    for build in rings:
        assert len(build.group.marks) == build.group.name.count(" and ") + 1
    beats = [build.beat for build in rings]
    assert len(beats) == len(set(beats))
