"""Whole questions that a rule of figures, of letters or of chances answers, with what to work out.

CCSSM (2010) 4.MD.C.7 (angles), 6.EE.A.2c (a number put in), 6.G.A.1 and 7.G.B.4 (areas, circles),
7.NS.A.1 (distances), 7.RP.A.2, 7.RP.A.3 (proportions, percents of change), 7.SP.C.5 (chances),
8.EE.B.6 (slope); the sum of a figure's angles: common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from contextlib import suppress

from narrate.errors import Declined, ExactError
from narrate.exact.parser import parse, parse_expr
from narrate.exact.tree import Expr, Group, Op, Relation, value
from narrate.reading.equations import worked_back
from narrate.reading.words.more_number_facts import SIDES
from narrate.reading.words.whole_questions import ANY, Row, number

_ASKS = r"(?:what (?:is|was)|find|calculate|determine)"
_U = r"(?: ?(?:square |cubic )?[a-z]+)?"


def _plain(text: str) -> str:
    return text.replace(",", "").replace("$", "")


def _tree(form: str, *numbers: str) -> Expr | None:
    """What a form makes of numbers as they are written, None where it goes below zero."""
    made = parse_expr(form.format(*map(_plain, numbers)))
    with suppress(ExactError):
        return made if value(made) >= 0 else None
    return None


def _work(form: str) -> Callable[[re.Match[str]], Expr | None]:
    return lambda found: _tree(form, *(group for group in found.groups() if group))


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
        rf"{_ASKS} {_SIZE}{_OTHER}"
    )


def _third(found: re.Match[str]) -> Expr | None:
    """The angle of a named triangle that is not told."""
    triangle, first, size, second, other, asked = (group.lower() for group in found.groups())
    if len({first, second, asked}) < len("abc") or set(triangle) != {first, second, asked}:
        return None
    return _tree("180 − {} − {}", size, other)


def _angle(*more: str) -> str:
    return rf"(?:m ?)?(?:angle |∠ ?)?([a-z]){''.join(more)}"


def _all_angles(found: re.Match[str]) -> Expr | None:
    sides = SIDES.get(found[1].lower())
    return _tree("({} − 2) × 180", str(sides)) if sides else None


_FIGURE = r"(?:an?|any|every|the) (?:regular |convex )?([a-z]+)"
ANGLES = (
    Row(_together(r"a (?:straight (?:line|angle)|linear pair)"), _work("180 − {}"),
        why="angles on a line"),
    Row(_together(r"a right angle"), _work("90 − {}"), why="angles of a corner"),
    Row(
        rf"(?:in )?triangle ([a-z]{{3}})[.,]?(?: has)? {_SIZE}{_angle()} {_IS} {_A},? and "
        rf"{_SIZE}{_angle()} {_IS} {_A}[.] {_ASKS} {_SIZE}{_angle()}",
        _third, why="triangle angles",
    ),
    Row(
        rf"{_ASKS} the sum of (?:the )?(?:measures of )?(?:the )?(?:interior )?angles? "
        rf"(?:measures )?(?:of|in) {_FIGURE}",
        _all_angles, why="sum of angles",
    ),
)  # fmt: skip

# -- areas, circles, figures with equal sides

_PI = r"(?:[.?]? ?\(?use (?:3\.14 for (?:π|pi)|(?:π|pi) ?[=≈] ?3\.14|(?:π|pi) as 3\.14)[.)]*)?"
_CIRCLE = (
    rf"{_ASKS} the (circumference|area) of a circle (?:with|whose|that has) (?:a )?"
    rf"(radius|diameter) (?:of|is) {ANY}{_U}"
)
_USING = r"(?:using (?:3\.14 (?:for|as) (?:π|pi)|(?:π|pi) ?[=≈] ?3\.14),? )?"
_TOLD_CIRCLE = (
    rf"(?:a|the) (?:circle|circular [a-z]+|wheel|round [a-z]+) has a (radius|diameter) of "
    rf"{ANY}{_U}[.] {_USING}(?:what is|find) (?:its|the) (circumference|area|radius|diameter)"
    r"(?: of the [a-z]+(?: [a-z]+)?)?"
)


def _circle(what: str, line: str, size: str) -> tuple[str, Expr | None]:
    """The rule for what is asked of a circle, and its work with 3.14 for pi."""
    if {what, line} == {"radius", "diameter"}:
        form = "2 × {}" if what == "diameter" else "{} ÷ 2"
        return "across a circle", _tree(form, size)
    if what == "circumference":
        form = "3.14 × {}" if line == "diameter" else "2 × 3.14 × {}"
        return "around a circle", _tree(form, size)
    radius = number(size) / (2 if line == "diameter" else 1)
    exact = radius.denominator == 1 and what == "area"
    return "area of a circle", _tree("3.14 × {0} × {0}", str(radius)) if exact else None


def _of_circle(rule: str, order: tuple[int, int, int]) -> Callable[[re.Match[str]], Expr | None]:
    def work(found: re.Match[str]) -> Expr | None:
        what, line, size = (found[at].lower() for at in order)
        named, tree = _circle(what, line, size)
        told = "3.14" in found[0] or named == "across a circle"
        return tree if named == rule and told else None

    return work


def _cylinder(found: re.Match[str]) -> Expr | None:
    told = "3.14" in found[0]
    return _tree("3.14 × {0} × {0} × {1}", found[1], found[2]) if told else None


def _regular(found: re.Match[str]) -> Expr | None:
    sides = SIDES.get(found[1].lower())
    return _tree("{} × {}", str(sides), found[2]) if sides else None


_BASES = (
    rf"bases (?:of|that are|measuring|with lengths of)(?: lengths?)? {ANY}{_U} and {ANY}{_U},? and "
    rf"(?:a )?height (?:of )?{ANY}{_U}"
)
FIGURES = (
    *(
        Row(rf"{_USING}{words}{_PI}", _of_circle(rule, order), why=rule)
        for rule in ("around a circle", "area of a circle", "across a circle")
        for words, order in ((_CIRCLE, (1, 2, 3)), (_TOLD_CIRCLE, (3, 1, 2)))
    ),
    Row(
        rf"{_USING}{_ASKS} the volume of a (?:cylinder|can) (?:with|that has) (?:a )?radius "
        rf"(?:of )?"
        rf"{ANY}{_U} and (?:a )?height (?:of )?{ANY}{_U}{_PI}",
        _cylinder, why="volume of a cylinder",
    ),
    Row(
        rf"(?:a|the) (?:cylinder|can|cylindrical [a-z]+|round tank) has a radius of {ANY}{_U} "
        rf"and a "
        rf"height of {ANY}{_U}[.] {_USING}(?:what is|find) (?:its|the) volume(?: of the "
        rf"[a-z]+)?{_PI}",
        _cylinder, why="volume of a cylinder",
    ),
    Row(rf"{_ASKS} the area of a trapezoid (?:with|that has) {_BASES}",
        _work("({} + {}) × {} ÷ 2"), why="area of a trapezoid"),
    Row(rf"a trapezoid has {_BASES}[.] {_ASKS} (?:its|the) area(?: of the trapezoid)?",
        _work("({} + {}) × {} ÷ 2"), why="area of a trapezoid"),
    Row(
        rf"{_ASKS} the perimeter of an? (?:regular|equilateral) ([a-z]+) (?:with|that has|whose) "
        rf"(?:a )?sides?(?: lengths?)?(?: of| that are| are| is)? {ANY}{_U}(?: long| each)?",
        _regular, why="around equal sides",
    ),
    Row(
        rf"each side of an? (?:regular |equilateral )?([a-z]+) (?:is|measures) {ANY}{_U}"
        rf"(?: long)?[.] {_ASKS} (?:its|the) perimeter(?: of the [a-z]+)?",
        _regular, why="around equal sides",
    ),
)  # fmt: skip

# -- letters

_TERM = r"[\d./() +×*·÷−-]"
_LINE = rf"(?:{_TERM}*[a-z]{_TERM}*)"


def put_in(work: str, letter: str, told: str) -> Expr | None:
    """Work with a number in the place of its one letter, None where it has another letter."""
    letters = set(re.findall(r"[a-z]", work))
    if letters != {letter}:
        return None
    signs = re.sub(rf"(?<=[\d)])\s*(?={letter})", " × ", work)
    signs = re.sub(r"(?<=[\d)])\s*(?=\()", " × ", signs)
    with suppress(ExactError):
        made = _single(parse_expr(signs.replace(letter, f"({_plain(told)})")))
        return made if isinstance(made, Op) and value(made) >= 0 else None
    return None


def _single(tree: Expr) -> Expr:
    """A tree without brackets around single numbers."""
    match tree:
        case Group(Op() as inner):
            return Group(_single(inner))
        case Group(inner):
            return inner
        case Op(sign, left, right):
            return Op(sign, _single(left), _single(right))
        case _:
            return tree


def _function(found: re.Match[str]) -> Expr | None:
    name, letter, work, again, told = found.groups()
    return put_in(work.lower(), letter.lower(), told) if name == again else None


def _of_letter(order: tuple[int, int, int, int]) -> Callable[[re.Match[str]], Expr | None]:
    """y, of y = 3x + 2, with a number for x: where y, its number and the work stand."""

    def work(found: re.Match[str]) -> Expr | None:
        asked, made, letter, told = (found[at].lower() for at in order[:1] * 2 + order[1:3])
        return put_in(found[order[3]].lower(), letter, told) if asked == made else None

    return work


def _undone(found: re.Match[str]) -> Expr | None:
    """What the steps of an equation with brackets make, undone from the last."""
    told = re.sub(r"(\d)\s*(?=[a-z(])", r"\1 × ", found[1].lower())
    with suppress(Declined, ExactError):
        tree = parse(told)
        back = worked_back(tree) if isinstance(tree, Relation) else None
        return back if isinstance(back, Op) and value(back) >= 0 else None
    return None


def _proportion(found: re.Match[str]) -> Expr | None:
    """The unknown of two equal fractions: multiplied crosswise, then divided."""
    sides = [each.strip().split("/") for each in found["sides"].lower().split("=")]
    if len(sides) != 2 or any(len(side) != 2 for side in sides):
        return None
    (a, b), (c, d) = sides
    asked = found.groupdict().get("x")
    for unknown, first, second, over in ((a, b, c, d), (b, a, d, c), (c, a, d, b), (d, b, c, a)):
        if unknown.isalpha() and all(n.isdigit() and int(n) for n in (first, second, over)):
            if asked and asked.lower() != unknown:
                return None
            tree = _tree("{} × {} ÷ {}", first, second, over)
            return tree if tree and value(tree).denominator == 1 else None
    return None


def _slope(found: re.Match[str]) -> Expr | None:
    """How much a line goes up for each step to the right, where it does go up."""
    x, y, x2, y2 = (int(found[at]) for at in range(1, 5))
    if x2 < x:
        x, y, x2, y2 = x2, y2, x, y
    if x2 == x or min(x, y) < 0 or y2 < y:
        return None
    return parse_expr(f"({y2} − {y}) ÷ ({x2} − {x})")


_SIDES = r"(?P<sides>(?:\d+|[a-z]) ?/ ?(?:\d+|[a-z]) ?= ?(?:\d+|[a-z]) ?/ ?(?:\d+|[a-z]))"
_POINT = r"\( ?(-?\d+), ?(-?\d+) ?\)"
LETTERS = (
    Row(rf"if ([a-z])\(([a-z])\) ?= ?({_LINE}),? (?:then )?what is (?:the value of )?([a-z])\("
        rf"{ANY}\)", _function, why="number put in"),
    Row(rf"what is (?:the value of )?([a-z]) (?:when|if) ([a-z]) (?:=|is|equals) {ANY} (?:in|for)"
        rf"(?: the equation)? \1 ?= ?({_LINE})",
        lambda m: put_in(m[4].lower(), m[2].lower(), m[3]), why="number put in"),
    Row(rf"(?:if|in|for)(?: the equation)? ([a-z]) ?= ?({_LINE}),? what is (?:the value of )?\1 "
        rf"(?:when|if) ([a-z]) (?:=|is|equals) {ANY}",
        lambda m: put_in(m[2].lower(), m[3].lower(), m[4]), why="number put in"),
    Row(r"solve (?:for [a-z]:? |the equation:? )?((?=[^?]*\()[\da-z ()+÷×*/-]+=[\da-z ()+÷×*/-]+)",
        _undone, why="steps undone"),
    Row(rf"what (?:value|number) (?:of|for) (?P<x>[a-z]) makes (?:the |this )?(?:proportion |"
        rf"equation )?{_SIDES} true", _proportion, why="proportion"),
    Row(rf"(?:solve|find [a-z] in)(?: the| this)?(?: proportion)?(?: for [a-z])?:? {_SIDES}",
        _proportion, why="proportion"),
    Row(rf"(?:what|find) (?:is )?the (?:missing|value of the missing|value of (?P<x>[a-z]))"
        rf"(?: number| term| value)? in (?:the|this) proportion:? {_SIDES}",
        _proportion, why="proportion"),
    Row(rf"{_ASKS} the slope of (?:the|a) line (?:that (?:passes|goes) )?through (?:the points )?"
        rf"{_POINT} and {_POINT}", _slope, why="slope"),
)  # fmt: skip

# -- percents of change, chances, distances

_UP = r"(?:rose|increased|went up|grew|was raised|climbed)"
_DOWN = r"(?:fell|decreased|dropped|went down|was reduced|was lowered|was marked down)"
_MONEY = r"\$?(\d[\d,]*(?:\.\d+)?)"


def _change(found: re.Match[str]) -> Expr | None:
    """By what percent an amount is more or less than before, where all words say the same way."""
    before, after = number(found["a"]), number(found["b"])
    more = after > before
    verb, asked = found["verb"].lower(), found["asked"].lower()
    told = {True: _UP, False: _DOWN}[more]
    fits = re.fullmatch(told, verb) or verb in ("went", "changed", "was changed", "changes")
    fits = fits and asked in ("change", "increase" if more else "decrease")
    if not fits or not before or before == after:
        return None
    greater, less = (found["b"], found["a"]) if more else (found["a"], found["b"])
    ends = 10**4 % ((number(greater) - number(less)) / before).denominator == 0
    return _tree("({} − {}) ÷ {} × 100", greater, less, found["a"]) if ends else None


_AMOUNT = r"\$?(?P<{}>\d[\d,]*(?:\.\d+)?)(?: [a-z]+)?"
_NOT_SAID = r"(?!.*\b(?:then|later|again|each|every|twice|another|not)\b)"


def _distance(found: re.Match[str]) -> Expr | None:
    low, high = sorted((int(found[1]), int(found[2])))
    taken = f"({low})" if low < 0 else str(low)
    return parse_expr(f"{high} − {taken}") if high >= 0 > low else None


def _repeated(found: re.Match[str]) -> Expr | None:
    """The number at an early place of a pattern that goes by two steps each time: × 2, then + 1."""
    count = _PLACES.get(found["nth"].lower(), 0)
    work = _plain(found["first"])
    for _ in range(count - 1):
        sign = "+" if found["then"].lower() == "add" else "−"
        held = f"({work})" if re.search(r"[+−]", work) else work
        work = f"{held} × {found['times']} {sign} {found['more']}"
    with suppress(ExactError):
        made = parse_expr(work)
        return made if isinstance(made, Op) and value(made) >= 0 else None
    return None


_PLACES = {"second": 2, "third": 3}
_CHANCES = {
    "heads": "1/2", "tails": "1/2", "an even number": "1/2", "an odd number": "1/2",
    "a head": "1/2", "a tail": "1/2",
}  # fmt: skip


def _both(found: re.Match[str]) -> Expr | None:
    """The chance of two things that have nothing to do with each other."""
    chances = [_CHANCES.get(each.lower()) or "1/6" for each in found.groups()]
    return parse_expr(" × ".join(chances if len(chances) > 1 else chances * 2))


_TOSSED = r"(?:is |are )?(?:fairly )?(?:tossed|flipped|rolled|thrown)"
_CUBE = r"(?:(?:number |numbered )cube|die|standard number cube)"
_FACE = r"(?:an even number|an odd number|an? [1-6]|[1-6])"
_CHANCE = r"what is the (?:probability|chance) (?:of (?:getting|tossing|rolling) |that )?"
OTHERS = (
    Row(
        rf"a (?:fair )?coin {_TOSSED} (?:twice|two times)[.] {_CHANCE}(?:it (?:lands|comes up) "
        rf"(?:on )?)?"
        r"(heads|tails) (?:both times|twice|on both (?:tosses|flips))",
        _both, why="both chances",
    ),
    Row(
        rf"a (?:fair )?coin {_TOSSED} and a (?:fair )?{_CUBE} {_TOSSED}[.] {_CHANCE}"
        rf"(heads|tails|a head|a tail) and ({_FACE})",
        _both, why="both chances",
    ),
    Row(
        rf"two (?:fair )?{_CUBE}s {_TOSSED}[.] {_CHANCE}both (?:show|land on|cubes show|are) "
        rf"({_FACE})s?",
        _both, why="both chances",
    ),
    Row(
        r"how many more (?:sides|angles|vertices) does an? ([a-z]+) have than an? ([a-z]+)",
        lambda m: (
            _tree("{} − {}", str(SIDES[m[1].lower()]), str(SIDES[m[2].lower()]))
            if {m[1].lower(), m[2].lower()} <= set(SIDES)
            else None
        ),
        why="sides apart",
    ),
    Row(
        rf"{_NOT_SAID}[a-z' ]+? (?P<verb>{_UP}|{_DOWN}|went|changed|was changed) from "
        rf"{_AMOUNT.format('a')} to {_AMOUNT.format('b')}(?: [a-z ]+)?[.] (?:what (?:is|was)|find) "
        r"the percent(?:age)? (?:of )?(?P<asked>increase|decrease|change)(?: (?:in|of) [a-z ]+)?",
        _change, why="percent of change",
    ),
    Row(
        r"the (?:probability|chance) (?:of|that) (?P<what>[a-z ]+) is (\d+/\d+|0?\.\d+)[.] what is "
        r"the (?:probability|chance) (?:that (?:it|the [a-z]+|[a-z]+) (?:does|do|will|is|are|did) "
        r"not|of not)(?: [a-z ]+)?",
        lambda m: _tree("1 − {}", m[2]), why="chance of not",
    ),
    Row(
        rf"{_ASKS} the distance (?:between|from) (-?\d+) (?:and|to) (-?\d+)"
        r"(?: on (?:a|the) number line)?",
        _distance, why="distance",
    ),
    Row(rf"{_ASKS} the square of {ANY}", _work("{0} × {0}"), why="square of"),
    Row(rf"{_ASKS} the cube of {ANY}", _work("{0} × {0} × {0}"), why="cube of"),
    Row(
        r"(?:the|a) (?:rule (?:for|of) (?:a|the|this) (?:number )?pattern|pattern(?:'s)? rule) is "
        r"(?:to )?\"?multiply by (?P<times>\d+),? (?:and )?then (?P<then>add|subtract) "
        r"(?P<more>\d+)[.\"]* (?:the (?:pattern (?:starts|begins) with|first (?:number|term)"
        r"(?: in the pattern)? is)) (?P<first>\d+)[.] what is the (?P<nth>second|third) "
        r"(?:number|term)(?: in the pattern)?",
        _repeated, why="two steps again",
    ),
)  # fmt: skip

ROWS = (*ANGLES, *FIGURES, *LETTERS, *OTHERS)
