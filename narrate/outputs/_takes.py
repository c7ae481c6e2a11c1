"""What a video shows, page by page: a take is a page with the moments at which it changes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from hashlib import sha256

from narrate.lesson.lesson import Lesson, Span, Timeline
from narrate.lesson.marks import Group, Page
from narrate.lesson.palette import Palette
from narrate.outputs._caption_sheet import caption_sheet
from narrate.outputs._cues import Cue, make_cues
from narrate.outputs._options import Options
from narrate.outputs._svg import layers

ALIVE_MS = 4_000
"""A frame comes at least so often, so that players can seek and show that they play."""

KEY_MS = 20_000
"""About how far two frames lie apart from which a player can start."""


@dataclass(frozen=True, slots=True)
class State:
    """From `start` ms into the take the page shows `builds` builds and, burnt in, a caption."""

    start: int
    builds: int
    caption: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Frame:
    """A picture of the video at `start` ms into its take; `key` is one to start from."""

    start: int
    state: State
    key: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Take:
    """A page filmed for `length` ms; its first state starts at 0. `height` is in pixels."""

    page: Page
    palette: Palette
    height: int
    length: int
    states: tuple[State, ...]

    @property
    def key(self) -> str:
        """What all that is seen hangs on, times included, but not where in the video it stands."""
        seen = layers(self.page, self.palette), self.height, self.length, self.states
        burnt = [burnt_in(state.caption) for state in self.states]
        return sha256(repr((seen, burnt, ALIVE_MS, KEY_MS)).encode()).hexdigest()

    def frames(self) -> Iterator[Frame]:
        """Every change and, between them, a frame to keep players awake."""
        ends = (*(state.start for state in self.states[1:]), self.length)
        last_key = -KEY_MS
        for state, end in zip(self.states, ends, strict=True):
            for start in range(state.start, end, ALIVE_MS):
                key = start - last_key >= KEY_MS
                last_key = start if key else last_key
                yield Frame(start, state, key)


def takes(lesson: Lesson, timeline: Timeline, options: Options) -> Iterator[Take]:
    """The takes of a video in order, from 0 to its end; captions are burnt in on silent pages."""
    heard, cues = options.narration, make_cues(lesson, timeline)
    for page in lesson.pages:
        start = timeline.beats[page.beats[0]].start
        end = timeline.beats[page.beats[-1]].end
        if end > start:
            silent = heard is None or not any(heard.cut(Span(start, end)))
            yield Take(
                page=page,
                palette=dict(options.palette),
                height=options.height,
                length=end - start,
                states=tuple(_states(page, timeline, cues if silent else (), start, end)),
            )


def _states(
    page: Page, timeline: Timeline, cues: tuple[Cue, ...], start: int, end: int
) -> Iterator[State]:
    """The states of a page that is seen from `start` to `end`, each unlike the one before."""
    builds = [timeline.beats[build.beat].start for build in page.builds]
    burnt = [cue for cue in cues if start <= cue.start < end]
    moments = {start, *builds, *(edge for cue in burnt for edge in (cue.start, cue.end))}
    before = None
    for now in sorted(moment for moment in moments if moment < end):
        lines = next((cue.lines for cue in burnt if cue.start <= now < cue.end), ())
        shown = sum(build <= now for build in builds), lines
        if shown != before:
            yield State(now - start, *shown)
        before = shown


def burnt_in(lines: tuple[str, ...]) -> Group | None:
    """A caption as marks in the fifth that pages leave clear; None for none."""
    return caption_sheet("caption", lines) if lines else None
