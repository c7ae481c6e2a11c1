"""The parts of a plan's lessons: taken from what was built, or told where there is none of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from narrate import built, pipeline
from narrate.errors import Declined, Fault
from narrate.items.edits import edits_beside, read_edits
from narrate.items.fingerprint import fingerprints
from narrate.items.item import Item, Review
from narrate.items.loading import Loaded
from narrate.items.picking import without_skipped
from narrate.items.plan import Plan, Planned
from narrate.lesson.brevity import Brevity
from narrate.lesson.joining import Moment, Piece, moments_of, pieces, renamed, titled
from narrate.lesson.lesson import Beat
from narrate.lesson.question import Question
from narrate.lesson.solved import SolvedPart
from narrate.lesson.timeline import pace, predict
from narrate.lesson.wishes import AS_USUAL, Wishes
from narrate.lesson.wording import Words
from narrate.twins.making import Solver, twin

if TYPE_CHECKING:
    from narrate.outputs import Options


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is to be put together.

    `absent` is the list of who was away; without it the `topics` are those of one lesson, in at
    most so many `minutes`. `today` is what hold-until is measured by. With `twins` what is held is
    told with fresh numbers; with `each` no two pupils share a file. `built` is the folder in which
    lessons were built.
    """

    plan: Path
    today: date
    absent: Path | None = None
    topics: tuple[str, ...] = ()
    minutes: int | None = None
    twins: bool = False
    each: bool = False
    built: Path | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """A review's lesson as it was built: its folder, its parts, and those that may be used."""

    folder: Path
    built: built.Built
    pieces: Mapping[str, tuple[Piece, ...]]
    same: frozenset[str]


@dataclass(slots=True, kw_only=True)
class Shelf:
    """The parts of the plan's lessons, made when the first of a review's items is asked for.

    Faults, declined items and notes gather here.
    """

    plan: Plan
    asked: Asked
    wishes: Wishes
    options: Options
    faults: list[Fault] = field(default_factory=list)
    declined: list[str] = field(default_factory=list)
    notes: dict[str, None] = field(default_factory=dict)
    _books: dict[str, Book | None] = field(default_factory=dict)
    _taken: dict[tuple[str, str], tuple[Piece, ...]] = field(default_factory=dict)
    _told: dict[str, dict[str, tuple[Piece, ...]]] = field(default_factory=dict)
    _anew: dict[str, list[str]] = field(default_factory=dict)
    _files: dict[str, set[str]] = field(default_factory=dict)
    _twins: list[Item] = field(default_factory=list)

    def __post_init__(self) -> None:
        for each in self.plan.planned:
            self._files.setdefault(each.item.id.lower(), set()).add(each.review.id)

    def take(self, planned: Planned) -> tuple[Piece, ...]:
        """The parts of an item, or of its twin; none, and a note, where it is left out."""
        item, review = planned.item, planned.review
        name = review.id, item.id
        if name not in self._taken:
            held = item.hold_until and self.asked.today < item.hold_until
            found = self._held(planned) if held else self._found(planned)
            clash = len(self._files[item.id.lower()]) > 1
            self._taken[name] = tuple(
                titled(
                    renamed(each, f"{review.id}-{each.item}" if clash else each.item), review.title
                )
                if self._several
                else each
                for each in found
            )
        return self._taken[name]

    def remarks(self) -> tuple[str, ...]:
        """What a person should look at, a line each."""
        told = (
            f"{', '.join(names)}: not as {book.folder} was built, so told anew, as the file is now;"
            " build it again, or fit it again if it was fitted"
            for review, names in self._anew.items()
            if (book := self._books[review])
        )
        return (*self.notes, *told)

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

    def pace(self, review: Review) -> int | None:
        """The pace that a review was built at, or else hers; None where it is the grade's."""
        book = self.book(review)
        return (book.built.wpm if book else None) or self.words(review).voice.pace

    def closing(self, review: Review, planned: Beat) -> Moment | None:
        """A review's closing as it was recorded, if it says the same."""
        book = self.book(review)
        if book is None or book.built.recording is None:
            return None
        moments = moments_of(book.built.lesson, book.built.timeline, review.id)
        found = moments.get(planned.id)
        return found if found and found.beat.sentences == planned.sentences else None

    def book(self, review: Review) -> Book | None:
        """A review's lesson as it was built, if it was."""
        if review.id not in self._books:
            root = self.asked.built
            self._books[review.id] = self._opened(review, root / review.id) if root else None
        return self._books[review.id]

    def _opened(self, review: Review, folder: Path) -> Book | None:
        found = built.find(folder, self.note)
        if found is None:
            return None
        now = fingerprints(review, read_edits(edits_beside(review.file)))
        return Book(
            folder=folder,
            built=found,
            pieces=pieces(
                found.lesson,
                found.timeline,
                self.words(review).terms_in,
                review.id if found.recording else "",
            ),
            same=frozenset(name for name, own in found.items.items() if now.get(name) == own),
        )

    def _found(self, planned: Planned) -> tuple[Piece, ...]:
        """The parts of an item as they were built; told where they were not, or not as it is."""
        item, review = planned.item, planned.review
        book = None if item.skip else self.book(review)
        if book and item.id in book.same and item.id in book.pieces:
            return self._asked(book, review, item.id)
        found = self._of(review).get(item.id, ())
        if not found:
            self.note(f"{planned.place}: {item.id} is left out: it cannot be told, or is skipped")
        elif book:
            self._anew.setdefault(review.id, []).append(item.id)
        return found

    def _asked(self, book: Book, review: Review, item: str) -> tuple[Piece, ...]:
        """An item's parts with what pupils are asked, if a page asks them that was not built."""
        found = book.pieces[item]
        if not self.wishes.asks or book.built.lesson.questions:
            return found
        now = {piece.part: piece.question for piece in self._of(review).get(item, ())}
        return tuple(
            replace(piece, question=_fitting(piece, now.get(piece.part))) for piece in found
        )

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
        try:
            made = twin(item, SOLVER, [*(p.item for p in self.plan.planned), *self._twins])
            self._twins.append(made)
            found = self._twin_told(planned.review, made)
        except Declined as declined:
            self.note(f"{held}: left out: {declined}")
            return ()
        self.note(f"{held}: told with fresh numbers")
        return found

    def _twin_told(self, review: Review, made: Item) -> tuple[Piece, ...]:
        """A twin's parts, told by themselves: edits of its item hold other numbers."""
        words = self.words(review)
        wishes = replace(AS_USUAL, asks=self.wishes.asks)
        alone = replace(review, items=(made,))
        lesson, *_ = pipeline.make_lesson(alone, words, wishes=wishes)
        if lesson is None:
            return ()
        return pieces(lesson, predict(lesson, words.voice.pace), words.terms_in).get(made.id, ())


def _fitting(piece: Piece, question: Question | None) -> Question | None:
    """A question where the beat that asks it is one of the part's."""
    known = {moment.beat.id for moment in piece.moments}
    return question if question and question.beat in known else None


def _solved(item: Item) -> tuple[SolvedPart, ...] | None:
    """Its parts, solved; None where one is not, or is at fault."""
    outcomes = list(pipeline.solve_item(item))
    solved = tuple(each.solved for each in outcomes if each.solved and not each.fault)
    return solved if len(solved) == len(outcomes) else None


def _count_notes(item: Item) -> int:
    return len(list(pipeline.notes_of(item, list(pipeline.solve_item(item)))))


SOLVER = Solver(solved=_solved, notes=_count_notes)
"""How twins are solved and checked: as every item is."""
