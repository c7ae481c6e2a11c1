"""The rooms joined: items in; read, solved, told; outputs written.

    load -> read -> solve -> tell -> predict -> write

Read this file for the way that data goes; each step is one call into one room.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Any

from narrate import built
from narrate.errors import Declined, Fault, FaultsFound, WrongUse
from narrate.exact.caption import write
from narrate.exact.tree import Frac
from narrate.items.answers import with_answers
from narrate.items.edits import edits_beside, read_edits
from narrate.items.item import Item, Part, Review
from narrate.items.loading import Loaded, load
from narrate.items.picking import in_order, pick, split_name, without_skipped
from narrate.items.voice import read_voice, voice_beside
from narrate.kinds import find_kinds, kind_of
from narrate.lesson.blank import without_work
from narrate.lesson.brevity import Brevity
from narrate.lesson.edits import Edits, starting_text
from narrate.lesson.lesson import Lesson
from narrate.lesson.review import tell
from narrate.lesson.solved import HandTold, SolvedPart, Tellable, most_missed_first
from narrate.lesson.timeline import pace, predict
from narrate.lesson.wishes import AS_USUAL, Wishes
from narrate.lesson.wording import Words
from narrate.reading import agreement
from narrate.reading.demanded import told_by
from narrate.reading.demands_said import said
from narrate.reading.doubts import doubts, same_choices
from narrate.reading.read import read, understand_part
from narrate.reading.reading import Reading
from narrate.reading.told_before import in_its_place
from narrate.reading.work_asked import with_work
from narrate.report import declined_row, fault_row, not_told, read_row, solved_row
from narrate.saving import save_new
from narrate.solution.keycheck import key_fault
from narrate.solution.solve import make_task
from narrate.solution.solve import solve as solve_task
from narrate.solution.unsolved import last_operation, why_unsolved
from narrate.solution.work_chosen import choose_work
from narrate.writing import Progress, asking, chosen_options, wanted_outputs, write_files

if TYPE_CHECKING:
    from narrate.outputs import Options


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What is wrong or left out: faults of the input, and parts declined, each in one line.

    `notes` name what a person should look at, though nothing need be wrong; `left_out` counts the
    items that are declined.
    """

    faults: tuple[Fault, ...]
    declined: tuple[str, ...]
    notes: tuple[str, ...] = ()
    left_out: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class PartOutcome:
    """One part after solving: solved, or declined, or at fault; `hand` where it is told by hand."""

    item: Item
    part: Part
    solved: SolvedPart | None = None
    hand: HandTold | None = None
    declined: Declined | None = None
    fault: Fault | None = None


def solve_item(item: Item) -> Iterator[PartOutcome]:
    """Every part of an item in order; later parts find what earlier ones left on the board."""
    board: dict[Frac, Frac] = {}
    for part in item.parts:
        if fault := agreement.contradiction(item.id, part):
            yield PartOutcome(item=item, part=part, fault=fault)
            continue
        hand = HandTold(item=item, part=part) if part.told else None
        try:
            solved = _in_its_place(item, part, board)
        except Declined as declined:
            yield PartOutcome(item=item, part=part, declined=declined, hand=hand)
            continue
        board |= solved.solution.board
        yield PartOutcome(item=item, part=part, solved=solved, fault=_fault(solved), hand=hand)


def _in_its_place(item: Item, part: Part, board: dict[Frac, Frac]) -> SolvedPart:
    """A part, solved, and never without what earlier parts tell where that leads elsewhere."""

    def found(solved: SolvedPart) -> tuple[Fraction, str]:
        return solved.reading.goal.answer, write(solved.reading.expression)

    return in_its_place(item, part, lambda other: solve_part(other, part, board), found)


def _fault(solved: SolvedPart) -> Fault | None:
    """What solving a part has shown to be wrong with it."""
    name, part = solved.item.id, solved.part
    found = agreement.right_claim(name, part, solved.reading.goal)
    return found or key_fault(name, part, solved.solution)


def solve_part(item: Item, part: Part, board: dict[Frac, Frac]) -> SolvedPart:
    """A part, read and solved. Raises Declined where either is not certain."""
    part = with_work(part)
    reading = read(item, part)
    if reading.goal.form == "expression":
        solution = choose_work(part, reading)
        return SolvedPart(item=item, part=part, reading=reading, solution=solution)
    part = told_by(part, reading)
    task = make_task(item, part, reading, board)
    kind = kind_of(task)
    if kind is None:
        demand = reading.goal.demand
        asked = write(reading.expression) + (f", {said(demand)}" if demand else "")
        fewer = _fewer(item, part, reading)
        raise Declined(
            f"I read {asked}",
            why_unsolved(reading.expression, money=reading.money, fewer=fewer),
        )
    solution = solve_task(part, reading, task, kind)
    return SolvedPart(item=item, part=part, reading=reading, solution=solution)


