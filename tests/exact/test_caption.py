"""Mathematics in symbols, as captions print it."""

from __future__ import annotations

import pytest
from hypothesis import given

from narrate.exact.caption import caption, write
from narrate.exact.parser import parse
from narrate.exact.tree import Frac, Mixed, Neg, Op, Over, Whole, Writing
from tests.exact.trees import WRITINGS, values

# DCMP Captioning Key, "Numbers": fractions in technical use are numerals with a slash, one style; a
# mixed number has a space; commas are required from five digits, and at four allowed if they
# are set throughout. Signs: − is U+2212, × U+00D7 and ÷ U+00F7 (the Unicode Standard).
WRITTEN = [
    ("3/4 + 1/5 = 19/20", "3/4 + 1/5 = 19/20"),
    ("3/4-1/5", "3/4 \u2212 1/5"),
    ("3*4", "3 \u00d7 4"),
    ("12÷3", "12 \u00f7 3"),
    ("2¾", "2 3/4"),
    ("½", "1/2"),
    ("1204", "1,204"),
    ("12040", "12,040"),
    ("2000000", "2,000,000"),
    ("12345/20000", "12,345/20,000"),
    (".50", "0.50"),
    ("-5", "\u22125"),
    ("3--2", "3 \u2212 (\u22122)"),
    ("--4", "\u2212(\u22124)"),
    ("(3*5)/(4*5)", "(3 × 5)/(4 × 5)"),
    ("?/20", "□/20"),
    ("___ + n", "□ + n"),
    ("3(4+1)", "3 × (4 + 1)"),
    ("1-(1/3+2/5)", "1 − (1/3 + 2/5)"),
    ("1<2<3", "1 < 2 < 3"),
    ("1>=0", "1 ≥ 0"),
]


@pytest.mark.parametrize(("typed", "written"), WRITTEN)
def test_one_style_however_it_was_typed(typed: str, written: str) -> None:
    """Captions have one style for every number and sign."""
    assert write(parse(typed)) == written


def test_brackets_come_where_the_meaning_needs_them() -> None:
    """Trees made by moves may lack brackets."""
    total = Op("+", Frac(1, 3), Frac(2, 5))
    assert write(Op("−", Whole(1), total)) == "1 − (1/3 + 2/5)"
    assert write(Op("+", Whole(1), total)) == "1 + 1/3 + 2/5"
    assert write(Op("×", total, Whole(2))) == "(1/3 + 2/5) × 2"
    assert write(Neg(total)) == "−(1/3 + 2/5)"
    assert write(Over(Frac(1, 2), Mixed(1, 1, 3))) == "(1/2)/(1 1/3)"


@given(WRITINGS)
def test_what_is_written_is_read_back_with_the_same_value(tree: Writing) -> None:
    """Round trip through the parser, for trees of every shape."""
    assert values(parse(write(tree))) == values(tree)


@given(WRITINGS)
def test_writing_again_changes_nothing(tree: Writing) -> None:
    """The written form is its own normal form."""
    written = write(tree)
    assert write(parse(written)) == written


def test_words_pass_through() -> None:
    """Nothing is added between the pieces."""
    assert caption(["We add: ", parse("3/4+1/5"), "."]) == "We add: 3/4 + 1/5."
