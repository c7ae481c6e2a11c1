"""Questions for an estimate of work that is written out, known by the choices: about 48 × 21.

An estimate is no one number. It is read only where rounding every number to its leading digit, or
to the place that is named, makes a choice, and that choice is the nearest to the exact value too.
CCSSM (2010) 4.OA.A.3 asks for estimation by rounding.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace
from fractions import Fraction
from math import floor

from narrate.errors import ExactError
from narrate.exact.parser import parse_expr
from narrate.exact.tree import Decimal, Expr, Frac, Mixed, Neg, Op, Relation, Whole, leaves, value
from narrate.items.item import Item, Part
from narrate.reading.demands import Named
from narrate.reading.named import reading_of
from narrate.reading.nearest import place_named
from narrate.reading.reading import Reading
from narrate.reading.tellings import stimulus_of
from narrate.reading.words.parts import in_digits

_WORK = r"(?P<work>[\d$][\d,.$ /+−×÷*x-]*\d)"
_NOUN = r"(?:(?:the )?(?:sum|difference|product|quotient|value)(?: of)? )?"
_EACH = (
    r"(?:,? (?:if you|when you|by) round(?:ing)?(?: each| both| the)?(?: (?:numbers?|factors?"
    r"|addends?))?(?: to the nearest (?P<place>[a-z ]+?))?)?"
)
_CHOICE = r"(?: (?:number|choice|value|amount|answer))?(?: of (?:these|the following))?"
_ASKS = (
    rf"(?:which|what){_CHOICE} is the (?:best|closest|most reasonable) estimate (?:of|for) {_NOUN}"
    rf"{_WORK}{_EACH}",
    rf"(?:which|what){_CHOICE} is (?:closest|nearest) to {_NOUN}{_WORK}",
    rf"(?:estimate|about how much is) {_NOUN}{_WORK}{_EACH}",
    rf"(?:the (?:sum|difference|product|quotient)(?: of)? )?{_WORK} is (?:closest|nearest) to"
    r"(?: (?:which|what) (?:number|choice)| which of these)?",
    rf"(?:the (?:sum|difference|product|quotient)(?: of)? )?{_WORK} is about",
)
_MOST, _MOST_NUMBERS = 160, 4
_HALF = Fraction(1, 2)


def estimated_reading(item: Item, part: Part) -> Reading | None:
    """A part that asks for an estimate and has a choice that is one, None where it is not sure."""
    if part.claim is not None or part.model is not None or stimulus_of(item) or part.select_all:
        return None
    work, place = _asked(part.ask)
    amounts = _amounts(part)
    if work is None or len(amounts) < 2:
        return None
    rounded = _rounded(work, place)
    if rounded is None:
        return None
    worth = value(rounded)
    if not _is_estimate(worth, value(work), amounts):
        return None
    found = reading_of(item, part, worth, Named(name="estimate", of=(work, rounded)))
    return replace(found, money=all(choice.text.startswith("$") for choice in part.choices))


def _asked(ask: str) -> tuple[Op | None, str]:
    """The work whose estimate is asked for, and the place that numbers are to be rounded to."""
    text = " ".join(ask.split()).strip(" ?.:").lower() if len(ask) <= _MOST else ""
    text = re.sub(r"(?<=\d) and (?=[\d$])", " + ", text) if "sum of" in text else text
    text = re.sub(r"(?<=\d) and (?=[\d$])", " × ", text) if "product of" in text else text
    for pattern in _ASKS:
        if found := re.fullmatch(pattern, text):
            with suppress(ExactError):
                tree = parse_expr(found["work"].replace("$", ""))
                return (tree if isinstance(tree, Op) else None), _place(found)
    return None, ""


def _place(found: re.Match[str]) -> str:
    return found.groupdict().get("place") or ""


def _amounts(part: Part) -> Sequence[Fraction]:
    trees = [c.tree for c in part.choices]
    plain = Whole | Decimal | Frac | Mixed | Neg
    return (
        [value(tree) for tree in trees if isinstance(tree, plain)]
        if all(isinstance(tree, plain) and not isinstance(tree, Relation) for tree in trees)
        else []
    )


def _is_estimate(worth: Fraction, exact: Fraction, amounts: Sequence[Fraction]) -> bool:
    """Whether an estimate is a choice, and the one choice that is nearest to the exact value."""
    by_distance = sorted(amounts, key=lambda amount: abs(amount - exact))
    first, second = (abs(amount - exact) for amount in by_distance[:2])
    return by_distance[0] == worth and first < second and worth != exact


def _rounded(work: Op, place: str) -> Op | None:
    """The work with every number rounded; None where it has other than a few plain numbers."""
    numbers = leaves(work)
    signs = set(_signs(work))
    if not 1 < len(numbers) <= _MOST_NUMBERS or not (signs <= {"+", "−"} or len(numbers) == 2):
        return None
    made = _put(work, place)
    return made if isinstance(made, Op) and not ("÷" in signs and not value(made.right)) else None


def _signs(tree: Expr) -> list[str]:
    match tree:
        case Op(sign, left, right):
            return [sign, *_signs(left), *_signs(right)]
        case _:
            return []


def _put(tree: Expr, place: str) -> Expr | None:
    match tree:
        case Op(sign, left, right):
            one, other = _put(left, place), _put(right, place)
            return None if one is None or other is None else Op(sign, one, other)
        case Whole() | Decimal() | Frac() | Mixed():
            worth = _nearest(tree, place)
            return None if worth is None else parse_expr(in_digits(worth))
        case _:
            return None


def _nearest(tree: Expr, place: str) -> Fraction | None:
    """A number rounded to the place that is named, or to its leading digit; fractions to halves."""
    amount = value(tree)
    if place:
        nearest = place_named(place)
        return None if nearest is None else nearest.answered(amount)
    if isinstance(tree, Frac | Mixed):
        size = _HALF if amount < 1 else Fraction(1)
    elif amount < 1:
        return None
    else:
        size = Fraction(10) ** (len(str(int(amount))) - 1)
    return floor(amount / size + _HALF) * size
