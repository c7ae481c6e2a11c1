"""Declining with what was found, and lines ready to be pasted that would settle it."""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrate.errors import Declined
from narrate.exact import prose
from narrate.exact.caption import write
from narrate.exact.tree import Op, Relation, Writing, has_blank
from narrate.reading.words.naming import is_name
from narrate.reading.words.offered_amounts import times_told
from narrate.reading.words.offered_none import not_understood
from narrate.reading.words.offering import MOST, makes_one_of, offered
from narrate.reading.words.tokens import tokens

_FORM = "add a `model:` line that says what to work out, in the form `model: 3/4 + 1/5`"
_PLAIN = "add a `model:` line that says what to work out"
_READY = "add a line that says what to work out, such as"
_TIMES = "tell the question with `told:`, or leave the item out"


class Unsure(Declined):
    """Words that are not read, with `model:` lines that would settle them.

    `choices` are the item's, once they are known: only a line that makes one of them is offered.
    """

    def __init__(
        self, understood: str, text: str, numbers: Sequence[Writing], lines: Sequence[str]
    ):
        super().__init__(understood, self._to_add)
        self.choices: Sequence[str] = ()
        self._text = text
        self._lines = (_written_out(numbers), tuple(lines))

    def _to_add(self) -> str:
        """Lines that are ready to add; where there are none, the sentence to say more plainly."""
        written, given = self._lines
        made = dict.fromkeys([*(written or offered(self._text)), *given])
        fitting = [line for line in made if not self.choices or makes_one_of(line, self.choices)]
        if fitting:
            return f"{_READY} {' or '.join(f'`model: {line}`' for line in fitting[:MOST])}"
        return f"say “{not_understood(self._text)}” in plainer words, or {_PLAIN}"


def unsure(text: str, reason: str, lines: Sequence[str] = ()) -> Declined:
    """What was found in a text that is not read, why, and `model:` lines that would settle it.

    Lines are offered that the words and the amounts let be right, and `lines` that readings gave;
    where there are none, the sentence is named that is not understood.
    """
    numbers, times = _numbers(text), times_told(text)
    if times and len(numbers) < 2:
        return Declined(f"I found times of day ({', '.join(times)}), which are not read", _TIMES)
    if not numbers:
        return Declined("I found no numbers to work with", _FORM)
    found = ", ".join(write(number) for number in numbers)
    return Unsure(f"I found {found} in the words, but {reason}", text, numbers, lines)


def _numbers(text: str) -> list[Writing]:
    """The numbers and expressions of a text; in words too where figures are too few.

    Those that only name, such as dates, are left out.
    """
    question = re.split(r"(?<=[.?!])\s+", text.strip())[-1]
    written = [
        run.piece
        for run in prose.read(text)
        if not isinstance(run.piece, str) and not is_name(text, run.start, question)
    ]
    if len(written) > 1 or any(isinstance(number, Op | Relation) for number in written):
        return written
    told: list[Writing] = [
        t.tree for t in tokens(text) if t.tree is not None and not is_name(text, t.start, question)
    ]
    return told if len(told) > len(written) else written


def _written_out(numbers: Sequence[Writing]) -> list[str]:
    """The work that the words write out, where it is all that they hold."""
    work = [n for n in numbers if isinstance(n, Op) or (isinstance(n, Relation) and has_blank(n))]
    return [write(work[0])] if len(work) == len(numbers) == 1 else []
