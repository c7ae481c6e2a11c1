"""Whole questions about numbers themselves: multiples, rounding, averages, equations, measures.

Every row is a whole question and what it asks of its numbers; there is no story to read.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import suppress
from fractions import Fraction
from functools import cache
from math import gcd, lcm

from narrate.errors import Declined, ExactError
from narrate.exact.measures import HOW_MANY, NOT_EXACT
from narrate.exact.parser import parse
from narrate.exact.tree import Blank, Expr, Op, Relation, value, walk
from narrate.reading.equations import worked_back
from narrate.reading.words import (
    by_rule,
    change_rules,
    data_told,
    figure_rules,
    letter_rules,
    work_named,
    written_as,
)
from narrate.reading.words import more_number_facts as more
from narrate.reading.words.lexicon import one
from narrate.reading.words.plain import may_be, plain, words_said
from narrate.reading.words.temperatures import temperature
from narrate.reading.words.whole_questions import ANY, ASK, LIST, N, Row, number, numbers


def _least_multiple(found: re.Match[str]) -> Fraction | None:
    wholes = numbers(found[1])
    if any(n.denominator != 1 or n <= 0 for n in wholes):
        return None
    return Fraction(lcm(*(int(n) for n in wholes)))


def _greatest_factor(found: re.Match[str]) -> Fraction | None:
    wholes = numbers(found[1])
    if any(n.denominator != 1 or n <= 0 for n in wholes):
        return None
    return Fraction(gcd(*(int(n) for n in wholes)))


def _common_denominator(found: re.Match[str]) -> Fraction | None:
    bottoms = [int(part) for part in re.findall(r"/(\d+)", found[1])]
    return Fraction(lcm(*bottoms)) if bottoms and all(bottoms) else None


def _remainder(found: re.Match[str]) -> Fraction | None:
    total, by = number(found[1]), number(found[2])
    whole = total.denominator == by.denominator == 1 and by > 0 and total >= 0
    return total % by if whole else None


PLACES: dict[str, int | Fraction] = {
    "whole number": 1, "one": 1, "unit": 1, "dollar": 1, "integer": 1, "ten": 10, "hundred": 100,
    "one hundred": 100, "thousand": 1000, "one thousand": 1000, "ten thousand": 10_000,
    "hundred thousand": 100_000, "million": 1_000_000, "10": 10, "100": 100, "1000": 1000,
    "10000": 10_000, "100000": 100_000, "1000000": 1_000_000, "tenth": Fraction(1, 10),
    "hundredth": Fraction(1, 100), "cent": Fraction(1, 100), "penny": Fraction(1, 100),
    "thousandth": Fraction(1, 1000),
}  # fmt: skip


def _rounded(told: str, place: str) -> Fraction | None:
    size = Fraction(PLACES.get(place.replace(",", "").strip(), 0))
    if not size:
        return None
    steps = number(told) / size
    half_up = (abs(steps) * 2 + 1) // 2
    return size * half_up * (1 if steps >= 0 else -1)


def _equation(found: re.Match[str]) -> Fraction | Expr | None:
    """The number that makes an equation with one letter or box true, if there is just one."""
    return _equation_of(re.sub(r"(\d)([a-z])\b", r"\1 × \2", found[1].strip(" .")))


def _equation_of(told: str) -> Fraction | Expr | None:
    with suppress(ExactError):
        tree = parse(told)
        names = {node.name for node in walk(tree) if isinstance(node, Blank)}
        if (
            isinstance(tree, Relation)
            and tree.sign == "="
            and len(tree.sides) == 2
            and len(names) == 1
        ):
            return _worked(tree, _root(tree))
    return None


def _worked(equation: Relation, root: Fraction | None) -> Fraction | Expr | None:
    """The root of an equation as what its steps undone make, where that is certain."""
    with suppress(Declined, ExactError):
        back = worked_back(equation)
        if isinstance(back, Op) and value(back) == root:
            return back
    return root


def _root(tree: Relation) -> Fraction | None:
    def gap(number: int) -> Fraction:
        left, right = (value(side, Fraction(number)) for side in tree.sides)
        return left - right

    at_one, at_two, at_three = gap(1), gap(2), gap(3)
    slope = at_two - at_one
    if slope == 0 or at_three - at_two != slope:
        return None
    root = 1 - at_one / slope
    left, right = (value(side, root) for side in tree.sides)
    return root if left == right else None


def _letter(found: re.Match[str]) -> Fraction | Expr | None:
    """The value of the letter that is asked for, the only one of its equation."""
    letter, equation = sorted(found.groups(), key=len)
    others = set(re.findall(r"(?<![a-z])[a-z](?![a-z])", equation)) - {letter}
    told = re.sub(r"(\d)([a-z])\b", r"\1 × \2", equation.strip(" .,"))
    return None if others or letter not in equation else _equation_of(told)


def _percent(part: str, whole: str) -> Fraction | None:
    """How many percent a part is of a whole."""
    share = _share(part, whole)
    return None if share is None else share * 100


def _share(part: str, whole: str) -> Fraction | None:
    return number(part) / total if (total := number(whole)) else None


def _sides_of(figure: str) -> Fraction | None:
    sides = more.SIDES.get(figure.lower())
    return None if sides is None else Fraction(sides)


def _same_amount(found: re.Match[str]) -> Fraction | None:
    """A length or weight in another unit: 3 m = □ cm."""
    here, there = one(found[2]), one(found[3])
    if (here, there) in HOW_MANY or (there, here) in HOW_MANY:
        if {(here, there), (there, here)} & NOT_EXACT:
            return None
        larger = (there, here) in HOW_MANY
        size = HOW_MANY[(there, here)] if larger else HOW_MANY[(here, there)]
        return number(found[1]) * (size if larger else Fraction(1, size))
    return None


def _converted(found: re.Match[str]) -> Fraction | None:
    small, count, large = one(found[1]), found[2], one(found[3])
    size = HOW_MANY.get((small, large))
    if size is None or (small, large) in NOT_EXACT:
        return None
    return size * (Fraction(1) if count in ("a", "an", "one") else Fraction(count.replace(",", "")))


_LEAST = r"(?:least|lowest|smallest) common multiple|lcm"
_GREATEST = r"(?:greatest|highest|largest) common (?:factor|divisor)|gcf|gcd"
_COMMON = "(?:(?:least|lowest) )?common denominator"
_LETTER = r"[^a-z?]*[a-z][^a-z?]*=[^a-z?]*|[^a-z=?]*=[^a-z=?]*[a-z][^a-z?]*?"
_BOX = (
    r"[\d ×÷+*/-]*[?_□] ?[\d ×÷+*/=-]*= ?[\d /]+|[\d /]+ ?= ?[\d ×÷+*/-]*[?_□][\d ×÷+*/ -]*"
    r"|[\d ×÷+*/-]+ [?_□] ?= ?\d+"
)
_TRUE = r"missing number|number that makes (?:the|this) (?:statement|equation|number sentence) true"
_SOLVE = (
    r"(?:solve|find the solution (?:of|to)|identify a solution (?:for|of|to)"
    r"|what is the solution (?:of|to))(?: the)?(?: equation)?(?: for [a-z])?:? ?"
)
_GIVEN = r"(?: for [a-z]| using mental math| from the given numbers)?"
_PLACED = "(?:locate|place|plot|show|mark|graph|represent)"
_LINE = r"number line(?: diagram)?"
_BLANK = r"(?:box|\?|_+|□)"
ROWS = (
    Row(rf"{ASK} (?:{_LEAST}) (?:of|for) {LIST}", _least_multiple, "least common multiple"),
    Row(rf"{ASK} (?:{_GREATEST}) (?:of|for) {LIST}", _greatest_factor, "greatest common factor"),
    Row(
        r"(?:what is|name|find) the (?:smallest|least) (?:whole |counting )?number that "
        r"(?:is (?:a multiple of|divisible by)|can be (?:evenly )?divided (?:evenly )?by) "
        r"(?:both )?"
        rf"{LIST}",
        _least_multiple,
        "least common multiple",
    ),
    Row(rf"{ASK} {_COMMON} (?:of|for)(?: the fractions)?:? {LIST}", _common_denominator),
    Row(rf"{ASK} remainder (?:when|if|of) {N}(?: is)? divided by {N}", _remainder, "remainder"),
    Row(rf"(?:when|if) {N} is divided by {N},? what is the remainder", _remainder, "remainder"),
    Row(rf"{ASK} {N},? rounded to the nearest ([\w, ]+)", lambda m: _rounded(m[1], m[2])),
    Row(rf"round {N} to the nearest ([\w, ]+)", lambda m: _rounded(m[1], m[2])),
    Row(rf"round to the nearest ([\w, ]+): {N}", lambda m: _rounded(m[2], m[1])),
    Row(rf"(?:{_PLACED} )?{ANY}(?: [a-z]+)? on (?:a|the) {_LINE}", lambda m: number(m[1])),
    Row(rf"{_SOLVE}({_LETTER}){_GIVEN}", _equation),
    Row(r"(?:find the number that makes )?the statement ([\d /?_□=×÷+-]+) true", _equation),
    Row(
        rf"(?:(?:find|what is) the (?:{_TRUE})[:.]? )?{ANY} ([a-z]+) = {_BLANK} ([a-z]+)",
        _same_amount,
    ),
    Row(rf"what is the ratio of {ANY} to {ANY}", lambda m: number(m[1]) / number(m[2])),
    Row(rf"(?:find|what is) the (?:{_TRUE})[:.]? (.*=.*)", _equation),
    Row(rf"(?:what is )?({_BOX})", _equation),
    Row(r"how many (\w+) (?:are|are there) in (an?|one|\d[\d,]*(?:\.\d+)?) (\w+)", _converted),
)  # fmt: skip
_SIGN = "(times|multiplied by|plus|added to|increased by|minus|decreased by|divided by)"
_IS = "(?:is|equals|gives|makes)"
_TRUE_OF = r"(?:makes|will make)(?: the)?(?: equation)?:? "
_NEXT = (
    r"(?:what is the next (?:number|term)(?: in (?:the|this) (?:number )?(?:pattern|sequence))?"
    r"|what (?:number|term) comes next(?: in (?:the|this) (?:pattern|sequence))?)[:?.,]? ?"
)
_IN = r"in(?: the number)? "
_WRITTEN = r"(\d[\d,]*(?:\.\d+)?)"
_PLACE = r"(?:what|which) digit is in the ([a-z ]+?)(?: |-)place"
_CORNERS = "(?:sides|angles|corners|vertices)"
MORE = (
    Row(
        r"(?:what is|find) the value of ([a-z]) (?:in|if|when)(?: the)?"
        rf"(?: equation| proportion)?:? ({_LETTER})",
        _letter,
    ),
    Row(
        rf"(?:what|which) value of ([a-z]) {_TRUE_OF}({_LETTER}) "
        r"(?:a )?true(?: (?:equation|(?:number )?sentence|statement))?",
        _letter,
    ),
    Row(
        r"(?:what|which) (?:value|number) (?:of|for) ([a-z]) is (?:a|the) solution (?:of|to)"
        rf"(?: the equation)?:? ({_LETTER})",
        _letter,
    ),
    Row(rf"(?:if|solve) ({_LETTER})[,.]? (?:then )?what is (?:the value of )?([a-z])", _letter),
    Row(
        rf"(?:what is )?the value of (?:the )?(?:digit )?(\d) {_IN}{_WRITTEN}",
        lambda m: more.value_of_digit(m[1], m[2]),
        "value of a digit",
    ),
    Row(
        r"(?=.* (\d) ?[.?]?$)"
        rf"{_IN}{_WRITTEN},? (?:what is )?the value of (?:the )?(?:digit )?\d",
        lambda m: more.value_of_digit(m[1], m[2]),
        "value of a digit",
    ),
    Row(
        rf"{_PLACE} (?:of(?: the number)? |{_IN}){_WRITTEN}",
        lambda m: more.digit_at(m[1], m[2]),
        "digit in a place",
    ),
    Row(
        rf"{_IN}{_WRITTEN},? {_PLACE}",
        lambda m: more.digit_at(m[2], m[1]),
        "digit in a place",
    ),
    Row(rf"{ASK} {N} (squared|cubed)", lambda m: more.power(m[1], m[2])),
    Row(
        rf"{ASK} {N} (?:raised )?to the (second|third|fourth|fifth|sixth) power",
        lambda m: more.power(m[1], m[2]),
    ),
    Row(
        rf"{ASK} (?:(?:positive )?square root of |√ ?){N}",
        lambda m: more.square_root(number(m[1])),
        "square root",
    ),
    Row(
        r"what is (?:the absolute value of |\|)(-?\d+(?:\.\d+)?(?:/\d+)?)\|?",
        lambda m: abs(number(m[1])),
    ),
    Row(rf"what is the reciprocal of {ANY}", lambda m: 1 / n if (n := number(m[1])) else None),
    Row(rf"{_NEXT}{LIST}(?:,? ?(?:\.\.\.|…|_+|\?))?", lambda m: more.worked_next(numbers(m[1]))),
    Row(rf"{N} is what (?:percent|percentage) of {N}", lambda m: _percent(m[1], m[2])),
    Row(rf"what (?:percent|percentage) of {N} is {N}", lambda m: _percent(m[2], m[1])),
    Row(rf"what (?:fraction|part) of {N} is {N}", lambda m: _share(m[2], m[1])),
    Row(
        rf"(?:using 3\.14 for (?:π|pi),? )?{ASK} (circumference|area) of a circle (?:with|whose"
        rf"|that has) (?:a )?(radius|diameter) (?:of|is) {N} ?[a-z]*"
        r"(?:[.?]? ?\(?use 3\.14 for (?:π|pi)[.)]*)?",
        lambda m: more.circle(m[1], m[2], m[3]) if "3.14" in m[0] else None,
    ),
    Row(rf"{ASK} volume of (.+)", lambda m: more.volume(m[1])),
    Row(
        rf"{N} {_SIGN} what number {_IS} {N}",
        lambda m: more.unknown_of(m[2], m[1], m[3], first=False),
    ),
    Row(
        rf"what number {_SIGN} {N} {_IS} {N}",
        lambda m: more.unknown_of(m[1], m[2], m[3], first=True),
    ),
    Row(
        rf"a number {_SIGN} {N} {_IS} {N}[.,] (?:what is|find) (?:the|this) number",
        lambda m: more.unknown_of(m[1], m[2], m[3], first=True),
    ),
    Row(
        rf"the sum of a number and {N} is {N}[.,] (?:what is|find) (?:the|this) number",
        lambda m: more.unknown_of("plus", m[1], m[2], first=True),
    ),
    Row(
        rf"the product of a number and {N} is {N}[.,] (?:what is|find) (?:the|this) number",
        lambda m: more.unknown_of("times", m[1], m[2], first=True),
    ),
    Row(
        rf"how many ((?:ten |hundred )?(?:ten|hundred|thousand)s) (?:are|are there) in {N}",
        lambda m: more.tens_in(m[1], m[2]),
    ),
    Row(
        r"(?:(?:what is|which is|find) the missing number|(?:what|which) number is missing) "
        r"(?:in|from) (?:the|this) "
        r"(?:number )?(?:pattern|sequence)[:?.]? ([\d, _□?]+)",
        lambda m: more.missing_in(m[1]),
    ),
    Row(
        rf"the rule (?:for|of) (?:a|the|this) (?:number )?pattern is [\"']?"
        rf"(add|subtract|multiply by) {N}[.\"']* "
        rf"(?:the (?:pattern|first number|first term) (?:starts with|begins with|is)) {N}[.] "
        r"what is the (second|third|fourth|fifth) (?:number|term)(?: in the pattern)?",
        lambda m: more.nth_by_rule(m[1], m[2].strip(".,"), m[3].strip(".,"), m[4]),
    ),
    Row(rf"(?:what|which) number is {N} times {N}", lambda m: number(m[1]) * number(m[2])),
    Row(rf"(?:what|which) number is {N} more than {N}", lambda m: number(m[1]) + number(m[2])),
    Row(
        rf"(?:what|which) number is {N} (?:less|fewer) than {N}",
        lambda m: number(m[2]) - number(m[1]),
    ),
    Row(
        rf"how many {_CORNERS} (?:does an? ([a-z]+) have|are there in an? ([a-z]+))",
        lambda m: _sides_of(m[1] or m[2]),
    ),
    Row(
        r"how many (\w+) (?:are|are there) in (\d+/[1-9]\d*) (?:of )?(?:an? |one )?(\w+)",
        _converted,
    ),
)
"""Rows that `more_number_facts` works out."""


_BY_RULE = (*by_rule.ROWS, *figure_rules.ROWS, *letter_rules.ROWS, *change_rules.ROWS)
_ALL = (*ROWS, *data_told.ROWS, *written_as.ROWS, *MORE, *work_named.ROWS)


@cache
def _compiled(question: str) -> re.Pattern[str]:
    return re.compile(question + r" ?[.?]?", re.IGNORECASE)


def read_number_fact(text: str) -> Fraction | Expr | None:
    """The answer of a whole question about numbers, or what to work out for it.

    None where it is no such question for certain.
    """
    found = _found(text)
    made = found[0].rule(found[1]) if found else None
    if made is None and (ruled := ruled_number(text)) is not None:
        return ruled[1]
    return made


def ruled_number(text: str) -> tuple[str, Expr] | None:
    """A number that follows by a rule: the rule's name, and what it says to work out."""
    for row, match in _matches(_plainly(text), _BY_RULE):
        made = row.rule(match)
        if made is not None and not isinstance(made, Fraction):
            return row.why, made
    return temperature(text)


