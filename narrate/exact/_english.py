"""American English, as mathematics is read aloud in grades 3 to 8.

Number words come from num2words, without its "and": between whole numbers "and" would be heard as
the start of a fraction. The names of pieces are our own table where they are not ordinals.
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from num2words import num2words

from narrate.exact._language import Language, Unit
from narrate.exact.tree import Operation, RelationSign

_NAMED_PIECES = {
    1: ("whole", "wholes"),
    2: ("half", "halves"),
    100: ("hundredth", "hundredths"),
    1000: ("thousandth", "thousandths"),
}
_CENTS = 100
_OH_BELOW = 10


@lru_cache(maxsize=4096)
def _cardinal(number: int) -> str:
    if number < 0:
        return f"negative {_cardinal(-number)}"
    return _american(num2words(number))


@lru_cache(maxsize=4096)
def _ordinal(number: int) -> str:
    return _american(num2words(number, to="ordinal"))


@lru_cache(maxsize=4096)
def _year(number: int) -> str:
    """1998 is "nineteen ninety-eight", 2005 "two thousand five"."""
    return _american(num2words(number, to="year"))


def _american(words: str) -> str:
    return words.replace(" and ", " ").replace(",", "")


def _pieces(denominator: int, count: int) -> str:
    name = _ordinal(denominator)
    one, many = _NAMED_PIECES.get(denominator, (name, f"{name}s"))
    return one if count == 1 else many


def _reads_as_pieces(denominator: int) -> bool:
    """Not where the name could be heard as a place in a row: twenty-fifths, hundred-sixths."""
    if denominator <= 100:
        return 2 <= denominator <= 20 or denominator % 10 == 0
    return denominator == 1000


def _money(dollars: str, cents: str) -> str:
    """`dollars` and `cents` in digits; cents that are not two digits are read as a decimal."""
    if cents and len(cents) != 2:
        digits = " ".join(_cardinal(int(digit)) for digit in cents)
        return f"{_cardinal(int(dollars))} point {digits} dollars"
    parts = [(int(dollars), "dollar"), (int(cents or 0), "cent")]
    said = [f"{_cardinal(n)} {coin}{'s' * (n != 1)}" for n, coin in parts if n]
    return " and ".join(said) or "zero dollars"


def _clock(hour: int, minute: int, half: str) -> str:
    """A time of day; `half` is "a", "p" or nothing."""
    if minute:
        oh = "oh " if minute < _OH_BELOW else ""
        said = f"{_cardinal(hour)} {oh}{_cardinal(minute)}"
    else:
        said = _cardinal(hour) if half else f"{_cardinal(hour)} o'clock"
    return f"{said} {half.upper()} M" if half else said


def _unit(one: str, many: str = "") -> Unit:
    article = "an" if one[0] in "aeio" or one.startswith("hour") else "a"
    return Unit(one=one, many=many or f"{one}s", part=f" of {article} {one}")


def _raised(unit: Unit, power: str) -> Unit:
    """The square (`²`) or cubic (`³`) unit."""
    name = "square" if power == "²" else "cubic"
    return _unit(f"{name} {unit.one}", f"{name} {unit.many}")


def _rate(unit: Unit, per: Unit) -> Unit:
    return Unit(
        one=f"{unit.one} per {per.one}",
        many=f"{unit.many} per {per.one}",
        part=f"{unit.part} per {per.one}",
    )


_PERCENT = Unit(one="percent", many="percent", part=" percent")

_UNITS = {
    "mm": _unit("millimeter"),
    "cm": _unit("centimeter"),
    "m": _unit("meter"),
    "km": _unit("kilometer"),
    "mg": _unit("milligram"),
    "g": _unit("gram"),
    "kg": _unit("kilogram"),
    "mL": _unit("milliliter"),
    "ml": _unit("milliliter"),
    "L": _unit("liter"),
    "in": _unit("inch", "inches"),
    "ft": _unit("foot", "feet"),
    "yd": _unit("yard"),
    "mi": _unit("mile"),
    "lb": _unit("pound"),
    "oz": _unit("ounce"),
    "pt": _unit("pint"),
    "qt": _unit("quart"),
    "gal": _unit("gallon"),
    "h": _unit("hour"),
    "hr": _unit("hour"),
    "min": _unit("minute"),
    "s": _unit("second"),
    "sec": _unit("second"),
    "°C": _unit("degree Celsius", "degrees Celsius"),
    "°F": _unit("degree Fahrenheit", "degrees Fahrenheit"),
    "°": _unit("degree"),
    "¢": _unit("cent"),
    "%": _PERCENT,
}

_KITCHEN = (_unit("cup"), _unit("tablespoon"), _unit("teaspoon"), _unit("ton"))
_WRITTEN_UNITS = {
    name: unit
    for unit in (*_UNITS.values(), *_KITCHEN)
    if unit not in (_UNITS["s"], _PERCENT)  # "second" also counts places in a row
    for name in (unit.one, unit.many)
}

_OPERATIONS: dict[Operation, str] = {
    "+": "plus",
    "−": "minus",
    "×": "times",
    "÷": "divided by",
}
_RELATIONS: dict[RelationSign, str] = {
    "=": "equals",
    "≠": "is not equal to",
    "<": "is less than",
    ">": "is greater than",
    "≤": "is less than or equal to",
    "≥": "is greater than or equal to",
    "≈": "is approximately equal to",
}
_SYMBOLS = {
    **{str(sign): name for sign, name in _OPERATIONS.items()},
    **{str(sign): name for sign, name in _RELATIONS.items()},
}


def _with_quarters(denominator: int, count: int) -> str:
    if denominator != 4:
        return _pieces(denominator, count)
    return "quarter" if count == 1 else "quarters"


ENGLISH = Language(
    code="en",
    cardinal=_cardinal,
    ordinal=_ordinal,
    year=_year,
    pieces=_pieces,
    reads_as_pieces=_reads_as_pieces,
    operations=_OPERATIONS,
    relations=_RELATIONS,
    over="over",
    remainder="remainder",
    mixed="and",
    point="point",
    negative="negative {}",
    opposite="the opposite of {}",
    quantity="the quantity {}",
    fraction="the fraction {}",
    blank="blank",
    unknown="what number",
    question_mark="question mark",
    slash="slash",
    to="to",
    powers={"²": "squared", "³": "cubed"},
    symbols=_SYMBOLS,
    units=_UNITS,
    written_units=_WRITTEN_UNITS,
    articles=frozenset({"a", "an", "the", "each", "every", "this", "that", "one"}),
    raised=_raised,
    rate=_rate,
    coin=_unit("dollar"),
    half_day="{} M",
    money=_money,
    clock=_clock,
)

QUARTERS = replace(ENGLISH, code="en-quarters", pieces=_with_quarters)
"""English that says "three quarters" in place of "three fourths"."""
