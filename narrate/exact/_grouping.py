"""Where an operand needs brackets to keep its meaning, on paper and aloud."""

from __future__ import annotations

from narrate.exact.tree import Expr, Group, Op, Operation

_SUMS = ("+", "−")


def opened(tree: Expr) -> Expr:
    """What stands inside a tree's outer brackets."""
    while isinstance(tree, Group):
        tree = tree.inner
    return tree


def left_needs_brackets(sign: Operation, operand: Expr) -> bool:
    """Whether `operand sign ...` means something else without brackets."""
    return isinstance(operand, Op) and sign not in _SUMS and operand.sign in _SUMS


def right_needs_brackets(sign: Operation, operand: Expr) -> bool:
    """Whether `... sign operand` means something else without brackets."""
    if not isinstance(operand, Op):
        return False
    if operand.sign in _SUMS:
        return sign != "+"
    return sign == "÷"
