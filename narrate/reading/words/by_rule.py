"""Whole questions that a rule answers: angles that make a whole, patterns, the whole of a percent.

CCSSM (2010) 4.MD.C.7, 7.G.B.5, 8.G.A.5 (angles), 4.OA.C.5 (patterns), 6.RP.A.3c (percents).
"""

from __future__ import annotations

import re
from itertools import pairwise

from narrate.exact.parser import parse_expr
from narrate.exact.tree import Expr, value
from narrate.reading.words import more_number_facts as more
from narrate.reading.words.whole_questions import ANY, ASK, LIST, N, Row, number, numbers

# -- angles

_A = rf"{ANY}(?:°| degrees)"
_NAMED = r"(?:the )?(?:angles? |∠ ?|m∠ ?)?[a-z]\b"
_SIZE = r"(?:the )?(?:(?:measure|size|degree measure|number of degrees) (?:of|in) )?"
_IS = r"(?:is|has|measures|has a measure of|is equal to)"
_ASKS = r"(?:what is|find|how (?:large|big) is)"
_OTHER = rf"{_SIZE}(?:the )?(?:{_NAMED}|other(?: angle)?|second(?: angle)?)"
_WHOLES = {"supplementary": 180, "complementary": 90}


def _rest(whole: int, *told: str) -> Expr | None:
    """What is left of so many degrees, None where nothing is."""
    tree = parse_expr(" − ".join((str(whole), *(each.replace(",", "") for each in told))))
    return tree if value(tree) > 0 else None


def _pair(found: re.Match[str]) -> Expr | None:
    """The other of two angles that make 180 or 90 degrees, where it is not the one that is told."""
    names = {n: found[n] for n in ("p", "q", "told", "asked") if found.groupdict().get(n)}
    if names and not (
        names["told"] != names["asked"]
        and {names["told"], names["asked"]} == {names["p"], names["q"]}
    ):
        return None
    size = next(group for name, group in found.groupdict().items() if name.startswith("n"))
    return _rest(_WHOLES[found["sum"].lower()], size)


def _angle(name: str) -> str:
    return rf"(?:angle |∠ ?|m∠ ?)?(?P<{name}>[a-z])\b"


_PAIRS = "(?P<sum>supplementary|complementary)"
_DEGREES = r"(?P<n>\d+(?:\.\d+)?)(?:°| degrees)"
_PAIR_ROWS = (
    rf"angles? {_angle('p')} and {_angle('q')} are {_PAIRS}(?: angles)?[.] (?:if )?{_SIZE}"
    rf"{_angle('told')} {_IS} {_DEGREES}[.,] {_ASKS} {_SIZE}{_angle('asked')}",
    rf"(?:if )?(?:two angles|the two angles) are {_PAIRS}(?: angles)?[.,]? (?:and )?(?:if )?{_SIZE}"
    rf"one(?: angle| of them| of the (?:two )?angles)? {_IS} {_DEGREES}[.,] {_ASKS} {_SIZE}the "
    r"other(?: angle| one)?",
)
_PARTNERS = {"supplement": 180, "complement": 90}
_PARTNER = (
    rf"an angle (?:measures|has a measure of|is) {_A}[.] {_ASKS} {_SIZE}its "
    r"(supplement|complement)",
    rf"{_ASKS} {_SIZE}the (supplement|complement) of (?:an? )?(?:angle (?:of|that measures"
    rf"|measuring|whose measure is) )?(?:an? )?{_A}(?: angle)?",
)
_CORNERS = {"triangle": ("two", "third", 180, 2), "quadrilateral": ("three", "fourth", 360, 3)}


