"""Quotients with their remainder, known by the choices: 15 remainder 3, or 15 R 3."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from narrate.errors import Declined
from narrate.exact.caption import write
from narrate.exact.tree import Expr, Frac, Group, Op, Over, Whole, WithRest, value
from narrate.items.item import Item, Part
from narrate.reading.bare import find_bare
from narrate.reading.demands import Remainder
from narrate.reading.reading import Reading
from narrate.reading.tellings import tellings, unknown_of


def with_remainder(item: Item, part: Part, read: Callable[[Item, Part], Reading]) -> Reading | None:
    """A division whose choices have remainders, None where they have none.

    `read` reads the part without its choices. Raises Declined where no division is written out.
    """
    if not any(isinstance(choice.tree, WithRest) for choice in part.choices):
        return None
    plain = replace(part, choices=(), boxes=("number",))
    bare = find_bare(part.ask) if part.model is None else None
    if isinstance(bare, Frac | Over) and (written := _division(bare)):
        plain = replace(plain, model=Op("÷", *written))  # 123 / 8 stands there as a fraction
    found = read(item, plain)
    division = _division(found.expression)
    if division is None or found.goal.form != "value" or found.rounding:
        raise Declined(
            f"I read {write(found.expression)}, and choices with a remainder",
            "write the division out, such as “What is 123 ÷ 8?”, or add a line `model: 123 ÷ 8`",
        )
    divided, by = division
    return replace(
        found,
        expression=Op("÷", divided, by),
        goal=replace(
            found.goal,
            asked=Op("÷", divided, by),
            answer=value(Op("÷", divided, by)),
            form="value",
            demand=Remainder(by=by.number),
        ),
        unknown=unknown_of(item, part),
        tellings=tuple(tellings(item, part, found.expression, found.situation)),
        decimals=False,
        money=False,
        unit=part.unit,
    )


def _division(tree: Expr) -> tuple[Whole, Whole] | None:
    """What is divided, and by what: whole numbers; 123 / 8 may be read as a fraction."""
    match tree:
        case Group(inner):
            return _division(inner)
        case Frac(top, bottom) if bottom:
            return Whole(top), Whole(bottom)
        case Op("÷", Whole() as left, Whole() as right) | Over(Whole() as left, Whole() as right):
            return (left, right) if right.number else None
        case _:
            return None


def by_told(part: Part, by: int) -> Part:
    """The part whose choices know by what was divided, so that they have a value."""
    choices = tuple(
        replace(choice, tree=replace(choice.tree, by=by))
        if isinstance(choice.tree, WithRest)
        else choice
        for choice in part.choices
    )
    return replace(part, choices=choices)
