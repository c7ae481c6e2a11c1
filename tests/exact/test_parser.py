"""Texts become the trees they write, or an error with its column."""

from __future__ import annotations

import unicodedata
from fractions import Fraction

import pytest
import sympy
from hypothesis import given
from hypothesis import strategies as st

from narrate.errors import ExactError
from narrate.exact.parser import parse, parse_expr, parse_start
from narrate.exact.tree import (
    Blank,
    Decimal,
    Frac,
    Group,
    Mixed,
    Neg,
    Op,
    Over,
    Relation,
    Whole,
    Writing,
    value,
)

THREE_FOURTHS, ONE_FIFTH = Frac(3, 4), Frac(1, 5)

TREES: list[tuple[str, Writing]] = [
    # numbers
    ("12", Whole(12)),
    ("1,204", Whole(1204)),
    ("2,000,000", Whole(2_000_000)),
    ("999999999999", Whole(999_999_999_999)),
    ("0.75", Decimal("0", "75")),
    (".5", Decimal("0", "5")),
    ("2.50", Decimal("2", "50")),
    ("1,204.5", Decimal("1204", "5")),
    ("3/4", THREE_FOURTHS),
    ("8/12", Frac(8, 12)),
    ("15 / 20", Frac(15, 20)),
    ("3⁄4", THREE_FOURTHS),
    ("¾", THREE_FOURTHS),
    ("2 1/5", Mixed(2, 1, 5)),
    ("2¾", Mixed(2, 3, 4)),
    ("2 ¾", Mixed(2, 3, 4)),
    # blanks
    ("□", Blank()),
    ("?", Blank()),
    ("_", Blank()),
    ("____", Blank()),
    ("n", Blank("n")),
    ("x", Blank("x")),
    # operations
    ("3/4 + 1/5", Op("+", THREE_FOURTHS, ONE_FIFTH)),
    ("3/4-1/5", Op("−", THREE_FOURTHS, ONE_FIFTH)),
    ("3/4 − 1/5", Op("−", THREE_FOURTHS, ONE_FIFTH)),
    ("3/4 – 1/5", Op("−", THREE_FOURTHS, ONE_FIFTH)),
    ("3 × 5", Op("×", Whole(3), Whole(5))),
    ("3 · 5", Op("×", Whole(3), Whole(5))),
    ("3 * 5", Op("×", Whole(3), Whole(5))),
    ("3 x 5", Op("×", Whole(3), Whole(5))),
    ("x + 3", Op("+", Blank("x"), Whole(3))),
    ("3 × x", Op("×", Whole(3), Blank("x"))),
    ("12 ÷ 3/4", Op("÷", Whole(12), THREE_FOURTHS)),
    ("1 + 2 × 3", Op("+", Whole(1), Op("×", Whole(2), Whole(3)))),
    ("9 − 4 − 2", Op("−", Op("−", Whole(9), Whole(4)), Whole(2))),
    ("8 ÷ 4 × 2", Op("×", Op("÷", Whole(8), Whole(4)), Whole(2))),
    ("3(4 + 1)", Op("×", Whole(3), Group(Op("+", Whole(4), Whole(1))))),
    # opposites
    ("-5", Neg(Whole(5))),
    ("−3/4", Neg(THREE_FOURTHS)),
    ("-2 × 3", Op("×", Neg(Whole(2)), Whole(3))),
    ("3 − −2", Op("−", Whole(3), Neg(Whole(2)))),
    ("3 − (−2)", Op("−", Whole(3), Group(Neg(Whole(2))))),
    ("−(−4)", Neg(Group(Neg(Whole(4))))),
    # fractions whose parts are not whole numbers
    ("□/20", Over(Blank(), Whole(20))),
    ("3/□", Over(Whole(3), Blank())),
    ("a/b", Over(Blank("a"), Blank("b"))),
    ("0.5/2", Over(Decimal("0", "5"), Whole(2))),
    ("(3 × 5)/(4 × 5)", Over(Op("×", Whole(3), Whole(5)), Op("×", Whole(4), Whole(5)))),
    ("((3))/(4)", Frac(3, 4)),
    ("3/4/5", Over(THREE_FOURTHS, Whole(5))),
    ("□/3/4", Over(Over(Blank(), Whole(3)), Whole(4))),
    ("2 × □/5", Op("×", Whole(2), Over(Blank(), Whole(5)))),
    ("−□/5", Neg(Over(Blank(), Whole(5)))),
    # relations
    ("3/4 = 15/20", Relation("=", (THREE_FOURTHS, Frac(15, 20)))),
    ("3 + ? = 10", Relation("=", (Op("+", Whole(3), Blank()), Whole(10)))),
    ("1 < 2 < 3", Relation("<", (Whole(1), Whole(2), Whole(3)))),
    ("1 <= 2", Relation("≤", (Whole(1), Whole(2)))),
    ("2 >= 1", Relation("≥", (Whole(2), Whole(1)))),
    ("2 != 1", Relation("≠", (Whole(2), Whole(1)))),
]


