"""How many of one unit make one of another: customary, metric and time, each by itself.

Customary units: NIST Handbook 44, Appendix C; metric prefixes: NIST Special Publication 330; both
from memory. CCSSM (2010) 4.MD.A.1 and 5.MD.A.1 name the units that grades 4 and 5 convert.
"""

from __future__ import annotations

import re

from narrate.exact.tree import InUnits

HOW_MANY: dict[tuple[str, str], int] = {
    ("inch", "foot"): 12, ("foot", "yard"): 3, ("inch", "yard"): 36, ("foot", "mile"): 5280,
    ("yard", "mile"): 1760,
    ("ounce", "pound"): 16, ("pound", "ton"): 2000,
    ("teaspoon", "tablespoon"): 3, ("tablespoon", "cup"): 16,
    ("cup", "pint"): 2, ("pint", "quart"): 2, ("quart", "gallon"): 4, ("cup", "quart"): 4,
    ("pint", "gallon"): 8, ("cup", "gallon"): 16,
    ("second", "minute"): 60, ("minute", "hour"): 60, ("hour", "day"): 24, ("day", "week"): 7,
    ("month", "year"): 12, ("year", "decade"): 10, ("second", "hour"): 3600, ("week", "year"): 52,
    ("cent", "dollar"): 100,
    ("millimeter", "centimeter"): 10, ("centimeter", "meter"): 100, ("millimeter", "meter"): 1000,
    ("meter", "kilometer"): 1000, ("centimeter", "kilometer"): 100_000,
    ("milligram", "gram"): 1000, ("gram", "kilogram"): 1000, ("milligram", "kilogram"): 1_000_000,
    ("milliliter", "liter"): 1000,
}  # fmt: skip
"""How many of the first make one of the second."""

NOT_EXACT = frozenset({("week", "year")})
"""Pairs of which a whole number is only nearly so."""

METRIC = ("meter", "gram", "liter")
"""What names of metric units end in."""


def how_many(small: str, large: str) -> int | None:
    """How many of a unit make one of another exactly, None where that is no whole number here."""
    return None if (small, large) in NOT_EXACT else HOW_MANY.get((small, large))


def several(unit: str) -> str:
    """The plural of a unit."""
    if unit == "foot":
        return "feet"
    return f"{unit}es" if unit.endswith(("ch", "sh", "x")) else f"{unit}s"


_SHORT = {
    "ft": "foot", "in": "inch", "yd": "yard", "mi": "mile", "lb": "pound", "oz": "ounce",
    "hr": "hour", "h": "hour", "min": "minute", "sec": "second", "gal": "gallon", "qt": "quart",
    "pt": "pint", "cm": "centimeter", "m": "meter", "km": "kilometer", "mm": "millimeter",
    "g": "gram", "kg": "kilogram", "mL": "milliliter", "L": "liter",
}  # fmt: skip
_NAMED = {several(unit): unit for pair in HOW_MANY for unit in pair}


def unit_named(word: str) -> str:
    """The unit that a word or an abbreviation names, in the singular; "" where it is none."""
    plain = word.rstrip(".")
    unit = _SHORT.get(plain) or _SHORT.get(plain.removesuffix("s")) or _NAMED.get(plain, plain)
    return unit if is_unit(unit) else ""


_UNIT = r"[A-Za-z]+\.?"
_TWO = re.compile(rf"(\d[\d,]*) ?({_UNIT}),? (?:and )?(\d[\d,]*) ?({_UNIT})(?!\w)")


def two_units(text: str, at: int = 0) -> tuple[InUnits, int] | None:
    """An amount in two units that stands at a place of a text, and where it ends."""
    found = _TWO.match(text, at)
    if found is None:
        return None
    large, small = unit_named(found[2]), unit_named(found[4])
    size = how_many(small, large)
    if size is None or size > _MOST_SIZE:
        return None
    counts = [int(found[n].replace(",", "")) for n in (1, 3)]
    return in_units(counts[0], counts[1], large, small), found.end()


def in_units(large: int, small: int, large_unit: str, small_unit: str) -> InUnits:
    """An amount in two units, of which so many of the small one make a large one."""
    names = tuple((unit, several(unit)) for unit in (large_unit, small_unit))
    return InUnits(large, small, HOW_MANY[small_unit, large_unit], (names[0], names[1]))


_MOST_SIZE = 1000


def is_unit(name: str) -> bool:
    """Whether a unit can be converted here."""
    return any(name in pair for pair in HOW_MANY)
