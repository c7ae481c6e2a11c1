"""Items made up in great number, the same for the same seed, with what each one asks.

`made(count, seed)` gives the items as a file would hold them, each with the sums that answer its
parts; `parts(count, seed)` gives them loaded, part by part. Forms come in turn, so any run of
`len(FORMS)` holds one of each. The scenario is a school garden and kitchen with invented pupils.
"""

from __future__ import annotations

import json
import re
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from itertools import islice
from math import gcd, lcm
from pathlib import Path
from random import Random
from typing import Any

from narrate.items.item import Item, Part
from narrate.items.loading import load

Source = dict[str, Any]

FRACTION_BOXES = ["numerator", "denominator"]
MIXED_BOXES = ["whole", "numerator", "denominator"]
_LOADED_AT_ONCE = 500


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """An item as its file holds it. `sums` has one text a part, whose value is the answer."""

    form: str
    source: Source
    sums: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount as it is written. A mixed number has a whole and a top, a fraction no whole."""

    whole: int
    top: int
    bottom: int

    @property
    def size(self) -> Fraction:
        return self.whole + Fraction(self.top, self.bottom)

    def __str__(self) -> str:
        if not self.top:
            return str(self.whole)
        fraction = f"{self.top}/{self.bottom}"
        return f"{self.whole} {fraction}" if self.whole else fraction


def made(count: int, seed: int = 1) -> Iterator[Made]:
    """`count` items with fractions, the forms in turn."""
    return _made(count, seed, FORMS)


def made_with_numbers(count: int, seed: int = 1) -> Iterator[Made]:
    """`count` items with whole numbers and decimals, the forms in turn."""
    return _made(count, seed, NUMBER_FORMS)


def made_with_products(count: int, seed: int = 1) -> Iterator[Made]:
    """`count` items with products and quotients of fractions."""
    return _made(count, seed, PRODUCT_FORMS)


def _made(count: int, seed: int, of: dict[str, Callable[[Random], Any]]) -> Iterator[Made]:
    random = Random(seed)
    forms = list(of.items())
    for number in range(count):
        name, make = forms[number % len(forms)]
        source, *sums = make(random)
        yield Made(form=name, source={"id": f"{name}-{number}", **source}, sums=tuple(sums))


def parts(count: int, seed: int = 1) -> Iterator[tuple[Item, Part]]:
    """The parts of `count` items, each with its item."""
    for item, _ in loaded(made(count, seed)):
        for part in item.parts:
            yield item, part


def loaded(items: Iterator[Made]) -> Iterator[tuple[Item, Made]]:
    """Made items, read as a `.jsonl` file of theirs is read; none of them is at fault."""
    while chunk := list(islice(items, _LOADED_AT_ONCE)):
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "generated.jsonl"
            lines = (json.dumps(each.source, ensure_ascii=False) for each in chunk)
            path.write_text("\n".join(lines) + "\n", encoding="utf-8")
            found = load([path])
        assert not found.faults, found.faults[0]
        yield from zip(found.reviews[0].items, chunk, strict=True)


# -- amounts and sums


def _proper(random: Random, bottom: int = 0) -> Amount:
    bottom = bottom or random.randint(2, 12)
    return Amount(0, random.randint(1, bottom - 1), bottom)


def _any_amount(random: Random) -> Amount:
    kind = random.random()
    if kind < 0.1:
        return Amount(random.randint(1, 9), 0, 1)
    fraction = _proper(random)
    if kind < 0.2:
        return Amount(0, fraction.top + fraction.bottom, fraction.bottom)
    return Amount(random.randint(1, 9), fraction.top, fraction.bottom) if kind < 0.5 else fraction


def _amounts(random: Random) -> list[Amount]:
    """Two or three amounts, at least one of them with a fraction; a third of them alike."""
    count = 2 if random.random() < 0.8 else 3
    if random.random() < 0.3:
        bottom = random.randint(2, 12)
        return [_proper(random, bottom) for _ in range(count)]
    return [_proper(random), *(_any_amount(random) for _ in range(count - 1))]


def _sum(random: Random) -> tuple[list[tuple[str, Amount]], str]:
    """Signed amounts that stay above zero all the way, and their text."""
    amounts = sorted(_amounts(random), key=lambda amount: -amount.size)
    signed, total = [("+", amounts[0])], amounts[0].size
    sign = random.choice("+-")
    for amount in amounts[1:]:
        here = sign if total > amount.size else "+"
        signed.append((here, amount))
        total += amount.size if here == "+" else -amount.size
    return signed, _text(signed)


def _text(signed: list[tuple[str, Amount]]) -> str:
    return str(signed[0][1]) + "".join(f" {sign} {amount}" for sign, amount in signed[1:])


def _total(signed: list[tuple[str, Amount]]) -> Fraction:
    return sum((a.size if s == "+" else -a.size for s, a in signed), Fraction(0))


def _common(signed: list[tuple[str, Amount]]) -> int:
    return lcm(*(amount.bottom for _, amount in signed))


# -- choices


def _number(top: int, bottom: int, whole: int = 0) -> str:
    return f"{whole} {top}/{bottom}" if whole else f"{top}/{bottom}"


def _slips(signed: list[tuple[str, Amount]]) -> Iterator[str]:
    """What pupils write who add across, keep a denominator, do not rescale, or add for take."""
    tops = [a.whole * a.bottom + a.top for _, a in signed]
    bottoms = [a.bottom for _, a in signed]
    signs = [1 if sign == "+" else -1 for sign, _ in signed]
    plain = sum(sign * top for sign, top in zip(signs, tops, strict=True))
    yield _number(sum(tops), sum(bottoms))
    for size in (_common(signed), max(bottoms), min(bottoms)):
        if plain > 0:
            yield _number(plain, size)
    other = signed[0][1].size - (_total(signed) - signed[0][1].size)
    if other > 0:
        yield _number(other.numerator, other.denominator)
    yield str(signed[0][1])


def _misses(answer: Fraction, size: int) -> Iterator[str]:
    """Answers a piece or a few off, counted in pieces of the common size."""
    top = int(answer * size)
    for off in (1, -1, 2, -2, 3, size):
        if top + off > 0:
            yield _number(top + off, size)


def _value(text: str) -> Fraction:
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def _wrong(signed: list[tuple[str, Amount]], count: int, random: Random) -> list[str]:
    """Wrong answers of different value, those of slips first."""
    answer = _total(signed)
    slips = list(dict.fromkeys(_slips(signed)))
    random.shuffle(slips)
    found: dict[Fraction, str] = {answer: ""}
    for text in [*slips, *_misses(answer, _common(signed))]:
        found.setdefault(_value(text), text)
    return list(found.values())[1 : count + 1]


def _lettered(texts: list[str], random: Random) -> dict[str, str]:
    shuffled = list(dict.fromkeys(texts))
    random.shuffle(shuffled)
    return dict(zip("ABCDEFGH", shuffled, strict=False))


def _with_answers(source: Source, signed: list[tuple[str, Amount]], random: Random) -> Source:
    """An item answered in boxes of some form or by one of four choices."""
    answer, size = _total(signed), _common(signed)
    form = random.randrange(4)
    if form == 0:
        return source | {"boxes": random.choice((FRACTION_BOXES, ["number"]))}
    if form == 1:
        return source | {"boxes": [*MIXED_BOXES, "kilograms"]}
    right = _number(int(answer * size), size)
    choices = _lettered([right, *_wrong(signed, 3, random)], random)
    key = next(letter for letter, text in choices.items() if text == right)
    return source | {"choices": choices, "key": key}


# -- forms


def _bare(random: Random) -> tuple[Source, str]:
    signed, text = _sum(random)
    stem = random.choice(("What is {}?", "Find {}.", "Work out {}.", "{} = □")).format(text)
    return _with_answers({"stem": stem}, signed, random), text


_JOINING = (
    "Noor carried {} kilograms of compost to the first bed. Then she carried {} kilograms more. "
    "How many kilograms did she carry in all?",
    "The soup needs {} liters of stock and {} liters of water. How much is that altogether?",
)
_TAKING = (
    "The rain barrel held {} liters. The class used {} liters on the beans. How much was left?",
    "The squash vine is {} meters long and the bean vine {} meters. How much longer is the squash?",
)


def _story(random: Random) -> tuple[Source, str]:
    signed, text = _sum(random)
    while len(signed) > 2:
        signed, text = _sum(random)
    words = random.choice(_JOINING if signed[1][0] == "+" else _TAKING)
    stem = words.format(*(amount for _, amount in signed))
    return _with_answers({"stem": stem, "model": text}, signed, random), text


def _left_of_a_whole(random: Random) -> tuple[Source, str]:
    first = _proper(random)
    second = _proper(random)
    while first.size + second.size >= 1:
        first, second = _proper(random), _proper(random)
    stem = f"Wen planted {first} of a bed with peas and {second} with beets. What part is left?"
    signed = [("+", Amount(1, 0, 1)), ("-", first), ("-", second)]
    text = f"1 - {first} - {second}"
    return _with_answers({"stem": stem, "model": text}, signed, random), text


def _slips_among_choices(random: Random) -> tuple[Source, str]:
    signed, text = _sum(random)
    answer, size = _total(signed), _common(signed)
    right = _number(int(answer * size), size)
    choices = _lettered([right, *_wrong(signed, 3, random)], random)
    return {"stem": f"What is {text}?", "choices": choices}, text


def _select_all(random: Random) -> tuple[Source, str]:
    signed, text = _sum(random)
    answer = _total(signed)
    texts = [_number(answer.numerator * k, answer.denominator * k) for k in (1, 2, 3)]
    texts += [_on_one_size(signed, _common(signed)), *_wrong(signed, 3, random)]
    stem = f"Select all that are equal to {text}."
    return {"stem": stem, "choices": _lettered(texts, random), "select": "all"}, text


def _on_one_size(signed: list[tuple[str, Amount]], size: int, off: int = 0) -> str:
    """A line of work: every amount over one size, the last numerator `off` too great."""
    tops = [int(amount.size * size) for _, amount in signed]
    tops[-1] += off
    terms = [f"{top}/{size}" for top in tops]
    return terms[0] + "".join(f" {s} {t}" for (s, _), t in zip(signed[1:], terms[1:], strict=True))


def _first_line(random: Random) -> tuple[Source, str]:
    signed, text = _sum(random)
    while len({amount.bottom for _, amount in signed}) == 1 or len(signed) > 2:
        signed, text = _sum(random)
    size = _common(signed)
    flipped = [signed[0], *(("-" if sign == "+" else "+", a) for sign, a in signed[1:])]
    tops = " + ".join(str(a.whole * a.bottom + a.top) for _, a in signed)
    bottoms = " + ".join(str(a.bottom) for _, a in signed)
    wrong = [_on_one_size(flipped, size), _on_one_size(signed, size, 1), f"({tops})/({bottoms})"]
    stem = f"Which could be the first line of work for {text}?"
    right = _on_one_size(signed, size * random.choice((1, 1, 2)))
    return {"stem": stem, "choices": _lettered([right, *wrong], random)}, text


def _missing_amount(random: Random) -> tuple[Source, str]:
    first, blank = _proper(random), _any_amount(random)
    total = first.size + blank.size
    whole = _number(total.numerator, total.denominator)
    equation, answer = random.choice(
        (
            (f"{first} + □ = {whole}", f"{whole} - {first}"),
            (f"□ + {first} = {whole}", f"{whole} - {first}"),
            (f"{whole} = {first} + □", f"{whole} - {first}"),
            (f"{whole} - □ = {first}", f"{whole} - {first}"),
            (f"□ - {first} = {blank}", f"{blank} + {first}"),
            (f"{blank} = □ - {first}", f"{blank} + {first}"),
        )
    )
    boxes = random.choice((FRACTION_BOXES, MIXED_BOXES))
    return {"stem": f"What number goes in the box? {equation}", "boxes": boxes}, answer


def _missing_in_a_fraction(random: Random) -> tuple[Source, str]:
    fraction, factor = _proper(random), random.randint(2, 6)
    top, bottom = fraction.top * factor, fraction.bottom * factor
    equation, answer = random.choice(
        (
            (f"{fraction} = □/{bottom}", top),
            (f"{fraction} = {top}/□", bottom),
            (f"□/{bottom} = {fraction}", top),
            (f"{top}/{bottom} = □/{fraction.bottom}", fraction.top),
        )
    )
    return {"stem": f"Complete the equation {equation}", "boxes": ["number"]}, str(answer)


def _simplest(random: Random) -> tuple[Source, str]:
    bottom = random.choice((4, 6, 8, 9, 10, 12))
    first = _proper(random, bottom)
    second = _proper(random, bottom)
    while gcd(first.top + second.top, bottom) == 1 or (first.top + second.top) % bottom == 0:
        first, second = _proper(random, bottom), _proper(random, bottom)
    text, total = f"{first} + {second}", first.size + second.size
    stem = f"What is {text} in simplest form?"
    if random.random() < 0.5:
        return {"stem": stem, "boxes": random.choice((FRACTION_BOXES, MIXED_BOXES))}, text
    signed = [("+", first), ("+", second)]
    right = _number(total.numerator, total.denominator)
    unsimplified = _number(first.top + second.top, bottom)
    texts = [right, unsimplified, *_wrong(signed, 2, random)]
    return {"stem": stem, "choices": _lettered(texts, random)}, text


def _strip(random: Random) -> tuple[Source, str]:
    signed, text = _sum(random)
    while len(signed) > 2 or signed[0][1].size + signed[1][1].size > 6:
        signed, text = _sum(random)
    cut = min(100, random.choice((_common(signed), signed[0][1].bottom, random.randint(2, 12))))
    strip = {"strip": {"wholes": random.randint(1, 4), "parts": cut}}
    stimulus = {"text": "The strip shows the garden bed.", "diagram": strip}
    source = {"stem": f"Find {text}.", "stimulus": stimulus}
    return _with_answers(source, signed, random), text


def _claim(random: Random) -> tuple[Source, str]:
    signed, text = _sum(random)
    claim = random.choice([*_wrong(signed, 4, random), str(_total(signed))])
    asks = "Is that right?" if _value(claim) == _total(signed) else "What went wrong?"
    stem = f"Tavi says that {text} is {claim}. {asks}"
    return {"stem": stem, "model": text, "claim": claim}, text


def _way(random: Random) -> tuple[Source, str]:
    _, text = _sum(random)
    ways = random.choice(("multiples", "product", "larger", "improper", "mixed"))
    boxes = random.choice((FRACTION_BOXES, MIXED_BOXES))
    return {"stem": f"Find {text}.", "way": [ways], "boxes": boxes}, text


def _equal_fraction(random: Random) -> tuple[Source, str]:
    fraction = _proper(random)
    factor = random.randint(2, 5)
    right = _number(fraction.top * factor, fraction.bottom * factor)
    wrong = [
        _number(fraction.top, fraction.bottom * factor),
        _number(fraction.top + factor, fraction.bottom + factor),
        _number(fraction.top * factor, fraction.bottom),
    ]
    stem = f"Which fraction is equal to {fraction}?"
    return {"stem": stem, "choices": _lettered([right, *wrong], random)}, str(fraction)


def _two_parts(random: Random) -> tuple[Source, str, str]:
    """A second part that uses the amounts of the first again."""
    first, second = _proper(random), _proper(random)
    while first.size == second.size:
        second = _proper(random)
    more, less = sorted((first, second), key=lambda amount: -amount.size)
    text = f"One bed got {more} of a bag of compost, the other {less} of a bag."
    joined, rest = f"{more} + {less}", f"{more} - {less}"
    asked: list[Source] = [
        {"ask": "How much is that in all?", "model": joined, "boxes": FRACTION_BOXES},
        {"ask": "How much more did the first get?", "model": rest, "boxes": FRACTION_BOXES},
    ]
    return {"stimulus": {"text": text}, "parts": asked}, joined, rest


def _numbers(random: Random) -> tuple[Source, str]:
    """Whole numbers or decimals in one operation or two, with the answers of other operations."""
    one, two = random.randint(12, 99), random.randint(2, 29)
    tenths = f"{random.randint(1, 40)}.{random.randint(1, 9)}"
    text, wrong = random.choice(
        (
            (f"{one} × {two}", (one + two, one * two + 10, one * (two + 1))),
            (f"{one * two} ÷ {two}", (one * two - two, one + 1, one * 10)),
            (f"{one} × {two} + 7", (one * two, one * (two + 7), one + two + 7)),
            (f"({one} + {two}) × 3", (one + two * 3, one + two, (one + two) * 3 + 1)),
            (f"{tenths} × {two}", (one * two * 10, one, two)),
            (f"{one} - {tenths}", (one, one + 40, 0)),
        )
    )
    answer = _decimal(text)
    if Fraction(answer) < 0:
        text, answer = f"{one} + {tenths}", _decimal(f"{one} + {tenths}")
    texts = [answer, *(str(n) for n in wrong if Fraction(n) != Fraction(answer))]
    if random.random() < 0.4:
        return {"stem": f"What is {text}?", "boxes": ["number"]}, text
    return {"stem": f"What is {text}?", "choices": _lettered(texts[:4], random)}, text


def _decimal(text: str) -> str:
    """The value of an expression as a whole number or a decimal, by Python's own decimals."""
    code = re.sub(r"[\d.]+", lambda m: f"Decimal('{m[0]}')", text.translate(_SIGNS))
    return f"{eval(code, {'__builtins__': {}, 'Decimal': Decimal}).normalize():f}"


