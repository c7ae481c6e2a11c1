"""The same item with fresh numbers: a twin, for pupils who may still take the item as a test.

A twin has the form of its item: as many amounts, denominators related in the same way, the same
steps of work, the key in its place, and each wrong choice made by the slip that made the old one.
Numbers are drawn by the item's id, so the same item has the same twin; what is drawn is read,
solved and checked as any item is, and thrown away where anything differs.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import combinations, islice, product
from math import gcd
from random import Random

from narrate.errors import Declined, ExactError
from narrate.exact.tree import Decimal, Frac, Mixed, Relation, Whole, value
from narrate.items.item import Choice, Item, Part
from narrate.items.texts import read_choice
from narrate.lesson.solved import SolvedPart
from narrate.twins.choices import Old, choice_texts
from narrate.twins.numerals import NUMBER_WORD, Numeral, numerals_of, numerals_put, replaced

TRIES = 3_000
"""So many sets of numbers are drawn before an item is left out; most are seen at once not to do."""

MOST_SOLVED = 300
"""So many of them are solved before an item is left out."""

DENOMINATORS = (2, 3, 4, 5, 6, 8, 10, 12)
"""What a fresh denominator may be, beside the item's own: those of CCSSM (2010), grade 4."""

MOST_SIZES = 5
"""With more denominators than this an item gets no twin."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Solver:
    """How items are solved and looked at: the joined rooms, as the pipeline joins them.

    `solved` gives an item's parts, None where one is not solved or is at fault; `notes` counts what
    a person should look at in it.
    """

    solved: Callable[[Item], tuple[SolvedPart, ...] | None]
    notes: Callable[[Item], int]


def twin(item: Item, by: Solver, beside: Sequence[Item] = ()) -> Item:
    """The item with fresh numbers, other than those of any item `beside` it in a lesson.

    Raises Declined where no sound one is found.
    """
    old = by.solved(item)
    if old is None or any(part.told for part in item.parts):
        raise Declined(f"{item.id} is not solved by narrate", _LEAVE)
    if any(part.reading.goal.form in ("expression", "tested") for part in old):
        raise Declined(f"{item.id} asks for an expression, or has each choice tested", _LEAVE)
    _fit_for_twins(item)
    numerals = _numerals(item)
    if not numerals:
        raise Declined(f"no number of {item.id} is written in figures", _LEAVE)
    notes = by.notes(item)
    drawn = (_made(item, old, fresh, random) for fresh, random in _draws(item, numerals))
    taken = {frozenset(_numerals(other)) for other in beside}
    fresh_ones = (made for made in drawn if made and frozenset(_numerals(made)) not in taken)
    for made in islice(fresh_ones, MOST_SOLVED):
        if _is_sound(made, old, by) and by.notes(made) == notes:
            return made
    raise Declined(f"no fresh numbers were found that keep {item.id} as it is", _LEAVE)


_LEAVE = "write a twin yourself, or leave it out until it may be shown"


def _fit_for_twins(item: Item) -> None:
    """Raises Declined where something in the item holds numbers that cannot be exchanged."""
    if item.stimulus and (item.stimulus.diagram or item.stimulus.picture):
        raise Declined(f"{item.id} has a diagram or a picture", _LEAVE)
    for text in _texts(item):
        if found := NUMBER_WORD.search(text):
            raise Declined(f'{item.id} has a number in words ("{found.group()}")', _LEAVE)
    for part in item.parts:
        if any(choice.tree is None for choice in part.choices):
            raise Declined(f"{item.id} has sentences as choices", _LEAVE)


def _texts(item: Item) -> Iterator[str]:
    if item.stimulus:
        yield item.stimulus.text
    yield from (part.ask for part in item.parts)


# -- fresh numbers


def _draws(
    item: Item, numerals: Sequence[Numeral]
) -> Iterator[tuple[dict[Numeral, Numeral], Random]]:
    """Sets of fresh numerals, with the dice that each was drawn by."""
    alike = _sizes_like(numerals)
    for attempt in range(TRIES if alike else 0):
        random = Random(f"{item.id}:{attempt}")
        if fresh := _drawn(numerals, random.choice(alike), random):
            yield fresh, random


def _numerals(item: Item) -> tuple[Numeral, ...]:
    """The numerals of the item's words, each once, but a pupil's answer, which follows from them.

    Those of `model:` stand in the words too; one that does not is kept as it is.
    """
    claims = {part.claim for part in item.parts if part.claim is not None}
    found = dict.fromkeys(n for text in _texts(item) for n in numerals_of(text))
    return tuple(numeral for numeral in found if numeral not in claims)


def _sizes_like(numerals: Sequence[Numeral]) -> list[dict[int, int]]:
    """Every set of fresh denominators that go together as the old ones do."""
    sizes = [*dict.fromkeys(n.denominator for n in numerals if isinstance(n, Frac | Mixed))]
    pool = [*DENOMINATORS, *(size for size in sizes if size not in DENOMINATORS)]
    if len(sizes) > MOST_SIZES:
        return []
    related = [_related(*pair) for pair in combinations(sizes, 2)]
    return [
        dict(zip(sizes, new, strict=True))
        for new in product(pool, repeat=len(sizes))
        if [_related(*pair) for pair in combinations(new, 2)] == related
    ]


def _drawn(
    numerals: Sequence[Numeral], sizes: dict[int, int], random: Random
) -> dict[Numeral, Numeral] | None:
    """A fresh numeral of the same kind for each; None where they are not related as the old."""
    fresh: dict[Numeral, Numeral] = {}
    for numeral in numerals:
        new = _like(numeral, sizes, random)
        if new is None or new == numeral:
            return None
        fresh[numeral] = new
    for one, other in combinations(numerals, 2):
        if _order(one, other) != _order(fresh[one], fresh[other]):
            return None
    return fresh


def _related(one: int, other: int) -> str:
    """How two denominators go together."""
    if one == other:
        return "like"
    if not one % other:
        return "first is a multiple"
    if not other % one:
        return "second is a multiple"
    return "no common factor" if gcd(one, other) == 1 else "a common factor"


def _order(one: Numeral, other: Numeral) -> int:
    first, second = value(one), value(other)
    return (first > second) - (first < second)


def _like(numeral: Numeral, sizes: dict[int, int], random: Random) -> Numeral | None:
    match numeral:
        case Frac(top, bottom):
            new = _top(top, bottom, sizes[bottom], random)
            return Frac(new, sizes[bottom]) if new else None
        case Mixed(whole, top, bottom):
            new = _top(top, bottom, sizes[bottom], random)
            most = max(9, whole)
            return Mixed(random.randint(1, most), new, sizes[bottom]) if new else None
        case Decimal(whole, places):
            return _decimal(whole, places, random)
        case Whole(number):
            return Whole(_whole(number, random))


def _decimal(whole: str, places: str, random: Random) -> Decimal:
    """A decimal with as many digits; a last digit of 0 stays, so that $2.50 is like $4.30."""
    inner = "".join(random.choice("0123456789") for _ in places[:-1])
    last = "0" if places[-1] == "0" else random.choice("123456789")
    return Decimal(str(_whole(int(whole), random)) if int(whole) else "0", inner + last)


def _top(top: int, bottom: int, size: int, random: Random) -> int:
    """A numerator, below the denominator and in lowest terms where the old one is; or 0."""
    least, most = (1, size - 1) if top < bottom else (size, 3 * size)
    chosen = random.randint(least, most)
    return chosen if (gcd(top, bottom) == 1) == (gcd(chosen, size) == 1) else 0


def _whole(number: int, random: Random) -> int:
    """A whole number of as many digits; from a hundred on with as many zeros at its end."""
    if number < 10:
        return random.randint(2 if number > 1 else 1, 9)
    zeros = len(str(number)) - len(str(number).rstrip("0")) if number > 99 else 0
    digits = len(str(number)) - zeros
    least, most = int("1" + "0" * (digits - 1)), int("9" * digits)
    return random.randint(least, most) * int("1" + "0" * zeros)


# -- the twin, and whether it is sound


def _made(
    item: Item, old: Sequence[SolvedPart], fresh: dict[Numeral, Numeral], random: Random
) -> Item | None:
    """The item with those numbers, None where its choices cannot be made of them."""
    try:
        parts = tuple(_part(solved, fresh, random) for solved in old)
    except (ExactError, _Unfit):
        return None
    stimulus = item.stimulus
    if stimulus:
        stimulus = replace(stimulus, text=numerals_put(stimulus.text, fresh))
    return replace(item, id=f"{item.id}-twin", stimulus=stimulus, parts=parts, hold_until=None)


def _is_sound(made: Item, old: Sequence[SolvedPart], by: Solver) -> bool:
    """Whether the twin is solved as its item is."""
    new = by.solved(made)
    return new is not None and all(map(_same, old, new))


class _Unfit(Exception):
    """These numbers do not do."""


def _part(solved: SolvedPart, fresh: dict[Numeral, Numeral], random: Random) -> Part:
    """A part with fresh numbers, its choices and the pupil's answer made by the same slips."""
    part = solved.part
    old = Old.of(solved, fresh)
    every = dict(fresh)
    claim = part.claim
    if claim is not None:
        text = old.by_slip(claim)
        if text is None or not isinstance(claim, Whole | Frac | Mixed | Decimal):
            raise _Unfit
        (new,) = numerals_of(text)
        every[claim], claim = new, new
    texts = choice_texts(solved, old, random)
    if texts is None or len(set(texts.values())) < len(texts):
        raise _Unfit
    model = part.model
    return replace(
        part,
        ask=numerals_put(part.ask, every),
        choices=tuple(_choice(each, texts) for each in part.choices),
        model=replaced(model, fresh) if model is not None else None,
        claim=claim,
        counts={},
    )


def _choice(choice: Choice, texts: dict[str, str]) -> Choice:
    return read_choice(choice.letter, texts[choice.letter], keyed=False)


def _same(old: SolvedPart, new: SolvedPart) -> bool:
    """Whether a part is solved as the old one is, and gives nothing of its answer away."""
    was, now = old.solution, new.solution
    goals = old.reading.goal, new.reading.goal
    return (
        goals[0].form == goals[1].form
        and was.key == now.key
        and all(now.slips.get(letter) == slip for letter, slip in was.slips.items())
        and _moves(old) == _moves(new)
        and (was.answer < 1) == (now.answer < 1)
        and (was.answer.denominator == 1) == (now.answer.denominator == 1)
        and was.answer not in _values(new)
    )


def _moves(solved: SolvedPart) -> list[str]:
    """The steps of its work; how it is estimated may differ with the numbers."""
    moves = [step.move for step in solved.solution.steps]
    return [move for move in moves if not move.startswith("estimate")]


def _values(solved: SolvedPart) -> set[Fraction]:
    """The answer and every number that a choice is."""
    trees = [c.tree for c in solved.part.choices if c.tree and not isinstance(c.tree, Relation)]
    return {solved.solution.answer, *map(value, trees)}
