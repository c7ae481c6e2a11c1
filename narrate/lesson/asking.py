"""What pupils are asked, made from a part as it was solved, and what is said of their answers.

It is asked when the item has been read and pupils are sent off to try it (the beat `try`): all that
is needed has been heard, and nothing yet told that gives the answer away. What is said of a wrong
answer does not give it away either: the slip that makes it, or the reason that strikes it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Any, Literal

from narrate.errors import FaultsFound
from narrate.exact.prose import caption_prose
from narrate.exact.tree import Decimal, Expr, Frac, Mixed, Money, Sayable, Whole
from narrate.items.item import Choice
from narrate.lesson import reasons
from narrate.lesson.lesson import Beat
from narrate.lesson.moments import slip_details
from narrate.lesson.question import Bound, Foreseen, Form, Offered, Question, Said
from narrate.lesson.solved import HandTold, SolvedPart, Tellable
from narrate.lesson.wording import Words
from narrate.solution.answer import as_boxed, result_form
from narrate.solution.slips import Written, made_by
from narrate.solution.steps import RuleOut
from narrate.solution.task import as_decimal, as_expr

MOVE = "try"
"""The beat at which pupils try it."""

MOST_FORESEEN = 60
"""So many numbers that slips make are known of one part."""

_SIDES: tuple[Literal["above"], Literal["below"]] = ("above", "below")

_HINTS = frozenset(
    {
        "counted in",
        "operation",
        "one size",
        "simplest",
        "shape",
        "whole things",
        "ends in",
        "keeps",
        "does",
        "neighbors",
        "judged",
        "tested",
        "rest below",
        "exchanged",
    }
)
"""Facts whose words, said of a choice by itself, do not give the answer away."""


def ask(words: Words, told: Tellable, beats: Sequence[Beat]) -> Question | None:
    """What is asked of a part, None where it has nothing to choose or fill in, or no time to."""
    beat = next((beat.id for beat in beats if beat.move == MOVE), None)
    if beat is None:
        return None
    words.next_part()
    if isinstance(told, HandTold):
        return _of_choices(words, told, beat, told.part.key, {}) if told.part.key else None
    solution = told.solution
    if told.part.choices:
        rule_outs = {each.letter: each for each in solution.rule_outs}
        return _of_choices(words, told, beat, solution.key, rule_outs)
    if told.part.boxes and told.reading.goal.form in ("value", "missing", "claim"):
        return _of_boxes(words, told, beat)
    return None


def _own_words(told: Tellable) -> tuple[str, ...]:
    """The item's own words, what its parts share before what this one asks."""
    shared = told.item.stimulus.text if told.item.stimulus else ""
    return tuple(caption_prose(text) for text in (shared, told.part.ask) if text)


def _said(words: Words, move: str, details: dict[str, Any]) -> Said:
    """The sentences of a move; none where each of its wordings has a word that she avoids."""
    try:
        return words.tell(move, details)
    except FaultsFound:
        return ()


# -- choices


def _of_choices(
    words: Words, told: Tellable, beat: str, key: Sequence[str], rule_outs: dict[str, RuleOut]
) -> Question:
    part = told.part

    def offered(choice: Choice) -> Offered:
        out = rule_outs.get(choice.letter)
        said: Said = ()
        if out is not None and isinstance(told, SolvedPart):
            said = _against(words, told, choice, out)
        text = caption_prose(choice.text)
        right = choice.letter in key
        return Offered(letter=choice.letter, text=text, right=right, told=said)

    return Question(
        beat=beat,
        words=_own_words(told),
        choices=tuple(map(offered, part.choices)),
        several=part.select_all,
        right=_said(words, "answered/right", {"letters": tuple(key), "answer": ""}),
        other=_said(words, "answered/other", {}),
        more=_said(words, "answered/more", {}) if part.select_all else (),
    )


