"""The rooms joined: items in; read, solved, told; outputs written.

    load -> read -> solve -> tell -> predict -> write

Read this file for the way that data goes; each step is one call into one room.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from typing import Any

from narrate.errors import Declined, Fault, FaultsFound, WrongUse
from narrate.exact.tree import Frac
from narrate.items.item import Item, Part, Review
from narrate.items.loading import load
from narrate.kinds import find_kinds, kind_of
from narrate.lesson.lesson import Lesson, Timeline
from narrate.lesson.solved import SolvedPart
from narrate.lesson.telling import tell
from narrate.lesson.timeline import predict
from narrate.lesson.wording import Words
from narrate.reading.read import read
from narrate.reading.words.parts import understand
from narrate.report import declined_row, fault_row, read_row, solved_row, times
from narrate.saving import save
from narrate.solution.keycheck import key_fault
from narrate.solution.solve import make_task
from narrate.solution.solve import solve as solve_task

Progress = Callable[[str], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What is wrong or left out: faults of the input, and items declined, each in one line."""

    faults: tuple[Fault, ...]
    declined: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PartOutcome:
    """One part after solving: solved, or declined, or at fault."""

    item: Item
    part: Part
    solved: SolvedPart | None = None
    declined: Declined | None = None
    fault: Fault | None = None


def solve_item(item: Item) -> Iterator[PartOutcome]:
    """Every part of an item in order; later parts find what earlier ones left on the board."""
    board: dict[Frac, Frac] = {}
    for part in item.parts:
        try:
            solved = solve_part(item, part, board)
        except Declined as declined:
            yield PartOutcome(item=item, part=part, declined=declined)
            continue
        board |= solved.solution.board
        fault = key_fault(item.id, part, solved.solution)
        yield PartOutcome(item=item, part=part, solved=solved, fault=fault)


def solve_part(item: Item, part: Part, board: dict[Frac, Frac]) -> SolvedPart:
    """A part, read and solved. Raises Declined where either is not certain."""
    reading = read(item, part)
    task = make_task(item, part, reading, board)
    kind = kind_of(task)
    if kind is None:
        raise Declined("I read what to work out", "no kind of problem solved so far fits it")
    solution = solve_task(part, reading, task, kind)
    return SolvedPart(item=item, part=part, reading=reading, solution=solution)


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
        return declined_row(outcome.item, outcome.part, outcome.declined)
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
                    yield read_row(item, part, understand(item, part))
                except Declined as declined:
                    yield declined_row(item, part, declined)


def check(paths: Sequence[Path]) -> Outcome:
    """Every fault, keys checked by solving, in the order of their places; and what is declined."""
    loaded = load(paths)
    outcomes = [o for review in loaded.reviews for item in review.items for o in solve_item(item)]
    faults = [*loaded.faults, *(o.fault for o in outcomes if o.fault)]
    return Outcome(
        faults=tuple(sorted(faults, key=lambda fault: fault.place)),
        declined=tuple(_declined(o) for o in outcomes if o.declined),
    )


def _declined(outcome: PartOutcome) -> str:
    return f"{outcome.part.place}: {outcome.item.id}: {outcome.declined}"


def kinds() -> Iterator[str]:
    """What can be solved, with the codes of the standards, a line each."""
    for name, kind in find_kinds().items():
        yield f"{name.replace('_', ' ')}: {kind.SUMMARY} ({', '.join(kind.STANDARDS)})"


def make_lesson(review: Review, words: Words) -> tuple[Lesson | None, list[Fault], list[str]]:
    """The lesson of a review's good items, None if it has none; and what was left out."""
    parts: list[SolvedPart] = []
    faults: list[Fault] = []
    declined: list[str] = []
    for item in review.items:
        outcomes = list(solve_item(item))
        faults.extend(o.fault for o in outcomes if o.fault)
        declined.extend(_declined(o) for o in outcomes if o.declined)
        if all(o.solved and not o.fault for o in outcomes):
            parts.extend(o.solved for o in outcomes if o.solved)
    return (tell(review, parts, words) if parts else None), faults, declined


def build(
    paths: Sequence[Path],
    *,
    to: Path,
    also: tuple[str, ...] = (),
    wpm: int | None = None,
    templates: Path | None = None,
    progress: Progress = lambda line: None,
) -> Outcome:
    """Writes each review to a folder of its own. Raises FaultsFound where none can be built."""
    outputs = _wanted(also)
    loaded = load(paths)
    if not loaded.reviews:
        raise FaultsFound(loaded.faults)
    faults, declined = list(loaded.faults), []
    for review in loaded.reviews:
        lesson, wrong, left_out = make_lesson(review, Words(review.language, templates))
        faults.extend(wrong)
        declined.extend(left_out)
        if lesson:
            timeline = predict(lesson, wpm)
            _write(lesson, timeline, outputs, to / review.id, progress)
    return Outcome(faults=tuple(faults), declined=tuple(declined))


def _wanted(also: tuple[str, ...]) -> dict[str, Any]:
    from narrate.outputs import find_outputs

    outputs = find_outputs()
    for name in also:
        if name not in outputs:
            raise WrongUse(f"there is no output {name!r}; there are: {', '.join(outputs)}")
    return {name: out for name, out in outputs.items() if out.DEFAULT or name in also}


def _write(
    lesson: Lesson, timeline: Timeline, outputs: dict[str, Any], folder: Path, progress: Progress
) -> None:
    for line in times(lesson, timeline):
        progress(line)
    for output in sorted(outputs.values(), key=lambda o: (o.FILE == "lesson.json", o.FILE)):
        save(folder / output.FILE, partial(output.write, lesson, timeline))
        progress(f"{folder / output.FILE}")
