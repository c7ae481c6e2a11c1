"""A question for an expression or equation, answered: the work is written down, not worked out.

The story says which operation on which amounts; a choice that says other work is struck by that.
"""

from __future__ import annotations

from collections.abc import Iterator

from narrate.exact.caption import write
from narrate.exact.tree import Expr, Relation, Writing, has_blank
from narrate.items.item import Choice, Part
from narrate.items.texts import times_letter
from narrate.reading.reading import Reading
from narrate.reading.saying import amounts, is_alone, operations, work_of
from narrate.solution.closing import right_letters
from narrate.solution.facts import Fact
from narrate.solution.steps import RuleOut, Solution, Step
from narrate.solution.task import Task, sum_terms


def choose_work(part: Part, reading: Reading) -> Solution:
    """The choice that says the work of a story. The key is not checked here."""
    asked = reading.expression
    facts = facts_of(asked)
    key = right_letters(reading.goal, part)
    right = [choice for choice in part.choices if choice.letter in key]
    set_up = Step(
        move="set up",
        line=asked,
        details={"situation": reading.situation, "expression": asked},
        facts=facts,
    )
    said = tuple(
        _shown_same(choice, asked)
        for choice in right
        if choice.tree != asked or times_letter(choice.text)
    )
    trees = [choice.tree for choice in right if choice.tree is not None]
    choose = Step(
        move="choose",
        details={"letters": key, "result": trees[0] if len(trees) == 1 else asked},
    )
    return Solution(
        steps=(set_up, *said, choose),
        answer=reading.goal.answer,
        result=asked,
        written="",
        key=key,
        rule_outs=tuple(_rule_outs(part, key, facts)),
        slips={},
        task=_task(reading),
        rules=(),
        board={},
    )


def facts_of(asked: Expr) -> tuple[Fact, ...]:
    """What is told of the work: its operations, its amounts, and at last just how they go."""
    return (
        Fact(name="does", args=operations(asked)),
        Fact(name="uses", args=amounts(asked)),
        Fact(name="says", args=(write(asked),)),
    )


def _task(reading: Reading) -> Task:
    letters = has_blank(reading.expression)
    return Task(
        expression=reading.expression,
        terms=() if letters else sum_terms(reading.expression) or (),
        situation=reading.situation,
        money=reading.money,
        counted=reading.counted,
    )


def _rule_outs(part: Part, key: tuple[str, ...], facts: tuple[Fact, ...]) -> Iterator[RuleOut]:
    """Each wrong choice with the first fact that does not admit it; the last one admits no wrong
    choice."""
    for choice in part.choices:
        if choice.letter not in key and choice.tree is not None:
            against = next(fact for fact in facts if not fact.admits(choice.tree))
            yield RuleOut(letter=choice.letter, step=0, fact=against, slip=None)


def _shown_same(choice: Choice, asked: Expr) -> Step:
    """A right choice that is written otherwise, with the work that it says."""
    tree: Writing = choice.tree if choice.tree is not None else asked
    how = "no sign" if tree == asked else "order"
    if isinstance(tree, Relation):
        how = "unknown inside" if not is_alone(tree) else "equation"
        how = "order" if how == "equation" and work_of(tree) != asked else how
    return Step(
        move="says the same",
        details={
            "letter": choice.letter,
            "choice": tree,
            "expression": asked,
            "how": how,
        },
    )
