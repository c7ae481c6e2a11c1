"""Invariant 3: every rule-out is sound, over all pairs with denominators up to 12 and samples."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import pytest

from narrate.exact.tree import Expr, Frac, Relation, value, write_sum
from narrate.lesson.solved import SolvedPart
from narrate.pipeline import solve_item
from narrate.reading.goal import Goal
from narrate.reading.read import read
from narrate.solution import estimate, facts
from narrate.solution.facts import Fact, FactRule
from narrate.solution.solve import make_task
from narrate.solution.steps import Step
from tests.generated import loaded, made
from tests.solution.sums import (
    Signed,
    all_pairs,
    asking,
    common,
    first_lines,
    forms_of,
    samples,
    solved,
    total,
    with_blank,
    wrong_answers,
    wrong_lines,
)

FIRST_LINE = "Which could be the first line of work?"


def unsound(goal: Goal, told: Iterable[Fact], answers: Iterable[Expr]) -> Iterator[str]:
    """What is wrong with told facts: one that does not hold, or does not admit an answer."""
    accepted = [answer for answer in answers if goal.accepts(answer)]
    assert accepted, goal
    for fact in told:
        if not fact.holds(goal):
            yield f"{fact} does not hold of {goal}"
        yield from (
            f"{fact} does not admit {answer} of {goal}"
            for answer in accepted
            if not fact.admits(answer)
        )


def _told(steps: Iterable[Step]) -> list[Fact]:
    return [fact for step in steps for fact in step.facts]


def _faults(part: SolvedPart, answers: Iterable[Expr]) -> list[str]:
    return list(unsound(part.reading.goal, _told(part.solution.steps), answers))


def _struck_badly(part: SolvedPart) -> Iterator[str]:
    """Choices struck without reason: a right one, or by a fact not told yet or that admits it."""
    struck = {rule_out.letter: rule_out for rule_out in part.solution.rule_outs}
    for choice in part.part.choices:
        rule_out = struck.get(choice.letter)
        if (rule_out is None) != part.reading.goal.accepts(choice.tree):
            yield f"{choice.text} of {part.reading.expression}"
        if rule_out is None:
            continue
        assert choice.tree is not None
        assert not isinstance(choice.tree, Relation)
        if rule_out.fact not in _told(part.solution.steps[: rule_out.step + 1]):
            yield f"{choice.text}: {rule_out.fact} is not told by then"
        if rule_out.fact.admits(choice.tree):
            yield f"{choice.text}: {rule_out.fact} admits it"


PAIRS = list(all_pairs())
OTHERS = [
    *samples(300, terms=2, seed=2),
    *samples(300, terms=3, seed=3),
    *samples(50, terms=4, seed=4),
]


def _shares(sums: list[list[Signed]], count: int) -> list[list[list[Signed]]]:
    return [sums[start::count] for start in range(count)]


SHARES = [*_shares(PAIRS, 8), OTHERS]
EITHER_WAY_ROUND = [
    signed for signed in PAIRS if signed[1][0] < 0 or value(signed[0][1]) >= value(signed[1][1])
]
SHORTER_SHARES = [*_shares(EITHER_WAY_ROUND, 6), OTHERS]
"""Added amounts in one order only: what is costly to try is tried on each pair once."""


def test_the_domain_is_whole() -> None:
    """66 proper fractions with denominators 2 to 12; counted by hand: 1 + 2 + ... + 11."""
    assert sum(signed[1][0] > 0 for signed in PAIRS) == 66 * 66


@pytest.mark.parametrize("share", range(len(SHARES)))
def test_facts_about_a_value_are_sound_and_strike_only_wrong_choices(share: int) -> None:
    for number, signed in enumerate(SHARES[share]):
        right = forms_of(total(signed), common(signed))
        wrong = wrong_answers(signed)[number % 2 :: 2]
        part = solved(write_sum(signed), choices=[right[0], *wrong])
        assert part.reading.goal.form == "value"
        assert _faults(part, right) == []
        assert list(_struck_badly(part)) == []


@pytest.mark.parametrize("share", range(len(SHORTER_SHARES)))
def test_facts_about_a_first_line_are_sound_and_strike_only_wrong_lines(share: int) -> None:
    for number, signed in enumerate(SHORTER_SHARES[share]):
        right = first_lines(signed)
        wrong = wrong_lines(signed)[number % 2 :: 2]
        part = solved(write_sum(signed), FIRST_LINE, choices=[right[0], *wrong])
        assert part.reading.goal.form == "first line"
        assert _faults(part, right) == []
        assert list(_struck_badly(part)) == []


@pytest.mark.parametrize("share", range(len(SHORTER_SHARES)))
def test_facts_about_a_missing_number_are_sound(share: int) -> None:
    for number, signed in enumerate(SHORTER_SHARES[share]):
        equation, blank = with_blank(signed, number % len(signed))
        right = forms_of(blank, common(signed))
        wrong = [tree for tree in wrong_answers(signed)[::3] if value(tree) != blank]
        part = solved(equation, choices=[right[0], *wrong])
        assert part.reading.goal.form == "missing"
        assert _faults(part, right) == []
        assert list(_struck_badly(part)) == []


@pytest.mark.parametrize("share", range(len(SHORTER_SHARES)))
def test_facts_about_equal_expressions_are_sound(share: int) -> None:
    for signed in SHORTER_SHARES[share]:
        right = [*forms_of(total(signed), common(signed)), *first_lines(signed)]
        wrong = [*wrong_answers(signed), *wrong_lines(signed)[:1]]
        part = solved(write_sum(signed), choices=[first_lines(signed)[0], *wrong])
        assert part.reading.goal.form == "equivalent"
        assert _faults(part, right) == []
        assert list(_struck_badly(part)) == []


@pytest.mark.parametrize("share", range(len(SHORTER_SHARES)))
def test_facts_about_simplest_form_are_sound(share: int) -> None:
    for signed in SHORTER_SHARES[share]:
        right = forms_of(total(signed), common(signed))
        part = solved(
            write_sum(signed),
            choices=[right[0], *right[2:3], *wrong_answers(signed)],
            simplest=True,
        )
        if any(part.reading.goal.accepts(form) for form in right):
            assert _faults(part, right) == []
        assert list(_struck_badly(part)) == []


@pytest.mark.parametrize("share", range(len(SHARES)))
def test_every_estimate_is_sound_whether_it_is_used_or_not(share: int) -> None:
    """Estimates are told only where they decide something; each must be true everywhere."""
    for signed in SHARES[share]:
        item = asking(write_sum(signed))
        reading = read(item, item.parts[0])
        task = make_task(item, item.parts[0], reading, {})
        if not task.natural:
            continue
        steps = [make(task) for make in estimate._ESTIMATES]
        told = _told(step for step in steps if step is not None)
        right = forms_of(total(signed), common(signed))
        assert list(unsound(reading.goal, told, right)) == []


# -- the checker checks


def test_a_planted_unsound_fact_is_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    """ "The denominator must be the least common one": 18/20 are 9/10 as well."""
    rule = FactRule(
        lambda goal, size: True,
        lambda tree, size: isinstance(tree, Frac) and tree.denominator == size,
    )
    monkeypatch.setitem(facts.RULES, "least size", rule)
    caught = 0
    for signed in PAIRS[::50]:
        part = solved(write_sum(signed))
        planted = Fact(name="least size", args=(common(signed),))
        right = forms_of(total(signed), common(signed))
        caught += bool(list(unsound(part.reading.goal, [planted], right)))
    assert caught == len(PAIRS[::50])


def test_a_planted_untrue_fact_is_caught() -> None:
    part = solved(write_sum([(1, Frac(3, 4)), (1, Frac(1, 5))]))
    planted = Fact(name="above", args=(total([(1, Frac(1, 1))]),))
    found = list(unsound(part.reading.goal, [planted], [Frac(19, 20)]))
    assert len(found) == 2


# -- how early


def test_a_third_of_the_wrong_choices_go_before_the_answer_is_known(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Over 500 items: struck before the first step that says what the answer makes."""
    early = wrong = 0
    for item, _ in loaded(made(500, seed=11)):
        for outcome in solve_item(item):
            assert outcome.solved is not None
            solution = outcome.solved.solution
            known = _known_at(solution.steps)
            wrong += len(solution.rule_outs)
            early += sum(rule_out.step < known for rule_out in solution.rule_outs)
    with capsys.disabled():
        print(f"\n{early} of {wrong} wrong choices ({early / wrong:.0%}) go before the answer")
    assert wrong > 500
    assert early * 3 >= wrong


def _known_at(steps: tuple[Step, ...]) -> int:
    """The first step after which the answer is known: it is counted, filled in, or reached."""
    makes = [at for at, step in enumerate(steps) if any(f.name == "makes" for f in step.facts)]
    return makes[0] if makes else len(steps) - 1


@pytest.mark.parametrize("seed", range(2))
def test_choices_of_generated_items_are_struck_soundly(seed: int) -> None:
    for item, _ in loaded(made(700, seed=21 + seed)):
        for outcome in solve_item(item):
            assert outcome.solved is not None
            assert list(_struck_badly(outcome.solved)) == []
