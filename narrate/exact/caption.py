"""Mathematics in symbols on one line, as captions and scripts print it.

`3/4`, `2 1/5`, `□`, and U+2212, × and ÷ for the signs; commas from four digits on (DCMP Captioning
Key, "Numbers": required from five, at four allowed if it is so throughout).
`parse(write(tree))` has the value of `tree`.
"""

from __future__ import annotations

from collections.abc import Sequence

from narrate.exact._grouping import left_needs_brackets, opened, right_needs_brackets
from narrate.exact.tree import (
    Blank,
    Decimal,
    Expr,
    Frac,
    Group,
    InUnits,
    Mixed,
    Money,
    Neg,
    Op,
    Over,
    Piece,
    Ratio,
    Relation,
    Sayable,
    TimeOfDay,
    Whole,
    WithRest,
)

_COMMAS_FROM = 1_000


def caption(pieces: Sequence[Piece]) -> str:
    """Words as they are, mathematics in symbols; nothing is added between the pieces."""
    return ended_once("".join(p if isinstance(p, str) else write(p) for p in pieces))


def ended_once(text: str) -> str:
    """A text in which the full stop of a.m. and p.m. ends a sentence too."""
    return text.replace(".m..", ".m.")


def write(tree: Sayable) -> str:
    """The tree in symbols, brackets kept, and added only where the meaning needs them."""
    match tree:
        case Relation(sign, sides):
            return f" {sign} ".join(write(side) for side in sides)
        case Money(amount):
            return f"${write(amount)}"
        case Whole(number):
            return whole(number)
        case Frac(numerator, denominator):
            return f"{whole(numerator)}/{whole(denominator)}"
        case Mixed(number, numerator, denominator):
            return f"{whole(number)} {whole(numerator)}/{whole(denominator)}"
        case Decimal(digits, places):
            return f"{whole(int(digits or '0'))}.{places or '0'}"
        case WithRest(quotient, rest, _):
            return f"{whole(quotient)} remainder {whole(rest)}"
        case Ratio(first, second, between):
            between = ":" if between == ":" else f" {between} "
            return f"{whole(first)}{between}{whole(second)}"
        case InUnits():
            return " ".join(f"{whole(count)} {unit}" for count, unit in tree.parts)
        case TimeOfDay(_, minute, half):
            told = f" {'a' if tree.morning else 'p'}.m." if half else ""
            return f"{tree.hour}:{minute:02d}{told}"
        case Blank(name):
            return name
        case Group(inner):
            return f"({write(inner)})"
        case Neg(inner):
            return f"−{_in_brackets(inner) if isinstance(inner, Neg | Op) else write(inner)}"
        case Over(top, bottom):
            return f"{_part(top)}/{_part(bottom)}"
        case Op(left=left, right=Blank() | Group() as right, close=True):
            return f"{_left(tree, left)}{_right(tree, right)}"
        case Op(sign, left, right):
            return f"{_left(tree, left)} {sign} {_right(tree, right)}"


def whole(number: int) -> str:
    """A whole number in digits: `204`, `1,204`, `12,040`."""
    return f"{number:,}" if number >= _COMMAS_FROM else str(number)


def _left(tree: Op, left: Expr) -> str:
    return _in_brackets(left) if left_needs_brackets(tree.sign, left) else write(left)


def _right(tree: Op, right: Expr) -> str:
    needs = isinstance(right, Neg) or right_needs_brackets(tree.sign, right)
    return _in_brackets(right) if needs else write(right)


def _part(tree: Expr) -> str:
    """The top or bottom of a fraction: in brackets unless it is one plain number or blank."""
    inner = opened(tree)
    return write(inner) if isinstance(inner, Whole | Decimal | Blank) else _in_brackets(inner)


def _in_brackets(tree: Expr) -> str:
    return f"({write(tree)})"
