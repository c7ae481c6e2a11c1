"""A lesson's lines found in a recording of her voice."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path

from narrate.errors import WrongUse
from narrate.fitting import pace
from narrate.fitting.aligning import Alignment, Take, align
from narrate.fitting.fitted import Fitted, from_lines
from narrate.fitting.lengths import Line
from narrate.fitting.sound import FRAME_MS, levels
from narrate.fitting.speech import NoSpeech, Stretch, stretches
from narrate.fitting.table import at
from narrate.lesson.lesson import Beat, Lesson, Sentence, Span, Timeline
from narrate.lesson.timeline import chapter_beats, letters, pauses

_LONGEST, _LONGEST_MORE_MS, _SHORTEST = 3, 60_000, 3
# A line's price is 1 to 2.6 in recordings of the review and 4.3 to 5.6 in those of another text
# (tests/benchmarks/fitting.py), where a third of the lines and more are also less than 80 sure.
_LOOSE_PRICE, _STRANGE_PRICE, _STRANGE_SHARE = 3.0, 4.0, 4
_UNSURE, _UNSURE_SHARE = 80, 4
_MARKS = ".,;:?!\"'“”‘’()"
_TOLD_MS = 700  # shorter sounds that are no line are breaths, coughs and clicks


def from_sound(lesson: Lesson, planned: Timeline, path: Path) -> Fitted:
    """Fits a lesson to a recording of it. Raises WrongUse where it is none."""
    usual = sum(planned.beats[beat.id].length for beat in lesson.beats)
    sound = levels(path, usual // _SHORTEST, usual * _LONGEST + _LONGEST_MORE_MS)
    try:
        heard = stretches(sound)
    except NoSpeech as reason:
        raise WrongUse(f"{path}: no voice is heard, {reason}; check the microphone") from None
    lines = [(beat, sentence) for beat in lesson.beats for sentence in beat.sentences]
    found = align([_line(sentence) for _, sentence in lines], heard)
    _check(path, lines, found)
    takes = {take.line: take for take in found.takes if take.last}
    _check_parts(path, lesson, takes)
    return _fitted(lesson, lines, found, takes, len(sound) * FRAME_MS)


def _line(sentence: Sentence) -> Line:
    say = sentence.say
    words = tuple(word.strip(_MARKS).lower() for word in say.replace("-", " ").split())
    return Line(letters=letters(say), pauses=pauses(say), after=sentence.pause_ms, words=words)


def _check(path: Path, lines: Sequence[object], found: Alignment) -> None:
    said = {take.line for take in found.takes}
    left_out = len(lines) - len(said)
    strange = left_out + sum(not take.last for take in found.takes)
    unsure = sum(take.sure < _UNSURE for take in found.takes if take.last)
    shares = strange * _STRANGE_SHARE, unsure * _UNSURE_SHARE
    if found.price > _STRANGE_PRICE or max(shares) > len(lines):
        raise WrongUse(
            f"{path} does not sound like this review: its lines are longer and shorter than what is"
            " heard; give the recording of this review, or name the part with --part; where a part"
            " was left out, take its item out of the review"
        )


def _check_parts(path: Path, lesson: Lesson, takes: dict[int, Take]) -> None:
    first = 0
    for chapter, beats in chapter_beats(lesson):
        count = sum(len(beat.sentences) for beat in beats)
        if count and not any(line in takes for line in range(first, first + count)):
            raise WrongUse(
                f'{path}: nothing of "{chapter.title}" is heard; take it out of the review, or'
                " record it and fit it with --part"
            )
        first += count


def _fitted(
    lesson: Lesson,
    lines: Sequence[tuple[Beat, Sentence]],
    found: Alignment,
    takes: dict[int, Take],
    total: int,
) -> Fitted:
    spans: dict[str, list[Span | None]] = {beat.id: [] for beat in lesson.beats}
    sure: dict[str, list[int | None]] = {beat.id: [] for beat in lesson.beats}
    for place, (beat, _) in enumerate(lines):
        take = takes.get(place)
        spans[beat.id].append(Span(take.start, take.end) if take else None)
        sure[beat.id].append(take.sure if take else None)
    timeline = from_lines(lesson, spans, total)
    return Fitted(
        timeline=timeline,
        sure={name: tuple(values) for name, values in sure.items()},
        notes=tuple(_notes(lines, found, takes)),
        wpm=pace.from_lines(lesson, timeline),
    )


def _notes(
    lines: Sequence[tuple[Beat, Sentence]], found: Alignment, takes: dict[int, Take]
) -> Iterator[str]:
    if found.price > _LOOSE_PRICE:
        yield "the lines fit this recording loosely; look through the whole table"
    for take in found.takes:
        if not take.last:
            yield (
                f"{at(take.start)} to {at(take.end)}: said again later, the last time counts:"
                f" {lines[take.line][1].say}{_or(lines, found.again.get(take.line, ()))}"
            )
    for start, end in _together(found.extra):
        if end - start >= _TOLD_MS:
            yield f"{at(start)} to {at(end)}: this is not in the script, and gets no captions"
    for place, (beat, sentence) in enumerate(lines):
        if place not in takes:
            rivals = _or(lines, found.left_out.get(place, ()))
            yield f"not heard, so it gets no caption: {sentence.say} ({beat.id}){rivals}"


def _or(lines: Sequence[tuple[Beat, Sentence]], others: Sequence[int]) -> str:
    """The lines that may be meant instead, said plainly."""
    if not others:
        return ""
    named = " or: ".join(f"{lines[one][1].say} ({lines[one][0].id})" for one in others)
    return f"; by its length it may also be: {named}"


def _together(extra: Sequence[Stretch]) -> list[tuple[int, int]]:
    """Stretches that are no line, those of one breath as one."""
    runs: list[list[int]] = []
    for one in extra:
        if runs and one.start - runs[-1][1] < 1_000:
            runs[-1][1] = one.end
        else:
            runs.append([one.start, one.end])
    return [(start, end) for start, end in runs]
