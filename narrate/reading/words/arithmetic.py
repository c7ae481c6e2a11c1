"""Arithmetic asked for outright: an expression, or two numbers joined by words.

Every row is a whole question: anything said beside it means that the row does not read it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from math import isqrt

from narrate.errors import ExactError
from narrate.exact.parser import parse_expr
from narrate.exact.tree import Decimal, Expr, Frac, Group, Mixed, Neg, Whole, has_blank, value
from narrate.reading.words.plain import plain

_NOUN = r"(?:sum|difference|product|quotient|answer|result)"
_AS = r"as an? (?:mixed number|improper fraction|fraction|decimal)"
_SIMPLY = r"in (?:simplest|simplified|lowest) (?:form|terms)"
_ASKING = "|".join(
    (
        r"what (?:is|are)", "what's", "calculate", "compute", "work out", "evaluate", "simplify",
        "find", "find the value", "find the exact answer", "solve", "determine", "give",
        "model the expression,? and then simplify", "how much is", "multiply", "divide",
        "subtract", "add",
        r"which(?: number| value| of (?:these|the following))? (?:is equal to|equals)",
    )
)  # fmt: skip
_CALLED = r"(?: (?:the|this) (?:numerical )?expression)?"
_THE = rf"(?:the (?:exact )?(?:value|total|{_NOUN})(?: (?:of|to))?){_CALLED}"
_FORM = "|".join(
    (
        r",? ?(?:and|then)? ?(?:write|give|express|leave|put) (?:the|your|its) "
        rf"{_NOUN} (?:{_SIMPLY}|{_AS})",
        rf",? ?{_SIMPLY}",
        ",? and (?:then )?simplify(?: your answer| the answer| if possible)?",
        rf",? ?{_AS}",
        " by converting the mixed numbers to improper fractions",
        " using the order of operations",
    )
)
_MODEL = "|".join(
    (
        r"(?:use|draw) (?:a|fraction) (?:model|diagram|picture|circle|tile|strip)s? to "
        rf"(?:(?:find|model) (?:each|the)(?: {_NOUN})?|add|subtract|multiply|divide|model)",
        rf"model(?:,? and (?:give|find|write) the {_NOUN}(?: {_AS})?)?",
    )
)
_SHOW = "|".join(
    (
        r"(?:show|draw) (?:a|an|your|all) (?:diagram|picture|work|model)"
        r"(?: to illustrate your (?:model|work))?",
        "use a calculator,? paper and pencil,? or mental math",
        "use (?:paper and pencil|mental math)",
        "check your (?:answer|work)",
    )
)
_LEADING = re.compile(
    rf"(?:{_MODEL}|(?:{_ASKING})(?: {_THE})?(?: (?:the|this) expression)?(?:{_FORM})?|{_THE})"
    r" ?[:.,]? ?"
    rf"(?:(?:{_SHOW})[.:]? ?)?",
    re.IGNORECASE,
)
_COMMAND = re.compile(rf"(?:{_ASKING}) ?[:.,]? ?(?:the )?(?={_NOUN}|)", re.IGNORECASE)
_TRAILING = re.compile(rf" ?(?:= ?[?_]*|{_FORM}|[.?] ?(?:{_SHOW}))? ?[.?]? ?$", re.IGNORECASE)
_WHEN = re.compile(
    r"^(.*?)\s+(?:when|if|for|where)\s+((?:,?\s*(?:and\s+)?[a-z]\s*=\s*[^=]+?)+)[.?]?\s*$"
)
_IF_FIRST = re.compile(
    r"(?:if|when|for) (?P<told>[a-z] ?= ?[\d./-]+(?:,? and [a-z] ?= ?[\d./-]+)*),"
    r" (?:then )?(?P<rest>.+)",
    re.IGNORECASE,
)
_LETTER = re.compile(r"([a-z])\s*=\s*(.+?)(?=\s*,?\s*(?:\band\b)?\s*(?:\b[a-z]\s*=|$))")
_POWER = re.compile(
    r"([0-9]+(?:\.[0-9]+)?|\((?:[^()]|\([^()]*\))*\))\s*(?:\^\s*([0-9])|([⁰¹²³⁴⁵⁶⁷⁸⁹]))"
)
_ROOT = re.compile(r"√\s?(\d+)(?![\d.,/])")
_ABSOLUTE = re.compile(r"\|([^|]+)\|")
_OVER = re.compile(r"(?<![\w.])(\d+) over (\d+)(?!\w|\.\d)")
_DIGITS = r"(?:\d[\d,]*(?:\.\d+)?|\.\d+)"
_N = rf"(\(?-?\s?\$?{_DIGITS}(?:/-?\d+| \d+/\d+|\^\d)?\)?|\(-?\d+/-?\d+\)|\|[^|]+\|)"


@dataclass(frozen=True, slots=True)
class Asked:
    """A question in words about two numbers, and the expression it asks for."""

    words: str
    expression: str


_INNER = (
    ("sum", "(({a}) + ({b}))"), ("product", "(({a}) × ({b}))"),
    ("quotient", "(({a}) ÷ ({b}))"), ("difference", "|({a}) - ({b})|"),
)  # fmt: skip
_OUTER = (
    ("{n} (?:less than|subtracted from)", "{inner} - ({0})", 1),
    ("{n} (?:more than|added to)", "{inner} + ({0})", 1),
    ("{n} times", "({0}) × {inner}", 1),
    ("(?:twice|double)", "2 × {inner}", 0),
    ("half(?: of)?", "{inner} ÷ 2", 0),
)


def _nested() -> Iterator[Asked]:
    """6 less than the product of 9 and 7; twice the sum of 4 and 5."""
    for noun, inner in _INNER:
        for before, whole, first in _OUTER:
            worked = inner.format(a=f"{{{first}}}", b=f"{{{first + 1}}}")
            words = rf"{before} the {noun} of {{n}} and {{n}}"
            yield Asked(words, whole.replace("{inner}", worked))


ASKED: tuple[Asked, ...] = (
    Asked(r"(?:the )?(?:sum|total) of {n},? and {n}", "({0}) + ({1})"),
    Asked(r"(?:add|sum|put together|add together) {n} and {n}", "({0}) + ({1})"),
    Asked(r"add {n} to {n}", "({1}) + ({0})"),
    Asked(r"{n} plus {n}", "({0}) + ({1})"),
    Asked(r"{n} (?:minus|take away) {n}", "({0}) - ({1})"),
    Asked(r"(?:subtract|take) {n} from {n}", "({1}) - ({0})"),
    Asked(r"{n} less than {n}", "({1}) - ({0})"),
    Asked(r"{n} more than {n}", "({1}) + ({0})"),
    Asked(r"(?:the )?(?:difference|distance) (?:between|of) {n} and {n}", "|({0}) - ({1})|"),
    Asked(r"(?:the )?product of {n} and {n}", "({0}) × ({1})"),
    Asked(r"multiply {n} (?:and|by|times) {n}", "({0}) × ({1})"),
    Asked(r"{n} (?:times|multiplied by) {n}", "({0}) × ({1})"),
    Asked(r"(?:the )?quotient of {n} and {n}", "({0}) ÷ ({1})"),
    Asked(r"divide {n} by {n}", "({0}) ÷ ({1})"),
    Asked(r"{n} divided by {n}", "({0}) ÷ ({1})"),
    Asked(
        r"(?:what number is )?{n} ?(?:%|percent) of {n}(?: is (?:what|what number))?",
        "(({0}) ÷ 100) × ({1})",
    ),
    Asked(r"{n} is {n} ?(?:%|percent) of (?:what|what number|which number)", "({0}) × 100 ÷ ({1})"),
    Asked(r"{n} ?(?:%|percent) of (?:what|what number) is {n}", "({1}) × 100 ÷ ({0})"),
    Asked(r"{n} is half of (?:what|what number|which number)", "({0}) × 2"),
    Asked(r"half of {n}", "({0}) ÷ 2"),
    Asked(
        r"{n} is {n} times (?:as (?:many|much|long|large) as )?(?:what|what number|which number)",
        "({0}) ÷ ({1})",
    ),
    Asked(
        r"the difference (?:between|of) two numbers is {n}[.] "
        r"the smaller (?:number |one )?is {n}[.] "
        r"(?:what is |find )the larger(?: number| one)?",
        "({0}) + ({1})",
    ),
    Asked(
        r"the difference (?:between|of) two numbers is {n}[.] "
        r"the larger (?:number |one )?is {n}[.] "
        r"(?:what is |find )the smaller(?: number| one)?",
        "({1}) - ({0})",
    ),
    Asked(
        r"the sum of two numbers is {n}[.] one (?:of the numbers |of them |number )?is {n}[.] "
        r"(?:what is |find )the other(?: number| one)?",
        "({0}) - ({1})",
    ),
    Asked(r"{n} of {n}", "({0}) × ({1})"),
    *_nested(),
)
_WORDS = frozenset(re.findall("[a-z]+", " ".join(row.words.replace("{n}", "") for row in ASKED)))
"""What all these questions are made of: a question with another word is none of them."""


@cache
def _asked() -> tuple[tuple[re.Pattern[str], str], ...]:
    return tuple((re.compile(row.words.replace("{n}", _N), re.I), row.expression) for row in ASKED)


@dataclass(frozen=True, slots=True)
class Sum:
    """What is to be worked out, and its value (rounded to the cent where money is divided)."""

    expression: Expr
    value: Fraction
    money: bool = False


def read_arithmetic(text: str) -> Sum | None:
    """The expression a bare question asks for, None where it is not bare for certain."""
    asked = _OVER.sub(r"(\1/\2)", " ".join(plain(text).split()))
    if first := _IF_FIRST.fullmatch(asked):
        asked = f"{first['rest'].rstrip(' ?.')} when {first['told']}"
    for start in _starts(asked):
        if start and (found := _in_words(start) or _written(start)):
            return found
    return None


def _starts(asked: str) -> Iterator[str]:
    """The question, and what is left of it after one or two commands."""
    yield asked
    for command in (_COMMAND, _LEADING):
        if found := command.match(asked):
            rest = asked[found.end() :]
            yield rest
            if again := command.match(rest):
                yield rest[again.end() :]


def _in_words(asked: str) -> Sum | None:
    body = _TRAILING.sub("", asked)
    words = re.findall("[a-z]+", body.lower())
    if not words or not _WORDS.issuperset(words):
        return None
    for pattern, expression in _asked():
        if found := pattern.fullmatch(body):
            return _written(expression.format(*(part.strip() for part in found.groups())))
    return None


def _written(asked: str) -> Sum | None:
    body = _TRAILING.sub("", asked)
    if found := _WHEN.match(body):
        body = _put_in(found[1], dict(_LETTER.findall(found[2])))
    if not re.search(r"\d", body) or re.fullmatch(r"[^+*÷×/(-]*\d\s+\d[^+*÷×/(-]*", body):
        return None
    tree = _tree(body.strip(" ."))
    if tree is None or _is_number(tree):
        return None
    with suppress(ExactError):
        return _priced(tree.inner if isinstance(tree, Group) else tree, "$" in body)
    return None


def _put_in(body: str, letters: dict[str, str]) -> str:
    """An expression with its letters' values put in: 5m^2n with m and n known."""
    known = "".join(letters)
    if not known or re.search(rf"[a-zA-Z](?<![{known}])", body):
        return ""
    return re.sub(rf"\s*([{known}])\s*(?=([{known}])?)", lambda m: f"({letters[m[1]]})", body)


