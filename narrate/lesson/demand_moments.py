"""The words of questions that demand more than a value: rounded answers, remainders."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from narrate.exact.tree import Decimal, Money, Whole
from narrate.lesson.solved import SolvedPart
from narrate.reading.demands import Demand, Nearest, Remainder
from narrate.reading.words.lexicon import UNITS
from narrate.solution.steps import Step

Said = tuple[str, dict[str, Any]]


def asked(solved: SolvedPart) -> str:
    """The name of the words that say what is asked."""
    return "with remainder" if isinstance(_demand(solved), Remainder) else "nearest"


def _demand(solved: SolvedPart) -> Demand | None:
    return solved.reading.goal.demand


def details(solved: SolvedPart) -> dict[str, Any]:
    """What the words of the question may name."""
    match _demand(solved):
        case Nearest(name=name):
            return {"name": name, "many": several(name)}
        case _:
            return {}


def several(name: str) -> str:
    """The plural of a place or a unit: tenths, whole numbers, whole inches, whole feet."""
    many = f"{name}es" if name.endswith(("ch", "sh", "x")) else f"{name}s"
    many = "feet" if name == "foot" else many
    return f"whole {many}" if name in UNITS else many


def takeaway(solved: SolvedPart) -> str:
    """Which sentence to take along."""
    return "quotient" if isinstance(_demand(solved), Remainder) else "rounding"


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


def _with_remainder(step: Step, solved: SolvedPart) -> Iterator[Said]:
    yield "with remainder" if step.details["rest"] else "with remainder/none", dict(step.details)


def _take_out(step: Step, solved: SolvedPart) -> Iterator[Said]:
    left = step.details["left"]
    yield (
        "take out" if step.details["first"] else "take out/next",
        dict(step.details) | {"none": left == Whole(0)},
    )


SAID: dict[str, Callable[[Step, SolvedPart], Iterator[Said]]] = {
    "neighbors": _neighbors,
    "halfway": _halfway,
    "neighbors by product": _by_product,
    "halfway by product": _by_product,
    "round": _round,
    "round already": _already,
    "with remainder": _with_remainder,
    "take out": _take_out,
}
"""By the name of the move."""
