"""For whoever was away: of lessons made once, just what each pupil missed.

plan, absent -> the lessons of the plan's reviews -> their parts -> a lesson for each set of days
"""

from __future__ import annotations

import csv
import io
import re
from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date
from functools import partial
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any, BinaryIO, NamedTuple

from narrate import leftover, pipeline, writing
from narrate.errors import WrongUse
from narrate.hearing import Recordings, in_her_voice, is_recorded
from narrate.items.absent import Away, read_absences
from narrate.items.item import Review
from narrate.items.plan import Planned, read_plan
from narrate.items.topics import cheapest, covers
from narrate.lesson.joining import Joined, Piece, join
from narrate.lesson.missed import About, start
from narrate.lesson.timeline import predict
from narrate.lesson.wishes import AS_USUAL, Wishes
from narrate.saving import save
from narrate.shelf import Asked, Shelf

if TYPE_CHECKING:
    from narrate.outputs import Options

INDEX = "index.csv"
MOST_NAMED = 4
"""A folder is named by its days; by the first, the last and their number where there are more."""

LONGEST_NAME = 100
"""Characters of topics in a folder's name."""


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
    rows: list[tuple[str, ...]] = []
    if asked.absent is None:
        wanted = [_by_topic(shelf)]
    else:
        wanted = []
        rows += _for_pupils(shelf, asked.absent, wanted.append)
    _write(shelf, wanted, outputs, to, progress)
    if asked.absent is not None:
        save(to / INDEX, partial(_put, rows))
        progress(f"{to / INDEX}")
        leftover.tell_days(to, {each.joined.lesson.review for each in wanted}, progress)
    return pipeline.Outcome(
        faults=tuple(dict.fromkeys(shelf.faults)),
        declined=tuple(dict.fromkeys(shelf.declined)),
        notes=shelf.remarks(),
    )


class Wanted(NamedTuple):
    """A lesson that is to be written, the reviews it is of, and the pace of what is spoken."""

    joined: Joined
    reviews: tuple[Review, ...]
    wpm: int | None


def _write(
    shelf: Shelf,
    wanted: Sequence[Wanted],
    outputs: dict[str, Any],
    to: Path,
    progress: writing.Progress,
) -> None:
    """Writes each lesson to a folder of its own, in her voice where she is heard."""
    kept = writing.keeping_slides(shelf.options)
    heard = writing.heard(outputs) and not shelf.options.spoken_by
    if heard:
        for review in {review.id: review for each in wanted for review in each.reviews}.values():
            if line := _without_recording(shelf, review):
                progress(line)
    hers = [each for each in wanted if heard and is_recorded(each.joined)]
    reviews = {review.id: review for each in hers for review in each.reviews}
    books = {name: book for name, review in reviews.items() if (book := shelf.book(review))}
    with TemporaryDirectory(prefix="narrate-") as room:
        recordings = Recordings(books=books, room=Path(room))
        recordings.prepare()
        for each in wanted:
            joined, options = each.joined, kept
            if heard and is_recorded(joined):
                joined, options = in_her_voice(joined, recordings, kept, each.wpm, progress)
            folder = to / joined.lesson.review
            writing.write_files(
                joined.lesson, joined.timeline, outputs, options, folder, progress, wpm=each.wpm
            )


def _without_recording(shelf: Shelf, review: Review) -> str:
    """Why she is not heard in a review that was fitted; "" where it was not, or she is."""
    book = shelf.book(review)
    if book is None or not book.built.fitted or book.built.recording:
        return ""
    return (
        f"{book.folder}: was fitted without its recording, so your own voice is not in it; narrate"
        f" fit {review.file} with --audio FILE, or with --times FILE --sound FILE, brings it"
    )


def _put(rows: Sequence[Sequence[str]], sink: BinaryIO) -> None:
    text = io.StringIO()
    csv.writer(text, lineterminator="\n").writerows([_COLUMNS, *rows])
    sink.write(text.getvalue().encode())


# -- for pupils


_COLUMNS = ("code", "days", "items", "folder", "note")


def _for_pupils(
    shelf: Shelf, absent: Path, want: Callable[[Wanted], None]
) -> Iterator[tuple[str, ...]]:
    """The rows of the index; each lesson that a pupil missed is wanted once."""
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
            want(_joined(shelf, name, told, days=days))
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
    if not kept and not gone and not pupil.unread:
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
) -> Wanted:
    """A lesson of what was asked for; her pace where it is known."""
    reviews = tuple({each.review.id: each.review for each in told}.values())
    about = About(
        name=name,
        grade=max(each.review.grade for each in told),
        count=len(told),
        days=days,
        topics=topics,
    )
    begun = start(shelf.words(reviews[0]), about, shelf.options.templates)
    parts = [piece for found in told.values() for piece in found]
    speed = shelf.pace(reviews[0])
    end = shelf.closing(reviews[-1], begun.beats[-1])
    return Wanted(join(begun, predict(begun, speed), parts, end), reviews, speed)


# -- by topic


def _by_topic(shelf: Shelf) -> Wanted:
    """The lesson of some topics. Raises WrongUse where they cannot be covered."""
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
        made: Wanted = make({p: found for p, found in told.items() if p in some})
        return made.joined.timeline.total_ms

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
