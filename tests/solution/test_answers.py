"""Invariant 5: the written answer fits the boxes. Rows of the table were worked by hand."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from math import gcd, lcm
from typing import Any

import pytest

from narrate.exact.caption import write
from narrate.lesson.solved import SolvedPart
from narrate.pipeline import solve_item
from narrate.solution.answer import digits
from tests.generated import loaded, made
from tests.solving import FRACTION, MIXED, NUMBER, solve_one, solved_one

# What is asked, the boxes, what each box gets.
BY_HAND: list[tuple[str, list[str], tuple[str, ...]]] = [
    ("1/3 + 1/4", FRACTION, ("7", "12")),
    ("3/4 + 3/4", FRACTION, ("6", "4")),
    ("3/4 + 3/4", MIXED, ("1", "2", "4")),
    ("1 3/4 + 2 3/4", FRACTION, ("18", "4")),
    ("1 3/4 + 2 3/4", MIXED, ("4", "2", "4")),
    ("2 1/5 - 7/10", FRACTION, ("15", "10")),
    ("2 1/5 - 7/10", MIXED, ("1", "5", "10")),
    ("1/6 + 1/3", MIXED, ("", "3", "6")),
    ("1/2 + 1/2", FRACTION, ("2", "2")),
    ("1/2 + 1/2", MIXED, ("1", "", "")),
    ("1/2 + 1/2", NUMBER, ("1",)),
    ("2 + 3", FRACTION, ("5", "1")),
    ("3/4 - 3/4", FRACTION, ("0", "4")),
    ("1/4 + 1/4", NUMBER, ("2/4",)),
    ("1/2 - 3/4", FRACTION, ("−1", "4")),
    ("1/4 - 1 3/4", MIXED, ("−1", "2", "4")),
]


@pytest.mark.parametrize(("asked", "boxes", "filled"), BY_HAND)
def test_what_each_box_gets(asked: str, boxes: list[str], filled: tuple[str, ...]) -> None:
    part = solved_one(f"What is {asked}?", boxes=boxes)
    assert digits(part.part, part.solution.result) == filled


@pytest.mark.parametrize(
    ("choices", "written"),
    [(["4/6", "5/4", "1 2/4"], "5/4"), (["4/6", "1 1/4", "2/4"], "1 1/4"), (["5/4", "3/4"], "5/4")],
)
def test_the_answer_is_written_as_the_right_choice_is(choices: list[str], written: str) -> None:
    """Worked by hand: 1/2 + 3/4 is 5/4, or 1 1/4 where the right choice is a mixed number."""
    part = solved_one("What is 1/2 + 3/4?", choices=choices)
    assert part.solution.written == written


# -- over generated parts


def _boxed(count: int, seed: int) -> Iterator[tuple[SolvedPart, str]]:
    """Parts answered in boxes, with the form of their item."""
    for item, each in loaded(made(count, seed)):
        for outcome in solve_item(item):
            assert outcome.solved is not None
            if outcome.part.boxes:
                yield outcome.solved, each.form


PARTS = list(_boxed(2_000, seed=51))


def _with(boxes: list[str]) -> list[SolvedPart]:
    found = [part for part, _ in PARTS if part.part.boxes == tuple(boxes)]
    assert len(found) > 100
    return found


def _exact(written: str) -> Fraction:
    """`-1 3/4` is minus the sum of its two numbers."""
    sign, words = (-1, written[1:]) if written.startswith("-") else (1, written)
    return sign * sum((Fraction(word) for word in words.split()), Fraction(0))


def test_two_boxes_never_get_a_mixed_or_whole_number() -> None:
    for part in _with(FRACTION):
        assert re.fullmatch(r"-?\d+/\d+", part.solution.written), part.reading.expression
        assert all(re.fullmatch(r"−?\d+", d) for d in digits(part.part, part.solution.result))


def test_three_boxes_never_get_an_improper_fraction() -> None:
    for part in _with(MIXED):
        whole, top, bottom = digits(part.part, part.solution.result)
        assert bool(top) == bool(bottom)
        assert whole or top
        if top:
            assert 0 < abs(int(top.replace("−", "-"))) < int(bottom)


def test_what_goes_in_the_boxes_is_what_is_written() -> None:
    """The digits put together again make the written answer, and it is the exact one."""
    for part, _ in PARTS:
        found = digits(part.part, part.solution.result)
        whole = found[0] if len(found) != 2 else ""
        fraction = "/".join(d for d in found[-2:] if d) if len(found) > 1 else ""
        text = f"{whole} {fraction}".strip().replace("−", "-")
        assert text == part.solution.written
        assert _exact(part.solution.written) == part.reading.goal.answer


def _fraction(written: str) -> tuple[int, int] | None:
    found = re.search(r"(\d+)/(\d+)$", written)
    return (int(found[1]), int(found[2])) if found else None


def test_simplest_form_is_written_where_it_is_asked() -> None:
    asked = [part for part, form in PARTS if form == "simplest"]
    assert len(asked) > 50
    for part in asked:
        fraction = _fraction(part.solution.written)
        assert fraction is None or gcd(*fraction) == 1, part.reading.expression


SIZES = re.compile(r"\d+/(\d+)")
OTHER_SIZE = ("simplest", "strip", "missing-in-a-fraction")
"""Where the size is the item's own: simplest form, the strip's parts, the fraction in the item."""


def _sizes(part: SolvedPart) -> list[int]:
    """The denominators that the sum is written with."""
    return [int(size) for size in SIZES.findall(write(part.reading.expression))]


def test_elsewhere_the_answer_keeps_the_least_common_denominator() -> None:
    """Unsimplified: 3/12 + 5/12 is written 8/12, and 1/4 + 1/6 is 5/12, never 10/24."""
    checked = unsimplified = 0
    for part, form in PARTS:
        fraction = _fraction(part.solution.written)
        if form in OTHER_SIZE or "product" in part.part.ways or fraction is None:
            continue
        assert fraction[1] == lcm(*_sizes(part)), (part.reading.expression, part.solution.written)
        checked += 1
        unsimplified += gcd(*fraction) > 1
    assert checked > 500
    assert unsimplified > 50


def test_the_product_way_keeps_the_product() -> None:
    """1/4 + 5/6 = 6/24 + 20/24."""
    row = solve_one("What is 1/4 + 5/6?", boxes=FRACTION, way="product")
    assert row["written"] == "26/24"


@pytest.mark.parametrize(
    ("parts", "written"),
    [(12, "5/12"), (24, "10/24"), (6, "5/12"), (5, "5/12")],
)
def test_a_strip_that_serves_sets_the_size(parts: int, written: str) -> None:
    """1/4 + 1/6: twelfths and twenty-fourths serve; sixths and fifths do not."""
    stimulus: dict[str, Any] = {
        "text": "Here is the bed.",
        "diagram": {"strip": {"wholes": 1, "parts": parts}},
    }
    row = solve_one("What is 1/4 + 1/6?", boxes=FRACTION, stimulus=stimulus)
    assert row["written"] == written


@pytest.mark.parametrize(
    ("boxes", "reason"),
    [(FRACTION, "improper"), (MIXED, "mixed"), (NUMBER, "number")],
)
def test_the_lesson_is_told_why(boxes: list[str], reason: str) -> None:
    part = solved_one("What is 3/4 + 3/4?", boxes=boxes)
    [fitted] = [step for step in part.solution.steps if step.move == "fit the boxes"]
    assert fitted.details["reason"] == reason
