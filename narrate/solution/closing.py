"""How the telling of a part ends: the answer fitted to the question, and looked back at."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import lcm

from narrate.exact.tree import (
    Expr,
    Frac,
    Mixed,
    Neg,
    Over,
    Relation,
    Whole,
    Writing,
    has_blank,
    value,
    write_sum,
)
from narrate.items.item import Choice, Part
from narrate.reading.demands import Tested
from narrate.reading.goal import Goal
from narrate.reading.reading import Reading
from narrate.solution import moves
from narrate.solution.answer import as_boxed
from narrate.solution.facts import Fact
from narrate.solution.put_back import put_back, put_in
from narrate.solution.slips import Slip
from narrate.solution.steps import Step, Work
from narrate.solution.task import Task, as_expr, mixed, over, sum_terms


def rename(target: Over, total: Expr) -> Step:
    """The total as the fraction with the blank in it: 3/4 = 15/20, so the blank is fifteen."""
    filled = fill(target, value(total))
    blank = _blank_of(target, filled)
    return Step(
        move="rename" if total != filled else "read off",
        line=moves.equal(total, filled) if total != filled else None,
        shown=_rename_line(total, filled),
        details={
            "total": total,
            "filled": filled,
            "blank": blank,
            "place": "numerator" if has_blank(target.top) else "denominator",
            **_scaling(total, filled),
        },
        facts=(Fact(name="makes", args=(blank, 1)),),
    )


def fill(target: Over, amount: Fraction) -> Frac:
    """The fraction with its blank filled so that it equals an amount."""
    if has_blank(target.top):
        return over(amount, int(value(target.bottom)))
    top = int(value(target.top))
    return Frac(top, int(top / amount))


def _blank_of(target: Over, filled: Frac) -> int:
    return filled.numerator if has_blank(target.top) else filled.denominator


def _scaling(total: Expr, filled: Frac) -> dict[str, int | str]:
    """How the numerator became the other: "times" or "divide" by a whole factor, "" otherwise."""
    if not isinstance(total, Frac):
        return {"how": "", "factor": 1}
    if filled.denominator % total.denominator == 0:
        return {"how": "times", "factor": filled.denominator // total.denominator}
    if total.denominator % filled.denominator == 0:
        return {"how": "divide", "factor": total.denominator // filled.denominator}
    return {"how": "", "factor": 1}


def _rename_line(total: Expr, filled: Frac) -> Relation | None:
    """The total by its factor, None where there is no factor to show."""
    scaling = _scaling(total, filled)
    factor = int(scaling["factor"])
    if not isinstance(total, Frac) or factor == 1:
        return None
    return moves.by_factor(total, "×" if scaling["how"] == "times" else "÷", factor)


def finish(
    part: Part,
    reading: Reading,
    task: Task,
    work: Work,
    key: tuple[str, ...],
    slip: Slip | None,
) -> Iterator[Step]:
    """The steps after the work, as the form of the question asks; `key` are the right letters."""
    goal = reading.goal
    match goal.form:
        case "first line":
            yield _stop_here(goal, key, work)
            return
        case "equivalent":
            yield from _equal_choices(part, key, work)
            return
        case "judged" | "tested":
            yield _choose_judged(part, key, work)
            return
        case "told":
            if part.claim is not None:
                yield _put_right(part, work, slip)
            yield _told(part, work, start=goal.start and work.ready > 0)
            return
        case "missing":
            if part.boxes:
                yield _fit_boxes(part, answer_as_written(reading, work))
            yield _missing(reading, work)
        case "claim":
            yield _put_right(part, work, slip)
    if part.boxes and goal.form != "missing":
        yield _fit_boxes(part, answer_as_written(reading, work))
    if goal.form != "missing":
        back = put_back(part, work.result) if reading.situation == "bare" else None
        yield from look_back(task, work) if back is None else (back,)
    if part.choices:
        yield from _choose(reading, part, key, work)


def _stop_here(goal: Goal, key: tuple[str, ...], work: Work) -> Step:
    """The question asks for a line of work, not for its end: here the telling stops."""
    line = write_sum(list(work.amounts))
    return Step(
        move="stop here",
        line=moves.equal(goal.asked, line),
        details={"letters": key, "line": line},
        facts=(Fact(name="amounts", args=tuple(s * value(t) for s, t in work.amounts)),),
    )


def right_letters(goal: Goal, part: Part) -> tuple[str, ...]:
    """The letters of the right choices; of sentences, those that the key declares."""
    if goal.form == "told":
        return part.key
    if isinstance(goal.demand, Tested):
        return goal.demand.right
    return tuple(choice.letter for choice in part.choices if goal.accepts(choice.tree))


def _equal_choices(part: Part, key: tuple[str, ...], work: Work) -> Iterator[Step]:
    """Each right choice shown to make the same amount, then all of them named."""
    for choice in part.choices:
        if choice.letter in key:
            yield _equal_choice(choice, work)
    yield Step(
        move="choose all" if part.select_all else "choose",
        details={"letters": key, "result": _as_chosen(part, key, work.result)},
    )


def _as_chosen(part: Part, key: tuple[str, ...], result: Expr) -> Writing:
    """The right choice as it is written, where there is one; else the result."""
    written = [choice.tree for choice in part.choices if choice.letter in key and choice.tree]
    return written[0] if len(written) == 1 else result


def _choose_judged(part: Part, key: tuple[str, ...], work: Work) -> Step:
    """The choices that are as the question says."""
    trees = [choice.tree for choice in part.choices]
    numbers = not any(
        tree is None or isinstance(tree, Relation) or has_blank(tree) for tree in trees
    )
    return Step(
        move="choose all" if part.select_all else "choose",
        details={"letters": key, "result": work.result if numbers else ""},
    )


def _equal_choice(choice: Choice, work: Work) -> Step:
    tree = choice.tree
    assert tree is not None
    assert not isinstance(tree, Relation)
    line, how, factor = _shown_equal(tree, work)
    return Step(
        move="equal choice",
        line=None if how in ("same", "line") else line,  # those are on the board already
        details={
            "letter": choice.letter,
            "choice": tree,
            "result": work.result,
            "through": line.sides[1],
            "how": how,
            "factor": factor,
        },
    )


def _shown_equal(tree: Expr, work: Work) -> tuple[Relation, str, int]:
    """A line that shows a choice equal to the result, how, and by which factor."""
    result = work.result
    if tree == result:
        return moves.equal(tree, result), "same", 1
    if tree == write_sum(list(work.amounts)):
        return _through(tree, work.total, result), "line", 1
    if not isinstance(tree, Frac) or not isinstance(result, Frac):
        return _through(tree, *_counted(tree, result), result), "makes", 1
    if tree.denominator % result.denominator == 0:
        factor = tree.denominator // result.denominator
        return moves.scaled(result, tree.denominator), "times", factor
    if result.denominator % tree.denominator == 0:
        factor = result.denominator // tree.denominator
        return moves.scaled(tree, result.denominator), "times back", factor
    return _through(tree, as_expr(value(tree)), result), "simplest", 1


def _through(*sides: Expr) -> Relation:
    """Sides joined by equals signs, none twice running."""
    kept = [side for place, side in enumerate(sides) if place == 0 or side != sides[place - 1]]
    return moves.equal(*kept)


def _counted(tree: Expr, result: Expr) -> Iterator[Expr]:
    """What a choice comes to in its own pieces, in the form of the result."""
    found = sum_terms(tree)
    if found is not None:
        amount, size = value(tree), lcm(*(f.denominator for t in found if (f := t.fraction)))
        if size > 1 and amount >= 0:
            yield over(amount, size) if isinstance(result, Frac) else mixed(amount, size)


def _told(part: Part, work: Work, *, start: bool) -> Step:
    """Choices that are sentences: the item's key says which goes with the work, or its start."""
    return Step(
        move="told",
        details={"letters": part.key, "result": work.result, "start": start},
        facts=(Fact(name="declared", args=part.key),),
    )


