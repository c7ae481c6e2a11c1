"""One lesson, one source of times, one `Fitted`."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from narrate.errors import WrongUse
from narrate.fitting import noted, pace, table
from narrate.fitting.fitted import Fitted, from_beats, only, splice
from narrate.fitting.heard import from_sound
from narrate.fitting.recorded_deck import slide_times
from narrate.lesson.lesson import Lesson, Span, Timeline
from narrate.lesson.timeline import predict


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """What tells the times: exactly one of these files. `part` is `ITEM` or `ITEM.PART`, or "".

    `sound` is her voice on the times of a table or a deck, for what is heard.
    """

    times: Path | None = None
    audio: Path | None = None
    deck: Path | None = None
    sound: Path | None = None
    part: str = ""

    @property
    def voice(self) -> Path | None:
        """The file with her voice."""
        return self.audio or self.sound


def fit(lesson: Lesson, source: Source, *, wpm: int | None, before: Path) -> Fitted:
    """A lesson fitted to its source; `wpm` is the pace known so far, None for the grade's.

    Of a part that was recorded again, only its times are new: the others are those of the table
    `before`, or predicted where there is none yet.
    """
    if not source.part:
        return _fitted(lesson, lesson, source, wpm)
    piece = _part(lesson, source.part)
    fitted = _fitted(piece, lesson, source, wpm)
    if before.exists():
        whole = table.read(before, lesson)
    else:
        whole = Fitted(timeline=predict(lesson, fitted.wpm or wpm), sure={})
    return splice(lesson, whole, fitted)


def _part(lesson: Lesson, name: str) -> Lesson:
    item, _, number = name.partition(".")
    piece = only(lesson, item, int(number) if number.isdigit() else None)
    if not piece.beats or (number and not number.isdigit()):
        items = dict.fromkeys(f"{b.item}.{b.part}" for b in lesson.beats if b.item)
        raise WrongUse(f"there is no part {name}; there are: {', '.join(items)}")
    return piece


def _fitted(piece: Lesson, lesson: Lesson, source: Source, wpm: int | None) -> Fitted:
    if source.audio:
        return from_sound(piece, predict(piece, wpm), source.audio)
    if source.deck:
        return _by_beats(piece, *_slides(piece, lesson, source.deck, predict(lesson, wpm)), wpm)
    assert source.times
    if source.times.suffix.lower() == ".csv":
        return _corrected(piece, lesson, source.times)
    times, notes = noted.read(source.times, piece, lesson.review)
    if len(piece.beats) < len(lesson.beats):  # a part begins with itself
        first = min((span.start for span in times.values()), default=0)
        times = {name: Span(s.start - first, s.end - first) for name, s in times.items()}
        notes = ()
    return _by_beats(piece, times, notes, wpm)


def _by_beats(
    piece: Lesson, times: dict[str, Span], notes: tuple[str, ...], wpm: int | None
) -> Fitted:
    learnt = pace.from_beats(piece, times)
    timeline, more = from_beats(piece, times, predict(piece, learnt or wpm))
    return Fitted(timeline=timeline, sure={}, notes=(*notes, *more), wpm=learnt)


def _corrected(piece: Lesson, lesson: Lesson, path: Path) -> Fitted:
    """A table of the whole review, hers to correct; of a part only its rows count."""
    found = table.read(path, lesson)
    names = [beat.id for beat in piece.beats]
    timeline = Timeline(
        beats={name: found.timeline.beats[name] for name in names},
        sentences={name: found.timeline.sentences[name] for name in names},
    )
    return replace(found, timeline=timeline, wpm=pace.from_lines(piece, timeline))


def _slides(
    piece: Lesson, lesson: Lesson, path: Path, planned: Timeline
) -> tuple[dict[str, Span], tuple[str, ...]]:
    """Each slide's time shared among its beats as planned."""
    wanted = {beat.id for beat in piece.beats}
    pages = [page for page in lesson.pages if wanted.issuperset(page.beats) and page.beats]
    found = slide_times(path)
    if len(found) == len(lesson.pages) > len(pages):
        kept = zip(lesson.pages, found, strict=True)
        found = [time for page, time in kept if wanted.issuperset(page.beats) and page.beats]
    if len(found) != len(pages):
        raise WrongUse(
            f"{path} has {len(found)} slides that are shown, this review {len(pages)}; record with"
            " the deck of this review"
        )
    times: dict[str, Span] = {}
    notes = []
    now = 0
    for number, (page, time) in enumerate(zip(pages, found, strict=True), start=1):
        if not time:
            notes.append(f"slide {number} has no timing; its predicted length stays")
            continue
        start = planned.beats[page.beats[0]].start
        whole = max(planned.beats[page.beats[-1]].end - start, 1)
        for name in page.beats:
            span = planned.beats[name]
            edges = (now + (edge - start) * time // whole for edge in (span.start, span.end))
            times[name] = Span(*edges)
        now += time
    return times, tuple(notes)
