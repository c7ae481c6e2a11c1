"""`script.html`: the printable script in two columns, what appears and what is said.

Rows are beats, with the extra columns of a shooting script: cue, time, seconds, words and pause
(common practice of two-column scripts). Seconds are rounded where a beat begins and ends, not in
between, so that the column adds up to what its totals say.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import pairwise
from typing import BinaryIO, NamedTuple

from narrate.lesson.lesson import Beat, Chapter, Lesson, Span, Timeline
from narrate.lesson.templates import labels, page_environment
from narrate.lesson.timeline import chapter_beats, paced_words
from narrate.outputs._clock import minutes_seconds, one_place, seconds, tenths
from narrate.outputs._options import Options
from narrate.outputs._sheets import sheet_numbers, sheets

FILE = "script.html"
DEFAULT = True

SHOWN_PAUSE_MS = 2_000
"""Pauses from here on are printed where they are to be made."""


class Said(NamedTuple):
    """One sentence as spoken; `pause` in seconds where it is long enough to be printed."""

    words: str
    pause: str
    stem: bool


class Sums(NamedTuple):
    """Length, words and silence of a beat, a part or the review; times in tenths of a second."""

    length: int
    words: int
    silence: int

    @property
    def seconds(self) -> str:
        """The length as printed, `12.5`."""
        return one_place(self.length)

    @property
    def pause(self) -> str:
        """The silence as printed."""
        return one_place(self.silence)

    @property
    def clock(self) -> str:
        """The length as a player shows it, `1:05`."""
        return minutes_seconds(self.length * 100)


class Row(NamedTuple):
    """One beat. `new_slide` is the title of the slide that it begins, or ""."""

    id: str
    cue: int
    at: str
    sums: Sums
    slide: int
    new_slide: str
    appears: tuple[str, ...]
    said: tuple[Said, ...]
    waits: bool
    optional: bool


class Section(NamedTuple):
    """One chapter: its rows and their totals."""

    number: int
    title: str
    standard: str
    at: str
    rows: tuple[Row, ...]
    sums: Sums


def write(lesson: Lesson, timeline: Timeline, options: Options, sink: BinaryIO) -> None:
    """Write the script of a lesson as one HTML page in UTF-8 to `sink`."""
    sections = _sections(lesson, timeline, sheet_numbers(lesson, options))
    page = page_environment(options.templates).get_template("script.html.j2")
    sums = _total(section.sums for section in sections)
    text = page.render(
        labels=labels("script", lesson.language, options.templates),
        title=lesson.title,
        grade=lesson.grade,
        language=lesson.language,
        slides=len(sheets(lesson, options)),
        sections=sections,
        sums=sums,
        silence=minutes_seconds(sums.silence * 100),
    )
    sink.write(text.encode())


def _sections(lesson: Lesson, timeline: Timeline, slides: Mapping[str, int]) -> tuple[Section, ...]:
    rows = {row.id: row for row in _rows(lesson, timeline, slides)}
    whole = ((Chapter(title=lesson.title, first_beat=""), lesson.beats),)
    groups = chapter_beats(lesson) or whole
    return tuple(
        _section(number, chapter, tuple(rows[beat.id] for beat in beats))
        for number, (chapter, beats) in enumerate(groups, start=1)
        if beats
    )


def _section(number: int, chapter: Chapter, rows: tuple[Row, ...]) -> Section:
    return Section(
        number=number,
        title=chapter.title,
        standard=chapter.standard,
        at=rows[0].at,
        rows=rows,
        sums=_total(row.sums for row in rows),
    )


def _rows(lesson: Lesson, timeline: Timeline, slides: Mapping[str, int]) -> list[Row]:
    opening = {page.beats[0]: page.title for page in lesson.pages if page.beats}
    return [
        Row(
            id=beat.id,
            cue=cue,
            at=minutes_seconds(timeline.beats[beat.id].start),
            sums=_sums(beat, timeline),
            slide=slides[beat.id],
            new_slide=opening.get(beat.id, ""),
            appears=beat.appears,
            said=_said(beat, timeline),
            waits=beat.waits,
            optional=beat.optional,
        )
        for cue, beat in enumerate(lesson.beats, start=1)
    ]


def _sums(beat: Beat, timeline: Timeline) -> Sums:
    span = timeline.beats[beat.id]
    spoken = sum(sentence.length for sentence in timeline.sentences[beat.id])
    return Sums(
        length=tenths(span.end) - tenths(span.start),
        words=paced_words(beat.say),
        silence=tenths(span.length - spoken),
    )


def _total(parts: Iterable[Sums]) -> Sums:
    found = tuple(parts)
    return Sums(
        length=sum(part.length for part in found),
        words=sum(part.words for part in found),
        silence=sum(part.silence for part in found),
    )


def _said(beat: Beat, timeline: Timeline) -> tuple[Said, ...]:
    ends = timeline.beats[beat.id].end
    spans = (*timeline.sentences[beat.id], Span(ends, ends))
    return tuple(
        Said(words=sentence.say, stem=sentence.stem, pause=_pause(after.start - heard.end))
        for sentence, (heard, after) in zip(beat.sentences, pairwise(spans), strict=True)
    )


def _pause(ms: int) -> str:
    return seconds(tenths(ms)) if ms >= SHOWN_PAUSE_MS else ""
