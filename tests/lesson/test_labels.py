"""Words that pages, captions and descriptions take from a language's `labels.yaml`."""

from __future__ import annotations

from fractions import Fraction
from string import Formatter

import pytest

from narrate.exact.parser import parse
from narrate.lesson import alt
from narrate.lesson.shows import Multiples
from narrate.lesson.templates import labels
from narrate.solution.figures import Brace, CrossOff, Cut, Jump, Layer, Shade, Strip

TENTHS = Fraction(1, 10)
SHAPES: list[tuple[Layer, str]] = [
    (Strip(of="bar", wholes=3, parts=10), "a strip of three wholes, each cut in tenths, empty"),
    (Strip(of="bar", wholes=1, parts=1), "a bar of one whole, empty"),
    (
        Shade(of="bar", start=Fraction(0), end=29 * TENTHS, tone="first"),
        "two and nine tenths shaded",
    ),
    (
        Shade(of="bar", start=Fraction(1), end=15 * TENTHS, tone="second"),
        "one half shaded, joined on",
    ),
    (
        CrossOff(of="bar", start=Fraction(1), end=17 * TENTHS),
        "seven tenths crossed off at the end of what is there",
    ),
    (Cut(of="bar", parts=4), "every whole cut in fourths"),
    (
        Brace(of="bar", start=Fraction(0), end=Fraction(2), label=parse("2")),
        "a bracket from zero to two, two",
    ),
    (
        Jump(of="line", start=Fraction(1), end=Fraction(3), label=parse("2")),
        "a hop from one to three, two",
    ),
]


@pytest.mark.parametrize(("shape", "said"), SHAPES, ids=lambda each: type(each).__name__)
def test_a_shape_is_told_with_its_quantities(shape: Layer, said: str) -> None:
    """Written by hand, as one would say it to somebody who does not see it."""
    assert alt.layer(shape, "en")[1] == said


def test_lists_and_boxes_are_told() -> None:
    show = Multiples(of=4, values=(4, 8), ring=True)
    assert alt.multiples(show, "en")[1] == "multiples of four: four, eight"
    two = alt.boxes(("numerator", "denominator"), "meters", "en")[1]
    assert two == (
        "empty answer boxes, one for the numerator and one for the denominator, labeled meters"
    )


@pytest.mark.parametrize("page", ["shapes", "breaks", "deck"])
def test_no_phrase_has_a_numeral(page: str) -> None:
    """Numbers are put in, in words."""
    for name, phrase in labels(page, "en").items():
        plain = "".join(text for text, *_ in Formatter().parse(phrase))
        assert not any(map(str.isdigit, plain)), (name, phrase)
