"""Slides that run by themselves: what is heard on each, or the captions that are seen instead."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from narrate.lesson import measure
from narrate.lesson.lesson import Lesson, Span, Timeline
from narrate.lesson.marks import PAGE_HEIGHT, PAGE_WIDTH, Box, Group, Page, Text
from narrate.lesson.narration import Narration
from narrate.outputs._cues import Cue, make_cues
from narrate.outputs._deck import Running, clock_of
from narrate.outputs._media import name
from narrate.outputs._options import Options
from narrate.outputs._slides import Clock, Passing
from narrate.outputs._sound import ICON, made

_TOP = PAGE_HEIGHT * 4 // 5 + 600
_HEIGHT, _SIDE, _EDGE = 9_000, 10_000, 1_200
"""Captions lie in the lowest fifth, clear of the slide's number at its right."""
_SIZE, _LEADING = 3_000, 3_600
"""As large as the words of choices; two lines of 37 characters have room."""


def running(lesson: Lesson, timeline: Timeline, options: Options) -> Running:
    """The clocks of a lesson's slides, with the sounds that are heard or else the captions."""
    clocks: list[Clock] = []
    files: dict[str, bytes] = {}
    cues = make_cues(lesson, timeline) if options.narration is None else ()
    for page in lesson.pages:
        clock, span = clock_of(page, timeline), _span(page, timeline)
        if options.narration is None:
            clock = replace(clock, passing=tuple(_passing(cues, span)))
        else:
            clock, found = _heard(clock, options.narration, span)
            files |= found
        clocks.append(clock)
    if files:
        files[name(ICON)] = ICON.data
    return Running(clocks=clocks, files=files, loops=options.loop)


def _span(page: Page, timeline: Timeline) -> Span:
    return Span(timeline.beats[page.beats[0]].start, timeline.beats[page.beats[-1]].end)


def _heard(clock: Clock, narration: Narration, span: Span) -> tuple[Clock, dict[str, bytes]]:
    """A slide's sound, cut from the whole; none where nothing is heard on it."""
    samples = narration.cut(span)
    if not any(samples):
        return clock, {}
    sound, data = made(samples, narration.rate)
    return replace(clock, sound=sound), {sound.file: data}


def _passing(cues: tuple[Cue, ...], span: Span) -> Iterator[Passing]:
    """The captions of a slide."""
    shown = (cue for cue in cues if span.start <= cue.start < span.end)
    for number, cue in enumerate(shown, start=1):
        yield Passing(
            group=_caption(f"caption {number}", cue),
            start=cue.start - span.start,
            end=cue.end - span.start,
        )


def _caption(own: str, cue: Cue) -> Group:
    """A caption on a sheet of its own, all sheets of one size: only one is ever seen."""
    room = PAGE_WIDTH - 2 * (_SIDE + _EDGE)
    widest = max(measure.text_width(line, _SIZE) for line in cue.lines)
    size = _SIZE if widest <= room else _SIZE * room // widest
    height = measure.text_height(len(cue.lines), size, _LEADING)
    sheet = Box(
        x=_SIDE,
        y=_TOP,
        width=PAGE_WIDTH - 2 * _SIDE,
        height=_HEIGHT,
        fill="panel",
        line="quiet",
        rounded=True,
    )
    words = Text(
        x=_SIDE + _EDGE,
        y=_TOP + (_HEIGHT - height) // 2,
        width=room,
        height=height,
        lines=cue.lines,
        size=size,
        leading=_LEADING,
        align="centre",
    )
    return Group(name=own, alt=cue.text, marks=(sheet, words))
