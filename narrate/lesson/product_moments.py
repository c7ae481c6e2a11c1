"""The words of products and quotients of fractions: which template, and what a result counts."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from narrate.exact.spoken import pieces_name
from narrate.exact.tree import Whole, value
from narrate.lesson.number_moments import counted
from narrate.lesson.solved import SolvedPart
from narrate.lesson.why_now import costs, operations_of, reason
from narrate.solution.steps import Step

Said = tuple[str, dict[str, Any]]

_BEGINS = (
    "equal groups",
    "part of",
    "times as many",
    "times fewer",
    "before",
    "brackets",
    "in order",
    "half around",
    "for one",
    "compared",
    "layer",
    "layers",
    "to pay",
    "other age",
    "single side",
    "side by side",
)
"""Reasons for a first operation that have words of their own."""


def in_turn(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """Why an operation comes now, where there are several."""
    why = reason(step, solved)
    if not why.startswith("then") and why not in _BEGINS:
        why = "hidden" if step.details["first"] else "then"
    money = {"money": solved.reading.money, "price": costs(solved)}
    yield f"because/{why}", {**step.details, **money}


def with_unit(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """A move, and what its result counts where it ends the work."""
    details: dict[str, Any] = dict(step.details)
    if isinstance(details.get("sizes"), tuple):
        named = (pieces_name(size, 2, solved.language) for size in details["sizes"])
        details["sizes_named"] = tuple(named)
    yield step.move, details
    if details.get("unit"):
        yield "counts", counted(_result(step), str(details["unit"]))


def read_part(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """What the question makes of a part of a group."""
    groups = str(step.details.get("unit", ""))
    single = counted(Whole(1), groups)["unit"] if groups else ""
    yield f"read part/{step.details['rounding']}", {**step.details, "group": single}
    if groups:
        yield "counts", counted(step.details["result"], groups)


def takeaway(solved: SolvedPart) -> str | None:
    """Which sentence to take along, None where no fraction is multiplied or divided."""
    if solved.reading.rounding:
        return None
    done = {step.move for step in solved.solution.steps}
    found = next((name for move, name in _TAKEAWAYS.items() if move in done), None)
    if found and solved.reading.story and operations_of(solved.reading.expression) > 1:
        return "steps"
    return "fraction-product-large" if found == "fraction-product" and _is_large(solved) else found


def _is_large(solved: SolvedPart) -> bool:
    """Whether more than a whole is taken, so that the product is no smaller piece."""
    shares: Any = [
        step.details["share"] for step in solved.solution.steps if step.move == "take pieces"
    ]
    return any(value(share) > 1 for share in shares)


_TAKEAWAYS = {
    "take pieces": "fraction-product",
    "count copies": "fraction-copies",
    "share pieces": "fraction-share",
    "cut to share": "fraction-share",
    "pieces in wholes": "fraction-fits",
    "divide counts": "fraction-quotient",
    "times reciprocal": "fraction-reciprocal",
}


def _result(step: Step) -> Any:
    """What a step's line comes to."""
    line: Any = step.line
    return line.sides[-1]


SAID: dict[str, Callable[[Step, SolvedPart], Iterator[Said]]] = {
    "in turn": in_turn,
    "read part": read_part,
    **dict.fromkeys(
        (
            "count copies",
            "by one",
            "cut again",
            "take pieces",
            "share pieces",
            "cut to share",
            "pieces in wholes",
            "one size to divide",
            "divide counts",
            "reciprocal",
            "times reciprocal",
            "mixed",
            "simplify",
        ),
        with_unit,
    ),
}
"""By the name of the move."""
