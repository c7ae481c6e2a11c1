"""Why a choice is struck: the fact that does not admit it, worded short and long."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from typing import Any

from narrate.exact.caption import caption
from narrate.exact.tree import (
    Decimal,
    Expr,
    Frac,
    InUnits,
    Mixed,
    Money,
    Op,
    Piece,
    Ratio,
    Relation,
    Sayable,
    TimeOfDay,
    Whole,
    Writing,
    value,
    walk,
)
from narrate.items.item import Choice, Part
from narrate.lesson import slipreason, storywork
from narrate.lesson.lost import lost
from narrate.lesson.wording import Words
from narrate.solution.steps import RuleOut, Solution, Step
from narrate.solution.task import as_expr, mixed

_TOGETHER = frozenset((
    "above", "below", "counted in", "operation", "one size", "declared", "simplest", "shape",
    "whole things", "ends in", "does", "uses", "says", "neighbors",
))  # fmt: skip
"""Facts that strike several choices in one breath; the others say each choice by itself."""

ABOUT_STORY = frozenset({"does", "uses", "says"})
"""Facts about the work that a story asks for."""

_SIDES = ("above", "below")
"""Facts of an estimate: choices are too small, or too large."""

_MADE = "makes"
"""The fact whose choices are told in one breath: as numbers of the pieces of the work, as sums
worked out, or as all too small or too large."""

_OF_LINES = ("keeps", "amounts")
"""Facts of a first line: choices that have lost something, or are the end of the work already."""

MOST_COUNTED = 3
"""So many choices are counted in one sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Struck:
    """Choices struck together: by one fact, at one step; `how` says in which words."""

    fact: str
    step: int
    how: str = ""
    rule_outs: tuple[RuleOut, ...]


def struck_at(part: Part, solution: Solution, step: int) -> Iterator[Struck]:
    """What is struck after a step, in groups that are told together."""
    here = [rule_out for rule_out in solution.rule_outs if rule_out.step == step]
    groups = {rule_out.letter: _group(part, solution, rule_out) for rule_out in here}
    here.sort(key=lambda r: (*groups[r.letter], r.letter))
    for (_, how), group in groupby(here, key=lambda r: groups[r.letter]):
        rule_outs = tuple(group)
        most = MOST_COUNTED if how in _SAID_ONE_BY_ONE else len(rule_outs)
        for first in range(0, len(rule_outs), most):
            some = rule_outs[first : first + most]
            yield Struck(fact=some[0].fact.name, step=step, how=how, rule_outs=some)


def alone(part: Part, solution: Solution, rule_out: RuleOut) -> Struck:
    """A choice struck by itself, whatever else is struck with it in the telling."""
    choice = choice_of(part, rule_out.letter)
    how = ""
    if rule_out.fact.name in (_MADE, *_OF_LINES):
        how = _how(choice, rule_out, solution)
    return Struck(fact=rule_out.fact.name, step=rule_out.step, how=how, rule_outs=(rule_out,))


def both_sides(struck: Sequence[Struck]) -> tuple[Struck, ...]:
    """Choices that are too small and such as are too large by one estimate, told as one."""
    sides = [each for each in struck if each.fact in _SIDES]
    if sorted(each.fact for each in sides) != sorted(_SIDES):
        return tuple(struck)
    found = tuple(rule_out for each in sides for rule_out in each.rule_outs)
    others = (each for each in struck if each not in sides)
    return (Struck(fact="both sides", step=sides[0].step, rule_outs=found), *others)


def _group(part: Part, solution: Solution, rule_out: RuleOut) -> tuple[str, str]:
    """What choices share that are told together: the fact, and how it is said of them."""
    fact = rule_out.fact
    if fact.name == "tested":
        return fact.name, ""
    together = fact.name in _TOGETHER or (fact.name == "comes to" and not rule_out.slip)
    how = "" if together else rule_out.letter
    if fact.name in (_MADE, *_OF_LINES):
        how = _how(choice_of(part, rule_out.letter), rule_out, solution) or how
    return f"{fact.name} {fact.args}", how