def _missing(reading: Reading, work: Work) -> Step:
    """The number put in the blank, and the equation read with it."""
    equation, answer = reading.equation, reading.goal.answer
    assert equation is not None
    blank = work.result if reading.target is None else as_expr(answer)
    filled = Relation("=", tuple(put_in(side, blank) for side in equation.sides))
    return Step(
        move="fill the blank",
        line=filled,
        details={"blank": blank, "equation": filled},
        facts=(Fact(name="makes", args=(answer.numerator, answer.denominator)),),
    )


def _put_right(part: Part, work: Work, slip: Slip | None) -> Step:
    """A pupil's answer held against the work: the slip that makes it, or none, or it is right."""
    claim = part.claim
    assert claim is not None
    right = value(claim) == value(work.result)
    return Step(
        move="put right",
        details={
            "claim": claim,
            "result": work.result,
            "verdict": "right" if right else "slip" if slip else "no slip",
            "slip": slip.name if slip else "",
        },
    )


def answer_as_written(reading: Reading, work: Work) -> Expr:
    """The end of the work, or the number in the blank of a fraction."""
    return work.result if reading.target is None else as_expr(reading.goal.answer)


def _fit_boxes(part: Part, result: Expr) -> Step:
    """Why the answer goes in as it does."""
    boxed = as_boxed(part, result)
    reason = _box_reason(part, boxed)
    return Step(
        move="fit the boxes",
        line=None if boxed == result else moves.equal(result, boxed),
        details={"answer": boxed, "reason": reason, "unit": part.unit},
    )


