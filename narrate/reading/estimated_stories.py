"""Stories that ask for about how much: easy numbers stand for those that are told.

CCSSM (2010) 3.OA.D.8, 4.OA.A.3: estimation strategies including rounding. Which numbers are easy is
a matter of choice; a question is read only where every usual way to round leads to one choice.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction

from narrate.errors import Declined, ExactError
from narrate.exact.caption import write
from narrate.exact.tree import Decimal, Expr, Group, Op, Whole, value
from narrate.items.item import Item, Part
from narrate.reading.demands import Estimated, Nearest
from narrate.reading.reading import Reading
from narrate.reading.tellings import tellings, unknown_of

_ASKED = (
    (r"\b(?:about|approximately|roughly) (?=how (?:many|much)\b)", ""),
    (r"(?<=\bhow many )(?:about|approximately) ", ""),
    (
        r"\b(?:which|what) is (?:the best|a good|the most reasonable|the closest|a reasonable) "
        r"estimate (?:of|for) (?=the\b|how\b)",
        "what is ",
    ),
    (r"\b(?:which|what) number is closest to (?=the\b)", "what is "),
    (r"\bestimate (?=the\b)", "what is "),
    (r"\bestimate (?=how (?:many|much)\b)", ""),
)
"""How an estimate is asked for, and what stands there in a question for the amount itself."""

_PLACE = (
    r",? ?(?:by|when|if) (?:first )?round(?:ing|ed)?(?: (?:each|the|both|all)(?: (?:number|amount|"
    r"price|addend|factor|cost)s?)?)?(?: is rounded| are rounded)? to the nearest (?P<place>[a-z]+)"
)
_PLACES: dict[str, int] = {"ten": 10, "hundred": 100, "thousand": 1000, "whole": 1, "dollar": 1}
_OWN = (
    r"\bfront[- ]end\b|\bcompatible\b|\bclosest estimate\b|\bbetween\b|\bunderestimate|\boverestim"
)

Read = Callable[[Item, Part], Reading]


def estimated_story(item: Item, part: Part, read: Read) -> Reading | None:
    """A question for about how much, with choices; None where it is no such question.

    `read` reads the question for the amount itself. Raises Declined where that is not certain, or
    where rounding does not lead to one choice.
    """
    if not part.choices or part.model is not None or part.claim is not None or part.select_all:
        return None
    rest, place = _rest(part.ask)
    if rest is None or re.search(_OWN, part.ask, re.IGNORECASE):
        return None
    if not all(isinstance(choice.tree, Whole | Decimal) for choice in part.choices):
        return None
    exact = read(item, replace(part, ask=rest, choices=()))
    if exact.goal.demand is not None or exact.rounding or not isinstance(exact.expression, Op):
        return None
    return _settled(item, part, exact, _ways(exact.expression, place))


def _rest(ask: str) -> tuple[str | None, int]:
    """The question for the amount itself, None where no estimate is asked; the place it names."""
    place = 0
    if found := re.search(_PLACE, ask, re.IGNORECASE):
        place = _PLACES.get(found["place"].lower(), -1)
        after = re.sub(r"^ (?:number|dollar)\b", "", ask[found.end() :])
        ask = ask[: found.start()] + after
    for pattern, instead in _ASKED:
        if re.search(pattern, ask, re.IGNORECASE):
            return re.sub(pattern, instead, ask, count=1, flags=re.IGNORECASE), place
    return None, place


def _ways(expression: Expr, place: int) -> list[Expr]:
    """The expression with its numbers rounded, in each of the usual ways; the exact one first."""
    if place:
        return [_rounded(expression, place)] if place > 0 else []
    return [
        expression,
        *dict.fromkeys(_rounded(expression, size) for size in (0, 1, 10, 100, 1000)),
    ]


def _rounded(tree: Expr, size: int) -> Expr:
    """An expression with its numbers rounded to a place, or (0) each to its own largest."""
    match tree:
        case Op(sign, left, right):
            return Op(sign, _rounded(left, size), _rounded(right, size))
        case Group(inner):
            return Group(_rounded(inner, size))
        case Whole() | Decimal():
            amount = value(tree)
            own = 10 ** (len(str(int(amount))) - 1)
            nearest = Nearest(size=Fraction(size or own), name="")
            return (
                tree if amount < 10 and not size and _is_whole(amount) else _whole(nearest, amount)
            )
        case _:
            return tree


def _is_whole(amount: Fraction) -> bool:
    return amount.denominator == 1


def _whole(nearest: Nearest, amount: Fraction) -> Expr:
    return Whole(int(nearest.answered(amount)))


def _settled(item: Item, part: Part, exact: Reading, ways: list[Expr]) -> Reading:
    """The reading by the one choice that rounding leads to. Raises Declined where it is not one."""
    offered = {value(c.tree) for c in part.choices if isinstance(c.tree, Whole | Decimal)}
    met = [(way, worth) for way in ways if (worth := _worth(way)) in offered]
    answers = {worth for _, worth in met}
    true = exact.goal.answer
    nearest = sorted(offered, key=lambda amount: abs(amount - true))[:1]
    if len(answers) != 1 or (len(ways) > 1 and [*answers] != nearest):
        raise Declined(
            f"I read {write(exact.expression)}, to be estimated, and the choices do not settle how",
            "say to which place the numbers are rounded, or leave the item out",
        )
    chosen = next((way for way, _ in met if way != exact.expression), exact.expression)
    pairs = tuple(_pairs(exact.expression, chosen))
    return replace(
        exact,
        goal=replace(exact.goal, asked=chosen, answer=answers.pop(), demand=Estimated(pairs=pairs)),
        expression=chosen,
        unknown=unknown_of(item, part),
        tellings=tuple(tellings(item, part, exact.expression, exact.situation)),
        counted=(),
        decimals=False,
    )


def _worth(way: Expr) -> Fraction | None:
    try:
        return value(way)
    except ExactError:
        return None


def _pairs(exact: Expr, easy: Expr) -> Iterator[tuple[Expr, Expr]]:
    """Each number that is not the easy one in its place, with that one."""
    match exact, easy:
        case Op(_, a, b), Op(_, c, d):
            yield from _pairs(a, c)
            yield from _pairs(b, d)
        case Group(a), Group(b):
            yield from _pairs(a, b)
        case _:
            if value(exact) != value(easy):
                yield exact, easy