_SAID_ONE_BY_ONE = ("pieces", "work")
"""Ways to say what a choice makes that name each choice's own number."""


def _how(choice: Choice, rule_out: RuleOut, solution: Solution) -> str:
    """How a fact is said of a choice: what it makes, in which pieces, or what it has lost."""
    found = _of_fact(choice, rule_out, solution)
    if not found or choice.tree is None or isinstance(choice.tree, Relation):
        return ""
    if rule_out.fact.name in _OF_LINES:
        return "ends" if found["ends"] else "lost"
    if found["is_work"]:
        return "work"
    amount = value(choice.tree) * int(rule_out.fact.args[1])
    if amount >= 0 and amount.denominator == 1:
        return "pieces"
    return str(found["side"])


def move(struck: Struck, found: Mapping[str, Any]) -> str:
    """The move that tells choices struck by one fact; `found` are its details."""
    several = len(struck.rule_outs) > 1
    match struck.fact, struck.how:
        case "makes", "pieces" | "work" if several:
            return f"makes {struck.how}"
        case "makes", "pieces" if found["as_pieces"] == found["tree"]:
            return "makes/says"
        case "makes", "pieces" | "work":
            return f"makes/{struck.how}"
        case "makes", _:
            return "makes/side"
        case "keeps" | "amounts", "ends":
            return "ends"
        case "keeps", _ if found["equal"] == found["amount"]:
            return "keeps/as it is"
    return struck.fact


def details(part: Part, solution: Solution, struck: Struck) -> dict[str, Any]:
    """What the sentences about a rule-out may say: letters, choices, and what the fact names."""
    choices = [choice_of(part, rule_out.letter) for rule_out in struck.rule_outs]
    found: dict[str, Any] = {
        "letters": tuple(choice.letter for choice in choices),
        "trees": tuple(as_choice(choice) for choice in choices),
        "letter": choices[0].letter,
    }
    if struck.fact in ABOUT_STORY:
        return found | storywork.about(choices, solution)
    if struck.fact == "both sides":
        return found | {
            side: tuple(r.letter for r in struck.rule_outs if r.fact.name == side)
            for side in _SIDES
        }
    if struck.how in _SAID_ONE_BY_ONE and len(choices) > 1:
        return found | _counted(part, solution, struck)
    told = [
        _of_fact(choice, rule_out, solution)
        for choice, rule_out in zip(choices, struck.rule_outs, strict=True)
    ]
    equal = {"equal": any(each["equal"] for each in told)} if struck.fact in _SIDES else {}
    return found | told[0] | equal


def reason(words: Words, part: Part, solution: Solution, rule_out: RuleOut) -> tuple[Piece, ...]:
    """The short reason beside a strike, as words and mathematics: what went wrong, if known."""
    fact = Struck(fact=rule_out.fact.name, step=rule_out.step, rule_outs=(rule_out,))
    found = details(part, solution, fact)
    short = words.short(f"reason/{fact.fact}", found)
    tree = choice_of(part, rule_out.letter).tree
    if tree is None or isinstance(tree, Relation):
        return short
    if fact.fact in ABOUT_STORY:
        return short
    found["is_work"] = is_work(tree)
    if slip := slipreason.about(tree, solution, rule_out, found, words.language):
        did = words.short("reason/slip", slip)
        return (*short, ": ", *did) if fact.fact in _SIDES and not found["equal"] else did
    return short


def doubt(part: Part, solution: Solution, step: int) -> tuple[str, dict[str, Any]] | None:
    """What a bound just told says about a pupil's answer that it does not admit, if it does."""
    if part.claim is None:
        return None
    for fact in solution.steps[step].facts:
        if fact.name in ("above", "below") and not fact.admits(part.claim):
            bound = as_expr(Fraction(fact.args[0]))
            equal = value(part.claim) == Fraction(fact.args[0])
            return f"doubt/{fact.name}", {"claim": part.claim, "bound": bound, "equal": equal}
    return None


