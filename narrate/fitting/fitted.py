"""Timelines from what was noted or heard: of beats, of lines, and of one part spliced in."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise

from narrate.lesson.lesson import Beat, Lesson, Span, Timeline

Heard = Mapping[str, Sequence[Span | None]]
"""For each beat when its lines were said, None where one was not."""

_TOO_SHORT = 5  # a beat of less than a fifth of its planned length was clicked through
_SLOWER_PERCENT, _FASTER_PERCENT = 150, 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """A timeline, how sure each line of a beat is (0 to 100, None where it was not judged), and
    what a person should look at."""

    timeline: Timeline
    sure: Mapping[str, tuple[int | None, ...]]
    notes: tuple[str, ...] = ()
    wpm: int | None = None


def from_beats(
    lesson: Lesson, noted: Mapping[str, Span], planned: Timeline
) -> tuple[Timeline, tuple[str, ...]]:
    """A timeline from the noted times of beats, and notes.

    Beats that were not noted fill the time between those that were, or keep their planned length
    where there is none. A beat clicked through shares the time with the next.
    """
    known, notes = _evened(lesson, noted, planned)
    lengths, lead = _lengths(lesson, known, planned)
    beats: dict[str, Span] = {}
    sentences: dict[str, tuple[Span, ...]] = {}
    now = 0
    for beat in lesson.beats:
        end = now + lengths[beat.id]
        begin = now if beats else min(lead, end)
        sentences[beat.id] = _spread(beat, planned.sentences[beat.id], begin, end)
        beats[beat.id] = Span(now, end)
        now = end
    return Timeline(beats=beats, sentences=sentences), notes


def _evened(
    lesson: Lesson, noted: Mapping[str, Span], planned: Timeline
) -> tuple[dict[str, Span], tuple[str, ...]]:
    known, notes = dict(noted), []
    for one, other in pairwise(beat.id for beat in lesson.beats):
        if one in known and other in known and _is_short(one, known, planned):
            usual = planned.beats[one].length, planned.beats[other].length
            start, end = known[one].start, known[other].end
            cut = start + (end - start) * usual[0] // max(sum(usual), 1)
            known[one], known[other] = Span(start, cut), Span(cut, end)
            notes.append(f"{one} was passed at once; it shares the time of {other}")
    for name in [name for name in known if _is_short(name, known, planned)]:
        del known[name]
        notes.append(f"{name} was passed at once; it keeps its predicted length")
    return known, tuple(notes)


def _is_short(name: str, known: Mapping[str, Span], planned: Timeline) -> bool:
    return known[name].length * _TOO_SHORT < planned.beats[name].length


def _lengths(
    lesson: Lesson, known: Mapping[str, Span], planned: Timeline
) -> tuple[dict[str, int], int]:
    """The length of every beat, and how long it is until the first word."""
    lengths: dict[str, int] = {}
    unknown: list[str] = []
    now, lead, last = 0, 0, ""
    for beat in lesson.beats:
        if beat.id not in known:
            unknown.append(beat.id)
            continue
        gap = max(known[beat.id].start - now, 0)
        lengths |= _shared(unknown, gap, planned)
        lengths[beat.id] = known[beat.id].length
        if not unknown and last:
            lengths[last] += gap
        elif not unknown:
            lengths[beat.id] += gap
            lead = gap
        unknown, now, last = [], known[beat.id].end, beat.id
    return lengths | _shared(unknown, 0, planned), lead


def _shared(names: Sequence[str], room: int, planned: Timeline) -> dict[str, int]:
    """The room shared out as planned; where it is not half enough, the planned lengths."""
    edges = list(accumulate((planned.beats[name].length for name in names), initial=0))
    whole = edges[-1]
    if room * 2 >= whole > 0:
        edges = [edge * room // whole for edge in edges]
    return {name: b - a for name, (a, b) in zip(names, pairwise(edges), strict=True)}


def _spread(beat: Beat, usual: Sequence[Span], start: int, end: int) -> tuple[Span, ...]:
    """A beat's lines in its real time: pauses are kept where they fit.

    Where she took much longer than planned, she waited: speech grows by half at most.
    """
    speech = list(accumulate((span.length for span in usual), initial=0))
    silence = list(accumulate((one.pause_ms for one in beat.sentences), initial=0))
    room, says, waits = end - start, speech[-1], silence[-1]
    spoken = min(room - waits, says * _SLOWER_PERCENT // 100)
    if spoken < says * _FASTER_PERCENT // 100:
        spoken = room * says // max(says + waits, 1)
    rest = room - spoken

    def at(words: int, pauses: int) -> int:
        return start + words * spoken // max(says, 1) + pauses * rest // max(waits, 1)

    return tuple(
        Span(at(speech[place], silence[place]), at(speech[place + 1], silence[place]))
        for place in range(len(usual))
    )


def from_lines(
    lesson: Lesson, heard: Heard, total: int, begins: Mapping[str, int] | None = None
) -> Timeline:
    """A timeline from the times of lines, in order and within `total` ms.

    A beat begins with its first line, or sooner where `begins` says so, and lasts until the next
    begins. A line that was not said has
    no length: it stands where the next one begins.
    """
    sentences: dict[str, tuple[Span, ...]] = {}
    beats: dict[str, Span] = {}
    later = total
    for beat in reversed(lesson.beats):
        end, spans = later, []
        for span in reversed(heard[beat.id]):
            found = span or Span(later, later)
            spans.append(found)
            later = found.start
        sentences[beat.id] = tuple(reversed(spans))
        later = min(later, (begins or {}).get(beat.id, later))
        beats[beat.id] = Span(later, end)
    return Timeline(
        beats=_from_zero(reversed(beats.items())),
        sentences=dict(reversed(sentences.items())),
    )


def _from_zero(beats: Iterable[tuple[str, Span]]) -> dict[str, Span]:
    """The first beat begins with the recording, however long it is until the first word."""
    found = dict(beats)
    first = next(iter(found), None)
    return found | ({first: Span(0, found[first].end)} if first else {})


def only(lesson: Lesson, item: str, part: int | None) -> Lesson:
    """The lesson of one part, or of all parts of an item, alone. No beats where there is none."""
    beats = [b for b in lesson.beats if b.item == item and part in (None, b.part)]
    return replace(lesson, beats=tuple(beats), chapters=())


def splice(lesson: Lesson, whole: Fitted, piece: Fitted) -> Fitted:
    """A piece's times put in place of its beats' in `whole`; what follows is moved, not changed."""
    beats: dict[str, Span] = {}
    sentences: dict[str, tuple[Span, ...]] = {}
    now = 0
    for beat in lesson.beats:
        source = piece.timeline if beat.id in piece.timeline.beats else whole.timeline
        by = now - source.beats[beat.id].start
        beats[beat.id] = _moved(source.beats[beat.id], by)
        sentences[beat.id] = tuple(_moved(span, by) for span in source.sentences[beat.id])
        now = beats[beat.id].end
    return replace(
        piece,
        timeline=Timeline(beats=beats, sentences=sentences),
        sure={**whole.sure, **piece.sure},
    )


def _moved(span: Span, by: int) -> Span:
    return Span(span.start + by, span.end + by)
