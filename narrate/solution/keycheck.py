"""The key is checked, never trusted: what is wrong with an item's choices and its declared key."""

from __future__ import annotations

from narrate.errors import Fault
from narrate.exact.caption import write
from narrate.exact.tree import Frac, Mixed, Relation, Whole
from narrate.items.item import Part
from narrate.reading.goal import in_simplest_form
from narrate.reading.marked_choices import to_mark
from narrate.solution.steps import Solution


def key_fault(item: str, part: Part, solution: Solution) -> Fault | None:
    """The fault of a part whose choices hold no right one, too many, or whose key differs."""
    if not part.choices:
        return None
    found = _wrong_with(part, solution)
    if found is None:
        return None
    key, wrong, right = found
    return Fault(place=part.at(key), wrong=wrong, right=right, item=item)


def _wrong_with(part: Part, solution: Solution) -> tuple[str, str, str] | None:
    """Which key is at fault, what is wrong, and what would be right."""
    if not solution.key:
        return "choices", f"no choice is right: {_right(solution)}", "put it among the choices"
    if len(solution.key) > 1 and not part.select_all:
        return (
            "choices",
            f"{_named(part, solution.key)} are both right",
            _deciding(part, solution.key),
        )
    count = to_mark(part)
    if count is not None and count != len(solution.key):
        named = _named(part, solution.key)
        right = "correct the words or the choices"
        return "choices", f"{count} choices are to be marked, but right: {named}", right
    if part.key and set(part.key) != set(solution.key):
        return (
            "key",
            f"the key says {_named(part, part.key)}, but {_right(solution)}: "
            f"{_named(part, solution.key)}",
            "correct the key or the choices",
        )
    return None


def _deciding(part: Part, letters: tuple[str, ...]) -> str:
    """What would make one of several right choices the one that is asked for."""
    if len({choice.text for choice in part.choices if choice.letter in letters}) == 1:
        return "make every choice different"
    right = [choice.tree for choice in part.choices if choice.letter in letters]
    numbers = [tree for tree in right if isinstance(tree, Whole | Frac | Mixed)]
    if len(numbers) == len(right):
        if len({in_simplest_form(tree) for tree in numbers}) > 1:
            return "keep one, or say what decides: `simplest: true`, or `select: all`"
        if len({isinstance(tree, Frac) for tree in numbers}) > 1:
            return (
                'keep one, or ask for it "as a mixed number" or "as an improper fraction", '
                "or add `select: all`"
            )
    return "keep one, or add `select: all`"


def _right(solution: Solution) -> str:
    """What would be right: the answer, or a line of work where one is asked for."""
    last = solution.steps[-1]
    if last.move == "stop here" and isinstance(last.line, Relation):
        return f"a first line of work would be {write(last.line.sides[-1])}"
    return f"the answer is {write(solution.result)}"


def _named(part: Part, letters: tuple[str, ...]) -> str:
    texts = {choice.letter: choice.text for choice in part.choices}
    return " and ".join(f"{letter} ({texts[letter]})" for letter in letters)
