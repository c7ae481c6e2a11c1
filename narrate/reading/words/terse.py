"""A wordy text said tersely: what tells nothing of the amounts is left out, the rest shortened.

It is tried only where a text is declined as it stands, and read as any other text is. Each row says
the same as the words it stands for, whatever the story; what could bind an amount is never left
out. No number is made; one is dropped where it counts what is named right after it, or is of a
kind that nobody asks for (see `terse_unasked`).
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from itertools import pairwise

from narrate.reading.words.openings import idle_opening, is_idle
from narrate.reading.words.plain import may_read_again, plain
from narrate.reading.words.terse_asides import ASIDES
from narrate.reading.words.terse_plain import PLAINER
from narrate.reading.words.terse_told import TOLD
from narrate.reading.words.terse_turned import TURNED
from narrate.reading.words.terse_unasked import UNASKED
from narrate.reading.words.understood import Understood


@dataclass(frozen=True, slots=True)
class Terse:
    """A text in fewer words; `places` say where in the text itself each character stands."""

    text: str
    places: tuple[int, ...]

    def __getitem__(self, part: slice) -> Terse:
        return Terse(self.text[part], self.places[part])

    def __add__(self, other: Terse) -> Terse:
        return Terse(self.text + other.text, self.places + other.places)


def terse(text: str) -> Terse | None:
    """A text said tersely, None where there is nothing to leave out."""
    if _OTHERWISE.search(text) or not may_read_again(text):
        return None
    told = Terse(plain(text), tuple(range(len(text))))
    told = _in_other_words(_without_idle(_in_other_words(told)))
    return told if told.text != plain(text) else None


_OTHERWISE = re.compile(r"\b(?:estimate|closest|about how|approximate|expression|equation)", re.I)
"""What asks for something else than an amount: it is not read a second time."""


def marked_in_full(text: str, told: Terse, found: Understood) -> Understood:
    """What was read of a terse text, with the places that its phrases have in the text itself."""
    marks = []
    for mark in found.marks:
        end = told.places[mark.end - 1] + 1 if mark.end else 0
        start = min(told.places[mark.start], end)
        if mark.role == "unknown":  # its words may be others: up to where the question ends
            start += len(text[start:]) - len(text[start:].lstrip())
            end = max(end, text.find("?", start) + 1)
        marks.append(replace(mark, start=start, end=end, text=text[start:end]))
    return replace(found, marks=tuple(sorted(marks, key=lambda mark: mark.start)))


# -- sentences that tell nothing


_END = re.compile(r"(?<![ .](?:Mr|Ms|Dr|St))(?<!Mrs)[.?!]\s+(?=[A-Z\"$\d])")


def _sentences(told: Terse) -> list[Terse]:
    cuts = [0, *(found.end() for found in _END.finditer(told.text)), len(told.text)]
    return [told[a:b] for a, b in pairwise(cuts) if a < b]


def _without_idle(told: Terse) -> Terse:
    """A text without the sentences that tell nothing of the amounts."""
    found = _sentences(told)
    kept: list[Terse] = []
    for at, sentence in enumerate(found):
        rest = [*kept, *found[at + 1 :]]
        texts = [each.text for each in rest]
        if (
            len(found) - at > 1
            and (opening := idle_opening(sentence.text, texts[len(kept) :], texts[: len(kept)]))
            is not None
        ):
            found[at + 1] = _named(found[at + 1], opening)
        elif len(found) - at > 1 and kept and is_idle(sentence.text):
            pass
        else:
            kept.append(sentence)
    return sum(kept[1:], kept[0]) if kept else told


_PRONOUN = re.compile(r"(?P<when>(?:(?:On|In|At|During|Last|This|By) [^,.]*, )?)(?:[Hh]e|[Ss]he)\b")


def _named(sentence: Terse, subject: str) -> Terse:
    """A sentence that begins with a pronoun, with who is meant in its place."""
    found = _PRONOUN.match(sentence.text) if subject else None
    return _said(sentence, found, f"<when>{subject}") if found else sentence


# -- the same in fewer words


def _in_other_words(told: Terse) -> Terse:
    low = told.text.lower()
    for row in _ROWS:
        for _ in range(_TIMES):
            found = row.pattern().search(told.text) if row.may_be(low) else None
            if found is None or (row.sure is not None and not row.sure(found)):
                break
            told = _said(told, found, row.read)
            low = told.text.lower()
    return told


_ROWS = (*UNASKED, *TURNED, *ASIDES, *PLAINER, *TOLD)
_TIMES = 3
"""A row is tried so often on one text."""


def _said(told: Terse, found: re.Match[str], read: str) -> Terse:
    """The text with what was found said as `read`, whose groups keep their places."""
    made = told[: found.start()]
    at = made.places[-1] if made.places else told.places[found.start()]
    for piece in re.split(r"(<\w+>)", read):
        if piece.startswith("<"):
            begin, end = found.span(piece[1:-1])
            taken = told[begin:end] if begin >= 0 else Terse("", ())
        else:
            taken = Terse(piece, (at,) * len(piece))
        made += taken
        at = made.places[-1] if made.places else at
    return made + told[found.end() :]
