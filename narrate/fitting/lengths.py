"""How long each line takes as one voice speaks: predicted from its letters, then learnt.

At first all that is known is the pace. From the lines found so far come the voice's ms a letter, a
comma and a line, and for each word that comes back how much longer or shorter it is than its
letters say: "eighths" and "the" are not spoken letter by letter. A line is predicted from the lines
of other places only, so that a line found in the wrong place cannot speak for itself.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

# A line at 157 words a minute without its pauses (lesson/timeline.py), in ms.
_A_LETTER, _A_LINE = 77, 200
_FEW = 20
# How far a line strays from its prediction, as a standard deviation: a share and a part in ms.
STRAY, STRAY_MS = 0.05, 50
_WIDEST, _NARROWEST = 2.2, 0.8
_FAR = 3.0
_TO_DEVIATION = 1.48  # from the median of what is off, where it is spread normally
# A word's own length is held back as though it had been heard so often more without any.
_HOLD, _SWEEPS, _PLACES = 4, 6, 6


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line to be found: its letters, inner pauses and words, and the silence after it in ms."""

    letters: int
    pauses: int
    after: int
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Lengths:
    """How long the sounds of each line should take (ms), and how far they stray from that, as a
    share of the usual (`STRAY` of the length and `STRAY_MS`)."""

    wanted: tuple[float, ...]
    stray: float = _WIDEST

    def deviation(self, wanted: float) -> float:
        """The standard deviation around a wanted length, in ms."""
        return self.stray * (STRAY * wanted + STRAY_MS)


@dataclass(frozen=True, slots=True)
class _Voice:
    letter: float
    comma: float
    line: float

    def says(self, line: Line) -> float:
        return self.letter * line.letters + self.comma * line.pauses + self.line


def guessed(lines: Sequence[Line], spoken: int) -> Lengths:
    """What can be said before a line is found, of `spoken` ms of sounds in all."""
    usual = sum(_A_LETTER * line.letters + _A_LINE for line in lines)
    rate = spoken / max(usual, 1)
    return _lengths(lines, _Voice(rate * _A_LETTER, 0.0, rate * _A_LINE), {})


def learnt(lines: Sequence[Line], found: Mapping[int, int], before: Lengths) -> Lengths:
    """What lines found (the ms of their sounds) teach; those far from `before` are left out."""
    near = {
        place: length
        for place, length in found.items()
        if abs(length - before.wanted[place]) < _FAR * before.deviation(before.wanted[place])
    }
    if len(near) < _FEW:
        return before
    voice = _fitted(lines, near)
    told = _lengths(lines, voice, near)
    offs = sorted(
        abs(near[place] - told.wanted[place]) / (STRAY * told.wanted[place] + STRAY_MS)
        for place in near
    )
    stray = _TO_DEVIATION * offs[len(offs) // 2]
    return Lengths(told.wanted, round(min(max(stray, _NARROWEST), _WIDEST), 2))


def _lengths(lines: Sequence[Line], voice: _Voice, found: Mapping[int, int]) -> Lengths:
    """Each line by the voice, and its words by the lines found at other places."""
    wanted: list[float] = []
    for part in range(_PLACES):
        first, end = (len(lines) * n // _PLACES for n in (part, part + 1))
        others = {at: length for at, length in found.items() if not first <= at < end}
        own = _words(lines, voice, others)
        for line in lines[first:end]:
            says = voice.says(line) + sum(own.get(word, 0.0) for word in line.words)
            wanted.append(max(says, voice.letter * line.letters / 2, 100.0))
    return Lengths(tuple(wanted))


def _words(lines: Sequence[Line], voice: _Voice, found: Mapping[int, int]) -> dict[str, float]:
    """How much longer each word is than its letters say (ms), one after another until settled."""
    left = {at: length - voice.says(lines[at]) for at, length in found.items()}
    heard: dict[str, dict[int, int]] = {}
    for at in found:
        for word in lines[at].words:
            places = heard.setdefault(word, {})
            places[at] = places.get(at, 0) + 1
    own = dict.fromkeys(heard, 0.0)
    for _ in range(_SWEEPS):
        for word, places in heard.items():
            old = own[word]
            missing = sum(count * (left[at] + count * old) for at, count in places.items())
            own[word] = missing / (sum(n * n for n in places.values()) + _HOLD)
            for at, count in places.items():
                left[at] -= count * (own[word] - old)
    return own


def _fitted(lines: Sequence[Line], found: Mapping[int, int]) -> _Voice:
    """Least squares, held near the usual letters at her pace where there are few lines."""
    pace = sum(found.values()) / sum(_A_LETTER * lines[at].letters + _A_LINE for at in found)
    usual = (pace * _A_LETTER, 0.0, pace * _A_LINE)
    hold = (20 * 30**2, 20, 20)
    left = [[float(hold[i]) if i == j else 0.0 for j in range(3)] for i in range(3)]
    right = [hold[i] * usual[i] for i in range(3)]
    for at, length in found.items():
        row = (lines[at].letters, lines[at].pauses, 1)
        for i in range(3):
            right[i] += row[i] * length
            left[i] = [old + row[i] * x for old, x in zip(left[i], row, strict=True)]
    return _Voice(*_solved(left, right))


def _solved(left: list[list[float]], right: list[float]) -> list[float]:
    """Elimination; the matrix is symmetric and positive, so no pivot is zero."""
    for i in range(3):
        for j in range(i + 1, 3):
            share = left[j][i] / left[i][i]
            left[j] = [x - share * y for x, y in zip(left[j], left[i], strict=True)]
            right[j] -= share * right[i]
    found = [0.0] * 3
    for i in (2, 1, 0):
        known = sum(left[i][j] * found[j] for j in range(i + 1, 3))
        found[i] = (right[i] - known) / left[i][i]
    return found