def _box_reason(part: Part, boxed: Expr) -> str:
    if part.boxes == ("number",):
        return "number"
    if "whole" in part.boxes:
        kinds = {Whole: "whole only", Mixed: "mixed"}
        size = boxed.inner if isinstance(boxed, Neg) else boxed
        return kinds.get(type(size), "no whole")
    return "improper" if abs(value(boxed)) >= 1 else "fraction"


def look_back(task: Task, work: Work) -> Iterator[Step]:
    """The work undone: what was added is taken out again, what was taken away put back."""
    if work.check is not None:
        yield work.check
        return
    if not task.natural or len(work.amounts) < 2:
        return
    first, others = work.amounts[0], work.amounts[1:]
    undoing = sorted(((-sign, tree) for sign, tree in others), key=lambda pair: -pair[0])
    undo = write_sum([(1, work.total), *undoing])
    line = moves.equal(undo, first[1])
    start = task.terms[0].numeral
    yield Step(
        move="look back",
        line=line,
        details={
            "total": work.total,
            "others": tuple(tree for _, tree in others),
            "first": first[1],
            "start": start,
            "result": work.result,
            "how": _undoing([sign for sign, _ in others]),
            "line": line,
        },
    )


def _undoing(signs: Sequence[int]) -> str:
    if all(sign > 0 for sign in signs):
        return "take out"
    return "put back" if all(sign < 0 for sign in signs) else "undo"


def _choose(reading: Reading, part: Part, key: tuple[str, ...], work: Work) -> Iterator[Step]:
    """The right choice; one that is written otherwise than the work ends is shown to be equal."""
    result = answer_as_written(reading, work)
    for choice in part.choices:
        if choice.letter in key and choice.tree != result and not reading.target:
            yield _equal_choice(choice, work)
    yield Step(
        move="choose",
        details={"letters": key, "result": _as_chosen(part, key, result)},
        facts=tuple(_form_facts(reading.goal)),
    )


def _form_facts(goal: Goal) -> Iterator[Fact]:
    """What the question asks of the writing of its answer."""
    if goal.simplest:
        yield Fact(name="simplest")
    if goal.shape != "any":
        yield Fact(name="shape", args=(goal.shape,))
