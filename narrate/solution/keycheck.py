"""The key is checked, never trusted: what is wrong with an item's choices and its declared key."""

from __future__ import annotations

from narrate.errors import Fault
from narrate.exact.caption import write
from narrate.items.item import Part
from narrate.solution.steps import Solution


def key_fault(item: str, part: Part, solution: Solution) -> Fault | None:
    """The fault of a part whose choices hold no right one, too many, or whose key differs."""
    if not part.choices:
        return None
    found = _wrong_with(part, solution)
    return Fault(place=part.place, wrong=found[0], right=found[1], item=item) if found else None


def _wrong_with(part: Part, solution: Solution) -> tuple[str, str] | None:
    answer = write(solution.result)
    if not solution.key:
        return f"no choice is right: the answer is {answer}", "put the answer among the choices"
    if len(solution.key) > 1 and not part.select_all:
        return (
            f"{_named(part, solution.key)} are both right",
            "keep one, or say what decides: `simplest: true`, or `select: all`",
        )
    if part.key and set(part.key) != set(solution.key):
        return (
            f"the key says {_named(part, part.key)}, but the answer is {answer}: "
            f"{_named(part, solution.key)}",
            "correct the key or the choices",
        )
    return None


def _named(part: Part, letters: tuple[str, ...]) -> str:
    texts = {choice.letter: choice.text for choice in part.choices}
    return " and ".join(f"{letter} ({texts[letter]})" for letter in letters)
