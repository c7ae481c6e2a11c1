"""The words of questions that demand more than a value: rounded answers, remainders."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any

from narrate.exact.measures import several as plural
from narrate.exact.tree import Decimal, Money, Relation, Whole
from narrate.lesson.solved import SolvedPart
from narrate.reading.demands import (
    Condition,
    Conversion,
    Demand,
    Estimated,
    InRatio,
    InTwoUnits,
    Judged,
    Named,
    Nearest,
    OnTheClock,
    Remainder,
    Ruled,
    Tested,
)
from narrate.reading.words.lexicon import UNITS
from narrate.solution.steps import Detail, Step

_ONLY_PERCENT = re.compile(r"(\d+) ?(?:%|percent)")
_ASKED_PERCENT = re.compile(rf"equal to {_ONLY_PERCENT.pattern}")

Said = tuple[str, dict[str, Any]]


def asked(solved: SolvedPart) -> str:
    """The name of the words that say what is asked."""
    demand = _demand(solved)
    if isinstance(demand, Ruled) and demand.rule == "temperature":
        return demand.rule
    return _ASKED[type(demand)]


def _demand(solved: SolvedPart) -> Demand | None:
    return solved.reading.goal.demand


def details(solved: SolvedPart) -> dict[str, Any]:
    """What the words of the question may name."""
    match _demand(solved):
        case Nearest(name=name):
            return {"name": name, "many": several(name)}
        case Conversion(small=small, large=large, smaller=smaller):
            units = (large, small) if smaller else (small, large)
            return dict(zip(("given", "wanted"), map(plural, units), strict=True))
        case InTwoUnits(large=large, small=small):
            return {"larges": plural(large), "smalls": plural(small)}
        case InRatio(names=(first, second)):
            return {"first": first, "second": second}
        case OnTheClock(name=way):
            return {"way": way}
        case Judged(conditions=conditions):
            return {"conditions": tuple(map(_as_said, conditions))}
        case Tested(name=name, about=about, negated=negated):
            names = isinstance(about[0] if about else "", Relation)
            return {"test": name, "about": about, "negated": negated, "names": names}
        case Named(name=name, of=of, place=place):
            shared = name in ("least common multiple", "greatest common factor", "square root")
            of = of[:1] if name == "estimate" else of
            return {"name": name, "numbers": of if shared else (), "of": of, "place": place}
        case Ruled(rule=rule):
            return {"rule": rule}
        case _:
            return {}


def _as_said(condition: Condition) -> tuple[Any, ...]:
    """A condition as templates see it: its name, what it names, whether not so, the place."""
    place = condition.nearest.name if condition.nearest else ""
    return condition.name, condition.than, condition.negated, place


def several(name: str) -> str:
    """The plural of a place or a unit: tenths, whole numbers, whole inches, whole feet."""
    many = plural(name)
    return f"whole {many}" if name in UNITS else many


def takeaway(solved: SolvedPart) -> str:
    """Which sentence to take along."""
    demand = _demand(solved)
    own = _TAKEN_OF_NAME.get(demand.name, "") if isinstance(demand, Named) else ""
    return own or _TAKEN[type(demand)]


_TAKEN_OF_NAME = {
    "estimate": "estimate",
    "number for the letter": "letter",
    "value of a digit": "digit",
    "digit in a place": "digit",
    "least common multiple": "common-multiple",
    "least common denominator": "common-multiple",
    "greatest common factor": "common-factor",
    **{name: name for name in ("mean", "median", "mode", "range")},
    "remainder": "quotient",
    "fraction": "equivalent",
    "mixed number": "equivalent",
    "part as a fraction": "part-of-all",
    "amount of money": "coins",
    "surface area": "surface",
    "hypotenuse": "right-triangle",
    "leg of a right triangle": "right-triangle",
    "value": "absolute",
    "power below zero": "power",
    "power of zero": "power",
}
"""The sentence to take along by what is asked for by name; the others ask what a word means."""


_ASKED: dict[type, str] = {
    InRatio: "in ratio",
    InTwoUnits: "in two units",
    OnTheClock: "on the clock",
    Nearest: "nearest",
    Remainder: "with remainder",
    Conversion: "conversion",
    Judged: "judged",
    Tested: "tested",
    Named: "named",
    Ruled: "by rule",
    Estimated: "estimated",
}
_TAKEN: dict[type, str] = {
    InRatio: "in ratio",
    OnTheClock: "on the clock",
    InTwoUnits: "in two units",
    Nearest: "rounding",
    Remainder: "quotient",
    Conversion: "conversion",
    Judged: "judged",
    Tested: "tested",
    Named: "named",
    Ruled: "by rule",
    Estimated: "estimated",
}
"""The names of what is asked, and of the sentence to take along."""


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


def _judge(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """Why a number is as it has to be, or is not; first what its percent means."""
    judged = [each for each in solved.solution.steps if each.move == "judge"]
    letter = step.details["letter"]
    texts = [choice.text for choice in solved.part.choices if choice.letter == letter]
    if step is judged[0] and "right" in step.details:
        yield from _percent(_ASKED_PERCENT.search(solved.part.ask), step.details["right"])
    if texts and step is next(each for each in judged if each.details["letter"] == letter):
        yield from _percent(_ONLY_PERCENT.fullmatch(texts[0]), step.details["tree"])
    yield f"judge/{step.details['how']}", dict(step.details)


def _percent(found: re.Match[str] | None, number: Detail) -> Iterator[Said]:
    """What a percent means as a decimal, if one is written."""
    if found is not None:
        yield "judge/percent", {"percent": Whole(int(found[1])), "decimal": number}


def _test(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """What a choice comes to when it is tested."""
    yield f"test/{step.details['how']}", dict(step.details)


def _named_number(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """How a number that is asked for by name is found."""
    details: dict[str, Any] = dict(step.details)
    if solved.reading.money:
        amounts = {name: details[name] for name in ("size", "result") if name in details}
        details |= {name: Money(tree) for name, tree in amounts.items()}
    yield f"named/{step.details['how']}", details


def _rule(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """The rule that says what to work out."""
    yield f"rule/{step.details['rule']}", dict(step.details) | {"hundred": Whole(100)}


def _measure_fact(step: Step, solved: SolvedPart) -> Iterator[Said]:
    told = dict(step.details)
    found = {"smalls": plural(str(told["small"])), "larges": plural(str(told["large"]))}
    how = "smaller" if told["smaller"] else "larger"
    yield f"measure fact/{how}", told | found


def _about(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """Which easy numbers stand for those that are told."""
    yield "about" if step.details["pairs"] else "about/easy already", dict(step.details)


SAID: dict[str, Callable[[Step, SolvedPart], Iterator[Said]]] = {
    "neighbors": _neighbors,
    "halfway": _halfway,
    "neighbors by product": _by_product,
    "halfway by product": _by_product,
    "round": _round,
    "round already": _already,
    "with remainder": _with_remainder,
    "take out": _take_out,
    "judge": _judge,
    "test": _test,
    "named": _named_number,
    "rule": _rule,
    "measure fact": _measure_fact,
    "about": _about,
}
"""By the name of the move."""