def only_left(part: Part, solution: Solution, step: int) -> str:
    """The one choice that is left where an estimate has struck the last wrong one, else ""."""
    places = [rule_out.step for rule_out in solution.rule_outs]
    estimate = solution.steps[step].move.startswith("estimate ")
    all_out = len(places) == len(part.choices) - 1 and max(places, default=-1) == step
    return solution.key[0] if estimate and all_out and solution.key else ""


def choice_of(part: Part, letter: str) -> Choice:
    """The choice with a letter."""
    return next(choice for choice in part.choices if choice.letter == letter)


def _of_fact(choice: Choice, rule_out: RuleOut, solution: Solution) -> dict[str, Any]:
    args, tree = rule_out.fact.args, choice.tree
    if rule_out.fact.name == "tested":
        return dict(solution.steps[rule_out.step].details) | {"letter": choice.letter}
    if tree is None or isinstance(tree, Relation):
        return {}
    amount = value(tree)
    common = {
        "tree": as_choice(choice),
        "amount": as_expr(amount),
        "ends": amount == solution.answer and not isinstance(tree, Op),
    }
    match rule_out.fact.name:
        case "above" | "below":
            bound = Fraction(args[0])
            said = _bound(choice, bound, solution.steps[rule_out.step])
            return common | said | {"equal": amount == bound}
        case "comes to":
            made = (
                solution.result if value(solution.result) == args[0] else as_expr(Fraction(args[0]))
            )
            side = _side(tree, amount < Fraction(args[0]))
            work = is_work(tree)
            return common | {"made": in_dollars(choice, made), "is_work": work, "side": side}
        case "ends in":
            return common | {"digit": int(args[0]), "is_work": is_work(tree)}
        case "makes":
            held = _held_against(tree, int(args[0]), int(args[1]))
            return common | _in_wholes(held, amount, solution.steps[rule_out.step])
        case "counted in" | "shape" | "operation" | "rest below" as name:
            return common | {_NAMED_BY[name]: args[0]}
        case "keeps":
            return common | lost(tree, Fraction(args[0]), solution)
        case "amounts":
            return common | {"expression": solution.steps[0].line}
        case "judged" | "neighbors" | "exchanged":
            return _of_demand(choice, rule_out, solution.steps[rule_out.step]) | common
        case _:
            return common


def _side(tree: Writing, less: bool) -> str:
    """How a choice compares with what we found: a time by coming before or after it, a ratio by
    being another one."""
    match tree:
        case Ratio():
            return "other"
        case TimeOfDay():
            return "earlier" if less else "later"
        case _:
            return "less" if less else "more"


def _left_in(tree: Writing | None) -> dict[str, Any]:
    """Which small units of a choice make another large one."""
    if isinstance(tree, InUnits):
        (large, _), (_, smalls) = tree.names
        return {"large": large, "smalls": smalls}
    return {"large": "hour", "smalls": "minutes"}


def _of_demand(choice: Choice, rule_out: RuleOut, step: Step) -> dict[str, Any]:
    """What is said of a choice that is not as the question demands it."""
    if rule_out.fact.name == "judged":
        return dict(step.details)
    if rule_out.fact.name == "exchanged":
        return _left_in(choice.tree)
    sides = (in_dollars(choice, as_said(Fraction(each), step)) for each in rule_out.fact.args)
    return dict(zip(("low", "high"), sides, strict=True))


_NAMED_BY = {"counted in": "size", "shape": "shape", "operation": "sign", "rest below": "by"}
"""What the only argument of a fact is called in its words."""


def as_choice(choice: Choice) -> Sayable | str:
    """A choice as it is told: its number, in dollars where it is written so."""
    if choice.tree is None:
        return choice.letter
    return choice.tree if isinstance(choice.tree, Relation) else in_dollars(choice, choice.tree)


def named(words: Words, choice: Choice) -> str | Sayable:
    """A choice in a sentence: its number, or its letter where it is a longer expression."""
    if choice.tree is None or is_work(choice.tree):
        return caption(words.short("page/choice", {"letter": choice.letter}))
    return as_choice(choice)


