"""When everything is told: times predicted from the words by a model of letters and pauses.

Times are integer milliseconds from the first to the last step, so that they add up exactly and are
the same on every machine.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import pairwise

from narrate.lesson.lesson import Beat, Chapter, Lesson, Sentence, Span, Timeline

# Fitted on 60 teacher-like lines read by several synthetic voices at about 157 words a minute:
# seconds = 0.0772 × letters + 0.436 × pauses + 0.277. Letters predict better than words or
# syllables do (6-8% against 10-11% mean error). Here in tenths of a millisecond.
MODEL_WPM = 157
PER_LETTER = 772
PER_PAUSE = 4_360
PER_SENTENCE = 2_770

_PAUSES = frozenset(",;:")
_STOPS = frozenset(".?!")
_AFTER_A_STOP = "\"'”’)"


def pace(grade: int) -> int:
    """Words a minute for a grade: 130 up to grade 4, 140 for 5 and 6, 150 above.

    Between what audiologists advise for listeners of that age and what practitioners do
    (common practice, no source).
    """
    if grade <= 4:
        return 130
    return 140 if grade <= 6 else 150


def letters(text: str) -> int:
    """How many letters are spoken; digits count as letters where a text still has any."""
    return sum(map(str.isalnum, text))


def pauses(text: str) -> int:
    """The short silences inside a line: any `, ; :` and any `. ? !` that is not its last mark."""
    inner = text.rstrip().rstrip(_AFTER_A_STOP)
    marks = sum(inner.count(mark) for mark in _PAUSES)
    stops = sum(1 for here, after in pairwise(inner) if here in _STOPS and after not in _STOPS)
    return marks + stops


def paced_words(say: str) -> int:
    """How many words are heard: `twenty-one` is heard as two."""
    return sum(1 for word in say.replace("-", " ").split() if letters(word))


def sentence_ms(say: str, wpm: int) -> int:
    """How long a line takes to say, in milliseconds, at `wpm` words a minute. 0 for no words."""
    return (_tenths(say) * MODEL_WPM + 5 * wpm) // (10 * wpm)


@lru_cache(maxsize=8_192)
def _tenths(say: str) -> int:
    """How long a line takes at the pace of the model, in tenths of milliseconds."""
    count = letters(say)
    return PER_LETTER * count + PER_PAUSE * pauses(say) + PER_SENTENCE if count else 0


def predict(lesson: Lesson, wpm: int | None = None) -> Timeline:
    """Times for a lesson that nobody has recorded yet.

    `wpm` is the teacher's own pace in words a minute; without it the pace of the lesson's grade.
    A beat is its sentences one after another, each followed by its pause.
    """
    speed = pace(lesson.grade) if wpm is None else wpm
    beats: dict[str, Span] = {}
    sentences: dict[str, tuple[Span, ...]] = {}
    now = 0
    for beat in lesson.beats:
        sentences[beat.id] = tuple(_spoken(beat, now, speed))
        end = _end(beat.sentences, sentences[beat.id], now)
        beats[beat.id] = Span(now, end)
        now = end
    return Timeline(beats=beats, sentences=sentences)


def beat_ms(beat: Beat, wpm: int) -> int:
    """How long a beat takes at `wpm` words a minute, in milliseconds, its pauses included."""
    return _end(beat.sentences, tuple(_spoken(beat, 0, wpm)), 0)


def _spoken(beat: Beat, start: int, wpm: int) -> Iterator[Span]:
    for sentence in beat.sentences:
        end = start + _reading_ms(sentence, wpm)
        yield Span(start, end)
        start = end + sentence.pause_ms


def _end(sentences: tuple[Sentence, ...], spans: tuple[Span, ...], start: int) -> int:
    return spans[-1].end + sentences[-1].pause_ms if spans else start


def _reading_ms(sentence: Sentence, wpm: int) -> int:
    """A stem is read a tenth slower: pupils hear it for the first time."""
    spoken = sentence_ms(sentence.say, wpm)
    return (spoken * 10 + 4) // 9 if sentence.stem else spoken


def chapter_beats(lesson: Lesson) -> tuple[tuple[Chapter, tuple[Beat, ...]], ...]:
    """Each chapter with its beats, in order; the first begins with the lesson's first beat."""
    titles = {chapter.first_beat: chapter for chapter in lesson.chapters[1:]}
    groups: list[tuple[Chapter, list[Beat]]] = [(chapter, []) for chapter in lesson.chapters[:1]]
    for beat in lesson.beats if groups else ():
        if beat.id in titles:
            groups.append((titles[beat.id], []))
        groups[-1][1].append(beat)
    return tuple((chapter, tuple(beats)) for chapter, beats in groups)


def chapter_spans(lesson: Lesson, timeline: Timeline) -> tuple[tuple[Chapter, Span], ...]:
    """Each chapter with its time, contiguous from 0 to the end of the review."""
    return tuple(
        (chapter, _around(timeline.beats[beat.id] for beat in beats))
        for chapter, beats in chapter_beats(lesson)
        if beats
    )


def _around(spans: Iterable[Span]) -> Span:
    found = tuple(spans)
    return Span(found[0].start, found[-1].end)
