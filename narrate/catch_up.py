"""For whoever was away: of lessons made once, just what each pupil missed.

plan, absent -> the lessons of the plan's reviews -> their parts -> a lesson for each set of days
"""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from functools import partial
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING, Any, BinaryIO

from narrate import pipeline, writing
from narrate.errors import Declined, Fault, WrongUse
from narrate.items.absent import Away, read_absences
from narrate.items.item import Item, Review
from narrate.items.loading import Loaded
from narrate.items.picking import without_skipped
from narrate.items.plan import Plan, Planned, read_plan
from narrate.items.topics import cheapest, covers
from narrate.lesson.brevity import Brevity
from narrate.lesson.joining import Piece, join, pieces, renamed, titled
from narrate.lesson.lesson import Lesson, Timeline
from narrate.lesson.missed import About, start
from narrate.lesson.solved import SolvedPart
from narrate.lesson.timeline import pace, predict
from narrate.lesson.wishes import AS_USUAL, Wishes
from narrate.lesson.wording import Words
from narrate.saving import save
from narrate.twins.making import Solver, twin

if TYPE_CHECKING:
    from narrate.outputs import Options

INDEX = "index.csv"
MOST_NAMED = 4
"""A folder is named by its days; by the first, the last and their number where there are more."""

LONGEST_NAME = 100
"""Characters of topics in a folder's name."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is to be put together.

    `absent` is the list of who was away; without it the `topics` are those of one lesson, in at
    most so many `minutes`. `today` is what hold-until is measured by. With `twins` what is held is
    told with fresh numbers; with `each` no two pupils share a file.
    """

    plan: Path
    today: date
    absent: Path | None = None
    topics: tuple[str, ...] = ()
    minutes: int | None = None
    twins: bool = False
    each: bool = False


