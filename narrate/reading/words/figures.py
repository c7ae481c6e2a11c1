"""Figures told by their measures: the area, perimeter, volume or missing side of one of them.

CCSSM (2010) 3.MD.C.7, 3.MD.D.8, 4.MD.A.3, 5.MD.C.5, 6.G.A.1, 8.G.B.7. Every number of the text has
to be a measure of the one figure, all in one unit, and no word may say more of it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from narrate.exact.tree import Expr, value
from narrate.reading.words import more_number_facts as more
from narrate.reading.words.forms import LENGTHS, as_read, other_units
from narrate.reading.words.lexicon import UNITS, VERBS, one
from narrate.reading.words.masking import Masked, digits, masked
from narrate.reading.words.plain import SHORT, word_set
from narrate.reading.words.understood import Understood

_UNIT = r"(?P<unit>[a-z]+)"
_POWER = r"(?P<power>square|cubic) "
_NAME = r"(?P<name>lengths?|widths?|heights?|base|depth|sides?|edges?|perimeter|area|volume|legs)"
_BY_WORD = {
    "long": "length", "length": "length", "wide": "width", "width": "width", "high": "height",
    "tall": "height", "height": "height", "deep": "depth", "depth": "depth", "edge": "side",
    "side": "side", "base": "base", "perimeter": "perimeter", "area": "area", "volume": "volume",
}  # fmt: skip
_TELLING = (
    rf"#(?P<a>\d+) (?:{_UNIT} )?by #(?P<b>\d+) (?:(?P<unit2>[a-z]+) )?by #(?P<c>\d+) "
    r"(?P<unit3>[a-z]+)",
    rf"#(?P<a>\d+) (?:{_UNIT} )?by #(?P<b>\d+) (?P<unit3>[a-z]+)",
    rf"legs(?: of [a-z ]+)? (?:are|of|measure|that measure|that are|measuring|(?:have|with) "
    rf"lengths of) #(?P<a>\d+) (?:{_UNIT} )?and "
    r"#(?P<b>\d+) (?P<unit3>[a-z]+)(?: long)?",
    rf"(?P<holds>holds) #(?P<a>\d+) (?P<power>cubic) {_UNIT}(?: of [a-z]+)?"
    r"(?: when (?:it is )?(?:completely )?full)?",
    rf"#(?P<a>\d+) (?:{_UNIT})(?: in)? (?P<word>long|wide|high|tall|deep|length|width|height)\b",
    rf"{_NAME}(?: of (?:the|a|an|each|one) [a-z]+(?: [a-z]+)?)?(?: of each side)? "
    rf"(?:is|are|measures?|that is|that are)(?: each)? #(?P<a>\d+) (?:{_POWER})?{_UNIT}"
    r"(?: (?:long|each))?",
    rf"{_NAME} (?:of )?#(?P<a>\d+) (?:{_POWER})?{_UNIT}(?: (?:long|each))?",
    rf"#(?P<a>\d+) (?:{_POWER})?{_UNIT}(?: in)? (?P<name>area|perimeter|volume)\b",
)
"""How measures are told: 8 cm long, a base of 10 cm, 50 cm by 40 cm, an area of 12 square feet."""

_ASKED = (
    r"(?:what is (?:the length of )?|how long is )(?:its|the) (?P<asked>hypotenuse)"
    r"(?: of (?:the|this) [a-z ]+)?",
    r"(?:what is|find) (?:the|its) (?P<asked>area|perimeter|volume|length|width|height|depth|base)"
    r"(?: of (?:the|a|an|each) [a-z ]+?)?(?: in (?:square |cubic )?[a-z]+)?\b",
    r"what is the (?P<asked>length) of (?:its )?(?:each|one|a) (?:side|edge)(?: of the [a-z ]+)?",
    r"how (?P<asked>long|wide|high|tall|deep) is (?:it|(?:the|its|each|a) [a-z ]+)",
    r"how many (?P<asked>square|cubic) [a-z]+ (?:of [a-z]+ )?(?:are needed to|will it take to|"
    r"does it take to|does|are in|is the area of|can|will (?:fill|fit in|cover)|would fill"
    r")\b",
    r"how many [a-z]+ (?P<asked>long|wide|high|tall|deep) is (?:it|(?:the|its|each|a) [a-z ]+)",
)
_FIGURES = (
    ("right triangle", r"\bright triangle\b"),
    ("triangle", r"\btriang(?:le|ular)\b"),
    ("cube", r"\bcube\b"),
    (
        "square",
        r"\bsquare\b(?! (?:inch|f[eo]+t|yard|mile|(?:centi|kilo|milli)?meter|[ckm]?m\b|unit))",
    ),
    ("parallelogram", r"\bparallelogram\b"),
    ("box", r"\b(?:box|prism|cuboid|tank|container|aquarium|carton|trunk|bin|sandbox)\b"),
    ("rectangle", r"\brectang(?:le|ular)\b"),
)
_WORKS: dict[tuple[str, str, str], str] = {
    ("triangle", "base height", "area"): "base × height ÷ 2",
    ("triangle", "area base", "height"): "area × 2 ÷ base",
    ("triangle", "area height", "base"): "area × 2 ÷ height",
    ("parallelogram", "base height", "area"): "base × height",
    ("rectangle", "length width", "area"): "length × width",
    ("rectangle", "length width", "perimeter"): "2 × (length + width)",
    ("rectangle", "length perimeter", "width"): "perimeter ÷ 2 − length",
    ("rectangle", "perimeter width", "length"): "perimeter ÷ 2 − width",
    ("rectangle", "area length", "width"): "area ÷ length",
    ("rectangle", "area width", "length"): "area ÷ width",
    ("square", "side", "area"): "side × side",
    ("square", "side", "perimeter"): "4 × side",
    ("square", "perimeter", "side"): "perimeter ÷ 4",
    ("square", "perimeter", "area"): "(perimeter ÷ 4) × (perimeter ÷ 4)",
    ("box", "height length width", "volume"): "length × width × height",
    ("box", "height length volume", "width"): "volume ÷ (length × height)",
    ("box", "height volume width", "length"): "volume ÷ (width × height)",
    ("box", "length volume width", "height"): "volume ÷ (length × width)",
    ("cube", "side", "volume"): "side × side × side",
}
"""What is worked out, by the figure, the measures told of it and the one that is asked."""

_PLAIN_VERBS = word_set(
    "be have measure hold fill need take find contain do shape cover cut form make fence water "
    "plant box park run play stand lie garden"
)
_MORE = word_set(
    "not n't no without except another other others more less fewer than left remaining rest half "
    "halves third quarter twice double triple times both total altogether together average percent "
    "again if but while instead around outside inside border path every per surface increased "
    "decreased missing removed cost costs price different two three four second same diagonal"
)


_KNOWN = word_set(
    "a an the its it is are has have with and of by in whose that measures measure what find how "
    "many much square cubic needed to fill cover will take does hold area perimeter volume length "
    "width height depth base side sides edge edges each legs hypotenuse long wide high tall deep "
    "when full each rectangular triangular right rectangle triangle parallelogram box cube prism "
    "shape contain be could can"
)
_NAMING = word_set("a an the its of rectangular square triangular right")


def _is_all_said(rest: str) -> bool:
    """Whether the words beside the measures (@) are those of figures, or name what has them."""
    *told, _ = re.split(r"[.?] ", rest)
    if any("@" not in part for part in told):
        return False
    run, before = 0, ""
    for word in re.findall(r"[a-z']+|[.?@]", rest):
        named = before in _NAMING or run == 1
        run = 0 if word in _KNOWN or one(word) in UNITS or not word.isalpha() else run + 1
        if run and (not named or run > 2 or word.endswith("ing")):
            return False
        before = word
    return True


def read_figure(text: str) -> Understood | None:
    """What is asked of one figure told by its measures, None where more or less is told."""
    if (found := _figure(text)) is None:
        return None
    figures, measures, asked, told, unit = found
    return next(filter(None, _read(figures, measures, asked, told, text, unit)), None)


def _figure(text: str) -> tuple[list[str], dict[str, str], str, Masked, str] | None:
    """Which figures are named, their measures, what is asked, the masked text and the one unit."""
    if len(text) > SHORT:
        return None
    told = masked(text)
    words = set(re.findall(r"[a-z']+", told.text))
    if words & _MORE or {VERBS[w] for w in words if w in VERBS} - _PLAIN_VERBS:
        return None
    measures, units, rest = _measures(told)
    asks = [found["asked"] for pattern in _ASKED for found in re.finditer(pattern, rest)]
    if not told.numbers or "#" in rest or not asks or len(units) != 1 or not units <= LENGTHS:
        return None
    if told.times or not _is_all_said(rest) or other_units(told.text, units):
        return None
    figures = [name for name, pattern in _FIGURES if re.search(pattern, told.text)]
    return figures, measures, asks[0], told, units.pop()


def _measures(told: Masked) -> tuple[dict[str, str], set[str], str]:
    """The measures by their names, the units of their lengths, and the words without them."""
    found: dict[str, str] = {}
    units: set[str] = set()
    rest = told.text
    for pattern in _TELLING:
        while match := re.search(pattern, rest):
            rest = f"{rest[: match.start()]} @ {rest[match.end() :]}"
            parts = match.groupdict()
            units |= {one(parts[key]) for key in ("unit", "unit2", "unit3") if parts.get(key)}
            if not _take(found, parts, told):
                return {}, set(), "#"
    return found, units, " ".join(rest.split())


def _take(found: dict[str, str], parts: dict[str, str | None], told: Masked) -> bool:
    """Take up what one phrase tells; whether it goes with what was told before."""
    given = [digits(told.numbers[int(at)]) for key in "abc" if (at := parts.get(key))]
    named = "volume" if parts.get("holds") else one(parts.get("word") or parts.get("name") or "")
    power = {"area": "square", "volume": "cubic"}.get(named)
    if parts.get("power") != power:
        return False
    names = [_BY_WORD.get(named, "")] if len(given) == 1 else ["length", "width", "height"]
    for name, number in zip(names, given, strict=False):
        if not name or name in found:
            return False
        found[name] = number
    return True


def _read(
    figures: list[str], measures: dict[str, str], asked: str, told: Masked, text: str, unit: str
) -> Iterator[Understood | None]:
    asked = {"square": "area", "cubic": "volume"}.get(asked, _BY_WORD.get(asked, asked))
    if asked == "hypotenuse":
        if (side := right_triangle(text)) is not None:
            yield as_read("hypotenuse", str(side[1]), {}, told, text)
        return
    kind = _kind(figures, measures, asked)
    named = _named(kind, measures)
    if kind == "square" and asked == "length":
        asked = "side"
    work = _WORKS.get((kind, " ".join(sorted(named)), asked))
    if work is not None:
        power = {"area": "square ", "volume": "cubic "}.get(asked, "")
        yield as_read(asked, work, named, told, text, unit="" if power else unit)


def _kind(figures: list[str], measures: dict[str, str], asked: str) -> str:
    """Which figure is told of: three edges or a volume make a box of a rectangular tank."""
    solid = asked == "volume" or "volume" in measures
    if "cube" in figures or "box" in figures:
        return figures[0] if solid and len(set(figures) - {"rectangle", "square"}) == 1 else ""
    if solid:
        return "box" if set(figures) <= {"rectangle"} else ""
    if len(figures) == 1 or figures == ["right triangle", "triangle"]:
        return figures[-1]
    return ""


def _named(kind: str, measures: dict[str, str]) -> dict[str, str]:
    """The measures by the names that they have in a figure of this kind."""
    swap = {"depth": "height"} if kind == "box" else {}
    named = {swap.get(name, name): number for name, number in measures.items()}
    return named if len(named) == len(measures) else {}


def right_triangle(text: str) -> tuple[str, Fraction, tuple[Expr, ...]] | None:
    """The side that is asked for of a right triangle, its length, and the two sides told.

    None where it is no such question, or the length is no whole number or decimal that ends.
    """
    if len(text) > SHORT or not re.search(r"right triangle|\bladder\b", text):
        return None
    text = re.sub(_LADDER, _AS_LEG, text)
    text = re.sub(_TWO_LEGS, r"The legs of a right triangle are \1 \3 and \2 \3.", text)
    text = re.sub(r"\blongest side\b", "hypotenuse", text)
    found = _figure(text)
    name, told = "hypotenuse", masked(text)
    numbers = [*range(len(told.numbers))]
    if not (found and found[0][:1] == ["right triangle"] and found[2] == name):
        name, leg = "leg of a right triangle", re.fullmatch(_LEG, told.text)
        numbers = [int(leg["long"]), int(leg["leg"])] if leg else []
    trees = tuple(tree for n in numbers if (tree := told.numbers[n].tree) is not None)
    if len(trees) != 2:
        return None
    first, second = (value(tree) ** 2 for tree in trees)
    square = first + second if name == "hypotenuse" else first - second
    root = more.square_root(square) if square > 0 else None
    return None if root is None or 10**3 % root.denominator else (name, root, trees)


_LADDER = (
    r"^(?:A|The) (?:(\d+)[- ]foot ladder|ladder (?:that is )?(\d+) feet long) (?:leans|is "
    r"leaning|rests) "
    r"against a (?:vertical )?(?:wall|building)\. (?:Its|The) (?:foot|base|bottom)(?: of the "
    r"ladder)? is "
    r"(\d+) feet (?:away )?from the (?:wall|building)\. How (?:high|far) up the "
    r"(?:wall|building) does "
    r"(?:the ladder|it) reach\?$"
)
_AS_LEG = (
    r"The hypotenuse of a right triangle is \1\2 feet and a leg is \3 feet. How long is the "
    r"other leg?"
)
"""A ladder that leans against a wall: what it is of a right triangle."""
_TWO_LEGS = (
    r"^The (?:two )?(?:shorter|short) sides of a right triangle (?:are|measure|have lengths of) "
    r"(\d+)(?: [a-z]+)? and (\d+) ([a-z]+)(?: long)?\."
)
"""The legs, called so in other words."""
_LEG = (
    r"(?:the hypotenuse of (?:a|the) right triangle (?:is|measures)|(?:a|the) right triangle has a "
    r"hypotenuse of) #(?P<long>\d+) (?P<u>[a-z]+)(?: long)?(?:\.| and) (?:#\d+|a) leg "
    r"(?:is|of|measures) #(?P<leg>\d+) "
    r"(?P=u)(?: long)?\. (?:what is|find|how long is) (?:the length of )?the other leg"
    r"(?: of the (?:right )?triangle)? ?[?.]?"
)
"""The longest side and another side of a right triangle told, and the third asked for."""
