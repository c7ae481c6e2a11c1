"""Caption cues from a lesson: short lines, broken at logical pauses, in step with what is heard.

    limit                        value                      source
    characters a line            32, never over 37          DCMP (older specification); BBC
    lines                        2                          BBC
    longest time                 6 s                        from memory of DCMP
    shortest time                1.5 s, 2 s with numbers    DCMP (older: 2 s), 1 1/3 s now
    reading rate                 17 characters a second     children's limit of streaming guides
    more with fractions          0.5 s                      the project's own; BBC: long figures
    gap between butted cues      2 frames (80 ms)           streaming guides
    cleared                      in pauses from 1.5 s       BBC

The cues of a beat are the cheapest way through its words: each break, long line, short or fast
cue has its price.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import accumulate, pairwise
from typing import NamedTuple

from narrate.lesson.lesson import Beat, Lesson, Span, Timeline
from narrate.outputs._breaks import break_costs
from narrate.outputs._words import Word, timed_words

LINE, LONGEST_LINE = 32, 37
LONGEST_MS, SHORTEST_MS, SHORTEST_WITH_NUMBERS_MS = 6_000, 1_500, 2_000
CHARACTERS_A_SECOND, WITH_FRACTIONS_MS = 17, 500
FRAMES_MS, BUTT_MS, CLEAR_MS, LINGER_MS, LEAD_MS, LAG_MS = 80, 500, 1_500, 500, 100, 700

_A_CUE, _CROSSING, _CROSSING_A_PAUSE, _CROSSING_A_WAIT = 12, 14, 300, 20_000
_LONG_LINE, _SHORT, _FAST, _TOO_LONG = 6, 20, 40, 400
_FRACTION = "/"
_IMPOSSIBLE = 1_000_000

_Way = tuple[int, int, int]
"""How cues may reach a word: the price, the last cue's first word, where its first line ends."""


class Cue(NamedTuple):
    """One caption: one or two lines, shown from `start` to `end` (milliseconds)."""

    start: int
    end: int
    lines: tuple[str, ...]

    @property
    def text(self) -> str:
        """Its lines as one."""
        return " ".join(self.lines)


def make_cues(lesson: Lesson, timeline: Timeline) -> tuple[Cue, ...]:
    """The captions of a lesson in order; each lies inside its beat and none overlap."""
    return tuple(
        cue
        for beat in lesson.beats
        for cue in _cues_of(
            beat, timeline.sentences[beat.id], timeline.beats[beat.id], lesson.language
        )
    )


@lru_cache(maxsize=4_096)
def _cues_of(beat: Beat, spoken: tuple[Span, ...], span: Span, language: str) -> tuple[Cue, ...]:
    """The cues of one beat; kept, because every caption format asks for the same ones."""
    words, breaks, waits = _heard(beat, spoken, language)
    return tuple(_settled(list(_Stretch.of(words, breaks, waits, span.end).cues()), span))


def _heard(
    beat: Beat, spoken: tuple[Span, ...], language: str
) -> tuple[list[Word], list[int], list[int]]:
    """The beat's words, the price of a break after each and of reading on in one cue."""
    words: list[Word] = []
    breaks: list[int] = []
    reading_on: list[int] = []
    for place, sentence in enumerate(beat.sentences):
        if not spoken[place].length:  # it was left out of the recording
            continue
        own = tuple(_chopped(timed_words(sentence, spoken[place])))
        words.extend(own)
        breaks.extend(break_costs(tuple(word.text for word in own), language))
        reading_on.extend([0] * len(own))
        if own and place + 1 < len(spoken):
            reading_on[-1] = _crossing(spoken[place + 1].start - spoken[place].end)
    return words, breaks, reading_on


def _crossing(pause: int) -> int:
    if pause >= CLEAR_MS:
        return _CROSSING_A_WAIT
    return _CROSSING_A_PAUSE if pause >= 2 * BUTT_MS else _CROSSING