def named_number(text: str) -> tuple[str, Fraction, tuple[str, ...]] | None:
    """A number that is asked for by name, its value, and the numbers or words that it is of."""
    found = _found(text)
    if found is None or not found[0].name:
        return None
    worth = found[0].rule(found[1])
    listed = found[1].groupdict().get("list")
    said = (listed,) if listed else tuple(group for group in found[1].groups() if group)
    return (found[0].name, worth, said) if isinstance(worth, Fraction) else None


def _found(text: str) -> tuple[Row, re.Match[str]] | None:
    """The row whose question a text is."""
    return next(_matches(_plainly(text), _ALL), None)


def _matches(asked: str, rows: Sequence[Row]) -> Iterator[tuple[Row, re.Match[str]]]:
    """The rows whose questions a text is; patterns are made only where their words are there."""
    words = words_said(asked)
    for row in rows:
        if may_be(row.question, words) and (found := _compiled(row.question).fullmatch(asked)):
            yield row, found


def _plainly(text: str) -> str:
    """A question with alike signs made one, and without what it says beside the question."""
    asked = " ".join(plain(text).split())
    asked = re.sub(r"\. (?:use (?:a calculator|paper|mental)|check your).*$", "", asked, flags=re.I)
    asked = re.sub(r"(\d+) and (\d+) over (\d+)", r"\1 \2/\3", asked)
    return re.sub(r"(?<![\w.])(\d+|[?]|[a-z]) over (\d+)(?!\w|\.\d)", r"\1/\2", asked)