_SIGNS = str.maketrans({"×": "*", "÷": "/"})


def _number_story(random: Random) -> tuple[Source, str]:
    """Equal groups, what is left of them, and a remainder, from their words alone."""
    groups, each = random.randint(3, 9), random.randint(12, 48)
    gone = random.randint(5, groups * each - 1)
    told = f"Ivo fills {groups} crates with {each} pears each."
    stem, text = random.choice(
        (
            (f"{told} How many pears is that in all?", f"{groups} × {each}"),
            (f"{told} He gives away {gone} pears. How many pears does he have left?",
             f"{groups} × {each} - {gone}"),
            (f"{groups * each} pears are shared equally among {groups} crates. "
             "How many pears are in each crate?", f"{groups * each} ÷ {groups}"),
            (f"Each bus holds {each} pupils. There are {groups * each + 5} pupils. "
             "How many buses are needed?", f"{groups} + 1"),
        )
    )  # fmt: skip
    return {"stem": stem, "boxes": ["number"]}, text


def _operand(random: Random) -> Amount:
    """A whole number, a proper fraction or a mixed number."""
    kind, part = random.random(), _proper(random)
    if kind < 0.25:
        return Amount(random.randint(2, 9), 0, 1)
    return Amount(random.randint(1, 4), part.top, part.bottom) if kind < 0.45 else part


