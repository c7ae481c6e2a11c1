"""The arc of a part: which beats come before which, and how long a part takes."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import takewhile

import pytest

from narrate.exact.tree import terms, value
from narrate.lesson import alt
from narrate.lesson.templates import builtin_folder
from tests.lesson.told import ToldPart, ToldReview, demo, generated

REVIEWS = pytest.mark.parametrize("review", [demo, generated], ids=["demo", "generated"])

WORK = {
    "one size",
    "like size",
    "multiples",
    "multiples of the largest",
    "multiple of the largest",
    "product",
    "larger",
    "carried",
    "read strip",
    "rewrite",
    "improper",
    "whole as pieces",
    "regroup",
    "join",
    "mixed",
    "simplify",
    "rename",
    "read off",
}
ENDS = ("fit the boxes", "look back", "choose", "choose all", "told", "stop here", "take along")


def told(review: object) -> ToldReview:
    assert callable(review)
    found = review()
    assert isinstance(found, ToldReview)
    return found


def places(part: ToldPart, *moves: str) -> list[int]:
    return [place for place, move in enumerate(part.moves) if move in moves]


def work(part: ToldPart) -> list[int]:
    return places(part, *WORK)


@REVIEWS
def test_a_part_is_read_then_tried_then_asked(review: object) -> None:
    for part in told(review).parts:
        opening = [move for move in part.moves if move not in ("define", "strip given")]
        assert opening[:3] == ["read", "try", "asked"], part.name


@REVIEWS
def test_what_to_work_out_and_estimates_come_before_the_work(review: object) -> None:
    for part in told(review).parts:
        first = min(work(part), default=len(part.moves))
        before = places(part, "asked", "set up", "undo", "equal amounts")
        before += [k for k, move in enumerate(part.moves) if move.startswith("estimate ")]
        assert len(before) >= 2, part.name
        assert max(before) < first, part.name


@REVIEWS
def test_the_ending_comes_after_the_work_in_its_order(review: object) -> None:
    """Fit the boxes, look back, choose, take along: whichever of these a part has."""
    order = {"fit the boxes": 0, "look back": 1, "choose": 2, "choose all": 2, "told": 2}
    for part in told(review).parts:
        ends = places(part, *ENDS)
        assert ends, part.name
        assert max(work(part), default=0) < min(ends), part.name
        ranks = [order[move] for move in part.moves if move in order]
        assert ranks == sorted(ranks), part.name


@REVIEWS
def test_the_sentence_to_take_along_is_last(review: object) -> None:
    parts = [part for part in told(review).parts if "take along" in part.moves]
    assert len(parts) * 2 >= len(told(review).parts)
    for part in parts:
        assert part.moves[-1] == "take along", part.name
        assert part.moves.count("take along") == 1, part.name


@REVIEWS
def test_choices_go_after_the_step_they_rest_on(review: object) -> None:
    """And before the next step: each strike follows its reason at once, in the steps' order."""
    struck = 0
    for part in told(review).parts:
        steps = part.solved.solution.steps
        for letter, place in _strikes(part):
            rule_out = next(r for r in part.solved.solution.rule_outs if r.letter == letter)
            step = steps[rule_out.step]
            here = _before(part, place)
            assert here == step.move, (part.name, letter, here, step.move)
            struck += 1
        assert {letter for letter, _ in _strikes(part)} == {
            rule_out.letter for rule_out in part.solved.solution.rule_outs
        }
    assert struck


def _strikes(part: ToldPart) -> Iterator[tuple[str, int]]:
    """The letters struck by a beat, as the script tells what appears."""
    for place, beat in enumerate(part.beats):
        if beat.move == "rule out":
            for shown in beat.appears:
                found = re.search(r"\b(?:choice |strike )?([A-H])\b", shown)
                assert found, shown
                yield found.group(1), place


