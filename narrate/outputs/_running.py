"""Slides that run by themselves: what is heard on each, or the captions that are seen instead.

Where all is silent on a slide, as on one that she has not recorded, it shows its captions.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from narrate.lesson.bar import bar
from narrate.lesson.lesson import Lesson, Span, Timeline
from narrate.lesson.marks import Page
from narrate.lesson.narration import Narration
from narrate.outputs._caption_sheet import caption_sheet
from narrate.outputs._cues import Cue, make_cues
from narrate.outputs._deck import Running, clock_of
from narrate.outputs._media import name
from narrate.outputs._options import Options
from narrate.outputs._slides import Clock, Passing
from narrate.outputs._sound import ICON, Sound, made


def running(lesson: Lesson, timeline: Timeline, options: Options) -> Running:
    """The clocks of a lesson's slides, with the sounds that are heard or else the captions."""
    clocks: list[Clock] = []
    files: dict[str, bytes] = {}
    cues: tuple[Cue, ...] = ()
    for page in bar("selfrun.pptx", len(lesson.pages), over=lesson.pages):
        clock, span = clock_of(page, timeline), _span(page, timeline)
        heard = _heard(options.narration, span)
        if heard is None:
            cues = cues or make_cues(lesson, timeline)
            clock = replace(clock, passing=tuple(_passing(cues, span)))
        else:
            clock = replace(clock, sound=heard[0])
            files[heard[0].file] = heard[1]
        clocks.append(clock)
    if files:
        files[name(ICON)] = ICON.data
    return Running(clocks=clocks, files=files, loops=options.loop)


def _span(page: Page, timeline: Timeline) -> Span:
    return Span(timeline.beats[page.beats[0]].start, timeline.beats[page.beats[-1]].end)


def _heard(narration: Narration | None, span: Span) -> tuple[Sound, bytes] | None:
    """A slide's sound, cut from the whole, and its file; None where nothing is heard on it."""
    samples = narration.cut(span) if narration else b""
    return made(samples, narration.rate) if narration and any(samples) else None


def _passing(cues: tuple[Cue, ...], span: Span) -> Iterator[Passing]:
    """The captions of a slide."""
    shown = (cue for cue in cues if span.start <= cue.start < span.end)
    for number, cue in enumerate(shown, start=1):
        yield Passing(
            group=caption_sheet(f"caption {number}", cue.lines),
            start=cue.start - span.start,
            end=cue.end - span.start,
        )
