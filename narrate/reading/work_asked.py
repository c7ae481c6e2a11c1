"""Questions for an expression or an equation: the story is read for the work that it asks.

Amounts may be told by a letter ("she puts n seeds in each pot"): the story is read with numbers in
the letter's place, several times, and stands only where every reading says the same work.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from narrate.errors import Declined, ExactError
from narrate.exact.caption import write
from narrate.exact.tree import (
    Blank,
    Expr,
    Group,
    Neg,
    Op,
    Over,
    Relation,
    Whole,
    Writing,
    has_blank,
    value,
    walk,
)
from narrate.items.item import Choice, Item, Part
from narrate.items.texts import told_work
from narrate.reading.bare import find_bare
from narrate.reading.goal import Goal
from narrate.reading.reading import Reading
from narrate.reading.saying import (
    in_order,
    same_by_another_way,
    says_same,
    unknowns,
    work_of,
)
from narrate.reading.situation import misleading_word
from narrate.reading.tellings import all_words, signs_of, tellings, unknown_of
from narrate.reading.words import form_letters
from narrate.reading.words.asks_work import is_letter
from narrate.reading.words.forms import read_form
from narrate.reading.words.lexicon import NO_THING
from narrate.reading.words.parts import situation_of, words_of
from narrate.reading.words.plain import LONGEST, word_set
from narrate.reading.words.story import tell
from narrate.reading.words.token import Token
from narrate.reading.words.tokens import tokens
from narrate.reading.words.understand import read_story
from narrate.reading.words.understood import Understood

_ASKS = re.compile(
    r"\b(?:which|what)\b[^.?]{0,30}\b(?:expression|equation|number sentence)s?\b", re.IGNORECASE
)
_HOW = re.compile(r"\bhow (?:can|could|do|does|should|would)\b[^.?]*\bfind\b", re.IGNORECASE)
_WHICH = "declare the right one with `key:`, and say what to work out with `model:`"


def asks_for_work(part: Part) -> bool:
    """Whether a part asks for the expression or equation of a story, and all choices are such."""
    if part.claim is not None or len(part.choices) < 2 or part.select_all:
        return False
    asks = _ASKS.search(part.ask) or (_HOW.search(part.ask) and _in_words(part))
    work = all(_is_work(choice.tree) for choice in part.choices)
    if not asks or not work:
        return False
    if part.model is not None:  # else they are asked to be equal to it
        model = part.model
        if isinstance(model, Relation):
            return False
        return any(says_same(model, choice.tree) for choice in part.choices)
    return find_bare(part.ask) is None


def _in_words(part: Part) -> bool:
    return not any(prose_sign in c.text for c in part.choices for prose_sign in "+=×÷")


def _is_work(tree: Writing | None) -> bool:
    if tree is None or (isinstance(tree, Relation) and not has_blank(tree)):
        return False
    return any(isinstance(node, Op | Over) for node in walk(tree))


# -- choices told in words or in dollars


def with_work(part: Part) -> Part:
    """A part whose choices tell their work in words (divide 180 by 20) with that work as trees."""
    if not part.choices or not (_ASKS.search(part.ask) or _HOW.search(part.ask)):
        return part
    told = tuple(c if c.tree is not None else _as_work(c) for c in part.choices)
    return replace(part, choices=told) if all(c.tree is not None for c in told) else part


def _as_work(choice: Choice) -> Choice:
    return replace(choice, tree=told_work(choice.text))


# -- the reading


def read_work(item: Item, part: Part) -> Reading:
    """The part, read for the work that its story asks. Raises Declined where it is not certain."""
    understood = None
    if part.model is not None and not isinstance(part.model, Relation):
        expression = part.model
    else:
        understood = understand_work(item, part)
        assert understood.expression is not None
        expression = understood.expression
    _hold_choices(part, expression)
    situation = situation_of(understood) if understood and understood.situation else "steps"
    plain_sum = not any(isinstance(n, Op) and n.sign in "×÷" for n in walk(expression))
    return Reading(
        goal=Goal(form="expression", asked=expression, answer=worth_of(expression)),
        expression=expression,
        equation=None,
        target=None,
        situation=situation,
        unknown=unknown_of(item, part),
        tellings=tuple(tellings(item, part, expression, situation)),
        misleading=misleading_word(signs_of(expression), all_words(item, part))
        if plain_sum
        else "",
        money=understood is not None and understood.money,
        counted=understood.counted if understood else (),
    )


def worth_of(expression: Expr) -> Fraction:
    """The value of the work; 0 stands for none where an amount is a letter, and is never told."""
    try:
        return value(expression)
    except ExactError:
        return Fraction(0)


def _hold_choices(part: Part, expression: Expr) -> None:
    """Raises Declined where no choice says the work, or one may or may not say it."""
    for choice in part.choices:
        assert choice.tree is not None
        if work_of(choice.tree) is None:
            raise Declined(
                f"choice {choice.letter} ({choice.text}) does not say what its unknown is", _WHICH
            )
        if same_by_another_way(expression, choice.tree):
            raise Declined(
                f"I read {write(expression)}; choice {choice.letter} ({choice.text}) makes the "
                "same in another way",
                "say which of them is meant with `key:` and `told:`, or leave it out",
            )
    if not any(says_same(expression, choice.tree) for choice in part.choices):
        raise Declined(
            f"I read {write(expression)}, but no choice says that",
            "correct the choices, or add a `model:` line that says what to work out",
        )


def understand_work(item: Item, part: Part) -> Understood:
    """What the story of such a part asks to be worked out. Raises Declined."""
    text = words_of(item, part)
    if len(text) > LONGEST:
        raise Declined(f"the words are {len(text)} characters long", f"use at most {LONGEST}")
    letters = _letters(text, part)
    if not letters:
        found = read_story(tell(text, asks_work=True), text)
        _refuse_none(found)
        return found
    if len(letters) > 1:
        raise Declined(
            f"amounts are told by the letters {' and '.join(sorted(letters))}",
            "one letter can be read; declare the right choice with `key:` and tell it with `told:`",
        )
    return _by_stand_ins(text, letters.pop())


def _refuse_none(found: Understood) -> None:
    if found.expression is None or found.unknown == "remainder":
        raise Declined("the question asks for a number that no one expression makes", _WHICH)


def _letters(text: str, part: Part) -> set[str]:
    """The letters that tell an amount: in the words they stand where a number would."""
    said = tokens(text)
    told = {t.text for t, after in pairwise(said) if is_letter(t) and _counts(after)}
    told |= {found[1] for found in _LET.finditer(text)}
    unknown = {
        name
        for choice in part.choices
        if isinstance(choice.tree, Relation)
        for name in unknowns(choice.tree)
    }
    used = {
        node.name
        for choice in part.choices
        if choice.tree is not None
        for node in walk(choice.tree)
        if isinstance(node, Blank)
    }
    if used - told - unknown:
        letter = sorted(used - told - unknown)[0]
        raise Declined(f"the words do not tell an amount by the letter {letter}", _WHICH)
    return (told & used) - unknown


_LET = re.compile(r"\b(?:[Ll]et|[Ii]f) ([b-hj-z]) (?:represents?|be|equals?|is|stands? for)\b")
_NO_NAME = word_set("is are was were be has have had represents represent stands stand equals")


def _counts(after: Token) -> bool:
    """Whether a letter before a word counts what it names: n seeds, but find n, the seeds."""
    return after.kind == "w" and after.low not in NO_THING | _NO_NAME


# -- letters


def _by_stand_ins(text: str, letter: str) -> Understood:
    """The one reading for every number in the letter's place."""
    made: dict[str, Understood] = {}
    why: Declined | None = None
    for number in _stand_ins(text):
        try:
            found = read_form(_with_number(text, letter, number), form_letters.ROWS)
            found = found or read_story(tell(text, {letter: number}, asks_work=True), text)
        except Declined as declined:
            why = why or declined
            continue
        _refuse_none(found)
        named = _with_letter(found, {Whole(number): Blank(letter)})
        assert named.expression is not None
        made[in_order(named.expression)] = named
    if len(made) == 1:
        return next(iter(made.values()))
    if why is not None and not made:
        raise Declined(f"{why.understood} with a number for {letter}", why.add)
    raise Declined(f"the work is not the same for every {letter}", _WHICH)


