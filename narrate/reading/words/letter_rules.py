"""Whole questions about letters that a rule answers: a number put in, proportions, slopes.

CCSSM (2010) 6.EE.A.2c (a number put in), 7.RP.A.2 (proportions), 8.EE.B.6 (slope).
"""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import suppress

from narrate.errors import Declined, ExactError
from narrate.exact.parser import parse, parse_expr
from narrate.exact.tree import Expr, Group, Op, Relation, value
from narrate.reading.equations import worked_back
from narrate.reading.words.whole_questions import (
    ANY,
    ASKS,
    Row,
    in_plain_digits,
    worked,
)

# -- letters

_TERM = r"[\d./() +×*·÷−-]"
_LINE = rf"(?:{_TERM}*[a-z]{_TERM}*)"


def put_in(work: str, letter: str, told: str) -> Expr | None:
    """Work with a number in the place of its one letter, None where it has another letter."""
    letters = set(re.findall(r"[a-z]", work))
    if letters != {letter}:
        return None
    signs = re.sub(rf"(?<=[\d)])\s*(?={letter})", " × ", work)
    signs = re.sub(r"(?<=[\d)])\s*(?=\()", " × ", signs)
    with suppress(ExactError):
        made = _single(parse_expr(signs.replace(letter, f"({in_plain_digits(told)})")))
        return made if isinstance(made, Op) and value(made) >= 0 else None
    return None


def _single(tree: Expr) -> Expr:
    """A tree without brackets around single numbers."""
    match tree:
        case Group(Op() as inner):
            return Group(_single(inner))
        case Group(inner):
            return inner
        case Op(sign, left, right):
            return Op(sign, _single(left), _single(right))
        case _:
            return tree


def _function(found: re.Match[str]) -> Expr | None:
    name, letter, work, again, told = found.groups()
    return put_in(work.lower(), letter.lower(), told) if name == again else None


def _of_letter(order: tuple[int, int, int, int]) -> Callable[[re.Match[str]], Expr | None]:
    """y, of y = 3x + 2, with a number for x: where y, its number and the work stand."""

    def work(found: re.Match[str]) -> Expr | None:
        asked, made, letter, told = (found[at].lower() for at in order[:1] * 2 + order[1:3])
        return put_in(found[order[3]].lower(), letter, told) if asked == made else None

    return work


def _undone(found: re.Match[str]) -> Expr | None:
    """What the steps of an equation with brackets make, undone from the last."""
    told = re.sub(r"(\d)\s*(?=[a-z(])", r"\1 × ", found[1].lower())
    with suppress(Declined, ExactError):
        tree = parse(told)
        back = worked_back(tree) if isinstance(tree, Relation) else None
        return back if isinstance(back, Op) and value(back) >= 0 else None
    return None


def _proportion(found: re.Match[str]) -> Expr | None:
    """The unknown of two equal fractions: multiplied crosswise, then divided."""
    sides = [each.strip().split("/") for each in found["sides"].lower().split("=")]
    if len(sides) != 2 or any(len(side) != 2 for side in sides):
        return None
    (a, b), (c, d) = sides
    asked = found.groupdict().get("x")
    for unknown, first, second, over in ((a, b, c, d), (b, a, d, c), (c, a, d, b), (d, b, c, a)):
        if unknown.isalpha() and all(n.isdigit() and int(n) for n in (first, second, over)):
            if asked and asked.lower() != unknown:
                return None
            tree = worked("{} × {} ÷ {}", first, second, over)
            return tree if tree and value(tree).denominator == 1 else None
    return None


def _slope(found: re.Match[str]) -> Expr | None:
    """How much a line goes up for each step to the right, where it does go up."""
    x, y, x2, y2 = (int(found[at]) for at in range(1, 5))
    if x2 < x:
        x, y, x2, y2 = x2, y2, x, y
    if x2 == x or min(x, y) < 0 or y2 < y:
        return None
    return parse_expr(f"({y2} − {y}) ÷ ({x2} − {x})")


_SIDES = r"(?P<sides>(?:\d+|[a-z]) ?/ ?(?:\d+|[a-z]) ?= ?(?:\d+|[a-z]) ?/ ?(?:\d+|[a-z]))"
_POINT = r"\( ?(-?\d+), ?(-?\d+) ?\)"
LETTERS = (
    Row(rf"if ([a-z])\(([a-z])\) ?= ?({_LINE}),? (?:then )?what is (?:the value of )?([a-z])\("
        rf"{ANY}\)", _function, why="number put in"),
    Row(rf"what is (?:the value of )?([a-z]) (?:when|if) ([a-z]) (?:=|is|equals) {ANY} (?:in|for)"
        rf"(?: the equation)? \1 ?= ?({_LINE})",
        lambda m: put_in(m[4].lower(), m[2].lower(), m[3]), why="number put in"),
    Row(rf"(?:if|in|for)(?: the equation)? ([a-z]) ?= ?({_LINE}),? what is (?:the value of )?\1 "
        rf"(?:when|if) ([a-z]) (?:=|is|equals) {ANY}",
        lambda m: put_in(m[2].lower(), m[3].lower(), m[4]), why="number put in"),
    Row(r"solve (?:for [a-z]:? |the equation:? )?((?=[^?]*\()[\da-z ()+÷×*/-]+=[\da-z ()+÷×*/-]+)",
        _undone, why="steps undone"),
    Row(rf"what (?:value|number) (?:of|for) (?P<x>[a-z]) makes (?:the |this )?(?:proportion |"
        rf"equation )?{_SIDES} true", _proportion, why="proportion"),
    Row(rf"(?:solve|find [a-z] in)(?: the| this)?(?: proportion)?(?: for [a-z])?:? {_SIDES}",
        _proportion, why="proportion"),
    Row(rf"(?:what|find) (?:is )?the (?:missing|value of the missing|value of (?P<x>[a-z]))"
        rf"(?: number| term| value)? in (?:the|this) proportion:? {_SIDES}",
        _proportion, why="proportion"),
    Row(rf"{ASKS} the slope of (?:the|a) line (?:that (?:passes|goes) )?through (?:the points )?"
        rf"{_POINT} and {_POINT}", _slope, why="slope"),
)  # fmt: skip

ROWS = LETTERS
