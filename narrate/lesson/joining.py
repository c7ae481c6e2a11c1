"""Lessons already made, taken apart and put together: for those who missed some of them.

Nothing is told again: beats and pages are those of the lessons they come from, and take as long.
What a lesson explained in a part that is left out is explained where its term is first heard.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from narrate.lesson.frame import WIDTH, heading
from narrate.lesson.left_out import PAIR
from narrate.lesson.lesson import Beat, Chapter, Lesson, Sentence, Span, Timeline
from narrate.lesson.marks import Page
from narrate.lesson.question import Question
from narrate.lesson.timeline import chapter_beats

DEFINE = "define/"
"""How the wording begins of a sentence that explains a term."""

LONGEST_HEADING = WIDTH * 2 // 3
"""A heading leaves room for the sign that stands at its right."""


class Heard(NamedTuple):
    """Where the sound of a moment is: a stretch, in ms, of a recording that is known by a name."""

    name: str
    span: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """A beat with how long it takes, and when its sentences are said from its start, in ms.

    `heard` is where it was recorded, None where it was not.
    """

    beat: Beat
    length: int
    sentences: tuple[Span, ...]
    heard: Heard | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One part of a lesson: its chapter, its moments, its pages.

    `terms` are the moments that had explained a term before it in the lesson it comes from;
    `terms_in` finds the terms that sentences use. `question` is what pupils are asked in it.
    """

    item: str
    part: int
    chapter: Chapter
    moments: tuple[Moment, ...]
    pages: tuple[Page, ...]
    terms: Mapping[str, Moment]
    terms_in: Callable[[Iterable[Sentence]], Sequence[str]]
    question: Question | None = None

    @property
    def length(self) -> int:
        """How long it takes as it stands, in milliseconds."""
        return sum(moment.length for moment in self.moments)


def pieces(
    lesson: Lesson,
    timeline: Timeline,
    terms_in: Callable[[Iterable[Sentence]], Sequence[str]],
    recording: str = "",
) -> dict[str, tuple[Piece, ...]]:
    """The parts of a lesson, by their items; `recording` names one of it, if there is one."""
    moments = moments_of(lesson, timeline, recording)
    terms: dict[str, Moment] = {}
    found: dict[str, tuple[Piece, ...]] = {}
    questions = {question.beat: question for question in lesson.questions}
    for chapter, beats in chapter_beats(lesson):
        item, part = beats[0].item, beats[0].part
        if item is None or part is None:
            continue
        names = {beat.id for beat in beats}
        piece = Piece(
            item=item,
            part=part,
            chapter=chapter,
            moments=tuple(moments[beat.id] for beat in beats),
            pages=tuple(page for page in lesson.pages if names.issuperset(page.beats)),
            terms=dict(terms),
            terms_in=terms_in,
            question=next((questions[name] for name in names if name in questions), None),
        )
        found[item] = (*found.get(item, ()), piece)
        terms |= {term: moments[beat.id] for beat in beats if (term := term_of(beat))}
    return found


def moments_of(lesson: Lesson, timeline: Timeline, recording: str = "") -> dict[str, Moment]:
    """The moments of a lesson by the ids of their beats."""
    return {beat.id: _moment(beat, timeline, recording) for beat in lesson.beats}


def _moment(beat: Beat, timeline: Timeline, recording: str) -> Moment:
    span = timeline.beats[beat.id]
    spoken = timeline.sentences[beat.id]
    return Moment(
        beat=beat,
        length=span.length,
        sentences=tuple(Span(each.start - span.start, each.end - span.start) for each in spoken),
        heard=Heard(recording, span) if recording else None,
    )


def term_of(beat: Beat) -> str:
    """The term that a beat explains, "" where it explains none."""
    wording = beat.sentences[0].wording if beat.sentences else ""
    if not wording.startswith(DEFINE):
        return ""
    return wording.removeprefix(DEFINE).partition("#")[0].replace("-", " ")


def renamed(piece: Piece, item: str) -> Piece:
    """A piece under another id of its item: two reviews may each have a question q1."""
    if item == piece.item:
        return piece
    names = {m.beat.id: item + m.beat.id.removeprefix(piece.item) for m in piece.moments}
    moments = (replace(m, beat=_called(m.beat, names[m.beat.id], item)) for m in piece.moments)
    return replace(
        piece,
        item=item,
        chapter=replace(piece.chapter, first_beat=names[piece.chapter.first_beat]),
        moments=tuple(moments),
        pages=tuple(_with_beats(page, names) for page in piece.pages),
        question=piece.question and replace(piece.question, beat=names[piece.question.beat]),
    )


