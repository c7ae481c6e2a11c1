"""Reviews told, to be looked at by the tests of words, of the arc and of whole scripts."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from narrate.items.item import Item, Review
from narrate.items.loading import load
from narrate.lesson.lesson import Beat, Lesson, Sentence, Timeline
from narrate.lesson.review import tell
from narrate.lesson.solved import SolvedPart
from narrate.lesson.telling import tell_part
from narrate.lesson.timeline import predict
from narrate.lesson.view import Told
from narrate.lesson.wording import Words
from narrate.pipeline import solve_item
from tests.generated import loaded, made_with_numbers, made_with_products
from tests.generated import parts as generated_parts

DEMO = Path(__file__).parents[2] / "problems" / "garden-week.yaml"
KITCHEN = sorted((Path(__file__).parents[1] / "kitchen_week").glob("*.*"))


@dataclass(frozen=True, slots=True)
class ToldPart:
    """A part with its beats, in order, and its length in milliseconds."""

    solved: SolvedPart
    beats: tuple[Beat, ...]
    ms: int

    @property
    def name(self) -> str:
        return f"{self.solved.item.id}.{self.solved.part.number}"

    @property
    def narration(self) -> Iterator[Sentence]:
        """What the teacher says besides the item's own words and its label."""
        for beat in self.beats:
            for place, sentence in enumerate(beat.sentences):
                if not sentence.stem and not (beat.move == "read" and place == 0):
                    yield sentence

    @property
    def moves(self) -> list[str]:
        return [beat.move for beat in self.beats]


@dataclass(frozen=True, slots=True)
class ToldReview:
    """A lesson with its parts."""

    lesson: Lesson
    parts: tuple[ToldPart, ...]


def told_review(review: Review) -> ToldReview:
    """A review of items that all can be solved, told."""
    solved = [part for item in review.items for part in _solved(item)]
    lesson = tell(review, solved, Words(review.language))
    return ToldReview(lesson, tuple(_parts(lesson, predict(lesson), solved)))


def told_alone(
    items: Iterable[Item], known: Iterable[str] = ()
) -> Iterator[tuple[SolvedPart, tuple[Told, ...]]]:
    """The parts of items told as one review, without pages; the class knows some terms."""
    words, defined = Words("en"), set(known)
    for part in (part for item in items for part in _solved(item)):
        yield part, tell_part(words, part, defined)


def _solved(item: Item) -> Iterator[SolvedPart]:
    """The parts of an item; none where one is declined (as a build leaves the item out)."""
    outcomes = list(solve_item(item))
    if all(outcome.solved and not outcome.fault for outcome in outcomes):
        yield from (outcome.solved for outcome in outcomes if outcome.solved)


def _parts(lesson: Lesson, times: Timeline, solved: Iterable[SolvedPart]) -> Iterator[ToldPart]:
    for each in solved:
        key = each.item.id, each.part.number
        beats = tuple(beat for beat in lesson.beats if (beat.item, beat.part) == key)
        yield ToldPart(each, beats, sum(times.beats[beat.id].length for beat in beats))


def review_of(path: Path) -> Review:
    """The one review of a file without a fault."""
    found = load([path])
    assert not found.faults, found.faults
    return found.reviews[0]


@cache
def demo() -> ToldReview:
    """The demo review."""
    return told_review(review_of(DEMO))


@cache
def market() -> ToldReview:
    """The second demo review: whole numbers and decimals."""
    return told_review(review_of(DEMO.with_name("kitchen-market.yaml")))


@cache
def harvest() -> ToldReview:
    """The third demo review: rounding and other questions that ask for more than a value."""
    return told_review(review_of(DEMO.with_name("harvest-count.yaml")))


@cache
def numbers() -> ToldReview:
    """Generated items with whole numbers and decimals."""
    items = tuple(item for item, _ in loaded(made_with_numbers(120, seed=5)))
    review = Review(id="numbers", title="Numbers", grade=5, language="en", items=items)
    return told_review(review)


WORK_ITEMS = Path(__file__).parents[1] / "reading" / "work_items.tsv"


@cache
def work_asked() -> ToldReview:
    """Items that ask for the expression or equation of a story, as many as a review may hold."""
    rows = [line.split("\t") for line in WORK_ITEMS.read_text("utf-8").splitlines()]
    items = [
        {
            "id": f"work-{place}",
            "label": f"Question {place}",
            "stem": stem,
            "choices": dict(zip("ABCD", choices.split(" | "), strict=True)),
        }
        for place, (_, key, stem, choices) in enumerate((r for r in rows if len(r) > 1), 1)
        if key != "-"
    ]
    with TemporaryDirectory() as folder:
        path = Path(folder) / "work.json"
        path.write_text(json.dumps({"review": "Work", "grade": 5, "items": items}), "utf-8")
        review = review_of(path)
    solved = tuple(item for item in review.items if [*_solved(item)])
    return told_review(replace(review, items=solved[:MOST_ITEMS]))


MOST_ITEMS = 20
"""So many items a review of the tests holds at most, as a week of school does."""


@cache
def products() -> ToldReview:
    """Generated items with products and quotients of fractions."""
    items = tuple(item for item, _ in loaded(made_with_products(120, seed=5)))
    review = Review(id="products", title="Products", grade=6, language="en", items=items)
    return told_review(review)


@cache
def generated() -> ToldReview:
    """Two hundred parts made up at random, told as one review of grade 5."""
    items = tuple(dict.fromkeys(item for item, _ in generated_parts(210, seed=5)))
    review = Review(id="generated", title="Generated", grade=5, language="en", items=items)
    return told_review(review)
