"""The teacher's own pace: one number, in words a minute, learnt from at least a minute of speech.

A line is predicted at 157 words a minute (`lesson/timeline.py`); how much longer or shorter she
takes, in the middle, is her pace. One recorded minute carries the model to another voice.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import accumulate

from narrate.lesson.lesson import Lesson, Span, Timeline
from narrate.lesson.timeline import MODEL_WPM, beat_ms, sentence_ms

ENOUGH_MS = 60_000
_A_WAIT_MS = 3_000


def from_lines(lesson: Lesson, timeline: Timeline) -> int | None:
    """Her pace from lines that were heard; None where they are too few."""
    return _pace(
        (_usual(sentence.say, sentence.stem), span.length)
        for beat in lesson.beats
        for sentence, span in zip(beat.sentences, timeline.sentences[beat.id], strict=True)
        if span.length
    )


def from_beats(lesson: Lesson, noted: Mapping[str, Span]) -> int | None:
    """Her pace from beats that were noted, without those at which she waits for pupils."""
    pairs = []
    for beat in lesson.beats:
        pauses = [sentence.pause_ms for sentence in beat.sentences]
        if beat.id in noted and max(pauses, default=_A_WAIT_MS) < _A_WAIT_MS:
            said = beat_ms(beat, MODEL_WPM) - sum(pauses)
            pairs.append((said, noted[beat.id].length - sum(pauses)))
    return _pace(pairs)


def _usual(say: str, stem: bool) -> int:
    spoken = sentence_ms(say, MODEL_WPM)
    return spoken * 10 // 9 if stem else spoken


def _pace(pairs: Iterable[tuple[int, int]]) -> int | None:
    """From predicted and real lengths: the middle ratio, long ones counting more."""
    ratios = sorted((real / usual, usual) for usual, real in pairs if usual and real > 0)
    whole = sum(usual for _, usual in ratios)
    if whole < ENOUGH_MS:
        return None
    sums = accumulate(usual for _, usual in ratios)
    middle = next(place for place, so_far in enumerate(sums) if so_far * 2 >= whole)
    return round(MODEL_WPM / ratios[middle][0])
