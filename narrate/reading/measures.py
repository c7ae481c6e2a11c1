"""How many of one unit make one of another: customary, metric and time, each by itself.

Customary units: NIST Handbook 44, Appendix C; metric prefixes: NIST Special Publication 330; both
from memory. CCSSM (2010) 4.MD.A.1 and 5.MD.A.1 name the units that grades 4 and 5 convert.
"""

from __future__ import annotations

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


def is_unit(name: str) -> bool:
    """Whether a unit can be converted here."""
    return any(name in pair for pair in HOW_MANY)
