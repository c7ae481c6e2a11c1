"""Whole questions that a rule of figures answers: angles, circles, areas and perimeters.

CCSSM (2010) 4.MD.C.7 (angles), 6.G.A.1 and 7.G.B.4 (areas, circles); the sum of a figure's angles:
common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Callable

from narrate.exact.tree import Expr
from narrate.reading.words.more_number_facts import SIDES
from narrate.reading.words.whole_questions import (
    ANY,
    ASKS,
    UNIT,
    Row,
    number,
    work,
    worked,
)

# -- angles

_A = rf"{ANY}(?:°| degrees)"
_SIZE = r"(?:the )?(?:(?:measure|size|degree measure) (?:of|in) )?"
_ONE = r"(?:if )?(?:one|the first)(?: angle| of (?:them|the angles))?"
_OTHER = r"the (?:other|second|remaining)(?: angle| one)?"
_IS = r"(?:is|has|measures|has a measure of)"


def _together(makes: str) -> str:
    """Two angles that make something together, one of them told."""
    return (
        rf"two angles (?:together )?(?:form|make)(?: up)? {makes}[.] {_SIZE}{_ONE} {_IS} {_A}[.,] "
        rf"{ASKS} {_SIZE}{_OTHER}"
    )


def _third(found: re.Match[str]) -> Expr | None:
    """The angle of a named triangle that is not told."""
    triangle, first, size, second, other, asked = (group.lower() for group in found.groups())
    if len({first, second, asked}) < len("abc") or set(triangle) != {first, second, asked}:
        return None
    return worked("180 − {} − {}", size, other)


def _angle(*more: str) -> str:
    return rf"(?:m ?)?(?:angle |∠ ?)?([a-z]){''.join(more)}"


def _all_angles(found: re.Match[str]) -> Expr | None:
    sides = SIDES.get(found[1].lower())
    return worked("({} − 2) × 180", str(sides)) if sides else None


_FIGURE = r"(?:an?|any|every|the) (?:regular |convex )?([a-z]+)"
ANGLES = (
    Row(_together(r"a (?:straight (?:line|angle)|linear pair)"), work("180 − {}"),
        why="angles on a line"),
    Row(_together(r"a right angle"), work("90 − {}"), why="angles of a corner"),
    Row(
        rf"(?:in )?triangle ([a-z]{{3}})[.,]?(?: has)? {_SIZE}{_angle()} {_IS} {_A},? and "
        rf"{_SIZE}{_angle()} {_IS} {_A}[.] {ASKS} {_SIZE}{_angle()}",
        _third, why="triangle angles",
    ),
    Row(
        rf"{ASKS} the sum of (?:the )?(?:measures of )?(?:the )?(?:interior )?angles? "
        rf"(?:measures )?(?:of|in) {_FIGURE}",
        _all_angles, why="sum of angles",
    ),
)  # fmt: skip

# -- areas, circles, figures with equal sides

_PI = r"(?:[.?]? ?\(?use (?:3\.14 for (?:π|pi)|(?:π|pi) ?[=≈] ?3\.14|(?:π|pi) as 3\.14)[.)]*)?"
_CIRCLE = (
    rf"{ASKS} the (circumference|area) of a circle (?:with|whose|that has) (?:a )?"
    rf"(radius|diameter) (?:of|is) {ANY}{UNIT}"
)
_USING = r"(?:using (?:3\.14 (?:for|as) (?:π|pi)|(?:π|pi) ?[=≈] ?3\.14),? )?"
_TOLD_CIRCLE = (
    rf"(?:a|the) (?:circle|circular [a-z]+|wheel|round [a-z]+) has a (radius|diameter) of "
    rf"{ANY}{UNIT}[.] {_USING}(?:what is|find) (?:its|the) (circumference|area|radius|diameter)"
    r"(?: of the [a-z]+(?: [a-z]+)?)?"
)


def _circle(what: str, line: str, size: str) -> tuple[str, Expr | None]:
    """The rule for what is asked of a circle, and its work with 3.14 for pi."""
    if {what, line} == {"radius", "diameter"}:
        form = "2 × {}" if what == "diameter" else "{} ÷ 2"
        return "across a circle", worked(form, size)
    if what == "circumference":
        form = "3.14 × {}" if line == "diameter" else "2 × 3.14 × {}"
        return "around a circle", worked(form, size)
    radius = number(size) / (2 if line == "diameter" else 1)
    exact = radius.denominator == 1 and what == "area"
    return "area of a circle", worked("3.14 × {0} × {0}", str(radius)) if exact else None


def _of_circle(rule: str, order: tuple[int, int, int]) -> Callable[[re.Match[str]], Expr | None]:
    def work(found: re.Match[str]) -> Expr | None:
        what, line, size = (found[at].lower() for at in order)
        named, tree = _circle(what, line, size)
        told = "3.14" in found[0] or named == "across a circle"
        return tree if named == rule and told else None

    return work


def _cylinder(found: re.Match[str]) -> Expr | None:
    told = "3.14" in found[0]
    return worked("3.14 × {0} × {0} × {1}", found[1], found[2]) if told else None


def _regular(found: re.Match[str]) -> Expr | None:
    sides = SIDES.get(found[1].lower())
    return worked("{} × {}", str(sides), found[2]) if sides else None


_BASES = (
    rf"bases (?:of|that are|measuring|with lengths of)(?: lengths?)? {ANY}{UNIT} and {ANY}{UNIT},? "
    rf"and (?:a )?height (?:of )?{ANY}{UNIT}"
)
FIGURES = (
    *(
        Row(rf"{_USING}{words}{_PI}", _of_circle(rule, order), why=rule)
        for rule in ("around a circle", "area of a circle", "across a circle")
        for words, order in ((_CIRCLE, (1, 2, 3)), (_TOLD_CIRCLE, (3, 1, 2)))
    ),
    Row(
        rf"{_USING}{ASKS} the volume of a (?:cylinder|can) (?:with|that has) (?:a )?radius "
        rf"(?:of )?"
        rf"{ANY}{UNIT} and (?:a )?height (?:of )?{ANY}{UNIT}{_PI}",
        _cylinder, why="volume of a cylinder",
    ),
    Row(
        rf"(?:a|the) (?:cylinder|can|cylindrical [a-z]+|round tank) has a radius of {ANY}{UNIT} "
        rf"and a "
        rf"height of {ANY}{UNIT}[.] {_USING}(?:what is|find) (?:its|the) volume(?: of the "
        rf"[a-z]+)?{_PI}",
        _cylinder, why="volume of a cylinder",
    ),
    Row(rf"{ASKS} the area of a trapezoid (?:with|that has) {_BASES}",
        work("({} + {}) × {} ÷ 2"), why="area of a trapezoid"),
    Row(rf"a trapezoid has {_BASES}[.] {ASKS} (?:its|the) area(?: of the trapezoid)?",
        work("({} + {}) × {} ÷ 2"), why="area of a trapezoid"),
    Row(
        rf"{ASKS} the perimeter of an? (?:regular|equilateral) ([a-z]+) (?:with|that has|whose) "
        rf"(?:a )?sides?(?: lengths?)?(?: of| that are| are| is)? {ANY}{UNIT}(?: long| each)?",
        _regular, why="around equal sides",
    ),
    Row(
        rf"each side of an? (?:regular |equilateral )?([a-z]+) (?:is|measures) {ANY}{UNIT}"
        rf"(?: long)?[.] {ASKS} (?:its|the) perimeter(?: of the [a-z]+)?",
        _regular, why="around equal sides",
    ),
)  # fmt: skip

ROWS = (*ANGLES, *FIGURES)