def in_dollars(choice: Choice, tree: Expr) -> Expr | Money:
    """A number as dollars, where the choice it is held against is written so."""
    if choice.text.startswith("$") and isinstance(tree, Whole | Decimal):
        return Money(tree)
    return tree


def _bound(choice: Choice, bound: Fraction, step: Step) -> dict[str, Any]:
    """A bound as it is said, and as it is shown: as the easy work it came from."""
    said = in_dollars(choice, as_said(bound, step))
    worked, line = _as_worked(bound, step)
    product, made = line.sides if line and step.move == "estimate quotient" else ("", "")
    shown = said if isinstance(said, Money) else worked or said
    return {"bound": said, "shown": shown, "product": product, "product_made": made}


def as_said(bound: Fraction, step: Step) -> Expr:
    """A bound as the estimate has just said it: 2 2/5 rather than 12/5."""
    for detail in step.details.values():
        if isinstance(detail, Frac | Mixed | Whole | Decimal) and value(detail) == bound:
            return detail
    return as_expr(bound)


def _as_worked(bound: Fraction, step: Step) -> tuple[Expr | None, Relation | None]:
    """The easy work that a bound came from, 300 + 200 for 500, and its line.

    A quotient's came from a product: 180 ÷ 6 for 30, from 6 × 30 = 180. None where it is another
    number.
    """
    for name in ("low", "high"):
        line = step.details.get(name)
        if not isinstance(line, Relation):
            continue
        easy, made = line.sides
        if step.move == "estimate quotient" and isinstance(easy, Op):
            easy, times = Op("÷", made, easy.left), easy.right
            if value(times) == bound:
                return easy, line
        elif value(easy) == bound:
            return easy, line
    return None, None


def _counted(part: Part, solution: Solution, struck: Struck) -> dict[str, Any]:
    """Choices and the work as numbers of pieces, or as mixed numbers where the work made one."""
    found = [_of_fact(choice_of(part, r.letter), r, solution) for r in struck.rule_outs]
    size, made = found[0]["size"], found[0]["made"]
    if struck.how == "work":
        return {"made": made, "amounts": tuple(each["amount"] for each in found)}
    counts = tuple(each["as_pieces"] for each in found)
    if isinstance(made, Mixed):
        return {"size": size, "made": made, "counts": counts, "wholes": True}
    found_count, *all_counts = (int(value(tree) * size) for tree in (made, *counts))
    return {"size": size, "made": found_count, "counts": tuple(all_counts), "wholes": size == 1}


def _in_wholes(held: dict[str, Any], amount: Fraction, step: Step) -> dict[str, Any]:
    """What a choice is held against, as mixed numbers where the work has made one."""
    total = step.details.get("total")
    if not isinstance(total, Mixed):
        return held
    pieces = mixed(amount, held["size"]) if held["as_pieces"] and amount >= 0 else ""
    return held | {"made": total, "as_pieces": pieces}


def is_work(tree: Writing) -> bool:
    """Whether there is an operation left to do in a choice."""
    return any(isinstance(node, Op) for node in walk(tree))


def _held_against(tree: Expr, count: int, size: int) -> dict[str, Any]:
    made = Fraction(count, size)
    amount = value(tree)
    return {
        "made": Frac(count, size) if size != 1 else Whole(count),
        "size": size,
        "as_pieces": _as_pieces(tree, amount, size),
        "is_work": is_work(tree),
        "side": "less" if amount < made else "more",
    }


def _as_pieces(tree: Expr, amount: Fraction, size: int) -> Expr | str:
    """An amount in pieces of a size, "" where they do not fit or nothing is gained by it."""
    count = amount * size
    if count.denominator != 1 or count < 0 or (size == 1 and isinstance(tree, Whole)):
        return tree if size == 1 else ""
    return Frac(count.numerator, size) if size != 1 else Whole(count.numerator)
