"""What a question demands, in plain words, as `narrate read` tells it."""

from __future__ import annotations

from narrate.exact.caption import write
from narrate.exact.tree import Expr, Relation, Writing
from narrate.reading.demands import Condition, Demand, Judged, Named, OnTheClock, Tested


def says_all(demand: Demand) -> bool:
    """Whether the words of a demand say all that was read, and no work stands beside them."""
    return isinstance(demand, Judged | Tested | Named)


def said(demand: Demand) -> str:
    """What is demanded, in words."""
    match demand:
        case Judged(conditions=conditions):
            return f"which number {' and '.join(map(_condition, conditions))}"
        case Tested():
            return _tested(demand)
        case Named():
            return f"the {_named(demand)}"
        case OnTheClock(name="between"):
            return "how long it is by the clock"
        case _:
            return demand.said


_OF = {
    "greater": "greater than",
    "less": "less than",
    "equal": "equal to",
    "multiple": "a multiple of",
    "factor": "a factor of",
    "greatest": "the greatest",
    "least": "the least",
}


def _condition(condition: Condition) -> str:
    than = f" {write(condition.than)}" if condition.than is not None else ""
    if condition.name == "rounds":
        place = f" to the nearest {condition.nearest.name}" if condition.nearest else ""
        return f"{'does not round' if condition.negated else 'rounds'} to{than}{place}"
    verb = "is not" if condition.negated else "is"
    return f"{verb} {_OF.get(condition.name, condition.name)}{than}"


def _tested(test: Tested) -> str:
    about = _shown(test.about[0]) if test.about else ""
    words = {
        "true": "is true",
        "makes": f"makes {about}",
        "solves": f"goes with {about}",
        "ordered": "is in the order that is asked for",
        "all factors": f"has all factors of {about}",
        "multiples": f"has only multiples of {about}",
        "prime factors": f"is the product of primes{f' that makes {about}' if about else ''}",
        "scientific": f"is {about} in scientific notation",
        "property": "goes with the property",
        "sign": "makes the comparison true",
        "digit": "has the digit in its place",
        "rule": "leads from each number to the next",
        "between": f"has {about} between its numbers",
        "roots": f"has the square root of {about} between its numbers",
        "extreme": "is at the end of the number line that is asked for",
        "equivalent": f"is always the same as {about}",
        "step": "leaves the letter alone",
        "angle": f"is the kind of angle that has {about} degrees",
    }[test.name]
    return f"which choice {words}{' (asked for the one that does not)' if test.negated else ''}"


def _shown(about: Writing | str) -> str:
    return about if isinstance(about, str) else write(about)


def _named(named: Named) -> str:
    listed = _listed(named.of)
    match named.name:
        case "value of a digit":
            digit, of = named.of
            return f"value of the digit {write(digit)} in {write(of)}"
        case "digit in a place":
            return f"digit in the {named.place} place of {listed}"
        case "least common multiple" | "greatest common factor" | "square root" | "reciprocal":
            return f"{named.name} of {listed}"
        case "mean" | "median" | "mode" | "range" | "opposite" | "least common denominator":
            return f"{named.name} of {listed}"
        case "fraction" | "mixed number":
            return f"number {listed} as a {named.name}"
        case _:
            return named.name


def _listed(numbers: tuple[Expr | Relation, ...]) -> str:
    *first, last = map(write, numbers)
    return f"{', '.join(first)} and {last}" if first else last
