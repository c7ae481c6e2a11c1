"""The words of moves with whole numbers and decimals: which template, by what a step tells."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any

from narrate.exact.measures import several
from narrate.exact.spoken import pieces_name
from narrate.exact.tree import (
    Decimal,
    Expr,
    Frac,
    Group,
    Money,
    Neg,
    Op,
    Relation,
    Whole,
    Writing,
    value,
    walk,
)
from narrate.items.texts import PERCENT
from narrate.lesson import demand_moments as demands
from narrate.lesson import known_forms
from narrate.lesson.solved import SolvedPart
from narrate.lesson.why_now import (
    BY_TIMES,
    compares_ages,
    costs,
    is_age,
    operations_of,
    reason,
)
from narrate.reading.words.lexicon import UNITS, one
from narrate.reading.words.parts import words_of
from narrate.solution import operations, relations
from narrate.solution.steps import Solution, Step

Said = tuple[str, dict[str, Any]]

_HUNDRED = {"hundred": Whole(known_forms.HUNDRED)}


_OF_SEVERAL = ("perimeter", "equal sides", "bare", "mean", "of both")
"""Situations of several operations that have words of their own for all of them."""


CENTS = 100
"""So many make a dollar."""

_SAYS_UNIT = (
    "split",
    "split shares",
    "pieces times",
    "pieces of pieces",
    "pieces shared",
    "scaled",
)
"""Methods whose words end in the result with its unit."""


def in_dollars(result: Expr, solved: SolvedPart) -> Expr | Money:
    """A result as dollars where the story tells of money."""
    dollars = solved.reading.money and isinstance(result, Whole | Decimal)
    return Money(result) if dollars and isinstance(result, Whole | Decimal) else result


def work(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """Why this operation comes now, where there are several; how it is done; what it counts."""
    details: dict[str, Any] = dict(step.details)
    assert isinstance(step.line, Relation)
    line = step.line.sides[0], step.line.sides[-1]
    details |= {"line": Relation("=", line), "money": solved.reading.money, **_HUNDRED}
    details["short"] = details["line"]
    if why := reason(step, solved):
        yield f"because/{why}", details | {"price": costs(solved)}
    how = details.get("role") or details["how"]
    if how == "pieces times":
        one = "left" if details["second_size"] == 1 else "right"
        product = details["product"].sides[0]
        details["count_each"] = getattr(product, one)
    found = counted(details["result"], str(details["unit"]))
    details["made"] = (
        in_dollars(details["result"], solved) if details["last"] else details["result"]
    )
    details["unit_said"] = f" {found['unit']}" if found["unit"] else ""
    if "size" in details:
        cents = solved.reading.money and details["size"] == CENTS
        size = details["size"]
        assert isinstance(size, int)
        details["pieces"] = "cents" if cents else pieces_name(size, 2, solved.language)
        if cents and how in ("pieces times", "pieces shared"):
            details["made"] = in_dollars(details["result"], solved)
            details |= {
                side: Money(details[side])
                for side in ("left", "right")
                if isinstance(details[side], Decimal)
            }
    details |= {"full": _with_zeros(details), "percent": is_percent(solved)}
    yield f"work/{how}", details
    if how in _SAYS_UNIT:
        return
    if details["unit"] and how != "all parts":
        yield "counts", found
    elif details["last"] and how != "all parts" and _is_amount(details["result"], solved):
        yield "counts/money", {"amount": Money(details["result"])}


def _with_zeros(details: dict[str, Any]) -> Expr | str:
    """A product as its pieces say it where it ends in zeros: 0.280 for 0.28; "" elsewhere."""
    if details.get("role") or details["how"] not in ("pieces times", "pieces of pieces"):
        return ""
    count, size = value(details["product"].sides[-1]), details["size"]
    places = len(str(size)) - 1
    if isinstance(details["made"], Money) or size != 10**places or count % 10:
        return ""
    whole, behind = divmod(int(count), size)
    return Decimal(str(whole), f"{behind:0{places}d}")


def _is_amount(result: Any, solved: SolvedPart) -> bool:
    """Whether a result is said once more in dollars: where they are whole, only in a story."""
    written = isinstance(result, Decimal) or solved.reading.story
    return solved.reading.money and written


def below_zero(expression: Expr) -> dict[str, bool]:
    """Whether a sum has a number below zero, and whether that is taken away: 6 − (−9)."""
    taken = isinstance(expression, Op) and expression.sign == "−"
    behind = expression.right if isinstance(expression, Op) else expression
    inner = behind.inner if isinstance(behind, Group) else behind
    return {
        "below": any(isinstance(node, Neg) for node in walk(expression)) or value(expression) < 0,
        "up": taken and isinstance(inner, Neg),
    }


def counted(result: Any, unit: str) -> dict[str, Any]:
    """An amount with what it counts: one cup, two cups, and as a `part` two thirds of a cup."""
    part = isinstance(result, Frac)
    return {
        "amount": result,
        "unit": _single(unit) if part or result == Whole(1) else _several(unit),
        "part": part,
    }


def _several(unit: str) -> str:
    """The unit of more than one: a measure told of less is several now, 3/4 cup and 3 3/4 cups."""
    first, *others = unit.split() or [""]
    return " ".join((several(first), *others)) if first in UNITS - {"percent"} else unit


def _single(unit: str) -> str:
    """The unit of just one: a cup of oats, a square foot."""
    words = unit.split()
    after = [place for place, word in enumerate(words) if place and word in ("of", "per")]
    head = (after[0] if after else len(words)) - 1
    return " ".join(one(word) if place == head else word for place, word in enumerate(words))


def remainder(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """Full groups and what is left over."""
    found = {**step.details, **_group_words(step, solved), "shared": is_shared_out(solved)}
    yield "remainder" if step.details["rest"] else "remainder/none", found


def _group_words(step: Step, solved: SolvedPart) -> dict[str, Any]:
    """What the groups are called, many and one; "" where the words do not say."""
    asked_for = "" if solved.reading.rounding == "remainder" else str(step.details["unit"])
    single = one(asked_for) if asked_for else ""
    said = re.search(rf"\b{single}\b", words_of(solved.item, solved.part), re.IGNORECASE)
    units = step.details["units"]
    assert isinstance(units, tuple)
    return {"groups": asked_for, "group": single if single and said else "", "things": units[0]}


def read_remainder(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """What the question makes of the remainder."""
    how = step.details["rounding"] if step.details["rest"] else "even"
    found = counted(step.details["result"], str(step.details["unit"]))
    words = {"unit": found["unit"], **_group_words(step, solved)}
    words["shared"] = is_shared_out(solved)
    rest = step.details["rest"]
    words["alone"] = rest == 1 or (isinstance(rest, Decimal) and value(rest) < 1)
    yield f"read remainder/{how}", {**step.details, "line": "", **_line(step), **words}
    if step.line is not None and step.details["unit"]:
        yield "counts", found


def _line(step: Step) -> dict[str, Any]:
    return {} if step.line is None else {"line": step.line}


def as_is(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """A move whose template has its name."""
    yield step.move, dict(step.details)


def asked(solved: SolvedPart) -> str:
    """The situation by which the question is told: what becomes of a remainder comes first."""
    if solved.reading.goal.demand is not None:
        return demands.asked(solved)
    rounding = solved.reading.rounding
    left = "left shared" if is_shared_out(solved) else "left over"
    by_rounding = {"up": "rounded up", "down": "rounded down", "remainder": left}
    if rounding in by_rounding:
        return by_rounding[rounding]
    form = known_forms.form_of(solved)
    return _compared(solved) if form is None else form.asked


def is_shared_out(solved: SolvedPart) -> bool:
    """Whether what is divided is shared among so many that are told: 75 bulbs in 8 pots."""
    expression, task = solved.reading.expression, solved.solution.task
    if solved.reading.rounding != "remainder" or not isinstance(expression, Op):
        return False
    units = [
        each.unit if (each := relations.counted(task, side)) else ""
        for side in (expression.left, expression.right)
    ]
    return all(units) and units[0] != units[1]


def _compared(solved: SolvedPart) -> str:
    """The situation; 2/3 as far is less, and no number of times as far; a year is no thing."""
    situation, expression = solved.reading.situation, solved.reading.expression
    if situation == "steps" and operations_of(expression) == 1:
        return "one step"
    if is_age(solved) and situation in _OF_AGES:
        return "age compared" if compares_ages(solved) else _OF_AGES[situation]
    if situation == "equal groups" and _is_part_of_one(expression):
        return "part of"
    if situation not in BY_TIMES or not isinstance(expression, Op):
        return situation
    if situation == "times fewer":
        return "whole of" if value(expression.right) < 1 else situation
    told = [each.tree for each in solved.reading.counted]
    factors = [side for side in (expression.left, expression.right) if side not in told]
    return "part as much" if any(value(factor) < 1 for factor in factors) else situation


def _is_part_of_one(expression: Expr) -> bool:
    """Whether less than one group is taken: half of a recipe."""
    if not isinstance(expression, Op) or not isinstance(expression.left, Frac | Decimal):
        return False
    return value(expression.left) < 1


_OF_AGES = {"add to": "later", "take from": "earlier", "in and out": "steps"}
"""Years that pass neither come nor go, as things do."""


def set_up(solved: SolvedPart) -> str:
    """The situation by which the expression is told: of several steps it is a chain."""
    reading = solved.reading
    if reading.rounding:
        return "left shared" if is_shared_out(solved) else "left over"
    if form := known_forms.form_of(solved):
        return form.set_up
    inner = [node for node in walk(reading.expression) if isinstance(node, Op)]
    mixed = any(op.sign in "×÷" for op in inner) and len(inner) > 1
    if mixed and reading.situation not in _OF_SEVERAL:
        return "steps"
    if is_percent(solved) and reading.situation == "part of":
        return "percent"
    found = _compared(solved)
    return "steps" if found == "age compared" else found


def is_percent(solved: SolvedPart) -> bool:
    """Whether the words tell a percent."""
    return re.search(r"%|\bpercent\b", words_of(solved.item, solved.part)) is not None


def share_size(solved: SolvedPart) -> dict[str, int]:
    """The equal parts that a share is counted in."""
    sizes = [n.denominator for n in walk(solved.reading.expression) if isinstance(n, Frac)]
    if known_forms.takes_percent(solved.reading.expression) is not None:
        sizes = [known_forms.HUNDRED]
    return {"share_size": sizes[0] if sizes else 1}


def takeaway(solved: SolvedPart) -> str | None:
    """Which sentence to take along, None where the work is with fractions."""
    steps = solved.solution.steps
    if solved.reading.goal.demand is not None:
        return demands.takeaway(solved)
    done = [step for step in steps if step.move == "work"]
    if solved.reading.rounding:
        return "remainder"
    if not done:
        return None
    roles = {step.details.get("role") for step in done} - {None}
    if roles:
        return "share-times" if "all parts" in roles else "share"
    if operations_of(solved.reading.expression) > 1:
        own = known_forms.takeaway(solved)
        return own or ("steps" if solved.reading.story else "order")
    if any(step.move == "signs" for step in steps):
        return "signs"
    if any(isinstance(step.details[name], Decimal) for step in done for name in ("left", "right")):
        return "pieces" if str(done[-1].details["how"]).startswith("pieces") else "decimals"
    if done[-1].details["sign"] == "×":
        split = done[-1].details["how"] == "split"
        return "multiply" if split else "groups" if solved.reading.story else "times"
    return "divide" if done[-1].details["sign"] == "÷" else "add"


def other_operation(solution: Solution, wrong: Writing | None) -> dict[str, str]:
    """The operation by which the numbers of a step come to a wrong number, and the right one."""
    for step in solution.steps:
        if step.move == "work" and isinstance(wrong, Whole | Decimal):
            left: Any = step.details["left"]
            right: Any = step.details["right"]
            for sign in operations.leading_to(value(wrong), left, right):
                if sign != step.details["sign"]:
                    return {"other": sign, "sign": str(step.details["sign"])}
    return {"other": "", "sign": ""}


def choose(step: Step, solved: SolvedPart) -> Iterator[Said]:
    """The right choice, in dollars where it is."""
    result: Any = step.details["result"]
    letters: Any = step.details["letters"]
    units = {choice.unit for choice in solved.part.choices if choice.letter in letters}
    percent = {"percent": units == {PERCENT}}
    yield "choose", {**step.details, "result": in_dollars(result, solved), **percent}


SAID: dict[str, Callable[[Step, SolvedPart], Iterator[Said]]] = {
    "work": work,
    "remainder": remainder,
    "read remainder": read_remainder,
    "choose": choose,
    **demands.SAID,
}
"""By the name of the move."""