@pytest.mark.parametrize(("text", "tree"), TREES)
def test_a_text_becomes_its_tree(text: str, tree: Writing) -> None:
    """Each writing has one tree."""
    assert parse(text) == tree


FAULTS = [
    ("", "a number or expression was expected, but there is none", 1),
    ("  ", "a number or expression was expected, but there is none", 3),
    ("3 +", "a number or expression was expected after '+'", 4),
    ("3 + × 4", "a number or expression was expected after '+'", 5),
    ("× 3", "a number or expression was expected before '×'", 1),
    ("= 3", "a number or expression was expected before '='", 1),
    ("3 =", "a number or expression was expected after '='", 4),
    ("()", "a number or expression was expected after '('", 2),
    ("3 4", "an operation sign was expected before '4'", 3),
    ("2 □/5", "an operation sign was expected before '□'", 3),
    ("2n", "an operation sign was expected before 'n'", 2),
    ("3 (4)", "an operation sign was expected before '('", 3),
    ("(1 + 2)3", "an operation sign was expected before '3'", 8),
    ("(3 + 4", "a closing bracket was expected for '(' in column 1", 7),
    ("(3 = 4)", "a closing bracket was expected for '(' in column 1", 4),
    ("3)", "')' has no opening bracket", 2),
    ("1 < 2 = 2", "'=' can't follow '<' in one line", 7),
    ("3/0", "the denominator is zero", 3),
    ("1 + 2 3/0", "the denominator is zero", 9),
    ("□/0", "the denominator is zero", 3),
    ("(1 + 2)/(3 − 3)", "the denominator is zero", 9),
    ("5 ÷ 0", "the divisor is zero", 5),
    ("$4", "'$' is not part of a number or expression", 1),
    ("3 + \x07", "U+0007 is not part of a number or expression", 5),
    ("Cat", "'C' is not part of a number or expression", 1),
    ("1,20", "',' is not part of a number or expression", 2),
    ("3²", "'²' is not part of a number or expression", 2),
    ("٣", "'٣' is not part of a number or expression", 1),
    ("1 + 1234567890123", "the number has more than 12 digits", 5),
    ("0.1234567890123", "the number has more than 12 digits", 1),
    ("(" * 21 + "1" + ")" * 21, "brackets are nested more than 20 deep", 21),
    ("1+" * 100 + "1", "the text is longer than 200 characters", 201),
]


@pytest.mark.parametrize(("text", "message", "column"), FAULTS)
def test_what_is_wrong_is_said_with_its_column(text: str, message: str, column: int) -> None:
    """A message says what was expected; the column is where."""
    with pytest.raises(ExactError) as caught:
        parse(text)
    assert (caught.value.message, caught.value.column) == (message, column)


def test_twenty_brackets_and_two_hundred_characters_are_allowed() -> None:
    """The limits themselves are inside."""
    assert value(parse_expr("(" * 20 + "1" + ")" * 20)) == 1
    assert value(parse_expr("+".join("1" * 100) + " ")) == 100


def test_an_expression_is_not_a_relation() -> None:
    """Where a value is wanted, the relation sign is the fault."""
    assert parse_expr("3/4 + 1/5") == Op("+", THREE_FOURTHS, ONE_FIFTH)
    with pytest.raises(ExactError, match="without '='") as caught:
        parse_expr("3/4 = 15/20")
    assert caught.value.column == 5


