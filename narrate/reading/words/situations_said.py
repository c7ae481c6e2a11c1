"""Situations in plain words for a teacher, with the terms of the standards behind them.

The terms in brackets are those of CCSSM (2010), glossary Tables 1 and 2, where a situation is
there; the plain words are this project's own.
"""

from __future__ import annotations

_SAID = {
    ("add to", "result"): "some come in addition: how many there are then",
    ("add to", "change"): "some come in addition: how many came",
    ("add to", "start"): "some come in addition: how many there were before",
    ("change", "change"): "the amount grows: by how much",
    ("take from", "result"): "some go away: how many are left",
    ("take from", "change"): "some go away: how many went",
    ("take from", "start"): "some go away: how many there were before",
    ("take from", "not so"): "some are told of: how many are the others",
    ("put together", "total"): "parts are put together: how many there are in all",
    ("put together", "addend"): "the total and a comparison are told: how many one has",
    ("take apart", "addend"): "all and a part are told: how many are the other part",
    ("take apart", "not so"): "all and a part are told: how many are not in that part",
    ("difference", "difference"): "two amounts are compared: how far apart they are",
    ("larger", "larger"): "two amounts are compared: how many the larger is",
    ("smaller", "smaller"): "two amounts are compared: how many the smaller is",
    ("compare and put together", "total"): "one amount is told by comparing: both together",
    ("in and out", "result"): "some come and some go: how many there are at the end",
    ("in and out", "start"): "some come and some go: how many there were before",
    ("needed", "addend"): "there is not enough yet: how many are missing",
    ("needed", "result"): "what is missing is told: how many are wanted",
    ("needed", "what there is"): "what is missing is told: how many there are",
    ("equal groups", "product"): "groups of the same size: how many in all",
    ("equal groups", "group size"): "groups of the same size: how many in each",
    ("equal groups", "number of groups"): "groups of the same size: how many groups",
    ("equal groups", "remainder"): "groups of the same size: how many are left over",
    ("equal groups", "for one"): "the same for each: how much for one",
    ("equal groups", "mean"): "a mean: all of it shared equally",
    ("times as many", "product"): "so many times as many: how many the larger is",
    ("times as many", "group size"): "so many times as many: how many the smaller is",
    ("times as many", "number of groups"): "two amounts are compared: how many times as many",
    ("part of", "part"): "a part of an amount: how many are in the part",
    ("part of", "fraction"): "a part of an amount: what fraction it is",
    ("area", "product"): "a rectangle: its area",
    ("area", "perimeter"): "a rectangle: how long it is all around",
    ("area", "equal sides"): "equal sides: how long it is all around",
    ("area", "side"): "a rectangle with its area: how long a side is",
    ("steps", "answer"): "more than one step",
}

_TERMS = {
    "larger": "compare, bigger unknown",
    "smaller": "compare, smaller unknown",
    "difference": "compare, difference unknown",
    "times as many": "compare, times as many",
}
_IN_TABLES = ("add to", "take from", "put together", "take apart", "equal groups", "area")
_UNKNOWNS = (
    "result", "change", "start", "total", "addend", "product", "group size", "number of groups",
)  # fmt: skip


def said(situation: str, unknown: str) -> str:
    """What a story tells and asks, such as "some go away: how many are left (take from, ...)"."""
    if not situation:
        return ""
    plain = _SAID.get((situation, unknown))
    if plain is None:
        return f"a known form of story: {situation}"
    term = _term(situation, unknown)
    return f"{plain} ({term})" if term else plain


def _term(situation: str, unknown: str) -> str:
    """The standards' own term, "" where they have none."""
    if situation in _TERMS:
        return _TERMS[situation]
    in_table = situation in _IN_TABLES and unknown in _UNKNOWNS
    return f"{situation}, {unknown} unknown" if in_table else ""
