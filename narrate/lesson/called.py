"""What is said of a part as a whole: what its answer is called, which sentence is taken along."""

from __future__ import annotations

from narrate.exact.tree import Expr, Frac, Mixed, Op, Relation, terms, walk
from narrate.lesson import number_moments, product_moments, why_now
from narrate.lesson.solved import SolvedPart

_CALLED = {"×": "product", "÷": "quotient"}


def ending_of(expression: Expr) -> str:
    """What a plain calculation comes to is called: the sum, the difference."""
    if isinstance(expression, Op) and expression.sign in _CALLED:
        plain = why_now.operations_of(expression) == 1
        return _CALLED[expression.sign] if plain else "answer"
    if any(isinstance(node, Op) and node.sign in _CALLED for node in walk(expression)):
        return "answer"
    if isinstance(expression, Op) and why_now.operations_of(expression) == 1:
        return "sum" if expression.sign == "+" else "difference"  # 2 − (−6) stays a difference
    signs = [sign for sign, _ in terms(expression)]
    if len(signs) < 2 or signs[0] < 0:
        return "answer"
    return "sum" if min(signs) > 0 else "difference" if len(signs) == 2 else "answer"


def called_in(solved: SolvedPart) -> str:
    """What the choices are called: equations where they have two sides, else expressions."""
    sides = any(isinstance(choice.tree, Relation) for choice in solved.part.choices)
    return "equation" if sides else "expression"


def _counts_below_zero(solved: SolvedPart) -> bool:
    """Whether whole numbers, or those below zero, are added and taken away without any pieces."""
    steps = solved.solution.steps
    return any(step.move == "join" and step.details["size"] == 1 for step in steps)


def takeaway_of(solved: SolvedPart) -> str:
    """Which sentence to take along: the first row whose mark the part bears."""
    moves = {step.move for step in solved.solution.steps}
    goal = solved.reading.goal
    rows = (
        ("first-line", goal.form == "first line"),
        ("equivalent", goal.form == "equivalent"),
        ("expression" if solved.reading.story else "phrase", goal.form == "expression"),
        ("judged", goal.form == "judged"),
        ("tested", goal.form == "tested"),
        ("missing", goal.form == "missing"),
        ("claim", goal.form == "claim"),
        ("simplest", "simplify" in moves),
        ("rewritten", goal.shape != "any" and isinstance(solved.reading.expression, Frac | Mixed)),
        ("strip", "shade strip" in moves and "rewrite" not in moves),  # counted, not worked out
        ("regroup", "regroup" in moves),
        ("whole", "whole as pieces" in moves),
        ("below-zero", _counts_below_zero(solved)),
        ("one-size", "one size" in moves),
    )
    by_form = next((name for name, is_so in rows[:7] if is_so), None)
    found = by_form or product_moments.takeaway(solved)
    found = found or next((name for name, is_so in rows[7:] if is_so), None)
    return found or number_moments.takeaway(solved) or "like-size"