def _two_operands(random: Random) -> tuple[Amount, Amount]:
    first, second = _operand(random), _operand(random)
    while not (first.top or second.top):
        second = _operand(random)
    return first, second


def _product_slips(first: Amount, second: Amount) -> Iterator[str]:
    """What pupils write who add, cross-multiply, invert the first or multiply instead."""
    a, b = first.whole * first.bottom + first.top, first.bottom
    c, d = second.whole * second.bottom + second.top, second.bottom
    yield from (_number(a * d, b * c), _number(b * c, a * d), _number(a * c, b * d))
    yield from (_number(a + c, b + d), str(first), str(second))
    yield from (_number(a * c + 1, b * d), _number(a * d + 2, b * c))


def _with_product_answers(
    source: Source, answer: Fraction, slips: list[str], random: Random
) -> Source:
    if random.random() < 0.4:
        boxes = random.choice((FRACTION_BOXES, MIXED_BOXES, ["number"]))
        return source | {"boxes": boxes}
    whole = answer.denominator == 1
    right = str(answer.numerator) if whole else _number(answer.numerator, answer.denominator)
    found = {answer: right}
    for text in random.sample(slips, len(slips)):
        found.setdefault(_value(text), text)
    return source | {"choices": _lettered(list(found.values())[:4], random)}