def _corner_rows() -> tuple[Row, ...]:
    """The last angle of a triangle, and of a figure with four sides."""
    rows = []
    for figure, (count, last, whole, told) in _CORNERS.items():
        sizes = rf"{_A} and {_A}" if told == 2 else rf"{_A}, {_A},? and {_A}"

        def rest(found: re.Match[str], whole: int = whole) -> Expr | None:
            return _rest(whole, *found.groups())

        asked = (
            rf"{_ASKS} {_SIZE}(?:the|its) (?:{last}|other|remaining|missing|last)(?: angle)?"
            rf"(?: of the {figure})?"
        )
        rows += [
            Row(
                rf"{count} (?:of the )?angles (?:of|in) an? {figure} (?:measure|are) {sizes}[.] "
                rf"{asked}",
                rest,
                why=f"{figure} angles",
            ),
            Row(
                rf"an? {figure} has (?:{count} )?angles (?:of|that measure|measuring) {sizes}[.] "
                rf"{asked}",
                rest,
                why=f"{figure} angles",
            ),
            Row(
                rf"the (?:measures of the )?angles of an? {figure} (?:measure|are) "
                rf"{sizes.replace(',? and ', ', ').replace(' and ', ', ')},? and ([a-z])(?:°| "
                rf"degrees)?[.] {_ASKS} (?:the value of )?\{told + 1}",
                lambda m, whole=whole: _rest(whole, *m.groups()[:-1]),  # type: ignore[misc]
                why=f"{figure} angles",
            ),
        ]
    return tuple(rows)


ANGLES = (
    *(
        Row(words, _pair, why=f"{name} angles")
        for name in _WHOLES
        for words in (row.replace(_PAIRS, f"(?P<sum>{name})") for row in _PAIR_ROWS)
    ),
    *(
        Row(
            words.replace("(supplement|complement)", name),
            lambda m, whole=whole: _rest(whole, m[1]),  # type: ignore[misc]
            why=f"{name}ary angles",
        )
        for name, whole in _PARTNERS.items()
        for words in _PARTNER
    ),
    *_corner_rows(),
)
"""The other of two angles that make a straight or a right angle, the last angle of a figure."""

# -- percents and parts of an unknown number

_SOME = r"(?:a|some|what|which) (?:certain )?number"
_WHAT = r"(?:what is|find) (?:the|this|that) number"
_ISP = r"(?:is|equals|=)"


def _whole(percent: str, part: str) -> Expr | None:
    """The number of which a percent is told, where one hundredth of it or the whole comes out."""
    if not number(percent):
        return None
    part = part.replace(",", "").replace("$", "")
    ends = 10**4 % (number(part) / number(percent)).denominator == 0
    return parse_expr(f"{part} ÷ {percent} × 100" if ends else f"{part} × 100 ÷ {percent}")


def _of_part(top: str, bottom: str, part: str) -> Expr | None:
    """The number of which a fraction is told: one part first, then all of them."""
    part = part.replace(",", "").replace("$", "")
    if not int(top) or number(part) % int(top):
        return None
    one = f"{part} ÷ {top}" if int(top) > 1 else part
    return parse_expr(f"{one} × {bottom}")


def _percent(part: str, whole: str) -> Expr | None:
    """How many percent one number is of another, where their quotient ends."""
    part, whole = (each.replace(",", "").replace("$", "") for each in (part, whole))
    if not number(whole) or 10**4 % (number(part) / number(whole)).denominator:
        return None
    return parse_expr(f"{part} ÷ {whole} × 100")


_P = r"(\d+(?:\.\d+)?)(?:%| percent)"
_F = r"(\d+)/(\d+)"
PARTS = (
    Row(rf"{N} {_ISP} what (?:percent|percentage) of {N}", lambda m: _percent(m[1], m[2]),
        why="what percent"),
    Row(rf"what (?:percent|percentage) of {N} {_ISP} {N}", lambda m: _percent(m[2], m[1]),
        why="what percent"),
    Row(rf"(?:if )?{_P} of {_SOME} {_ISP} {N}[.,] {_WHAT}", lambda m: _whole(m[1], m[2]),
        why="whole of percent"),
    Row(rf"{_P} of {_SOME} {_ISP} {N}", lambda m: _whole(m[1], m[2]), why="whole of percent"),
    Row(rf"{N} {_ISP} {_P} of {_SOME}", lambda m: _whole(m[2], m[1]), why="whole of percent"),
    Row(rf"(?:if )?{N} {_ISP} {_P} of {_SOME}[.,] {_WHAT}", lambda m: _whole(m[2], m[1]),
        why="whole of percent"),
    Row(rf"(?:if )?{_F} of {_SOME} {_ISP} {N}[.,] {_WHAT}",
        lambda m: _of_part(m[1], m[2], m[3]), why="whole of part"),
    Row(rf"{_F} of {_SOME} {_ISP} {N}", lambda m: _of_part(m[1], m[2], m[3]), why="whole of part"),
    Row(rf"{N} {_ISP} {_F} of {_SOME}", lambda m: _of_part(m[2], m[3], m[1]),
        why="whole of part"),
)  # fmt: skip
"""The number of which a percent or a fraction is told."""

