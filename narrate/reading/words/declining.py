"""Declining with what was found, and what to add: a line that may be right is told as a guess."""

from __future__ import annotations

import re
from collections.abc import Sequence

from narrate.errors import Declined
from narrate.exact import prose
from narrate.exact.caption import write
from narrate.exact.tree import Op, Relation, Writing, has_blank
from narrate.reading.words.naming import is_name
from narrate.reading.words.offered_amounts import times_told
from narrate.reading.words.offered_claim import claim_lines
from narrate.reading.words.offered_doubts import in_doubt
from narrate.reading.words.offered_none import not_understood
from narrate.reading.words.offering import agree, makes_one_of, offered
from narrate.reading.words.tokens import tokens

_FORM = "add a `model:` line that says what to work out, in the form `model: 3/4 + 1/5`"
_PLAIN = "add a `model:` line that says what to work out"
_READY = "add a line that says what to work out, such as `model: {0}`"
_GUESSED = (
    "add a `model:` line that says what to work out; my guess is `model: {0}`, which may be wrong: "
    "work the story out yourself before you use it"
)
_TIMES = "tell the question with `told:`, or leave the item out"
_IN_NUMBERS = (
    "add a `model:` line of numbers that says what to work out, in the form `model: 45 + 20`, or "
    "tell the question with `told:`"
)


class Unsure(Declined):
    """Words that are not read, with `model:` lines that would settle them.

    `choices` are the item's, once they are known: only a line that makes one of them is offered.
    `said` is the text as it stands, where it was read without some of its words.
    """

    def __init__(
        self, understood: str, text: str, numbers: Sequence[Writing], lines: Sequence[str]
    ):
        super().__init__(understood, self._to_add)
        self.choices: Sequence[str] = ()
        self.said = text
        self._text = text
        self._lines = (_written_out(numbers), tuple(lines))

    def _to_add(self) -> str:
        """Lines that are ready to add; where there are none, the sentence to say more plainly."""
        written, given = self._lines
        found = [] if in_doubt(self.understood) else offered(self._text)
        for made in (written or found, given):
            fitting = [n for n in made if not self.choices or makes_one_of(n, self.choices)]
            if fitting and (len(fitting) == 1 or agree(fitting)):
                return (_READY if made is written else _GUESSED).format(fitting[0])
        unclear = not_understood(self.said, self.understood)
        return f"say “{unclear}” in plainer words, or {_PLAIN}"


def unsure(text: str, reason: str, lines: Sequence[str] = ()) -> Declined:
    """What was found in a text that is not read, why, and `model:` lines that would settle it.

    Lines are offered that the words and the amounts let be right, and `lines` that readings gave;
    where there are none, the sentence is named that is not understood.
    """
    numbers, times = _numbers(text), times_told(text)
    if times and len(numbers) < 2:
        return _timed(times, numbers)
    if not numbers:
        return Declined("I found no numbers to work with", _FORM)
    found = ", ".join(write(number) for number in numbers)
    if claim := claim_lines(text, numbers):
        return Declined(f"I found {found} in the words, and what a pupil made of it", claim)
    return Unsure(f"I found {found} in the words, but {reason}", text, numbers, lines)


def _timed(times: Sequence[str], numbers: Sequence[Writing]) -> Declined:
    """Times of day, and perhaps a number beside them."""
    if not numbers:
        found = f"I found times of day ({', '.join(times)})"
        return Declined(f"{found}, but I am not sure what is asked of them", _TIMES)
    beside = ", ".join(write(number) for number in numbers)
    found = f"I found times of day ({', '.join(times)}) and {beside} in the words"
    return Declined(f"{found}, but I am not sure how they go together", _IN_NUMBERS)


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
        t.tree
        for t in tokens(text)
        if t.tree is not None
        and not is_name(text, t.start, question)
        and not _only_counts(text, t.start)
    ]
    return told if len(told) > len(written) else written


_COUNTS = re.compile(
    r"\bone\b(?! \w+ ?=)|(?:two|three|four|both) (?:days|weeks|rooms|classes|places|groups|friends"
    r"|pupils|children|people|shelves|boxes|months|grades)\b(?=[^?]*\?)",
    re.IGNORECASE,
)


def _only_counts(text: str, start: int) -> bool:
    """Whether a number in words is the "one" of one sack, or counts again what was told."""
    said = _COUNTS.match(text, start)
    again = re.search(r"\b(?:the|these|those|all|of) $", text[:start]) is not None
    return said is not None and (again or said[0].lower() == "one")


def _written_out(numbers: Sequence[Writing]) -> list[str]:
    """The work that the words write out, where it is all that they hold."""
    work = [n for n in numbers if isinstance(n, Op) or (isinstance(n, Relation) and has_blank(n))]
    alone = len(work) == len(numbers) == 1
    return [write(work[0])] if alone and not re.search("[a-z]", write(work[0])) else []
