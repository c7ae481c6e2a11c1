"""What one operation of an expression counts, and why it comes when it does: for its sentences."""

from __future__ import annotations

from dataclasses import replace

from narrate.exact.tree import Expr, Group, Op, walk
from narrate.reading.reading import Counted
from narrate.solution.steps import Detail
from narrate.solution.task import Task


def why(task: Task, tree: Op, *, first: bool) -> dict[str, Detail]:
    """What an operation counts and from which relation it follows, as the reading tells.

    `first` says that nothing has been worked out before it.
    """
    root = tree is task.expression
    found = counted(task, tree)
    sides = [counted(task, side) for side in (tree.left, tree.right)]
    situation = task.situation if root else found.situation if found else ""
    return {
        "unit": found.unit if found else "",
        "units": tuple(side.unit if side else "" for side in sides),
        "situation": situation,
        "last": "yes" if root else "",
        "first": "yes" if first else "",
        "order": _order(task.expression, tree),
    }


def counted(task: Task, tree: Expr) -> Counted | None:
    """What a part of the expression counts, None where the words do not say."""
    inner = tree.inner if isinstance(tree, Group) else tree
    found = [each for each in task.counted if each.tree in (tree, inner)]
    units = {each.unit for each in found if each.unit}
    if not found or len(units) > 1:
        return None
    return replace(found[0], unit=units.pop() if units else "")


def _order(expression: Expr, tree: Op) -> str:
    """Why an operation comes before others: "brackets", "before" by the order of operations."""
    if any(isinstance(node, Group) and node.inner is tree for node in walk(expression)):
        return "brackets"
    inside = tree is not expression and isinstance(expression, Op) and expression.sign in "+−"
    return "before" if inside and tree.sign in "×÷" else ""