# -- patterns

_ORDINALS = [
    "first",
    "second",
    "third",
    "fourth",
    "fifth",
    "sixth",
    "seventh",
    "eighth",
    "ninth",
    "tenth",
    "eleventh",
    "twelfth",
]
_NTH = rf"(?P<nth>{'|'.join(_ORDINALS)}|\d+(?:st|nd|rd|th))"
_PATTERN = r"(?:(?:the|this|a) )?(?:number )?(?:pattern|sequence)"
_GO_ON = (
    r"(?:[.] (?:if )?(?:the |this )?(?:pattern|sequence) continues(?: in the same way"
    r"| in this way)?[.,])?"
)
_DOTS = r"(?:,? ?(?:\.\.\.|…))?"


def nth(found: re.Match[str]) -> Expr | None:
    """The number at a place of a pattern that goes by one step, counted on from the last told."""
    told, place = numbers(found["list"]), _place(found["nth"])
    steps = {b - a for a, b in pairwise(told)}
    more_steps = place - len(told)
    if len(told) < len("abc") or len(steps) != 1 or not 0 < more_steps <= 100:
        return None
    step = steps.pop()
    sign, size = ("+" if step > 0 else "−"), abs(step)
    work = str(size) if more_steps == 1 else f"{more_steps} × {size}"
    tree = parse_expr(f"{told[-1]} {sign} {work}")
    whole = all(n.denominator == 1 and n >= 0 for n in (*told, value(tree)))
    return tree if whole and step else None


def _place(name: str) -> int:
    name = name.lower()
    return _ORDINALS.index(name) + 1 if name in _ORDINALS else int(re.sub(r"\D", "", name))


def _by(rule: str) -> object:
    """The next number of a pattern, where it goes on by this rule."""

    def work(found: re.Match[str]) -> Expr | None:
        made = more.next_work(numbers(found[1]))
        return made[1] if made and made[0] == rule else None

    return work


_NAMED_LIST = LIST.replace("((?:-", "(?P<list>(?:-", 1)
NEXT = (
    r"(?:what is the next (?:number|term)(?: in (?:the|this) (?:number )?(?:pattern|sequence))?"
    r"|what (?:number|term) comes next(?: in (?:the|this) (?:pattern|sequence))?)[:?.,]? ?"
)
PATTERNS = (
    Row(
        rf"(?:the )?(?:first (?:\w+ )?)?(?:numbers|terms) (?:in|of) {_PATTERN} (?:are|is) "
        rf"{_NAMED_LIST}{_DOTS}{_GO_ON} {ASK} {_NTH} (?:number|term)(?: (?:in|of) {_PATTERN})?",
        nth, why="pattern by steps",
    ),
    Row(
        rf"{_PATTERN}(?: is| begins| starts)?:? {_NAMED_LIST}{_DOTS}"
        r"(?: continues(?: in the same way| in this way)?)?"
        rf"{_GO_ON}[.]? {ASK} {_NTH} (?:number|term)(?: (?:in|of) {_PATTERN})?",
        nth, why="pattern by steps",
    ),
    Row(
        rf"{ASK} {_NTH} (?:number|term) (?:in|of) {_PATTERN}[:?.,]? ?{_NAMED_LIST}{_DOTS}",
        nth, why="pattern by steps",
    ),
    *(
        Row(rf"{NEXT}{LIST}(?:,? ?(?:\.\.\.|…|_+|\?))?", _by(rule), why=rule)  # type: ignore[arg-type]
        for rule in ("times and more", "growing steps", "last two")
    ),
)  # fmt: skip
"""The number at a place of a pattern that goes by one step; the next one by other rules."""

ROWS = (*ANGLES, *PARTS, *PATTERNS)
