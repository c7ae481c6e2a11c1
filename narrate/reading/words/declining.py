"""Declining with what was found, and lines ready to be pasted that would settle it."""

from __future__ import annotations

from collections.abc import Sequence

from narrate.errors import Declined
from narrate.exact import prose
from narrate.exact.caption import write
from narrate.exact.tree import Op, Relation, Writing, has_blank
from narrate.reading.words.offered_amounts import is_date, times_told
from narrate.reading.words.offering import MOST, offered
from narrate.reading.words.tokens import tokens

_FORM = "add a `model:` line that says what to work out, in the form `model: 3/4 + 1/5`"
_PLAIN = "add a `model:` line that says what to work out"
_READY = "add a line that says what to work out, such as"
_TIMES = "tell the question with `told:`, or leave the item out"


def unsure(text: str, reason: str, lines: Sequence[str] = ()) -> Declined:
    """What was found in a text that is not read, why, and `model:` lines that would settle it.

    `lines` are expressions that some reading gave; without them those are offered that the words
    and the amounts let be right, and none where none does.
    """
    numbers, times = _numbers(text), times_told(text)
    if times and len(numbers) < 2:
        return Declined(f"I found times of day ({', '.join(times)}), which are not read", _TIMES)
    if not numbers:
        return Declined("I found no numbers to work with", _FORM)
    found = ", ".join(write(number) for number in numbers)
    made = list(lines) or _written_out(numbers) or offered(text)
    ready = " or ".join(f"`model: {line}`" for line in made[:MOST])
    return Declined(
        f"I found {found} in the words, but {reason}", f"{_READY} {ready}" if ready else _PLAIN
    )


def _numbers(text: str) -> list[Writing]:
    """The numbers and expressions of a text but dates; in words too where figures are too few."""
    written = [
        run.piece
        for run in prose.read(text)
        if not isinstance(run.piece, str) and not is_date(text, run.start)
    ]
    if len(written) > 1 or any(isinstance(number, Op | Relation) for number in written):
        return written
    told: list[Writing] = [
        t.tree for t in tokens(text) if t.tree is not None and not is_date(text, t.start)
    ]
    return told if len(told) > len(written) else written


def _written_out(numbers: Sequence[Writing]) -> list[str]:
    """The work that the words write out, where it is all that they hold."""
    work = [n for n in numbers if isinstance(n, Op) or (isinstance(n, Relation) and has_blank(n))]
    return [write(work[0])] if len(work) == len(numbers) == 1 else []
