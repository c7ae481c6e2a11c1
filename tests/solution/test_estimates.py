"""Bounds as near as a pupil can see them, and slips named in a box (worked out by hand)."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

from narrate.lesson import alt
from narrate.pipeline import solve_item
from narrate.solution.figures import NumberLine, Point, Stretch
from narrate.solution.steps import Solution
from tests.lesson.told import review_of


def solved(item: dict[str, Any], folder: Path) -> Solution:
    path = folder / "one.json"
    path.write_text(json.dumps({"review": "One", "grade": 5, "items": [{"id": "one", **item}]}))
    (outcome,) = solve_item(review_of(path).items[0])
    assert outcome.solved
    return outcome.solved.solution


def test_fractions_one_piece_short_of_a_whole_are_compared(tmp_path: Path) -> None:
    """3/4 < 7/8, each one piece short, so 2 3/4 − 1 7/8 is less than 2 − 1 (common practice)."""
    choices = {"A": "7/8", "B": "1 1/8", "C": "1 7/8", "D": "3/8"}
    found = solved({"stem": "What is 2 3/4 - 1 7/8?", "choices": choices}, tmp_path)
    (step,) = [step for step in found.steps if step.move == "estimate wholes apart"]
    assert [fact.args for fact in step.facts if fact.name == "below"] == [(1,)]
    assert {r.letter for r in found.rule_outs if found.steps[r.step] is step} == {"B", "C"}


def test_a_slip_in_a_box_is_named_by_the_fraction_it_makes(tmp_path: Path) -> None:
    """3/4 = 3/20 keeps the numerator and changes the denominator alone."""
    stem = "Which number goes in the box to make 3/4 = □/20 true?"
    choices = {"A": "3", "B": "15", "C": "19", "D": "5"}
    found = solved({"stem": stem, "choices": choices}, tmp_path)
    assert found.slips["A"] == "denominator only"


def test_a_bound_without_another_is_a_stretch_that_goes_on(tmp_path: Path) -> None:
    """5/6 + 3/8 is more than 5/6; how much is not said: no end is drawn (worked by hand)."""
    choices = {"A": "8/14", "B": "29/24", "C": "8/24"}
    found = solved({"stem": "What is 5/6 + 3/8?", "choices": choices}, tmp_path)
    (step,) = [step for step in found.steps if step.move == "estimate joins"]
    line, stretch, point = step.layers
    assert line == NumberLine(of="estimate", low=0, high=1)
    assert stretch == Stretch(of="estimate", start=Fraction(5, 6), end=None)
    assert alt.layer(stretch, "en") == (
        "estimate: from 5/6 on",
        "the line from five sixths on marked",
    )
    assert isinstance(point, Point)