def _fewer(item: Item, part: Part, reading: Reading) -> str:
    """The last operation of what was read, its amounts worked out, where that can be told."""
    fewer = last_operation(reading.expression)
    if fewer is None or part.model is not None:
        return ""
    try:
        solve_part(item, replace(part, model=fewer), {})
    except Declined:
        return ""
    return write(fewer)


def solve(paths: Sequence[Path]) -> Iterator[dict[str, Any]]:
    """One row for each part, as `narrate solve --json` prints them; faults of files too."""
    loaded = load(paths)
    yield from (fault_row(fault, part=None) for fault in loaded.faults)
    for review in loaded.reviews:
        words = Words(review.language)
        for item in review.items:
            for outcome in solve_item(item):
                yield _row(outcome, words)


def _row(outcome: PartOutcome, words: Words) -> dict[str, Any]:
    if outcome.fault:
        return fault_row(outcome.fault, part=outcome.part.number)
    if outcome.declined:
        by_hand = outcome.hand is not None
        return declined_row(outcome.item, outcome.part, outcome.declined, by_hand=by_hand)
    assert outcome.solved is not None
    return solved_row(outcome.solved, words)


def read_parts(paths: Sequence[Path]) -> Iterator[dict[str, Any]]:
    """One row for each part with what its words say, as `narrate read --json` prints them."""
    loaded = load(paths)
    yield from (fault_row(fault, part=None) for fault in loaded.faults)
    for review in loaded.reviews:
        for item in review.items:
            for part in item.parts:
                try:
                    yield read_row(item, part, understand_part(item, with_work(part)))
                except Declined as declined:
                    yield declined_row(item, part, declined)


def check(paths: Sequence[Path]) -> Outcome:
    """Every fault, keys checked by solving, by place; what is declined; what to look at."""
    loaded = load(paths)
    items = [item for review in loaded.reviews for item in review.items]
    outcomes = [outcome for item in items for outcome in solve_item(item)]
    faults = [*loaded.faults, *(o.fault for o in outcomes if o.fault)]
    faults += {fault: None for review in loaded.reviews for fault in _beside(review)}
    return Outcome(
        faults=tuple(sorted(faults, key=lambda fault: fault.place)),
        declined=tuple(_declined(o) for o in outcomes if o.declined and not o.hand),
        notes=tuple(note for item in items for note in notes_of(item, outcomes)),
        left_out=len({id(o.item) for o in outcomes if o.declined and not o.hand}),
    )


def notes_of(item: Item, outcomes: Sequence[PartOutcome]) -> Iterator[str]:
    """What a person should look at in an item: numbers of one side only, and likely slips."""
    yield from agreement.notes(item)
    for o in outcomes:
        if o.item is not item or o.fault:
            continue
        yield from same_choices(item, o.part)
        if o.solved:
            yield from doubts(item, o.part, o.solved.reading.goal)


def _beside(review: Review) -> tuple[Fault, ...]:
    """The faults of the files that lie beside a review: the teacher's voice and her edits."""
    found: list[Fault] = []
    for look in (
        lambda: words_for(review, None).known,
        lambda: read_edits(edits_beside(review.file)),
    ):
        try:
            look()
        except FaultsFound as wrong:
            found += wrong.faults
    return tuple(found)


def _declined(outcome: PartOutcome) -> str:
    return f"{outcome.part.place}: {outcome.item.id}: {outcome.declined}"


def kinds() -> Iterator[str]:
    """What can be solved, with the codes of the standards, a line each."""
    for name, kind in find_kinds().items():
        yield f"{name.replace('_', ' ')}: {kind.SUMMARY} ({', '.join(kind.STANDARDS)})"


def make_lesson(
    review: Review,
    words: Words,
    edits: Edits | None = None,
    wishes: Wishes = AS_USUAL,
    brevity: Brevity | None = None,
    notes: list[str] | None = None,
) -> tuple[Lesson | None, list[Fault], list[str]]:
    """The lesson of a review's good items, None if it has none; and what was left out.

    Where it is known what pupils chose, what they missed most comes first, but for an order wished.
    What a person should look at is added to `notes`.
    """
    parts: list[Tellable] = []
    faults: list[Fault] = []
    declined: list[str] = []
    for item in review.items:
        outcomes = list(solve_item(item))
        faults.extend(o.fault for o in outcomes if o.fault)
        declined.extend(_declined(o) for o in outcomes if o.declined and not o.hand)
        if notes is not None:
            notes.extend(notes_of(item, outcomes))
        tellable = [o.hand or o.solved for o in outcomes if not o.fault]
        if len(tellable) == len(outcomes) and all(tellable):
            parts.extend(filter(None, tellable))
    if not wishes.order:
        parts = most_missed_first(parts)
    if not parts:
        return None, faults, declined
    return tell(review, parts, words, edits, brevity, asks=wishes.asks), faults, declined