class _Stretch(NamedTuple):
    """The words of one beat, with what a cue of any of them would cost.

    `breaks[i]` is the price of a break after word i. The rest are sums before word i: `offsets`
    of characters on one line, `crossed` of prices for reading on, `numbers` of words with digits,
    `fractions` of those with a fraction.
    """

    words: list[Word]
    breaks: list[int]
    offsets: list[int]
    crossed: list[int]
    numbers: list[int]
    fractions: list[int]
    free: list[int]

    @classmethod
    def of(cls, words: list[Word], breaks: list[int], waits: list[int], end: int) -> _Stretch:
        return cls(
            words,
            breaks,
            offsets=_sums(len(word.text) + 1 for word in words),
            crossed=_sums(waits),
            numbers=_sums(has_digits(word.text) for word in words),
            fractions=_sums(_FRACTION in word.text for word in words),
            free=[start - FRAMES_MS for start in (*(word.start for word in words[1:]), end)],
        )

    def cues(self) -> Iterator[Cue]:
        """The cheapest cues in order, timed as heard."""
        best: list[_Way] = [(0, 0, 0)]
        for last in range(len(self.words)):
            best.append(self._best_to_end_at(last, best))
        for first, line, end in reversed(list(_back(best))):
            halves = (self.words[first : line + 1], self.words[line + 1 : end])
            lines = tuple(" ".join(word.text for word in half) for half in halves if half)
            yield Cue(self.words[first].start, self.words[end - 1].end, lines)

    def _best_to_end_at(self, last: int, best: list[_Way]) -> _Way:
        """The cheapest way to the end of a word: where its cue begins, and its first line ends."""
        cheapest: _Way | None = None
        offsets, crossed = self.offsets, self.crossed
        ending = _A_CUE + 2 * self.breaks[last] + crossed[last]
        too_far = offsets[last + 1] - 2 * LONGEST_LINE - 2
        for first in range(last, -1, -1):
            if offsets[first] < too_far:
                break
            price = best[first][0] + ending - crossed[first]
            if cheapest is None or price <= cheapest[0]:  # else nothing more can win
                price += self._pace_cost(first, last)
            if cheapest is None or price <= cheapest[0]:
                lines, line = self._best_lines(first, last)
                way = price + lines, first, line
                cheapest = way if cheapest is None else min(cheapest, way)
        assert cheapest is not None
        return cheapest

    def _length(self, first: int, last: int) -> int:
        return self.offsets[last + 1] - self.offsets[first] - 1

    def _best_lines(self, first: int, last: int) -> tuple[int, int]:
        """The cheapest way to set these words in lines, and the last word of the first line."""
        size = self._length(first, last)
        if size <= LINE:
            return 0, last
        ways = list(self._two_lines(first, last))
        if size <= LONGEST_LINE:
            ways.append((_LONG_LINE + size - LINE, last))
        return min(ways, default=(_IMPOSSIBLE, first))

    def _two_lines(self, first: int, last: int) -> Iterator[tuple[int, int]]:
        """Every way to set words in two lines that hold them: its price, and where it breaks."""
        start, end = self.offsets[first], self.offsets[last + 1]
        for line in range(first, last):
            cut = self.offsets[line + 1]
            above, below = cut - start - 1, end - cut - 1
            if above > LONGEST_LINE:
                break
            if below <= LONGEST_LINE:
                longer = max(above, below)
                over = _LONG_LINE + longer - LINE if longer > LINE else 0
                yield self.breaks[line] + abs(above - below) // 8 + over, line

    def _pace_cost(self, first: int, last: int) -> int:
        """What it costs that a cue of these words is short, fast to read or long on screen."""
        start = self.words[first].start
        there, heard = self.free[last] - start, self.words[last].end - start
        short = _shortest(self.numbers[last + 1] > self.numbers[first]) - there
        price = _SHORT + short // 50 if short > 0 else 0
        spare = CHARACTERS_A_SECOND * there - self._length(first, last) * 1_000
        if spare < 0:
            price += _FAST
        elif spare < CHARACTERS_A_SECOND * WITH_FRACTIONS_MS:
            price += _FAST * (self.fractions[last + 1] > self.fractions[first])
        return price + (_TOO_LONG + heard // 50 if heard > LONGEST_MS else 0)


def _sums(of: Iterable[int]) -> list[int]:
    return list(accumulate(of, initial=0))


def _back(best: list[_Way]) -> Iterator[tuple[int, int, int]]:
    """First word, last word of the first line, and end of each cue, from the last cue on."""
    end = len(best) - 1
    while end:
        _, first, line = best[end]
        yield first, line, end
        end = first


def has_digits(text: str) -> bool:
    """Whether there is a number in it: then a cue needs longer."""
    return any(map(str.isdigit, text))


def _shortest(numbers: bool) -> int:
    return SHORTEST_WITH_NUMBERS_MS if numbers else SHORTEST_MS


def _chopped(words: tuple[Word, ...]) -> Iterator[Word]:
    """Words that fit a line; a longer one is cut, its time shared."""
    for word in words:
        if len(word.text) <= LONGEST_LINE:
            yield word
            continue
        pieces = range(0, len(word.text), LONGEST_LINE)
        for number, place in enumerate(pieces):
            edges = (number, number + 1)
            start, end = (word.start + (word.end - word.start) * n // len(pieces) for n in edges)
            yield Word(word.text[place : place + LONGEST_LINE], start, end)


def _settled(cues: list[Cue], beat: Span) -> Iterator[Cue]:
    """Cues of a beat with the times at which they are shown, not only heard."""
    starts = [_start(cues, place, beat) for place in range(len(cues))]
    _make_room(cues, starts, beat)
    for place, cue in enumerate(cues):
        following = place + 1 < len(cues)
        limit = starts[place + 1] - FRAMES_MS if following else beat.end - FRAMES_MS
        start = starts[place]
        end = _shown_until(cue._replace(start=start), limit)
        yield Cue(start, max(min(end, start + LONGEST_MS), start + 1), cue.lines)


def _make_room(cues: list[Cue], starts: list[int], beat: Span) -> None:
    """Lets a cue that would be gone too soon stay, where the next one has time to come later."""
    ends = [*(start - FRAMES_MS for start in starts[2:]), beat.end - FRAMES_MS]
    for place, (cue, after) in enumerate(pairwise(cues)):
        stays = starts[place + 1] - FRAMES_MS - starts[place]
        spare = ends[place] - starts[place + 1] - _needed(after)
        missing = _shortest(has_digits(cue.text)) - stays
        starts[place + 1] += max(0, min(missing, spare, LAG_MS))


def _needed(cue: Cue) -> int:
    """How long a cue has to stay to be read."""
    return max(_shortest(has_digits(cue.text)), _readable_ms(cue))


def _start(cues: list[Cue], place: int, beat: Span) -> int:
    """As heard; a little sooner where the cue would else be too fast to read."""
    cue = cues[place]
    free_from = cues[place - 1].end + FRAMES_MS if place else beat.start
    free_until = cues[place + 1].start if place + 1 < len(cues) else beat.end
    missing = max(_readable_ms(cue) - (free_until - FRAMES_MS - cue.start), 0)
    return min(cue.start, max(cue.start - min(missing, LEAD_MS), free_from))


def _shown_until(cue: Cue, limit: int) -> int:
    """As long as it is read; up to the next cue where the gap would only flicker."""
    needed = max(cue.end, cue.start + _needed(cue))
    gap = limit + FRAMES_MS - needed
    if gap < BUTT_MS or limit - cue.end <= LINGER_MS:
        return limit
    if limit + FRAMES_MS - cue.end >= CLEAR_MS:
        return max(needed, cue.end + LINGER_MS)
    return needed


def _readable_ms(cue: Cue) -> int:
    """How long it takes to read, a fraction or an equation of fractions longer than its signs."""
    more = WITH_FRACTIONS_MS if _FRACTION in cue.text else 0
    return -(-len(cue.text) * 1_000 // CHARACTERS_A_SECOND) + more
