"""Questions for the same number in another writing: fractions, decimals, percents, mixed numbers.

CCSSM (2010) 4.NF.C.6 and 5.NF.B.3 (fractions and decimals, improper fractions), 6.RP.A.3c.
"""

from __future__ import annotations

import re
from contextlib import suppress
from fractions import Fraction

from narrate.errors import ExactError
from narrate.exact.parser import parse_expr
from narrate.exact.tree import Decimal, Expr, Frac, Mixed, Op, Whole
from narrate.reading.words.whole_questions import ANY, Row, number

_FORM = (
    r"fraction|decimal|mixed number|improper fraction|percent(?:age)?|tenths|hundredths|thousandths"
)
_PARTS = {"tenths": 10, "hundredths": 100, "thousandths": 1000}
_SIMPLY = r"(?:,? (?:written |expressed )?in (?:its )?(?:simplest|lowest) (?:form|terms),?)?"
_SAME = (
    r"(?:equals|names|represents|(?:is|has) (?:equal|equivalent) (?:in value )?to|is the same as"
    r"|has the same value as|is (?:another|a) name for|is another way to write)"
)


def in_form(told: str, percent: str | None, form: str) -> Fraction | Expr | None:
    """A number in another writing, where it has one: a percent keeps its face value."""
    told, form = told.strip(), form.lower()
    size = number(told) / 100 if percent else number(told)
    if form in ("percent", "percentage", "%"):
        return None if percent else _times_hundred(told)
    ends = 10**9 % size.denominator == 0
    kept = ends if form == "decimal" else (size * _PARTS.get(form, 10**9)).denominator == 1
    if not kept and not form.endswith(("fraction", "number")):
        return None
    if percent and form == "decimal":
        return _hundredths(told)
    if percent and form == "fraction" and isinstance(whole := _tree(told), Whole):
        return Frac(whole.number, 100)
    if form == "improper fraction" and isinstance(mixed := _tree(told), Mixed):
        return mixed
    return _divided(told) if form == "decimal" and not percent and "/" in told else size


def _hundredths(told: str) -> Fraction | Expr:
    """A percent as what it divides: 7% is 7 ÷ 100."""
    match _tree(told):
        case Whole() | Decimal() as tree:
            return Op("÷", tree, Whole(100))
        case _:
            return number(told) / 100


def _tree(told: str) -> Expr | None:
    with suppress(ExactError):
        return parse_expr(told)
    return None


def _times_hundred(told: str) -> Fraction | Expr:
    """How many hundredths a number is: 7/20 × 100."""
    match _tree(told):
        case Frac() | Decimal() as tree:
            return Op("×", tree, Whole(100))
        case _:
            return number(told) * 100


def _divided(told: str) -> Fraction | Expr:
    """A fraction as what it divides: 5/8 is 5 ÷ 8."""
    match _tree(told):
        case Frac(top, bottom):
            return Op("÷", Whole(top), Whole(bottom))
        case _:
            return number(told)


def _asked(found: re.Match[str]) -> Fraction | Expr | None:
    return in_form(found[1], found[2], found[3])


def _form_first(found: re.Match[str]) -> Fraction | Expr | None:
    return in_form(found[2], found[3], found[1])


ROWS = (
    Row(
        rf"(?:(?:write|express|rewrite|give|convert|change|what is) )?{ANY}(%| percent)? "
        rf"(?:(?:written|expressed) )?(?:as|to|into|in) "
        rf"(?:an? )?(?:equal |equivalent )?({_FORM}){_SIMPLY}",
        _asked,
    ),
    Row(
        rf"(?:what|which)(?: of (?:these|the following))?(?: simplified)? ({_FORM})s?{_SIMPLY} "
        rf"{_SAME} {ANY}(%| percent)?{_SIMPLY}",
        _form_first,
    ),
    Row(rf"what is the ({_FORM})(?: form)? (?:for|of|equal to) {ANY}(%| percent)?", _form_first),
    Row(
        rf"{ANY}(%| percent)? is (?:equal|equivalent) to (?:what|which) ({_FORM}){_SIMPLY}", _asked
    ),
    Row(r"what is (\d+(?:\.\d+)?)% equal to", lambda m: _hundredths(m[1])),
)
"""Whole questions, each with the number and the writing that is asked for."""
