"""A part solved: opening, estimates, the kind's work, closing, and choices ruled out on the way.

The kind works the task out; the form of the question decides here where the telling stops.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from narrate.errors import Declined
from narrate.exact.caption import write
from narrate.exact.tree import Expr, Frac, Op, Relation, has_blank, value
from narrate.items.item import Choice, Item, Part
from narrate.reading.goal import Goal
from narrate.reading.reading import Reading
from narrate.solution import closing, operations, pictures
from narrate.solution.answer import result_form, written
from narrate.solution.estimate import estimates
from narrate.solution.facts import ABOUT_LINES, Fact
from narrate.solution.kind import Kind
from narrate.solution.slips import Made, Slip, made_by
from narrate.solution.steps import RuleOut, Solution, Step, Work
from narrate.solution.task import Task, sum_terms


def make_task(item: Item, part: Part, reading: Reading, board: Mapping[Frac, Frac]) -> Task:
    """What a kind is given to work out: a sum of amounts, or any other arithmetic.

    Raises Declined where the question does not go with it.
    """
    found = sum_terms(reading.expression) or ()
    if reading.goal.form == "first line" and not found:
        raise Declined(
            f"I read {write(reading.expression)}",
            "a first line of work is judged of sums and differences only; leave the item out",
        )
    if reading.goal.form == "first line" and len(found) == 1:
        raise Declined(
            f"I read {write(reading.expression)}, which is one amount and no sum",
            "give `model:` the sum or difference whose first line is asked for",
        )
    task = Task(
        expression=reading.expression,
        terms=found,
        result=result_form(part, reading),
        simplest=reading.goal.simplest,
        ways=part.ways,
        strip=item.stimulus.diagram if item.stimulus else None,
        carried=board,
        situation=reading.situation,
        target=reading.target,
        rounding=reading.rounding,
        decimals=reading.decimals,
        money=reading.money,
        counted=reading.counted,
        demand=reading.goal.demand,
    )
    if reading.story and not task.natural:
        raise Declined(
            f"I read {write(reading.expression)}, which takes away more than there is",
            "put the larger amount first in `model:`",
        )
    return task


def solve(part: Part, reading: Reading, task: Task, kind: Kind) -> Solution:
    """A part, solved and checked step by step. The key is not checked here."""
    goal = reading.goal
    work = kind.solve(task)
    result = closing.answer_as_written(reading, work)
    key = closing.right_letters(goal, part)
    wrong = tuple(choice for choice in part.choices if choice.letter not in key)
    made = made_by(kind.SLIPS if wrong or part.claim is not None else (), task)
    slips = dict(_slips(made, wrong, work))
    slip = made.slip(part.claim) if part.claim is not None else None
    if slip is not None and part.claim is not None and not _is_sure(slip, part.claim, work):
        slip = None
    ending = closing.finish(part, reading, task, work, key, slip)
    all_steps = _steps(reading, task, work, list(_wrong_trees(part, goal, wrong)), ending)
    steps = tuple(_relevant(step, goal) for step in all_steps)
    return Solution(
        steps=steps,
        answer=goal.answer,
        result=result,
        written=written(part, result),
        key=key,
        rule_outs=tuple(_rule_outs(goal, wrong, steps, slips)),
        slips=slips,
        task=task,
        rules=kind.SLIPS,
        board=work.board,
    )


def _relevant(step: Step, goal: Goal) -> Step:
    """The step with the facts that bear on the question: on a line of work, or on its answer."""
    about_lines = goal.form == "first line"
    facts = tuple(fact for fact in step.facts if (fact.name in ABOUT_LINES) == about_lines)
    return replace(step, facts=facts)


def _steps(
    reading: Reading, task: Task, work: Work, wrong: list[Expr], ending: Iterator[Step]
) -> Iterator[Step]:
    goal = reading.goal
    if goal.demand is not None:
        if isinstance(reading.expression, Op) and not work.opened:
            yield _opening(reading, task)
        yield from work.steps
        yield from ending
        return
    yield _opening(reading, task)
    if goal.form == "first line" or (goal.start and work.ready):
        yield from work.steps[: work.ready]
    elif reading.target is not None:
        yield from (replace(step, facts=()) for step in work.steps)
        yield closing.rename(reading.target, work.total)
    else:
        yield from estimates(task, wrong)
        yield from work.steps
    yield from ending


def _opening(reading: Reading, task: Task) -> Step:
    """What is to be worked out, and from which relation of the amounts it follows."""
    signs = tuple(term.sign for term in task.terms)
    if reading.equation is not None:
        single = len(task.terms) == 1
        return Step(
            move="equal amounts" if single else "undo",
            line=reading.equation if single else reading.expression,
            details={"equation": reading.equation, "expression": reading.expression},
        )
    operation = Fact(name="operation", args=("−" if -1 in signs[1:] else "+",))
    facts = (operation,) if signs else ()
    return Step(
        move="set up",
        line=reading.expression,
        details={"situation": reading.situation, "expression": reading.expression},
        facts=facts,
        layers=pictures.ground(task),
    )


def _wrong_trees(part: Part, goal: Goal, wrong: Sequence[Choice]) -> Iterator[Expr]:
    """Wrong numbers that an estimate could show to be wrong: choices, or a pupil's answer."""
    if part.claim is not None and value(part.claim) != goal.answer:
        yield part.claim
    yield from (tree for _, tree in _numbers(wrong))


def _numbers(choices: Sequence[Choice]) -> Iterator[tuple[Choice, Expr]]:
    """The choices that are numbers or expressions without letters, with their trees."""
    for choice in choices:
        tree = choice.tree
        if tree is not None and not isinstance(tree, Relation) and not has_blank(tree):
            yield choice, tree


def _slips(made: Made, wrong: Sequence[Choice], work: Work) -> Iterator[tuple[str, str]]:
    """For each wrong choice that a slip makes, its name."""
    for choice, tree in _numbers(wrong):
        if (slip := made.slip(tree)) and _is_sure(slip, tree, work):
            yield choice.letter, slip.name


def _is_sure(slip: Slip, tree: Expr, work: Work) -> bool:
    """Whether a slip can be named: another operation only where it is one of a step's numbers.

    By 3 × 1 instead of 3 + 1, 48 ÷ (3 + 1) comes to 16; but that is 48 ÷ 3 as well.
    """
    if slip.name != "another operation":
        return True
    for step in work.steps:
        left, right = step.details.get("left"), step.details.get("right")
        if step.move == "work" and isinstance(left, Expr) and isinstance(right, Expr):
            signs = set(operations.leading_to(value(tree), left, right))
            if signs - {step.details["sign"]}:
                return True
    return False


def _rule_outs(
    goal: Goal, wrong: Sequence[Choice], steps: tuple[Step, ...], slips: Mapping[str, str]
) -> Iterator[RuleOut]:
    """Each wrong choice with the first told fact that does not admit it."""
    for choice in wrong:
        tree = choice.letter if goal.form in ("told", "tested") else choice.tree
        if tree is None or isinstance(tree, Relation):
            continue
        found = _first_against(steps, tree)
        if found is None:
            raise Declined(
                f"choice {choice.letter} ({choice.text}) is wrong, but nothing told shows it",
                "word the choice as a number or an expression that can be held against the work",
            )
        step, fact = found
        yield RuleOut(letter=choice.letter, step=step, fact=fact, slip=slips.get(choice.letter))


def _first_against(steps: tuple[Step, ...], tree: Expr | str) -> tuple[int, Fact] | None:
    for place, step in enumerate(steps):
        for fact in step.facts:
            if not fact.admits(tree):
                return place, fact
    return None