def _product(random: Random) -> tuple[Source, str]:
    first, second = _two_operands(random)
    sign = random.choice("×÷")
    answer = first.size * second.size if sign == "×" else first.size / second.size
    text = f"{first} {sign} {second}"
    stem = f"What is {text}{random.choice(('', ' in simplest form'))}?"
    slips = list(_product_slips(first, second))
    source: Source = {"stem": stem, "way": random.choice(([], [], ["reciprocal"]))}
    return _with_product_answers(source, answer, slips, random), text


def _product_in_a_sum(random: Random) -> tuple[Source, str]:
    first, second = _two_operands(random)
    more = _proper(random)
    sign = "−" if first.size * second.size > more.size and random.random() < 0.5 else "+"
    text = f"{first} × {second} {sign} {more}"
    boxes = random.choice((FRACTION_BOXES, MIXED_BOXES))
    return {"stem": f"Find {text}.", "boxes": boxes}, text


_PRODUCT_STORIES = (
    ("Each batch of bars takes {0} cup of honey. Tavi makes {2} batches. "
     "How many cups of honey does he need?", "{2} × {0}"),
    ("Wen has {0} liter of juice. She uses {1} of it for the punch. "
     "How many liters of juice does she use?", "{1} × {0}"),
    ("Ana shares {0} pound of seeds equally among {2} beds. "
     "How many pounds of seeds does each bed get?", "{0} ÷ {2}"),
    ("A rectangular bed is {3} meters long and {0} meter wide. "
     "What is its area in square meters?", "{3} × {0}"),
)  # fmt: skip


