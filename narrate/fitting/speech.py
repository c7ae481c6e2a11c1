"""Where a recording holds speech: stretches of it between silences.

The noise floor follows the recording (a fan that starts, a louder room). A stretch has a core as
loud as speech and reaches out to the soft sounds at its edges, but not over a breath: a breath is
softer than speech and has no core.
"""

from __future__ import annotations

from array import array
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from statistics import median

from narrate.fitting.sound import FRAME_MS

# In decibels, and found by trying on synthetic recordings (tests/benchmarks/fitting.py).
_ABOVE_FLOOR_SOFT, _BELOW_SPEECH_SOFT = 6, 34
_ABOVE_FLOOR_LOUD, _BELOW_SPEECH_LOUD = 9, 16
_LEAST_RANGE = 12
_HEARD = -65

# In frames of 10 ms.
_WINDOW = 800
_BRIDGED, _SHORTEST, _REACH_BACK, _REACH_ON, _CLOSED, _ENDING = 12, 6, 15, 24, 18, 36


@dataclass(frozen=True, slots=True)
class Stretch:
    """Speech without a silence in it, in milliseconds from the start of the recording.

    `last` is where its last sound ends, which may follow a short closing of the mouth ("eighths").
    `soft` is how far its loudest moment lies below speech, in dB (0 where not below).
    """

    start: int
    end: int
    last: int
    soft: float = 0.0

    @property
    def length(self) -> int:
        """Its length in milliseconds."""
        return self.end - self.start


class NoSpeech(Exception):
    """Nothing in the recording is speech; the message says why."""


def stretches(levels: array[float]) -> list[Stretch]:
    """The stretches of speech in order. Raises NoSpeech."""
    speech = _quantile(levels, 0.95)
    if speech < _HEARD:
        raise NoSpeech("it is silent")
    floors = _floors(levels)
    if speech - median(floors) < _LEAST_RANGE:
        raise NoSpeech("it is equally loud throughout, without speech and pauses")
    found = list(_stretches(levels, floors, speech))
    if not found:
        raise NoSpeech("nothing in it is as long and as loud as speech")
    return found


def _quantile(values: Sequence[float], share: float) -> float:
    return sorted(values)[int(share * (len(values) - 1))]


def _floors(levels: array[float]) -> list[float]:
    """The noise floor around each window of 8 s: its low levels, smoothed by its neighbours."""
    windows = [levels[at : at + _WINDOW] for at in range(0, len(levels), _WINDOW)]
    if len(windows) > 1 and len(windows[-1]) < _WINDOW // 2:
        windows[-2:] = [windows[-2] + windows[-1]]
    low = [_quantile(window, 0.1) for window in windows]
    return [median(low[max(at - 1, 0) : at + 2]) for at in range(len(low))]


def _stretches(levels: array[float], floors: Sequence[float], speech: float) -> Iterator[Stretch]:
    soft, loud = [], []
    for floor in floors:
        soft.append(max(floor + _ABOVE_FLOOR_SOFT, speech - _BELOW_SPEECH_SOFT))
        loud.append(max(floor + _ABOVE_FLOOR_LOUD, speech - _BELOW_SPEECH_LOUD))
    last = len(floors) - 1
    cores = _bridged(
        [at for at, level in enumerate(levels) if level > loud[min(at // _WINDOW, last)]]
    )
    edges = [0, *(end for _, end in cores), len(levels)]
    starts = [*(start for start, _ in cores), len(levels)]
    is_soft = [level > soft[min(at // _WINDOW, last)] for at, level in enumerate(levels)]
    for place, (start, end) in enumerate(cores):
        peak = max(levels[start:end])
        begin = start
        while begin > max(edges[place], start - _REACH_BACK) and is_soft[begin - 1]:
            begin -= 1
        limit = starts[place + 1]
        end = _run(is_soft, end, min(limit, end + _REACH_ON))
        last = _closed_sounds(is_soft, end, limit)
        yield Stretch(
            begin * FRAME_MS, end * FRAME_MS, last * FRAME_MS, soft=max(speech - peak, 0.0)
        )


def _run(is_soft: Sequence[bool], start: int, limit: int) -> int:
    """Where soft frames from `start` on end."""
    end = start
    while end < limit and is_soft[end]:
        end += 1
    return end


def _closed_sounds(is_soft: Sequence[bool], end: int, limit: int) -> int:
    """Where the sounds after a short closing of the mouth end; `end` where there are none.

    They are short and a silence follows them: what runs on to the next line is a breath.
    """
    start = end
    while start < min(limit, end + _CLOSED) and not is_soft[start]:
        start += 1
    last = _run(is_soft, start, limit)
    after = is_soft[last : last + _CLOSED]
    return last if 0 < last - start <= _ENDING and not any(after) else end


def _bridged(loud: Sequence[int]) -> list[tuple[int, int]]:
    """Runs of loud frames, short gaps bridged, those too short to be speech left out."""
    runs: list[list[int]] = []
    for at in loud:
        if runs and at - runs[-1][1] <= _BRIDGED:
            runs[-1][1] = at + 1
            runs[-1][2] += 1
        else:
            runs.append([at, at + 1, 1])
    return [(start, end) for start, end, count in runs if count >= _SHORTEST]
