"""Less told: in short words, with beats left out in a stated order, or nothing but lines.

A beat that a choice is struck by is never left out, nor the reason, nor a line of work. Beats that
the teacher has worded herself stay, and their parts keep the words that she knows.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import dataclass, replace

from narrate.exact.caption import write
from narrate.exact.spoken import speak
from narrate.lesson.appearing import in_words
from narrate.lesson.lesson import Beat, Sentence
from narrate.lesson.shows import Choose, FillBoxes, Line, Multiples, Strike
from narrate.lesson.timeline import beat_ms
from narrate.lesson.view import Told
from narrate.lesson.wishes import Detail, Wishes
from narrate.lesson.wording import FULL, SHORTER, TIGHT

Part = tuple[Told, ...]
Retold = Callable[[int], Sequence[Part]]
"""All parts told again, as brief as a number of `wording` says."""

STRIKES = "rule out"
_ASIDES = frozenset({STRIKES, "slip", "doubt", "only left"})


@dataclass(frozen=True, slots=True)
class _Class:
    """Beats that are left out together, by what they are called in the plan."""

    name: str
    holds: Callable[[Beat], bool]


LEFT_OUT = (
    _Class("why-question", lambda beat: beat.move == "why"),
    _Class("slip", lambda beat: beat.move == "slip"),
    _Class("sentence to take along", lambda beat: beat.move == "take along"),
    _Class("explanation of a term", lambda beat: beat.optional),
    _Class("doubt of a pupil's answer", lambda beat: beat.move == "doubt"),
    _Class("estimate", lambda beat: beat.move.startswith("estimate ")),
    _Class("look back", lambda beat: beat.move == "look back"),
)
"""What a brief telling does without, the first of these first, in the longest part first."""

_KEPT_IN_LINES = frozenset({"read", "try", "put right", STRIKES, "told by hand"})
_LINES = Line | Multiples | FillBoxes | Choose | Strike


class Brevity:
    """How much of a review is told. `left_out` names, part by part, what is not.

    A telling that has so many minutes is brief, and no briefer than it must be; `wpm` is the pace.
    `too_long_ms` is by how much it is longer all the same, `least_ms` how long it is then.
    `in_short_words` says whether it is told in other words than in full.
    """

    def __init__(self, wishes: Wishes, wpm: int, spoken: str) -> None:
        timed = wishes.minutes is not None and wishes.detail == "full"
        self.detail: Detail = "brief" if timed else wishes.detail
        self._room = None if wishes.minutes is None else wishes.minutes * 60_000
        self._wpm = wpm
        self._spoken = spoken
        self.left_out: dict[int, list[str]] = {}
        self.too_long_ms = self.least_ms = 0
        self.in_short_words = False

    def on(
        self,
        parts: Sequence[Part],
        around: Sequence[Told],
        hers: Collection[str],
        retold: Retold,
    ) -> list[Part]:
        """The parts with less in them; `around` are the beats outside parts, `hers` kept as is."""
        told = list(parts)
        if self.detail == "lines":
            told = [tuple(self._lines(part, hers)) for part in parts]
            for at, (before, after) in enumerate(zip(parts, told, strict=True)):
                if len(after) < len(before):
                    self.left_out[at] = ["all but its lines"]
        elif self.detail == "brief":
            told = self._brief(told, self._length(around), hers, retold)
        if self._room is not None:
            self.least_ms = self._length(around) + sum(map(self._length, told))
            self.too_long_ms = max(0, self.least_ms - self._room)
        return told

    def _brief(
        self, parts: list[Part], around: int, hers: Collection[str], retold: Retold
    ) -> list[Part]:
        """As much as there is time for: in full words, else in short ones, else in the shortest."""
        told = parts
        for brief in (SHORTER,) if self._room is None else (FULL, SHORTER, TIGHT):
            self.in_short_words = brief > FULL
            self.left_out.clear()
            told = list(retold(brief)) if brief else list(parts)
            self._cut(told, around, hers)
            if self._room is not None and around + sum(map(self._length, told)) <= self._room:
                break
        return told

    def _length(self, told: Sequence[Told]) -> int:
        return sum(beat_ms(each.beat, self._wpm) for each in told)

    def _cut(self, told: list[Part], around: int, hers: Collection[str]) -> None:
        lengths = [self._length(part) for part in told]
        for each in LEFT_OUT:
            for at in sorted(range(len(told)), key=lambda at: (-lengths[at], at)):
                if self._room is not None and around + sum(lengths) <= self._room:
                    return
                kept = tuple(_without(told[at], each, hers))
                gone = len(told[at]) - len(kept)
                if gone:
                    self.left_out.setdefault(at, []).append(
                        each.name if gone == 1 else f"{each.name} ({gone})"
                    )
                    told[at] = kept
                    lengths[at] = self._length(kept)

    def _lines(self, part: Part, hers: Collection[str]) -> Iterator[Told]:
        for at, each in enumerate(part):
            shows = tuple(show for show in each.shows if isinstance(show, _LINES))
            kept = each.beat.move in _KEPT_IN_LINES or each.beat.id in hers
            if kept or (not shows and _strikes_next(part, at)):
                yield each
            elif shows:
                yield self._line(each, shows)

    def _line(self, told: Told, shows: tuple[_LINES, ...]) -> Told:
        """A beat that says its line of work and nothing more."""
        lines = [show for show in shows if isinstance(show, Line)]
        sentences = tuple(_said(line, self._spoken) for line in lines) or told.beat.sentences
        last = replace(sentences[-1], pause_ms=told.beat.sentences[-1].pause_ms)
        beat = replace(
            told.beat,
            sentences=(*sentences[:-1], last),
            appears=tuple(in_words(show, self._spoken) for show in shows),
        )
        return Told(beat=beat, shows=shows)


def _said(line: Line, spoken: str) -> Sentence:
    say, shown = speak(line.tree, spoken), write(line.tree)
    return Sentence(say=f"{say[:1].upper()}{say[1:]}.", caption=f"{shown}.")


def _without(part: Part, left_out: _Class, hers: Collection[str]) -> Iterator[Told]:
    for at, each in enumerate(part):
        stays = each.beat.id in hers or _strikes_next(part, at)
        if stays or not left_out.holds(each.beat):
            yield each


def _strikes_next(part: Part, at: int) -> bool:
    """Whether a choice is struck by what a beat says: before anything but asides comes."""
    if part[at].beat.move in _ASIDES:
        return False
    for each in part[at + 1 :]:
        if each.beat.move == STRIKES:
            return True
        if each.beat.move not in _ASIDES:
            return False
    return False
