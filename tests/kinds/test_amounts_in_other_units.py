"""Amounts in another unit, against the facts of NIST Handbook 44 (Appendix C).

The factors below were written down anew, from memory of Handbook 44 and of the metric prefixes
(NIST SP 330), so that a slip in the program's own table is caught; `fractions` does the sums.
"""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest

from tests.solving import NUMBER, solve_one

IN_BASE = {
    "inch": Fraction(1), "foot": Fraction(12), "yard": Fraction(36), "mile": Fraction(63_360),
    "ounce": Fraction(1), "pound": Fraction(16), "ton": Fraction(32_000),
    "cup": Fraction(1), "pint": Fraction(2), "quart": Fraction(4), "gallon": Fraction(16),
    "tablespoon": Fraction(1, 16), "teaspoon": Fraction(1, 48),
    "millimeter": Fraction(1), "centimeter": Fraction(10), "meter": Fraction(1000),
    "kilometer": Fraction(10**6),
    "milligram": Fraction(1), "gram": Fraction(1000), "kilogram": Fraction(10**6),
    "milliliter": Fraction(1), "liter": Fraction(1000),
    "second": Fraction(1), "minute": Fraction(60), "hour": Fraction(3600), "day": Fraction(86_400),
    "week": Fraction(604_800),
}  # fmt: skip
SYSTEMS = (
    "inch foot yard mile", "ounce pound ton", "teaspoon tablespoon cup pint quart gallon",
    "millimeter centimeter meter kilometer", "milligram gram kilogram", "milliliter liter",
    "second minute hour day week",
)  # fmt: skip
MANY = {"foot": "feet", "inch": "inches"}
STEMS = (
    "How many {to} are in {amount} {unit}?",
    "Convert {amount} {unit} to {to}.",
    "{amount} {unit} = □ {to}",
    "What is {amount} {unit} in {to}?",
)


def many(unit: str) -> str:
    return MANY.get(unit, f"{unit}s")


def test_every_pair_of_units() -> None:
    """Both ways between all units of each system: right, or declined where no one fact is known."""
    random, solved = Random(5), 0
    for system in SYSTEMS:
        units = system.split()
        for unit in units:
            for to in units:
                if unit == to:
                    continue
                size = IN_BASE[to] / IN_BASE[unit]
                amount = random.randint(2, 40) * (size if size > 1 else 1)
                stem = random.choice(STEMS).format(amount=amount, unit=many(unit), to=many(to))
                row = solve_one(stem, boxes=NUMBER)
                assert row["status"] in ("solved", "declined"), row
                if row["status"] == "solved":
                    solved += 1
                    assert Fraction(row["answer"]) == amount * IN_BASE[unit] / IN_BASE[to], stem
    assert solved > 50


@pytest.mark.parametrize(
    ("unit", "to"),
    [("feet", "inches"), ("yards", "feet"), ("pounds", "ounces"), ("hours", "minutes")],
)
@pytest.mark.parametrize(
    ("amount", "value"), [("3 1/2", Fraction(7, 2)), ("2 3/4", Fraction(11, 4))]
)
def test_mixed_numbers(unit: str, to: str, amount: str, value: Fraction) -> None:
    row = solve_one(f"How many {to} are in {amount} {unit}?", boxes=NUMBER)
    singular = {many(name): name for name in IN_BASE}
    exact = value * IN_BASE[singular[unit]] / IN_BASE[singular[to]]
    if exact.denominator == 1:
        assert Fraction(row["answer"]) == exact
    else:
        assert row["status"] == "declined"


READ = {
    "A bench is 5 1/2 feet long. How many inches long is the bench?": "66",
    "How many inches are in a foot?": "12",
    "A film lasts 3 hours. How many minutes is that?": "180",
    "How many inches are in 5 feet 8 inches?": "68",
    "A pole is 2 meters 46 centimeters tall. How tall is the pole in centimeters?": "246",
    "How many minutes are there in 3/4 hour?": "45",
    "Our cat eats 8 ounces of food each day. We bought a 28-pound bag of food. How many 8-ounce "
    "servings are in a 28-pound bag of food?": "56",
    "Mara's bean row is 7 yards long. How long is the row in feet?": "21",
    "Pia's soup pot holds 3 quarts. How many cups does it hold?": "12",
    "The class worked for 150 minutes. How many hours did it work?": "2.5",
    "A sack weighs 1 1/2 tons. How many pounds does it weigh?": "3000",
    "How many 4-inch pieces can be cut from a 3-foot ribbon?": "9",
    "What is 250 cm in meters?": "2.5",
    "A sack holds 3.5 kg of flour. How many grams is that?": "3500",
}
"""Worked out by hand."""


@pytest.mark.parametrize(("stem", "answer"), READ.items())
def test_read(stem: str, answer: str) -> None:
    assert solve_one(stem, boxes=NUMBER)["answer"] == answer


DECLINED = (
    "How many pounds are in 3 kilograms?",
    "A bed is 3 feet long. How wide is it in inches?",
    "A bench is 5 1/2 feet long. How many inches long is the table?",
    "A bench is 5 1/2 feet long. How many inches wide is the bench?",
    "A bed is 3 feet long and 2 feet wide. How many inches is that?",
    "Each of 4 beds is 3 feet long. How many inches is that?",
    "How many inches are in 3 feet and 2 yards?",
    "How many days are in 3 months?",
    "How many weeks are in 2 years?",
    "How many inches are in 1/5 foot?",
    "A worm crawls 2 feet in 5 minutes. How many inches is that?",
    "Mia walked 3 miles. Tom walked more. How many feet is that?",
    "Pia walked 3 miles. How many feet did Tom walk?",
    "Pia's pot holds 3 quarts. How many cups does Tom's pot hold?",
    "Pia has 3 yards of rope. How many feet did she cut?",
    "How many square inches are in 2 square feet?",
)


@pytest.mark.parametrize("stem", DECLINED)
def test_what_is_not_certain_is_declined(stem: str) -> None:
    row = solve_one(stem, boxes=NUMBER)
    assert row["status"] == "declined", row


@pytest.mark.parametrize(
    ("wrong", "slip"),
    [("1/4", "converted the other way"), ("3", "not converted"), ("15", "fact added"),
     ("30", "another fact"), ("12", "fact alone")],
)  # fmt: skip
def test_slips(wrong: str, slip: str) -> None:
    row = solve_one("How many inches are in 3 feet?", choices={"A": "36", "B": wrong})
    assert row["choices"]["B"]["slip"] == slip


def test_the_fact_stands_beside_the_line() -> None:
    row = solve_one("How many inches are in 3 feet?", boxes=NUMBER)
    assert row["steps"][0] == {"move": "measure fact", "shows": "3 × 12", "facts": []}