def titled(piece: Piece, review: str) -> Piece:
    """A piece whose chapter and pages name its review too."""
    chapter = replace(piece.chapter, title=f"{review}: {piece.chapter.title}")
    return replace(piece, chapter=chapter, pages=tuple(_headed(p, review) for p in piece.pages))


def _headed(page: Page, review: str) -> Page:
    """A page that is headed with its review too, on the line where that fits."""
    title, (label,) = f"{review}: {page.title}", page.heading.lines
    longer = heading(f"{review}: {label}", page.heading.size)
    fits = longer.size == page.heading.size and longer.width <= LONGEST_HEADING
    return replace(page, title=title, heading=longer if fits else page.heading)


def _called(beat: Beat, name: str, item: str) -> Beat:
    return replace(beat, id=name, item=item)


def _with_beats(page: Page, names: Mapping[str, str]) -> Page:
    builds = tuple(replace(build, beat=names[build.beat]) for build in page.builds)
    return replace(page, beats=tuple(names[beat] for beat in page.beats), builds=builds)


# -- put together


@dataclass(slots=True)
class _Explained:
    """The pieces with each term explained before its first use."""

    known: set[str] = field(default_factory=set)

    def piece(self, piece: Piece) -> Piece:
        """A piece with the explanations that it needs and does not hold."""
        self.known |= {term_of(moment.beat) for moment in piece.moments}
        before: dict[str, list[Moment]] = {}
        for moment in piece.moments:
            if new := list(self._needed(moment, piece)):
                before[moment.beat.id] = new
        if not before:
            return piece
        moments = (each for m in piece.moments for each in (*before.get(m.beat.id, ()), m))
        added = {name: tuple(m.beat.id for m in new) for name, new in before.items()}
        return replace(
            piece,
            moments=tuple(moments),
            pages=tuple(_with_more(page, added) for page in piece.pages),
        )

    def _needed(self, moment: Moment, piece: Piece) -> Iterator[Moment]:
        """What explains the terms of a moment that have not been explained."""
        used = tuple(piece.terms_in(moment.beat.sentences))
        if set(used) & set(PAIR):
            used = tuple(dict.fromkeys((*used, *PAIR)))
        for term in used:
            if term in piece.terms and term not in self.known:
                self.known.add(term)
                found = piece.terms[term]
                yield from self._needed(found, piece)
                name = f"{piece.item}.{piece.part}.define-{term.replace(' ', '-')}"
                beat = replace(found.beat, id=name, item=piece.item, part=piece.part)
                yield replace(found, beat=beat)


def _with_more(page: Page, added: Mapping[str, tuple[str, ...]]) -> Page:
    beats = tuple(name for beat in page.beats for name in (*added.get(beat, ()), beat))
    return page if beats == page.beats else replace(page, beats=beats)


class Joined(NamedTuple):
    """A lesson put together, and its moments in order."""

    lesson: Lesson
    moments: tuple[Moment, ...]

    @property
    def timeline(self) -> Timeline:
        """Its times: one moment after another."""
        beats: dict[str, Span] = {}
        sentences: dict[str, tuple[Span, ...]] = {}
        now = 0
        for moment in self.moments:
            beats[moment.beat.id] = Span(now, now + moment.length)
            sentences[moment.beat.id] = tuple(
                Span(now + each.start, now + each.end) for each in moment.sentences
            )
            now += moment.length
        return Timeline(beats=beats, sentences=sentences)


def join(
    start: Lesson, times: Timeline, parts: Sequence[Piece], end: Moment | None = None
) -> Joined:
    """A lesson with parts between its greeting and its closing.

    `start` has a page and a beat for each of the two, and nothing else; `end` is the closing as it
    was recorded. A chapter begins with the first beat of its part, whatever is explained before.
    """
    explained = _Explained()
    whole = [explained.piece(piece) for piece in parts]
    opening, closing = moments_of(start, times).values()
    moments = (opening, *(m for piece in whole for m in piece.moments), end or closing)
    chapters = [replace(piece.chapter, first_beat=piece.moments[0].beat.id) for piece in whole]
    lesson = replace(
        start,
        beats=tuple(moment.beat for moment in moments),
        pages=(start.pages[0], *(page for piece in whole for page in piece.pages), start.pages[-1]),
        chapters=(start.chapters[0], *chapters, start.chapters[-1]),
        questions=tuple(piece.question for piece in whole if piece.question),
    )
    return Joined(lesson, moments)