@pytest.mark.parametrize("glyph", "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞")
def test_a_one_character_fraction_has_the_value_unicode_gives_it(glyph: str) -> None:
    """Source: the Unicode Character Database, property Numeric_Value."""
    expected = Fraction(unicodedata.numeric(glyph)).limit_denominator(10)
    assert value(parse_expr(glyph)) == expected


# An expression as we write it, and as Python writes it: Python's grammar is the outside judge of
# precedence, sympy of the value.
_PAIRS = st.recursive(
    st.one_of(
        st.integers(0, 99).map(lambda n: (f"{n}", f"Q({n})")),
        st.tuples(st.integers(0, 30), st.integers(1, 12)).map(
            lambda p: (f"{p[0]}/{p[1]}", f"Q({p[0]}, {p[1]})")
        ),
        st.tuples(st.integers(1, 9), st.integers(0, 30), st.integers(1, 12)).map(
            lambda p: (f"{p[0]} {p[1]}/{p[2]}", f"(Q({p[0]}) + Q({p[1]}, {p[2]}))")
        ),
        st.integers(0, 999).map(lambda n: (f"0.{n:03}", f"Q({n}, 1000)")),
    ),
    lambda inner: st.one_of(
        st.tuples(inner, st.sampled_from(("+ +", "− -", "× *", "÷ /")), inner).map(
            lambda t: tuple(
                f"{a} {s} {b}" for a, s, b in zip(t[0], t[1].split(), t[2], strict=True)
            )
        ),
        inner.map(lambda p: (f"({p[0]})", f"({p[1]})")),
        inner.map(lambda p: (f"−({p[0]})", f"-({p[1]})")),
        st.tuples(inner, inner).map(
            lambda t: (f"({t[0][0]})/({t[1][0]})", f"(({t[0][1]})/({t[1][1]}))")
        ),
    ),
    max_leaves=8,
).filter(lambda pair: len(pair[0]) <= 200)


@given(_PAIRS)
def test_values_are_those_of_python_and_sympy(pair: tuple[str, str]) -> None:
    """Source: sympy's rationals, with the precedence of Python's own grammar."""
    ours, theirs = pair
    try:
        eval(theirs, {"Q": Fraction})
    except ZeroDivisionError:
        with pytest.raises(ExactError, match="zero"):
            parse(ours)
        return
    expected = eval(theirs, {"Q": sympy.Rational})
    assert value(parse_expr(ours)) == Fraction(int(expected.p), int(expected.q))


_NOISE = st.text("0123456789/⁄.,+-−–×÷*=<>≤()□?_ nx½¾²$", max_size=60) | st.text(max_size=210)


@given(_NOISE)
def test_no_text_makes_it_fail_in_another_way(text: str) -> None:
    """Any text at all is a tree or an ExactError with a column in it or just behind it."""
    fault = _fault(text)
    assert fault is None or (fault.message and 1 <= fault.column <= len(text) + 1)


@given(_NOISE)
def test_the_start_that_is_found_is_a_writing(text: str) -> None:
    """What `parse_start` finds parses; a text that parses is found whole."""
    found = parse_start(text)
    if found is not None:
        tree, end = found
        assert parse(text[:end]) == tree
    if _fault(text) is None:
        assert found == (parse(text), len(text.rstrip()))


def _fault(text: str) -> ExactError | None:
    try:
        parse(text)
    except ExactError as error:
        return error
    return None


@pytest.mark.parametrize(
    ("text", "start"),
    [
        ("3/4 + 1/5 ?", "3/4 + 1/5"),
        ("3 + 4 =", "3 + 4"),
        ("3 + (4", "3"),
        ("1 < 2 = 2", "1 < 2"),
        ("3 × 5)/2", "3 × 5"),
        ("3/0", None),
        ("12 ÷ 0", None),
        ("+ 3", None),
        ("", None),
    ],
)
def test_the_longest_start(text: str, start: str | None) -> None:
    """It ends where the last complete expression does; half a fraction is none."""
    assert parse_start(text) == (start and (parse(start), len(start)))