def _with_number(text: str, letter: str, number: int) -> str:
    """A text with a number where a letter stands alone."""
    return re.sub(rf"(?<![\w'])(?<!, ){letter}(?![\w',])", str(number), text)


def _stand_ins(text: str) -> Iterator[int]:
    """Numbers that are in no way those of a text: large and small ones, and some that divide."""
    told = {t.value for t in tokens(text) if t.kind == "n" and t.tree is not None}
    told |= {1 / n for n in told if n} | {n / 100 for n in told}
    wholes = [int(n) for n in told if n.denominator == 1 and n > 1]
    most = max(wholes, default=1)
    divisors = [d for d in (2, 3, 4, 5, 6, 7, 8, 9, 10, 12) if any(n % d == 0 for n in wholes)]
    product = 1
    for number in wholes[:3]:
        product *= number
    wanted = [*divisors[:3], *divisors[-1:], 7 * product, 11 * most + 2, 13]
    fresh = [n for n in dict.fromkeys(wanted) if n not in told]
    yield from fresh[:6]


def _with_letter(found: Understood, letters: Mapping[Expr, Expr]) -> Understood:
    assert found.expression is not None
    return replace(
        found,
        expression=_put(found.expression, letters),
        rounding="",
        counted=tuple(replace(c, tree=_put(c.tree, letters)) for c in found.counted),
    )


def _put(tree: Expr, letters: Mapping[Expr, Expr]) -> Expr:
    match tree:
        case Op(sign, left, right):
            return Op(sign, _put(left, letters), _put(right, letters))
        case Group(inner):
            return Group(_put(inner, letters))
        case Neg(inner):
            return Neg(_put(inner, letters))
        case Over(top, bottom):
            return Over(_put(top, letters), _put(bottom, letters))
        case _:
            return letters.get(tree, tree)