def _against(words: Words, solved: SolvedPart, choice: Choice, out: RuleOut) -> Said:
    """What is said of a wrong choice: the slip that makes it, else the reason that strikes it."""
    part, solution = solved.part, solved.solution
    alone = reasons.alone(part, solution, out)
    details = reasons.details(part, solution, alone)
    if out.slip and words.has(f"slip/{out.slip}"):
        about = {
            "tree": reasons.named(words, choice),
            "fact": out.fact.name,
            **slip_details(solved, choice.tree),
        }
        if said := _said(words, f"slip/{out.slip}", about):
            return said
    if out.fact.name in _SIDES:
        found = {"bound": details["bound"], "tree": details["tree"]}
        return _said(words, f"answered/{out.fact.name}", found)
    move = reasons.move(alone, details)
    if out.fact.name in _HINTS or move == "ends":
        return _said(words, f"rule out/{move}", details)
    return ()


# -- boxes


def _of_boxes(words: Words, solved: SolvedPart, beat: str) -> Question:
    part, goal, solution = solved.part, solved.reading.goal, solved.solution
    form = _form(solved)
    wanted = "simplest" if goal.simplest and form != "mixed" else form
    answer = _in_dollars(solved, as_boxed(part, solution.result))
    return Question(
        beat=beat,
        words=_own_words(solved),
        boxes=part.boxes,
        unit=part.unit,
        answer=goal.answer,
        form=form,
        simplest=goal.simplest,
        foreseen=tuple(_foreseen(words, solved)),
        bounds=tuple(_bounds(words, solved)),
        right=_said(words, "answered/right", {"letters": (), "answer": answer}),
        other=_said(words, "answered/other", {}),
        not_as_asked=_said(words, f"answered/{wanted}", {}) if wanted != "any" else (),
    )


def _form(solved: SolvedPart) -> Form:
    """The form that the boxes or the words ask for; a box for any number takes any."""
    if result_form(solved.part, solved.reading) == "mixed":
        return "mixed"
    return solved.reading.goal.shape


def _in_dollars(solved: SolvedPart, tree: Expr) -> Sayable:
    if solved.reading.money and isinstance(tree, Whole | Decimal):
        return Money(tree)
    return tree


def _foreseen(words: Words, solved: SolvedPart) -> Iterator[Foreseen]:
    """The wrong numbers that slips make, as far as the lesson has words for the slip.

    Those written just so come first; the others are found by their value.
    """
    made = made_by(solved.solution.rules, solved.solution.task)
    written: dict[Written, str] = {}
    for number, slip in made.as_written.items():
        written.setdefault(_in_boxes(solved, *number), slip.name)
    for amount, slip in made.by_value.items():
        number = _in_boxes(solved, 0, amount.numerator, amount.denominator)
        written.setdefault(number, slip.name)
    for (whole, top, bottom), name in [*written.items()][:MOST_FORESEEN]:
        if bottom < 1 or whole < 0 or top < 0 or not words.has(f"slip/{name}"):
            continue
        tree = _tree(solved, whole, top, bottom)
        details = {"tree": _in_dollars(solved, tree), "fact": "", **slip_details(solved, tree)}
        if said := _said(words, f"slip/{name}", details):
            yield Foreseen(whole=whole, numerator=top, denominator=bottom, told=said)


def _in_boxes(solved: SolvedPart, whole: int, top: int, bottom: int) -> Written:
    """A number as it goes in the boxes of its part: with wholes apart, or as one fraction."""
    if "whole" not in solved.part.boxes or bottom < 1:
        return 0, whole * bottom + top, bottom
    return (whole, top, bottom) if whole else (*divmod(top, bottom), bottom)


def _tree(solved: SolvedPart, whole: int, top: int, bottom: int) -> Expr:
    """The same number as a tree, as a pupil writes it."""
    amount = whole + Fraction(top, bottom)
    if amount.denominator == 1 and (bottom == 1 or "numerator" not in solved.part.boxes):
        return as_expr(amount)
    if "numerator" not in solved.part.boxes:
        return as_decimal(amount) or as_expr(amount)
    return Mixed(whole, top, bottom) if whole else Frac(top, bottom)


def _bounds(words: Words, solved: SolvedPart) -> Iterator[Bound]:
    """What the estimates of the part say about any answer."""
    for step in solved.solution.steps:
        for fact in step.facts:
            for side in _SIDES:
                if fact.name == side:
                    amount = Fraction(fact.args[0])
                    bound = _in_dollars(solved, reasons.as_said(amount, step))
                    details = {"bound": bound, "tree": ""}
                    said = _said(words, f"answered/{side}", details)
                    yield Bound(side=side, amount=amount, told=said)