def _before(part: ToldPart, place: int) -> str:
    """The last move before a beat that is neither a strike, a slip, a doubt nor a definition."""
    aside = ("rule out", "slip", "doubt", "define")
    return next(move for move in reversed(part.moves[:place]) if move not in aside)


@REVIEWS
def test_a_slip_is_named_right_after_its_choice_is_struck(review: object) -> None:
    named = 0
    for part in told(review).parts:
        for place in places(part, "slip"):
            before = [m for m in part.moves[:place] if m != "define"]
            assert before[-1] == "rule out", part.name
            named += 1
    assert named


TERMS = sorted(
    (path.stem.replace("-", " ") for path in (builtin_folder() / "en" / "define").glob("*.j2")),
    key=len,
    reverse=True,
)


@REVIEWS
def test_terms_are_explained_before_their_first_use(review: object) -> None:
    """Pre-training (Mayer 2017): each key term is defined before it is first used."""
    defined: set[str] = set()
    for beat in told(review).lesson.beats:
        said = " ".join(s.say for s in beat.sentences if not s.stem).lower()
        for term in TERMS:
            if beat.move == "define" and _names(beat.id) == term:
                assert term not in defined, term
                defined.add(term)
            if beat.item and re.search(rf"\b{term}s?\b", said):
                assert term in defined, (term, beat.id)


def _names(beat_id: str) -> str:
    """The term that a definition's beat is named after."""
    last = beat_id.rpartition(".")[2].removeprefix("define-")
    return re.sub(r"-\d+$", "", last).replace("-", " ")


@REVIEWS
def test_definitions_can_be_left_out(review: object) -> None:
    beats = told(review).lesson.beats
    assert all(beat.optional == (beat.move == "define") for beat in beats)


# -- times: 30 to 100 s for a bare part, 70 to 180 s for a story (target of the project's own)


@REVIEWS
def test_stories_take_70_to_180_seconds(review: object) -> None:
    lengths = {part.name: part.ms for part in told(review).parts if part.solved.reading.story}
    assert not {k: ms for k, ms in lengths.items() if not 70_000 <= ms <= 180_000}


@REVIEWS
def test_bare_parts_take_30_seconds_or_more(review: object) -> None:
    lengths = [part.ms for part in told(review).parts if not part.solved.reading.story]
    assert min(lengths) >= 30_000


@REVIEWS
def test_most_bare_parts_take_100_seconds_or_less(review: object) -> None:
    """Select-all, and four choices held against an unlike sum, take longer: each is a step."""
    lengths = [part.ms for part in told(review).parts if not part.solved.reading.story]
    assert sum(ms <= 100_000 for ms in lengths) * 10 >= len(lengths) * 6


LONG_FORMS = re.compile(r"select-all|equal-sums|claim|bean-row|slips|first-line|strip|way|bare")


@REVIEWS
def test_no_bare_part_takes_200_seconds(review: object) -> None:
    lengths = {part.name: part.ms for part in told(review).parts if not part.solved.reading.story}
    assert max(lengths.values()) < 200_000
    assert all(LONG_FORMS.match(name) for name, ms in lengths.items() if ms > 125_000)


@REVIEWS
def test_no_picture_tells_the_answer_before_the_work_has_it(review: object) -> None:
    """Neither the script's left column nor what a screen reader says of a drawing."""
    seen = 0
    for part in told(review).parts:
        goal = part.solved.reading.goal
        amounts = {abs(value(term)) for _, term in terms(goal.asked)}
        plain = goal.answer.denominator == 1  # "one" also counts the wholes of a bar
        if goal.form != "value" or goal.answer in amounts or goal.answer <= 0 or plain:
            continue
        answer = alt.words(goal.answer)
        for beat in takewhile(lambda beat: beat.move != "join", part.beats):
            if beat.move in ("set up", "rewrite", "shade strip"):
                seen += 1
                said = [shown for shown in beat.appears if "=" not in shown]
                assert not any(re.search(rf"\b{answer}\b", s) for s in said), (part.name, said)
    assert seen
