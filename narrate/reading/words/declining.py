"""Declining with what was found, and lines ready to be pasted that would settle it."""

from __future__ import annotations

from collections.abc import Sequence

from narrate.errors import Declined
from narrate.exact import prose
from narrate.exact.caption import write
from narrate.exact.tree import Decimal, Frac, Mixed, Op, Relation, Whole, Writing, has_blank, value
from narrate.reading.words.tokens import tokens

_LIKE = "such as `model: 3/4 + 1/5`"
_ADD = "add a line that says what to work out, such as"


def unsure(text: str, reason: str, lines: Sequence[str] = ()) -> Declined:
    """What was found in a text that is not read, why, and `model:` lines that would settle it.

    `lines` are expressions that some reading gave; without them the numbers are put together and
    taken apart.
    """
    numbers = _numbers(text)
    if not numbers:
        return Declined(
            "I found no numbers to work with", f"{_ADD.removesuffix(' such as')} {_LIKE}"
        )
    found = ", ".join(write(number) for number in numbers)
    ready = " or ".join(f"`model: {line}`" for line in lines or _guesses(numbers))
    return Declined(f"I found {found} in the words, but {reason}", f"{_ADD} {ready}")


def _numbers(text: str) -> list[Writing]:
    """The numbers and expressions of a text; those in words too where figures are too few."""
    written = [run.piece for run in prose.read(text) if not isinstance(run.piece, str)]
    if len(written) > 1 or any(isinstance(number, Op | Relation) for number in written):
        return written
    told: list[Writing] = [t.tree for t in tokens(text) if t.tree is not None]
    return told if len(told) > len(written) else written


def _guesses(numbers: Sequence[Writing]) -> list[str]:
    """All amounts put together, and the others taken from the largest where that can be.

    Of two that are no fractions, which may be groups, product and quotient too.
    """
    work = [n for n in numbers if isinstance(n, Op) or (isinstance(n, Relation) and has_blank(n))]
    if len(work) == len(numbers) == 1:
        return [write(work[0])]
    amounts = [n for n in numbers if isinstance(n, Whole | Frac | Mixed | Decimal)]
    if len(amounts) < 2:
        return ["3/4 + 1/5"]
    most, *rest = sorted(amounts, key=value, reverse=True)
    lines = [" + ".join(map(write, amounts))]
    if value(most) >= sum(map(value, rest)):  # else it would go below zero
        lines.append(" − ".join(map(write, (most, *rest))))
    if len(amounts) == 2 and all(isinstance(amount, Whole | Decimal) for amount in amounts):
        lines += [" × ".join(map(write, amounts)), f"{write(most)} ÷ {write(*rest)}"]
    return lines
