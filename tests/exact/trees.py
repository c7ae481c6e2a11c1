"""Expression trees for property tests."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import strategies as st

from narrate.errors import ExactError
from narrate.exact.tree import (
    Blank,
    Decimal,
    Expr,
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

BLANK_VALUE = Fraction(7, 3)

_counts = st.integers(0, 20_000)
_denominators = st.integers(1, 1_200)

NUMBERS: st.SearchStrategy[Expr] = st.one_of(
    st.builds(Whole, _counts),
    st.builds(Frac, _counts, _denominators),
    st.builds(Mixed, st.integers(0, 500), st.integers(0, 99), _denominators),
    st.builds(Decimal, _counts.map(str), st.from_regex(r"[0-9]{1,4}", fullmatch=True)),
)
LEAVES = NUMBERS | st.builds(Blank, st.sampled_from("□anx"))


def _larger(inner: st.SearchStrategy[Expr]) -> st.SearchStrategy[Expr]:
    return st.one_of(
        st.builds(Neg, inner),
        st.builds(Group, inner),
        st.builds(Over, inner, inner),
        st.builds(Op, st.sampled_from(("+", "−", "×", "÷")), inner, inner),
    )


def _has_value(tree: Expr) -> bool:
    try:
        value(tree, BLANK_VALUE)
    except ExactError:
        return False
    return True


def _expressions(leaves: int) -> st.SearchStrategy[Expr]:
    return st.recursive(LEAVES, _larger, max_leaves=leaves).filter(_has_value)


EXPRESSIONS = _expressions(7)
WRITINGS: st.SearchStrategy[Writing] = st.one_of(
    EXPRESSIONS,
    st.builds(
        Relation,
        st.sampled_from(("=", "≠", "<", ">", "≤", "≥")),
        st.lists(_expressions(3), min_size=2, max_size=3).map(tuple),
    ),
)


def sides(tree: Writing) -> tuple[Expr, ...]:
    """The sides of a relation, or the expression alone."""
    return tree.sides if isinstance(tree, Relation) else (tree,)


def values(tree: Writing) -> tuple[Fraction, ...]:
    """The value of each side, blanks counting as BLANK_VALUE."""
    return tuple(value(side, BLANK_VALUE) for side in sides(tree))
