"""Twins of items: the same question with fresh numbers, solved, and nothing of the old answer left.

What a twin must keep is the project's own (README, "For whoever was away"); that its answer is
right is held against plain `fractions.Fraction` arithmetic on the terms it was read to.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import combinations
from math import gcd
from pathlib import Path

import pytest

from narrate.errors import Declined
from narrate.exact.tree import Frac, Mixed, Relation, terms, value, walk
from narrate.items.item import Item
from narrate.items.loading import load
from narrate.lesson.solved import SolvedPart
from narrate.shelf import SOLVER
from narrate.twins.making import twin
from narrate.twins.numerals import Numeral, numerals_of, numerals_put
from tests.generated import loaded, made
from tests.solving import load_one

ROOT = Path(__file__).resolve().parents[2]
DEMO = load([ROOT / "problems"]).reviews


def twins(items: list[Item], count: int) -> list[tuple[Item, Item]]:
    """The first `count` items that have a twin, each with it."""
    found = []
    for item in items:
        try:
            found.append((item, twin(item, SOLVER)))
        except Declined:
            continue
        if len(found) == count:
            break
    return found


PAIRS = twins([item for item, _ in loaded(made(110, seed=7))], 50)
DEMO_PAIRS = twins([item for review in DEMO for item in review.items], 28)
EVERY = [*PAIRS, *DEMO_PAIRS]


def solved(item: Item) -> tuple[SolvedPart, ...]:
    found = SOLVER.solved(item)
    assert found is not None
    return found


def parts(pairs: list[tuple[Item, Item]]) -> list[tuple[SolvedPart, SolvedPart]]:
    return [both for old, new in pairs for both in zip(solved(old), solved(new), strict=True)]


PARTS = parts(EVERY)


def denominators(part: SolvedPart) -> list[int]:
    found = [n.denominator for n in walk(part.reading.expression) if isinstance(n, Frac | Mixed)]
    return list(dict.fromkeys(found))


def relation(one: int, other: int) -> tuple[bool, bool, bool]:
    """Whether one is a multiple of the other, the other of it, or they share no factor."""
    return one % other == 0, other % one == 0, gcd(one, other) == 1


def test_there_are_fifty_generated_ones_and_most_of_the_demo() -> None:
    assert len(PAIRS) == 50
    assert len(DEMO_PAIRS) >= 26  # of 28: one has a diagram, one a box in a fraction


class TestKept:
    """What makes a twin the same item."""

    def test_the_form_of_the_question(self) -> None:
        assert all(old.reading.goal.form == new.reading.goal.form for old, new in PARTS)

    def test_the_key_letters(self) -> None:
        assert all(old.solution.key == new.solution.key for old, new in PARTS)

    def test_the_number_of_amounts_and_their_signs(self) -> None:
        for old, new in PARTS:
            signs = [[s for s, _ in terms(p.reading.expression)] for p in (old, new)]
            assert signs[0] == signs[1]

    def test_how_denominators_go_together(self) -> None:
        for old, new in parts(PAIRS):
            pairs = [combinations(denominators(part), 2) for part in (old, new)]
            assert [relation(*p) for p in pairs[0]] == [relation(*p) for p in pairs[1]]

    def test_regrouping(self) -> None:
        moves = [[{s.move for s in p.solution.steps} for p in both] for both in PARTS]
        assert all(("regroup" in old) == ("regroup" in new) for old, new in moves)
        assert any("regroup" in old for old, _ in moves)

    def test_the_slip_behind_each_choice(self) -> None:
        told = 0
        for old, new in PARTS:
            for letter, slip in old.solution.slips.items():
                assert new.solution.slips[letter] == slip, (new.item.id, letter)
                told += 1
        assert told > 60

    def test_words_but_for_numbers(self) -> None:
        def bare(text: str) -> str:
            return "".join(c for c in text if not c.isdigit() and c not in " /,.")

        assert all(bare(old.part.ask) == bare(new.part.ask) for old, new in parts(DEMO_PAIRS))


class TestFresh:
    """What must not be the same: a make-up tester may see the twin."""

    def test_the_old_answer_is_nowhere(self) -> None:
        for old, new in PARTS:
            answer = old.solution.answer
            trees = [c.tree for c in new.part.choices]
            values = [value(t) for t in trees if t is not None and not isinstance(t, Relation)]
            assert answer not in [new.solution.answer, *values], new.item.id

    def test_every_number_of_the_words(self) -> None:
        for old, new in PARTS:
            for was, now in zip(numerals_of(old.part.ask), numerals_of(new.part.ask), strict=True):
                assert was != now, new.item.id


class TestSound:
    """A twin is a good item by itself."""

    def test_the_answer_is_right(self) -> None:
        """Added up term by term with plain fractions, where it is a sum without a blank."""
        seen = 0
        for _, new in PARTS:
            signed = terms(new.reading.expression)
            plain = all(isinstance(t, Frac | Mixed) for _, t in signed)
            if plain and new.reading.target is None:
                total = Fraction(0)
                for sign, t in signed:
                    assert isinstance(t, Frac | Mixed)
                    whole = t.whole if isinstance(t, Mixed) else 0
                    total += sign * (whole + Fraction(t.numerator, t.denominator))
                assert total == new.solution.answer, new.item.id
                seen += 1
        assert seen > 40

    def test_no_two_choices_are_alike(self) -> None:
        for _, new in EVERY:
            for part in new.parts:
                texts = [choice.text for choice in part.choices]
                assert len(set(texts)) == len(texts)

    def test_every_wrong_choice_is_ruled_out(self) -> None:
        for _, new in PARTS:
            if new.part.choices:
                wrong = {c.letter for c in new.part.choices} - set(new.solution.key)
                assert {r.letter for r in new.solution.rule_outs} == wrong

    def test_the_same_item_has_the_same_twin(self) -> None:
        item = DEMO[0].items[0]
        assert twin(item, SOLVER) == twin(item, SOLVER)
        assert twin(replace(item, id="barrel"), SOLVER).parts != twin(item, SOLVER).parts


class TestLeftOut:
    """Where no sound twin can be made, that is said."""

    @pytest.mark.parametrize(
        ("stem", "keys", "why"),
        [
            ("Two cups hold 1/2 liter and 1/3 liter. How much is that in all?", {}, "in words"),
            (
                "1/2 + 1/3",
                {"stimulus": {"diagram": {"strip": {"wholes": 1, "parts": 6}}}},
                "diagram",
            ),
        ],
    )
    def test_by_name(self, stem: str, keys: dict[str, object], why: str) -> None:
        boxes = ["numerator", "denominator"]
        item = load_one(stem, boxes=boxes, model="1/2 + 1/3", **keys)
        with pytest.raises(Declined, match=why):
            twin(item, SOLVER)

    def test_sentences_as_choices(self) -> None:
        item = load_one(
            "Which is true of 1/2 + 1/3?",
            choices={"A": "It is more than one.", "B": "It is less than one."},
            key="B",
            model="1/2 + 1/3",
        )
        with pytest.raises(Declined, match="sentences"):
            twin(item, SOLVER)


def test_the_numbers_of_an_item_beside_it_are_not_drawn() -> None:
    item = load_one("1/2 + 1/3", boxes=["numerator", "denominator"])
    beside = [twin(item, SOLVER)]
    for _ in range(3):
        beside.append(twin(item, SOLVER, beside))
    numbers = {frozenset(numerals_of(made.parts[0].ask)) for made in beside}
    assert len(numbers) == len(beside)
    assert twin(item, SOLVER, beside[1:]) == beside[0]  # and others are drawn as ever


def test_numerals_are_exchanged_in_words_and_in_lines() -> None:
    old: dict[Numeral, Numeral] = {Frac(3, 4): Frac(1, 6), Mixed(2, 1, 5): Mixed(3, 2, 7)}
    text = "In grade 3, add 3/4 liter to 2 1/5 liters: 2 1/5 + 3/4 = □"
    wanted = "In grade 3, add 1/6 liter to 3 2/7 liters: 3 2/7 + 1/6 = □"
    assert numerals_put(text, old) == wanted
