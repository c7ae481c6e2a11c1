"""Sums as parts of items, without a file: for tests over all pairs of fractions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import product
from math import lcm
from random import Random

from narrate.errors import Place
from narrate.exact.caption import write
from narrate.exact.tree import (
    Blank,
    Expr,
    Frac,
    Mixed,
    Neg,
    Op,
    Over,
    Relation,
    Whole,
    value,
    write_sum,
)
from narrate.items.item import Choice, Item, Part
from narrate.lesson.solved import SolvedPart
from narrate.pipeline import solve_part

Signed = tuple[int, Expr]

PLACE = Place(file="test")


def all_pairs(most: int = 12) -> Iterator[list[Signed]]:
    """Every pair of proper fractions with denominators up to `most`, added, and taken away.

    What is taken away is not more than what it is taken from.
    """
    proper = [Frac(top, bottom) for bottom in range(2, most + 1) for top in range(1, bottom)]
    for first, second in product(proper, proper):
        yield [(1, first), (1, second)]
        if value(first) >= value(second):
            yield [(1, first), (-1, second)]


def samples(count: int, terms: int, seed: int) -> Iterator[list[Signed]]:
    """Sums of so many proper fractions, mixed and whole numbers, below zero nowhere."""
    random = Random(seed)
    for _ in range(count):
        trees = sorted((_numeral(random) for _ in range(terms)), key=value, reverse=True)
        signed, total = [(1, trees[0])], value(trees[0])
        for tree in trees[1:]:
            sign = -1 if random.random() < 0.5 and value(tree) <= total else 1
            signed.append((sign, tree))
            total += sign * value(tree)
        yield signed


def _numeral(random: Random) -> Expr:
    bottom = random.randint(2, 12)
    top = random.randint(1, bottom - 1)
    return random.choice(
        (Frac(top, bottom), Frac(top, bottom), Mixed(random.randint(1, 5), top, bottom), Whole(2))
    )


def solved(
    model: Expr | Relation,
    ask: str = "What is it?",
    *,
    choices: Sequence[Expr] = (),
    simplest: bool = False,
) -> SolvedPart:
    """A part that asks for `model`, solved."""
    item = asking(model, ask, choices=choices, simplest=simplest)
    return solve_part(item, item.parts[0], {})


def asking(
    model: Expr | Relation,
    ask: str = "What is it?",
    *,
    choices: Sequence[Expr] = (),
    simplest: bool = False,
) -> Item:
    """An item that asks for `model`; with fraction boxes where there are no choices."""
    part = Part(
        number=1,
        ask=ask,
        choices=tuple(
            Choice(letter=letter, text=write(tree), tree=tree)
            for letter, tree in zip("ABCDEFGHIJKL", choices, strict=False)
        ),
        boxes=() if choices else ("numerator", "denominator"),
        simplest=simplest,
        model=model,
        place=PLACE,
    )
    return Item(
        id="item", label="", standard="", grade=5, stimulus=None, parts=(part,), place=PLACE
    )


def total(signed: Sequence[Signed]) -> Fraction:
    return sum((sign * value(tree) for sign, tree in signed), Fraction(0))


def common(signed: Sequence[Signed]) -> int:
    return lcm(*(value(tree).denominator for _, tree in signed), *map(_written_size, signed))


def _written_size(signed: Signed) -> int:
    match signed[1]:
        case Frac(_, bottom) | Mixed(_, _, bottom):
            return bottom
        case _:
            return 1


def forms_of(amount: Fraction, size: int) -> list[Expr]:
    """Ways to write an amount: in lowest terms, over `size` and twice that, mixed, whole."""
    found: list[Expr] = []
    for bottom in (amount.denominator, size, 2 * size):
        top = int(amount * bottom)
        found.append(Frac(top, bottom) if top >= 0 else Neg(Frac(-top, bottom)))
        if amount > 1 and top % bottom:
            found.append(Mixed(top // bottom, top % bottom, bottom))
    if amount.denominator == 1 and amount >= 0:
        found.append(Whole(int(amount)))
    return found


def first_lines(signed: Sequence[Signed]) -> list[Expr]:
    """Right lines of work: fractions over the least size and another, over one bar, mixed."""
    size = common(signed)
    tops = [(sign, int(value(tree) * size)) for sign, tree in signed]
    return [
        write_sum([(sign, Frac(top, size)) for sign, top in tops]),
        write_sum([(sign, Frac(6 * top, 6 * size)) for sign, top in tops]),
        Over(write_sum([(sign, Whole(top)) for sign, top in tops]), Whole(size)),
        write_sum([(sign, _in_size(tree, size)) for sign, tree in signed]),
    ]


def _in_size(tree: Expr, size: int) -> Expr:
    """A mixed number keeps its whole; all else is one fraction."""
    match tree:
        case Mixed(whole, top, bottom):
            return Mixed(whole, top * size // bottom, size)
        case Whole():
            return tree
        case _:
            return Frac(int(value(tree) * size), size)


def with_blank(signed: Sequence[Signed], place: int) -> tuple[Relation, Fraction]:
    """The equation of a sum with one of its amounts blank, and that amount."""
    parts = [(sign, Blank() if at == place else tree) for at, (sign, tree) in enumerate(signed)]
    whole = total(signed)
    right: Expr = Frac(whole.numerator, whole.denominator)
    return Relation("=", (write_sum(parts), right)), value(signed[place][1])


def wrong_answers(signed: Sequence[Signed]) -> list[Expr]:
    """Wrong numbers near and far: across, other operation, a piece off, an amount, a whole off."""
    size, right = common(signed), total(signed)
    tops = sum(abs(value(tree)) * _written_size((1, tree)) for _, tree in signed)
    bottoms = sum(_written_size(pair) for pair in signed)
    other = 2 * value(signed[0][1]) - right
    amounts = [
        Fraction(int(tops), bottoms),
        other,
        right + Fraction(1, size),
        right - Fraction(1, size),
        value(signed[0][1]),
        right + 1,
        Fraction(1, 7 * size),
    ]
    unlike = dict.fromkeys(amount for amount in amounts if amount > 0 and amount != right)
    return [Frac(amount.numerator, amount.denominator) for amount in unlike]


def wrong_lines(signed: Sequence[Signed]) -> list[Expr]:
    """Wrong first lines: a numerator off, the other operation, across, the sum itself."""
    size = common(signed)
    tops = [(sign, int(value(tree) * size)) for sign, tree in signed]
    off = [*tops[:-1], (tops[-1][0], tops[-1][1] + 1)]
    turned = [tops[0], *((-sign, top) for sign, top in tops[1:])]
    across = Over(
        write_sum([(1, Whole(int(value(t) * _written_size((1, t))))) for _, t in signed]),
        write_sum([(1, Whole(_written_size(pair))) for pair in signed]),
    )
    lines: list[Expr] = [
        write_sum([(sign, Frac(top, size)) for sign, top in off]),
        write_sum([(sign, Frac(top, size)) for sign, top in turned]),
        across,
        Op("+", Frac(1, size), Frac(1, size)),
    ]
    return lines