@dataclass(slots=True, kw_only=True)
class Shelf:
    """The parts of the plan's lessons: a review is told when the first of its items is asked for.

    Faults, declined items and notes gather here.
    """

    plan: Plan
    asked: Asked
    wishes: Wishes
    options: Options
    faults: list[Fault] = field(default_factory=list)
    declined: list[str] = field(default_factory=list)
    notes: dict[str, None] = field(default_factory=dict)
    _told: dict[str, dict[str, tuple[Piece, ...]]] = field(default_factory=dict)
    _twins: dict[tuple[str, str], tuple[Piece, ...]] = field(default_factory=dict)
    _files: dict[str, set[str]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for each in self.plan.planned:
            self._files.setdefault(each.item.id.lower(), set()).add(each.review.id)

    def take(self, planned: Planned) -> tuple[Piece, ...]:
        """The parts of an item, or of its twin; none, and a note, where it is left out."""
        item, review = planned.item, planned.review
        if item.hold_until and self.asked.today < item.hold_until:
            found = self._held(planned)
        else:
            found = self._of(review).get(item.id, ())
            if not found:
                self.note(
                    f"{planned.place}: {item.id} is left out: it cannot be told, or is skipped"
                )
        clash = len(self._files[item.id.lower()]) > 1
        return tuple(
            titled(renamed(each, f"{review.id}-{each.item}" if clash else each.item), review.title)
            if self._several
            else each
            for each in found
        )

    @property
    def _several(self) -> bool:
        """Whether the plan has several reviews, whose parts may have one label."""
        return len({each.review.id for each in self.plan.planned}) > 1

    def note(self, line: str) -> None:
        """Something that a person should look at, told once."""
        self.notes[line] = None

    def words(self, review: Review) -> Words:
        """Fresh words for a review."""
        return pipeline.words_for(review, self.options.templates, self.wishes)

    def _of(self, review: Review) -> dict[str, tuple[Piece, ...]]:
        """The parts of a review's lesson, told once, as `narrate build` tells it."""
        if review.id not in self._told:
            self._told[review.id] = {}
            for kept in without_skipped((review,)):
                words = self.words(kept)
                speed = words.voice.pace
                brevity = Brevity(self.wishes, speed or pace(kept.grade), words.spoken)
                loaded = Loaded(reviews=(review,), faults=self.plan.faults)
                lesson, faults, declined = pipeline.edited_lesson(
                    loaded, kept, words, self.wishes, brevity
                )
                self.faults += faults
                self.declined += declined
                if lesson:
                    made = pieces(lesson, predict(lesson, speed), words.terms_in)
                    self._told[review.id] = made
        return self._told[review.id]

    def _held(self, planned: Planned) -> tuple[Piece, ...]:
        """Nothing, or the twin of an item that is still in use as a test."""
        item = planned.item
        held = f"{planned.place}: {item.id} is held until {item.hold_until}"
        if not self.asked.twins:
            self.note(f"{held}: left out; --twins puts fresh numbers in")
            return ()
        name = planned.review.id, item.id
        if name not in self._twins:
            try:
                self._twins[name] = self._twin_told(planned.review, twin(item, SOLVER))
                self.note(f"{held}: told with fresh numbers")
            except Declined as declined:
                self._twins[name] = ()
                self.note(f"{held}: left out: {declined}")
        return self._twins[name]

    def _twin_told(self, review: Review, made: Item) -> tuple[Piece, ...]:
        """A twin's parts, told by themselves: edits of its item hold other numbers."""
        words = self.words(review)
        wishes = replace(AS_USUAL, asks=self.wishes.asks)
        alone = replace(review, items=(made,))
        lesson, *_ = pipeline.make_lesson(alone, words, wishes=wishes)
        if lesson is None:
            return ()
        return pieces(lesson, predict(lesson, words.voice.pace), words.terms_in).get(made.id, ())


def catch_up(
    asked: Asked,
    *,
    to: Path,
    also: tuple[str, ...] = (),
    wishes: Wishes = AS_USUAL,
    options: Options | None = None,
    progress: writing.Progress = lambda line: None,
) -> pipeline.Outcome:
    """Writes a folder for each set of days that somebody missed, and the index of who gets which.

    Raises FaultsFound where the plan or the list cannot be used at all, WrongUse where the topics
    cannot be covered; nothing is written then.
    """
    outputs, chosen = writing.wanted_outputs(also), writing.chosen_options(options, progress)
    plan = read_plan(asked.plan)
    wishes = writing.asking(outputs, wishes)
    shelf = Shelf(plan=plan, asked=asked, wishes=wishes, options=chosen)
    shelf.faults += plan.faults
    kept = writing.keeping_slides(chosen)
    write = partial(_write, outputs=outputs, options=kept, to=to, progress=progress)
    if asked.absent is None:
        write(*_by_topic(shelf))
    else:
        rows = list(_for_pupils(shelf, asked.absent, write))
        save(to / INDEX, partial(_put, rows))
        progress(f"{to / INDEX}")
    return pipeline.Outcome(
        faults=tuple(dict.fromkeys(shelf.faults)),
        declined=tuple(dict.fromkeys(shelf.declined)),
        notes=tuple(shelf.notes),
    )


def _write(
    lesson: Lesson,
    timeline: Timeline,
    wpm: int | None,
    *,
    outputs: dict[str, Any],
    options: Options,
    to: Path,
    progress: writing.Progress,
) -> None:
    folder = to / lesson.review
    writing.write_files(lesson, timeline, outputs, options, folder, progress, wpm=wpm)


def _put(rows: Sequence[Sequence[str]], sink: BinaryIO) -> None:
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows([_COLUMNS, *rows])
    sink.write(text.getvalue().encode())


def _solved(item: Item) -> tuple[SolvedPart, ...] | None:
    """Its parts, solved; None where one is not, or is at fault."""
    outcomes = list(pipeline.solve_item(item))
    solved = tuple(each.solved for each in outcomes if each.solved and not each.fault)
    return solved if len(solved) == len(outcomes) else None


def _count_notes(item: Item) -> int:
    return len(list(pipeline.notes_of(item, list(pipeline.solve_item(item)))))


SOLVER = Solver(solved=_solved, notes=_count_notes)
"""How twins are solved and checked: as every item is."""


# -- for pupils


_COLUMNS = ("code", "days", "items", "folder", "note")


def _for_pupils(shelf: Shelf, absent: Path, write: Any) -> Iterator[tuple[str, ...]]:
    """Writes what each pupil missed; the rows of the index."""
    absences = read_absences(absent)
    shelf.faults += absences.faults
    for line in absences.notes:
        shelf.note(line)
    written: dict[tuple[Planned, ...], str] = {}
    for number, pupil in enumerate(absences.pupils, start=1):
        missed = {each: shelf.take(each) for each in _missed(shelf, pupil)}
        told = {each: found for each, found in missed.items() if found}
        days = tuple(sorted({day for each in told for day in each.days}))
        remarks = list(_remarks(shelf, pupil, missed, told))
        if not told:
            shelf.note(f"{pupil.place}: {pupil.code}: {'; '.join(remarks)}")
            yield pupil.code, "", "", "", "; ".join(remarks)
            continue
        if (name := written.get(tuple(told), "")) == "" or shelf.asked.each:
            own = shelf.asked.each or _name(days) in written.values()
            name = _name(days) + (f"_{number}" if own else "")
            write(*_joined(shelf, name, told, days=days))
            written[tuple(told)] = name
        items = " ".join(dict.fromkeys(piece.item for found in told.values() for piece in found))
        yield pupil.code, " ".join(map(str, days)), items, name, "; ".join(remarks)


def _missed(shelf: Shelf, pupil: Away) -> Iterator[Planned]:
    """What was reviewed only while a pupil was away; a note for a day without a review."""
    for when, place in pupil.days.items():
        if when not in shelf.plan.days:
            shelf.note(f"{place}: nothing is planned on {when}")
    yield from (each for each in shelf.plan.planned if pupil.days.keys() >= {*each.days})


def _remarks(
    shelf: Shelf, pupil: Away, missed: Iterable[Planned], told: Iterable[Planned]
) -> Iterator[str]:
    """What the index says beside a pupil."""
    yield from (f"a day could not be read ({place})" for place in dict.fromkeys(pupil.unread))
    kept = {id(each) for each in told}
    gone = [each.item.id for each in missed if id(each) not in kept]
    if gone:
        yield f"left out: {', '.join(gone)}"
    if not kept and not gone:
        yield "missed nothing that was reviewed"


def _name(days: Sequence[date]) -> str:
    """What a folder is called by its days."""
    if len(days) <= MOST_NAMED:
        return "_".join(map(str, days))
    own = sha256(" ".join(map(str, days)).encode()).hexdigest()[:6]
    return f"{days[0]}_to_{days[-1]}_{len(days)}-days_{own}"


def _joined(
    shelf: Shelf,
    name: str,
    told: dict[Planned, tuple[Piece, ...]],
    *,
    days: tuple[date, ...] = (),
    topics: tuple[str, ...] = (),
) -> tuple[Lesson, Timeline, int | None]:
    """A lesson of what was asked for, its times, and her pace where it is known."""
    review = next(iter(told)).review
    about = About(
        name=name,
        grade=max(each.review.grade for each in told),
        count=len(told),
        days=days,
        topics=topics,
    )
    words = shelf.words(review)
    begun = start(words, about, shelf.options.templates)
    parts = [piece for found in told.values() for piece in found]
    speed = words.voice.pace
    return *join(begun, predict(begun, speed), parts), speed


# -- by topic


def _by_topic(shelf: Shelf) -> tuple[Lesson, Timeline, int | None]:
    """The lesson of some topics, as `_joined`. Raises WrongUse where they cannot be covered."""
    asked = shelf.asked
    on_topic = [p for p in shelf.plan.planned if any(covers(t, p.item) for t in asked.topics)]
    told = {each: found for each in on_topic if (found := shelf.take(each))}
    for topic in asked.topics:
        if not any(covers(topic, each.item) for each in told):
            known = sorted(Counter(p.item.standard for p in shelf.plan.planned if p.item.standard))
            held = any(covers(topic, each.item) for each in on_topic)
            why = "every item of it is left out" if held else "no planned item has it"
            more = "; ".join(shelf.notes) if held else f"there are: {', '.join(known) or 'none'}"
            raise WrongUse(f"the topic {topic} cannot be covered: {why}; {more}")
    name = "topics_" + re.sub(r"[^\w.-]", "-", "_".join(asked.topics))[:LONGEST_NAME]
    make = partial(_joined, shelf, name, topics=asked.topics)
    return make(told) if asked.minutes is None else make(_that_fits(shelf, told, make))


def _that_fits(shelf: Shelf, told: dict[Planned, tuple[Piece, ...]], make: Any) -> Any:
    """Items in so many minutes with each topic among them, and as many more as fit."""
    asked = shelf.asked
    assert asked.minutes is not None
    most = asked.minutes * 60_000
    lengths = {p: sum(piece.length for piece in found) for p, found in told.items()}
    chosen = set(cheapest(asked.topics, {p: p.item for p in told}, lengths))

    def total(some: set[Planned]) -> int:
        timeline: Timeline = make({p: found for p, found in told.items() if p in some})[1]
        return timeline.total_ms

    if (least := total(chosen)) > most:
        minutes, seconds = divmod(-(-least // 1000), 60)
        raise WrongUse(
            f"{asked.minutes} min are too short: one item of each topic takes {minutes} min "
            f"{seconds} s with greeting and closing; use --minutes {-(-least // 60_000)} or more, "
            "or fewer topics"
        )
    for more in sorted((p for p in told if p not in chosen), key=lambda p: lengths[p]):
        if total({*chosen, more}) <= most:
            chosen.add(more)
    return {p: found for p, found in told.items() if p in chosen}
