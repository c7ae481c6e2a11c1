"""The words of questions that demand more than a value: rounded answers."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from narrate.exact.tree import Decimal, Money, Whole
from narrate.lesson.solved import SolvedPart
from narrate.reading.words.lexicon import UNITS
from narrate.solution.steps import Step

Said = tuple[str, dict[str, Any]]


def asked(solved: SolvedPart) -> str:
    """The name of the words that say what is asked."""
    return "nearest"


def details(solved: SolvedPart) -> dict[str, Any]:
    """What the words of the question may name."""
    demand = solved.reading.goal.demand
    return {} if demand is None else {"name": demand.name, "many": several(demand.name)}


def several(name: str) -> str:
    """The plural of a place or a unit: tenths, whole numbers, whole inches, whole feet."""
    many = f"{name}es" if name.endswith(("ch", "sh", "x")) else f"{name}s"
    many = "feet" if name == "foot" else many
    return f"whole {many}" if name in UNITS else many


def takeaway(solved: SolvedPart) -> str:
    """Which sentence to take along."""
    return "rounding"


def _named(step: Step, solved: SolvedPart) -> dict[str, Any]:
    """The details of a step, amounts in dollars where the question is about money."""
    found: dict[str, Any] = dict(step.details)
    if solved.reading.money:
        for name, tree in found.items():
            if isinstance(tree, Whole | Decimal):
                found[name] = Money(tree)
    return found | {"many": several(found["name"])}


def _neighbors(step: Step, solved: SolvedPart) -> Iterator[Said]:
    yield "neighbors", _named(step, solved)


def _halfway(step: Step, solved: SolvedPart) -> Iterator[Said]:
    yield f"halfway/{step.details['side']}", _named(step, solved)


def _by_product(step: Step, solved: SolvedPart) -> Iterator[Said]:
    side = step.details.get("side")
    yield f"{step.move}/{side}" if side else step.move, _named(step, solved)


def _round(step: Step, solved: SolvedPart) -> Iterator[Said]:
    yield "round", _named(step, solved)


def _already(step: Step, solved: SolvedPart) -> Iterator[Said]:
    yield "round/already", _named(step, solved)


SAID: dict[str, Callable[[Step, SolvedPart], Iterator[Said]]] = {
    "neighbors": _neighbors,
    "halfway": _halfway,
    "neighbors by product": _by_product,
    "halfway by product": _by_product,
    "round": _round,
    "round already": _already,
}
"""By the name of the move."""