def _tree(body: str) -> Expr | None:
    """The tree of an expression with powers, bars for distance from zero, and money."""
    body = _ROOT.sub(_root, body)
    for _ in range(20):
        opened = _ABSOLUTE.sub(_opened, _POWER.sub(_multiplied, body))
        if opened == body:
            break
        body = opened
    with suppress(ExactError, RecursionError):
        tree = parse_expr(re.sub(r"\)\s+\(", ")(", body.replace("$", "")))
        return None if has_blank(tree) else tree
    return None


def _multiplied(found: re.Match[str]) -> str:
    times = int(found[2] or "⁰¹²³⁴⁵⁶⁷⁸⁹".index(found[3]))
    return "(" + " × ".join([found[1]] * times) + ")" if times else "1"


def _root(found: re.Match[str]) -> str:
    """The root of a square; any other is left, and not read."""
    root = isqrt(int(found[1]))
    return f"({root})" if root * root == int(found[1]) else found[0]


def _opened(found: re.Match[str]) -> str:
    tree = _tree(found[1])
    if tree is None:
        return found[0]
    return f"({found[1]})" if value(tree) >= 0 else f"(-({found[1]}))"


def _is_number(tree: Expr) -> bool:
    """Whether nothing is left to do: a number alone asks for nothing by itself."""
    match tree:
        case Neg(inner) | Group(inner):
            return _is_number(inner)
        case Frac(top, bottom):
            return bottom == 0 or top % bottom != 0
        case Mixed() | Whole() | Decimal():
            return True
        case _:
            return False


def _priced(tree: Expr, money: bool) -> Sum:
    exact = value(tree)
    if money:
        return Sum(tree, Fraction(round(exact * 100), 100), money=True)
    return Sum(tree, exact)
