"""What pupils are asked on a page, and what is said of each answer, over both demos and made items.

That a wrong answer's slip is named is held against the example that the Common Core gives (CCSSM
2010, 5.NF.A.2: "recognize an incorrect result 2/5 + 1/2 = 3/7, by observing that 3/7 < 1/2").
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from narrate.exact import prose
from narrate.exact.tree import Decimal, Frac, Mixed, Relation, Whole, WithRest, value, walk
from narrate.items.item import Review
from narrate.items.loading import load
from narrate.items.nodes import Text
from narrate.items.voice import NO_VOICE
from narrate.lesson.asking import ask
from narrate.lesson.hers import numbers_held
from narrate.lesson.lesson import Lesson
from narrate.lesson.question import Question, Said
from narrate.lesson.solved import SolvedPart
from narrate.lesson.wishes import Wishes
from narrate.lesson.wording import Words
from narrate.pipeline import make_lesson, solve_item
from tests.generated import loaded, made, made_with_numbers

PROBLEMS = Path(__file__).parents[2] / "problems"
ASKING = Wishes(asks=True)


def told(review: Review, words: Words | None = None) -> Lesson:
    lesson, faults, _ = make_lesson(review, words or Words(review.language), wishes=ASKING)
    assert lesson is not None
    assert not faults
    return lesson


def reviews() -> Iterator[Review]:
    yield load([PROBLEMS / "garden-week.yaml"]).reviews[0]
    yield load([PROBLEMS / "kitchen-market.yaml"]).reviews[0]
    yield load([PROBLEMS / "harvest-count.yaml"]).reviews[0]
    for source in (made(60, seed=11), made_with_numbers(60, seed=12)):
        items = tuple(item for item, _ in loaded(source))
        yield Review(id="made", title="Made", grade=5, language="en", items=items)


Asked = tuple[SolvedPart, Question]


@pytest.fixture(scope="module")
def every() -> list[Asked]:
    """Each solved part with what is asked of it."""
    found: list[Asked] = []
    for review in reviews():
        questions = {question.beat: question for question in told(review).questions}
        for item in review.items:
            for outcome in solve_item(item):
                name = f"{item.id}.{outcome.part.number}.try"
                if outcome.solved and name in questions:
                    found.append((outcome.solved, questions[name]))
    assert len(found) > 100
    return found


def text(said: Said) -> str:
    return " ".join(sentence.caption for sentence in said)


def one(source: str, words: Words | None = None) -> Question:
    """What is asked of a review of one item, written in YAML."""
    (question,) = told(review_of(source), words).questions
    return question


def review_of(source: str) -> Review:
    with TemporaryDirectory() as room:
        path = Path(room) / "one.yaml"
        path.write_text(f"items:\n  - {{id: one, {source}}}\n", encoding="utf-8")
        read = load([path])
        assert not read.faults
        return read.reviews[0]


class TestWhatIsAsked:
    def test_every_part_of_the_demos_is_asked_when_pupils_try_it(self) -> None:
        for name in ("garden-week", "kitchen-market", "harvest-count"):
            review = load([PROBLEMS / f"{name}.yaml"]).reviews[0]
            lesson = told(review)
            tried = [beat.id for beat in lesson.beats if beat.move == "try"]
            assert [question.beat for question in lesson.questions] == tried

    def test_the_telling_is_the_same_as_without(self) -> None:
        review = load([PROBLEMS / "garden-week.yaml"]).reviews[0]
        without, _, _ = make_lesson(review, Words(review.language))
        assert replace(told(review), questions=()) == without

    def test_its_words_are_those_of_the_item(self, every: list[Asked]) -> None:
        for solved, question in every:
            shared = solved.words_of("stimulus")
            given = [each for each in (shared, solved.part.ask) if each]
            assert list(question.words) == [prose.caption_prose(each) for each in given]

    def test_right_choices_are_those_that_answer_the_question(self, every: list[Asked]) -> None:
        for solved, question in every:
            for choice, offered in zip(solved.part.choices, question.choices, strict=True):
                assert offered.right == (choice.letter in solved.solution.key)
                if choice.tree is not None and solved.reading.goal.form != "told":
                    assert offered.right == solved.reading.goal.accepts(choice.tree)

    def test_boxes_want_what_the_lesson_writes_in_them(self, every: list[Asked]) -> None:
        count = 0
        for solved, question in every:
            if question.boxes:
                written = sum(map(Fraction, solved.solution.written.split()))
                assert question.answer == abs(written) or written < 0
                count += 1
        assert count > 20


class TestWhatIsSaid:
    def test_no_digits_are_spoken(self, every: list[Asked]) -> None:
        for _, question in every:
            for said in _all_said(question):
                assert not re.search(r"\d", " ".join(sentence.say for sentence in said))

    def test_every_number_is_of_the_part_or_of_the_answer(self, every: list[Asked]) -> None:
        """Nothing shown that was not computed (first invariant)."""
        for solved, question in every:
            lesson_numbers = numbers_held(solved, [])
            details = [
                abs(value(detail))
                for step in solved.solution.steps
                for detail in step.details.values()
                if isinstance(detail, Frac | Mixed)
            ]
            bounds = {bound.amount for bound in question.bounds}
            held = lesson_numbers | set(details) | bounds | {Fraction(10), solved.solution.answer}
            sizes = {step.details.get("size") for step in solved.solution.steps}
            held |= {Fraction(size) for size in sizes if isinstance(size, int)}
            for tree in (choice.tree for choice in solved.part.choices):
                if isinstance(tree, WithRest):
                    held |= {Fraction(tree.quotient), Fraction(tree.rest), Fraction(tree.by)}
            for choice in question.choices:
                _only(numbers_in(choice.told), held | _bounds_of(solved))
            for each in question.foreseen:
                own = each.whole + Fraction(each.numerator, each.denominator)
                _only(numbers_in(each.told), held | {own})

    def test_a_wrong_answer_does_not_give_the_right_one_away(self, every: list[Asked]) -> None:
        for solved, question in every:
            goal = solved.reading.goal
            if goal.form in ("told", "first line"):
                continue
            given = numbers_held(solved, []) if not question.boxes else _given(solved)
            wrong = [choice.told for choice in question.choices if not choice.right]
            wrong += [each.told for each in question.foreseen]
            wrong += [bound.told for bound in question.bounds]
            for said in (*wrong, question.other, question.not_as_asked):
                shown = numbers_in(said)
                assert goal.answer not in shown or goal.answer in given, text(said)

    def test_no_slip_makes_the_right_answer(self, every: list[Asked]) -> None:
        count = 0
        for _, question in every:
            for each in question.foreseen:
                assert each.whole + Fraction(each.numerator, each.denominator) != question.answer
                count += 1
        assert count > 100

    def test_a_bound_admits_the_answer(self, every: list[Asked]) -> None:
        for _, question in every:
            for bound in question.bounds:
                above = question.answer > bound.amount
                assert above == (bound.side == "above")
                assert question.answer != bound.amount

    def test_the_slip_of_the_standard_is_explained(self) -> None:
        """CCSSM (2010), 5.NF.A.2."""
        question = one("stem: 2/5 + 1/2, boxes: [numerator, denominator]")
        (slip,) = [
            each for each in question.foreseen if (each.numerator, each.denominator) == (3, 7)
        ]
        assert "3/7" in text(slip.told)
        assert "denominator" in text(slip.told)

    def test_a_choice_that_only_the_answer_speaks_against_gets_no_reason(self) -> None:
        question = one("stem: 3/4 + 1/5, choices: {A: 18/20, B: 19/20}")
        assert [text(choice.told) for choice in question.choices] == ["", ""]
        assert question.other


class TestForms:
    @pytest.mark.parametrize(
        ("source", "form", "simplest"),
        [
            ("stem: 3/4 + 1/5, boxes: [numerator, denominator]", "any", False),
            ("stem: 3/4 + 3/4, boxes: [whole, numerator, denominator]", "mixed", False),
            ("stem: 1/4 + 1/4, simplest: true, boxes: [numerator, denominator]", "any", True),
            ("stem: 'Find 48 × 25.', boxes: [number]", "any", False),
        ],
    )
    def test_what_the_boxes_ask(self, source: str, form: str, simplest: bool) -> None:
        question = one(source)
        assert (question.form, question.simplest) == (form, simplest)
        assert bool(question.not_as_asked) == (form != "any" or simplest)

    def test_what_is_told_by_hand_is_asked_by_its_key(self) -> None:
        source = (
            "stem: A patio is 2/3 tiled. How many tiles is that?, choices: {A: 6, B: 8}, key: B, "
            "told: [{say: Count the tiles., show: B}]"
        )
        question = one(source)
        assert [(each.letter, each.right) for each in question.choices] == [
            ("A", False),
            ("B", True),
        ]

    def test_without_a_key_what_is_told_by_hand_simply_goes_on(self) -> None:
        source = (
            "stem: How long is the row?, boxes: [number], told: [{say: It is as long as mine.}]"
        )
        assert told(review_of(source)).questions == ()

    def test_words_that_she_avoids_are_not_shown_either(self) -> None:
        """A slip all of whose wordings have such a word is passed over; the review is told."""
        review = review_of("stem: 3/8 + 2/8, boxes: [numerator, denominator]")
        item = review.items[0]
        avoided = (Text(place=item.place, text="denominator"),)
        words = Words("en", None, replace(NO_VOICE, avoid=avoided))
        (outcome,) = solve_item(item)
        assert outcome.solved
        usual = ask(Words("en"), outcome.solved, told(review).beats)
        question = ask(words, outcome.solved, told(review).beats)
        assert usual
        assert question
        assert any("denominator" in text(each.told) for each in usual.foreseen)
        assert not any("denominator" in text(said) for said in _all_said(question))
        assert question.foreseen


def _all_said(question: Question) -> Iterator[Said]:
    yield from (question.right, question.other, question.more, question.not_as_asked)
    yield from (choice.told for choice in question.choices)
    yield from (each.told for each in question.foreseen)
    yield from (bound.told for bound in question.bounds)


def numbers_in(said: Said) -> set[Fraction]:
    pieces = (piece for piece in prose.pieces(text(said)) if not isinstance(piece, str))
    return {abs(value(piece)) for piece in pieces if not isinstance(piece, Relation)}


def _only(found: set[Fraction], held: set[Fraction] | frozenset[Fraction]) -> None:
    assert found <= held, found - held


def _bounds_of(solved: SolvedPart) -> set[Fraction]:
    facts = (fact for step in solved.solution.steps for fact in step.facts)
    return {Fraction(fact.args[0]) for fact in facts if fact.name in ("above", "below")}


def _given(solved: SolvedPart) -> set[Fraction]:
    """The numbers of the item's own words."""
    words = f"{solved.words_of('stimulus')} {solved.part.ask}"
    pieces = (piece for piece in prose.pieces(words) if not isinstance(piece, str))
    nodes = (node for piece in pieces for node in walk(piece))
    return {value(node) for node in nodes if isinstance(node, Frac | Mixed | Whole | Decimal)}