def words_for(review: Review, templates: Path | None, wishes: Wishes = AS_USUAL) -> Words:
    """The words of a review: the teacher's templates, her voice, ours. Raises FaultsFound."""
    voice = read_voice(wishes.voice) if wishes.voice else voice_beside(review.file)
    return Words(review.language, templates, voice)


def write_edits(path: Path, *, templates: Path | None = None, wishes: Wishes = AS_USUAL) -> Path:
    """Writes the file of edits of a review, to start from, and returns where.

    Raises WrongUse where it is there already or nothing can be told, FaultsFound where the review
    cannot be read.
    """
    loaded = load([path])
    if not loaded.reviews:
        raise FaultsFound(loaded.faults)
    if len(loaded.reviews) > 1:
        raise WrongUse(f"{path} holds several reviews; give one of its files")
    review = loaded.reviews[0]
    (kept,) = without_skipped((review,)) or (review,)
    lesson, *_ = make_lesson(kept, words_for(review, templates, wishes), wishes=wishes)
    if lesson is None:
        raise WrongUse(f"{path} has no item that can be told; narrate check {path} says why")
    beside = edits_beside(review.file)
    save_new(beside, starting_text(lesson))
    return beside


def build(
    paths: Sequence[Path],
    *,
    to: Path,
    also: tuple[str, ...] = (),
    only: str | None = None,
    wpm: int | None = None,
    blank_work: bool = False,
    wishes: Wishes = AS_USUAL,
    options: Options | None = None,
    progress: Progress = lambda line: None,
) -> Outcome:
    """Writes each review to a folder of its own. Raises FaultsFound where none can be built.

    `only` is the id of an item, or `id.part`: just that is built, in a folder inside its review's.
    With `blank_work` the work is left to be written by hand; `options` are those of outputs.
    """
    outputs, chosen = wanted_outputs(also), chosen_options(options, progress)
    wishes = asking(outputs, wishes)
    loaded = load(paths)
    if not loaded.reviews:
        raise FaultsFound(loaded.faults)
    faults, declined = [f for f in loaded.faults if only is None or f.item is None], []
    notes: list[str] = []
    for review in in_turn(loaded, only, wishes):
        words = words_for(review, chosen.templates, wishes)
        speed = wpm or words.voice.pace
        brevity = Brevity(wishes, speed or pace(review.grade), words.spoken)
        lesson, wrong, left_out = edited_lesson(loaded, review, words, wishes, brevity, notes)
        faults.extend(wrong)
        declined.extend(left_out)
        if lesson:
            timeline = predict(lesson, speed)
            for line in not_told(lesson, brevity):
                progress(line)
            shown = without_work(lesson) if blank_work else lesson
            folder = to / review.id / ("" if only is None else f"only/{only}")
            whole = _whole(lesson, review, speed, folder, progress) if only is None else None
            write_files(shown, timeline, outputs, chosen, folder, progress, wpm=speed, told=whole)
    return Outcome(faults=tuple(faults), declined=tuple(declined), notes=tuple(notes))


def _whole(
    lesson: Lesson, review: Review, wpm: int | None, folder: Path, progress: Progress
) -> built.Told:
    """The lesson of a whole review, to be kept; her recording, if that is forgotten, is told."""
    if line := built.forgotten(folder):
        progress(line)
    return built.told(lesson, review, wpm)


def edited_lesson(
    loaded: Loaded,
    review: Review,
    words: Words,
    wishes: Wishes,
    brevity: Brevity,
    notes: list[str] | None = None,
) -> tuple[Lesson | None, list[Fault], list[str]]:
    """The lesson with the edits beside its review put in, and the faults of those too."""
    edits = Edits(read_edits(edits_beside(review.file)), words.spoken)
    lesson, faults, declined = make_lesson(review, words, edits, wishes, brevity, notes)
    if lesson:
        faults.extend(edits.faults_of(_missing(loaded, review, lesson)))
    return lesson, faults, declined


def _missing(loaded: Loaded, review: Review, lesson: Lesson) -> dict[str, str]:
    """The ids of a review's items that are not in its lesson, with why; "" where only one is."""
    there = {beat.item for beat in lesson.beats}
    picked = {item.id for item in review.items}
    found = {fault.item: "its item is faulty" for fault in loaded.faults if fault.item}
    for each in loaded.reviews:
        if each.id == review.id:
            ids = (item.id for item in each.items if item.id not in there)
            found |= {name: "its item is left out" if name in picked else "" for name in ids}
    return found


def in_turn(loaded: Loaded, only: str | None, wishes: Wishes) -> tuple[Review, ...]:
    """The reviews to build, all or with one item alone, in the order that is wished.

    Raises FaultsFound where that item, or the file of answers, is faulty.
    """
    reviews = loaded.reviews
    if wishes.answers is not None:
        reviews = with_answers(reviews, wishes.answers)
    if only is None:
        return in_order(without_skipped(reviews), wishes.order)
    own = tuple(f for f in loaded.faults if f.item == split_name(only)[0])
    if own:
        raise FaultsFound(own)
    return pick(reviews, only)
