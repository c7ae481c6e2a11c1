"""Which of the choices is as the words say: greater than 2/5, a multiple of 7 and less than 45.

A question is read only where the choices, judged by it, leave one answer (for select all, some).
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from narrate.errors import Declined
from narrate.exact.caption import write
from narrate.exact.tree import Decimal, Whole, value
from narrate.items.item import Choice, Item, Part
from narrate.items.texts import PERCENT, of_one
from narrate.reading.conditions import Asked, Numeral, conditions_of, conditions_told, masked
from narrate.reading.demands import Condition, Judged
from narrate.reading.goal import Goal
from narrate.reading.reading import Reading, Telling
from narrate.reading.tellings import question_of, stimulus_of, tellings, unknown_of
from narrate.reading.words.lexicon import UNITS, one

_ASKS = r"\b(?:which|what|how many|select|choose|mark|circle|pick|find|identify)\b"
_MOST = 600
_ALL = r"\b(?:select|choose|mark|circle) (?:all|every|each)\b"


def judged_reading(item: Item, part: Part) -> Reading | None:
    """A question which of its choices is as its words say, None where it is no such question.

    Raises Declined where it is one and its choices do not settle it.
    """
    part = replace(part, choices=tuple(_of_one(choice) for choice in part.choices))
    trees = [choice.tree for choice in part.choices]
    if len(trees) < 2 or not all(isinstance(tree, Numeral) for tree in trees):
        return None
    if part.claim is not None or part.model is not None or stimulus_of(item):
        return None
    if len(part.ask) > _MOST or not re.search(_ASKS, part.ask, re.IGNORECASE):
        return None
    asked = masked(_without_list(part.ask, trees))
    conditions = conditions_of(asked) if asked else None
    if asked is None or not conditions or _told_already(conditions, trees):
        return None
    _refuse_other_unit(part, asked)
    return _reading(item, part, conditions)


def _without_list(ask: str, trees: Sequence[object]) -> str:
    """A question without the list of its own choices: which is the least: 0.5, 0.45, 0.54?"""
    found = re.search(r"[:,?.] ?(?P<list>[\d./⁄]+(?:, (?:and |or )?[\d./⁄]+)+) ?\??$", ask)
    if found is None:
        return ask
    written = sorted(write(tree) for tree in trees if isinstance(tree, Numeral))
    listed = sorted(re.findall(r"[\d./⁄]+", found["list"]))
    return f"{ask[: found.start()]}?" if listed == written else ask


def _of_one(choice: Choice) -> Choice:
    """A choice, a percent as the decimal that it stands for."""
    return of_one(choice) if choice.unit == PERCENT else choice


def _refuse_other_unit(part: Part, asked: Asked) -> None:
    """Raises Declined where the choices are in another unit than the numbers they are held to."""
    named = {one(word) for word in re.findall(r"#\d+ ([a-z]+)", asked.text)} & UNITS
    own = {one(word) for c in part.choices for word in c.unit.split()[:1]} & UNITS
    if named and own and named != own:
        raise Declined(
            f"the choices are in {' and '.join(sorted(own))}, the question in "
            f"{' and '.join(sorted(named))}",
            "write both in one unit",
        )


def _told_already(conditions: tuple[Condition, ...], trees: Sequence[object]) -> bool:
    """Whether it only asks which fraction equals another, which is a form of its own."""
    if [(each.name, each.negated) for each in conditions] != [("equal", False)]:
        return False
    return not any(isinstance(tree, Decimal) for tree in (conditions[0].than, *trees))


def _reading(item: Item, part: Part, conditions: tuple[Condition, ...]) -> Reading:
    offered = tuple((c.letter, c.tree) for c in part.choices if isinstance(c.tree, Numeral))
    demand = Judged(conditions=conditions, offered=offered)
    right = [tree for _, tree in offered if demand.takes(tree)]
    _refuse_unsettled(part, demand, right)
    goal = Goal(form="judged", asked=right[0], answer=value(right[0]), demand=demand)
    return Reading(
        goal=goal,
        expression=right[0],
        equation=None,
        target=None,
        situation="bare",
        unknown=unknown_of(item, part),
        tellings=(*_conditions_before(part.ask), *tellings(item, part, right[0], "bare")),
        unit=part.unit,
        decimals=all(isinstance(tree, Whole | Decimal) for _, tree in offered),
        money=all(choice.text.startswith("$") for choice in part.choices),
    )


def _conditions_before(ask: str) -> Iterator[Telling]:
    """The conditions that are told before the question; in it, they are asked for."""
    asked = ask.rfind(question_of(ask))
    for start, end in conditions_told(ask):
        if end <= asked:
            yield Telling(source="ask", start=start, end=end, role="condition", text=ask[start:end])


def _refuse_unsettled(part: Part, demand: Judged, right: list[Numeral]) -> None:
    """Raises Declined where no choice, or more than one, is as the words say; or a bound is one."""
    ends = [value(each.than) for each in demand.conditions if each.than is not None]
    between = [each.name for each in demand.conditions][:2] == ["greater", "less"]
    if between and "between" in part.ask.lower() and set(ends) & set(demand.values):
        raise Declined(
            "a choice is one of the numbers that the question asks to be between",
            "say greater than the one and less than the other, or leave that choice out",
        )
    if re.search(_ALL, part.ask, re.IGNORECASE) and not part.select_all:
        raise Declined("the words ask for all that are so", "add `select: all`")
    if (len(right) == 1) or (part.select_all and right):
        return
    named = " and ".join(letter for letter, tree in demand.offered if demand.takes(tree))
    raise Declined(
        f"I read which choice {_said(demand)}, and {named or 'none'} would be right",
        "correct the choices, add `select: all` where several are right, or say it in other words",
    )


def _said(demand: Judged) -> str:
    """The conditions in plain words."""
    return " and ".join(_plain(each) for each in demand.conditions)


_PLAIN: dict[str, str] = {
    "greater": "is greater than {}", "less": "is less than {}", "at least": "is at least {}",
    "at most": "is at most {}", "equal": "is equal to {}", "multiple": "is a multiple of {}",
    "factor": "is a factor of {}", "even": "is even", "odd": "is odd", "prime": "is prime",
    "composite": "is composite", "rounds": "rounds to {}", "greatest": "is the greatest",
    "least": "is the least",
}  # fmt: skip


def _plain(each: Condition) -> str:
    said = _PLAIN[each.name].format(write(each.than) if each.than is not None else "")
    return said.replace("is ", "is not ", 1) if each.negated else said