def _product_story(random: Random) -> tuple[Source, str]:
    """Equal groups, a part of a part, equal shares and an area, from their words alone."""
    words, formula = random.choice(_PRODUCT_STORIES)
    mixed = _proper(random)
    amounts = (
        _proper(random),
        _proper(random),
        random.randint(2, 8),
        Amount(random.randint(1, 3), mixed.top, mixed.bottom),
    )
    boxes = random.choice((FRACTION_BOXES, MIXED_BOXES))
    return {"stem": words.format(*amounts), "boxes": boxes}, formula.format(*amounts)


FORMS: dict[str, Callable[[Random], tuple[Any, ...]]] = {
    "bare": _bare,
    "story": _story,
    "left-of-a-whole": _left_of_a_whole,
    "slips": _slips_among_choices,
    "select-all": _select_all,
    "first-line": _first_line,
    "missing-amount": _missing_amount,
    "missing-in-a-fraction": _missing_in_a_fraction,
    "simplest": _simplest,
    "strip": _strip,
    "claim": _claim,
    "way": _way,
    "equal-fraction": _equal_fraction,
    "two-parts": _two_parts,
}
"""Each form of item, by name: how one is made, with the sums that answer its parts."""

NUMBER_FORMS: dict[str, Callable[[Random], tuple[Any, ...]]] = {
    "numbers": _numbers,
    "number-story": _number_story,
}
"""The same with whole numbers and decimals."""

PRODUCT_FORMS: dict[str, Callable[[Random], tuple[Any, ...]]] = {
    "product": _product,
    "product-in-a-sum": _product_in_a_sum,
    "product-story": _product_story,
}
"""The same with products and quotients of fractions."""
