"""What is said of a choice that does not say the work of a story: what it does instead."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from narrate.exact.tree import Blank, Expr, Relation, Writing, walk
from narrate.items.item import Choice
from narrate.reading.saying import amounts, is_alone, operations, work_of
from narrate.solution.steps import Solution

Pair = tuple[str, tuple[str, ...], Expr | str, Expr | str]
"""A letter, what its choice does, and for an unknown inside an equation its work and its name."""


def about(choices: Sequence[Choice], solution: Solution) -> dict[str, Any]:
    """What the sentences about such choices say: what each does, and what the story needs."""
    asked = solution.task.expression
    needs = operations(asked)
    return {
        "pairs": tuple(_pairs(choices)),
        "needs": needs,
        "situation": solution.task.situation,
        "told": "phrase" if solution.task.situation == "bare" else "story",
        "expression": asked,
        "turned": len(needs) == 1 and len(amounts(asked)) == len("ab"),
    }


def _pairs(choices: Sequence[Choice]) -> Iterator[Pair]:
    for choice in choices:
        work = work_of(choice.tree) if choice.tree is not None else None
        if work is not None and choice.tree is not None:
            inside = isinstance(choice.tree, Relation) and not is_alone(choice.tree)
            name = _unknown(choice.tree) if inside else ""
            yield choice.letter, operations(work), work if inside else "", name


def _unknown(tree: Writing) -> Expr | str:
    return next((node for node in walk(tree) if isinstance(node, Blank)), "")
