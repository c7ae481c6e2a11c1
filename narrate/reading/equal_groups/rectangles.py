"""The area of a rectangle told in a story, the side that is not told, or what is left of its area.

CCSSM (2010), glossary Table 2, arrays and area; 3.MD.C.7, 4.MD.A.3, 5.NF.B.4b. Each length has to
be said to be a side, all are told in one unit, and no other word may say more.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from narrate.exact.tree import Expr, value
from narrate.reading.equal_groups.amounts import Amount, Line, UnreadError, line_of, measure_of
from narrate.reading.equal_groups.words import is_loaded
from narrate.reading.words.clauses import sentences
from narrate.reading.words.facts import Answer, Story, joined
from narrate.reading.words.lexicon import NO_THING, UNITS, VERBS, one
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity
from narrate.reading.words.query import Query
from narrate.reading.words.token import Token
from narrate.reading.words.tokens import tokens
from narrate.reading.words.understood import Understood, from_answer

_LONGEST = 400
_WIDE = {
    "long": "long", "length": "long", "wide": "wide", "width": "wide", "high": "high",
    "height": "high", "tall": "high", "deep": "wide", "depth": "wide",
}  # fmt: skip
_ASIDES = re.compile(
    r", (?:which|that) is a rectangle,|, with no (?:gaps?|overlaps?)(?: or (?:gaps?|overlaps?))?,"
    r"|, and (?:nothing|none) (?:more|else)\b",
    re.IGNORECASE,
)
_LEFT = re.compile(r"\b(?:left|remain(?:s|ing)?|not (?:covered|taken up|used)|uncovered)\b")
_AREA = re.compile(r"\bsquare [a-z]+\b|\barea\b")
_SIDE = re.compile(
    r"\bhow (?P<how>long|wide|tall|high|deep)\b"
    r"|\bhow many [a-z]+ (?P<many>long|wide|tall|high|deep)\b"
    r"|\b(?P<name>length|width|height)\b|\b(?:other|longer|shorter|second) (?P<side>side)\b"
)
_SEVERAL = re.compile(
    r"\b(?:rectangles|squares|triang\w+|circle\w*|border|path around|perimeter)\b"
)


@dataclass(frozen=True, slots=True)
class Sides:
    """The lengths that are sides, each with the word that says so, and the areas told."""

    sides: tuple[tuple[Amount, str], ...]
    areas: tuple[Amount, ...]


def read_rectangle(text: str) -> Understood | None:
    """What is asked of one rectangle's sides and area; None where more is told, or less."""
    low = text.lower()
    if len(text) > _LONGEST or len(re.findall(r"\brectang(?:le|ular)\b", low)) < 1:
        return None
    if _SEVERAL.search(low):
        return None
    try:
        return _read(text)
    except UnreadError:
        return None


def _read(text: str) -> Understood:
    found = sentences(tokens(_ASIDES.sub(lambda m: " " * len(m[0]), text)))
    lines = [line_of(words, at) for at, words in enumerate(found)]
    at = next((i for i, words in enumerate(found) if _asks(words)), None)
    if at is None or len(lines) > _MOST or at < len(lines) - 1:
        raise UnreadError
    told = _sides(lines)
    asked = " ".join(w.low for w in found[at])
    begins = re.search(r"\b(?:how|what|find|state|give|calculate)\b.*", asked)
    question = begins[0] if begins else asked
    unit = next(a.thing[-1] for a, _ in told.sides if a.thing)
    if {one(w) for w in question.split()} & UNITS - {unit, "second"}:
        raise UnreadError
    tree, used, unknown = _work(told, question)
    if "high" in {word for _, word in told.sides} and not _is_one_thing(text, told):
        raise UnreadError
    _refuse(lines, unknown)
    return _understood(text, told, tree, used, unknown, found[at])


def _is_one_thing(text: str, told: Sides) -> bool:
    """Whether a height stands right beside the other side: 5 feet wide and 3 feet high."""
    first, *others = [a for a, _ in told.sides]
    return all(_BESIDE.fullmatch(text.lower()[first.end : other.start]) for other in others)


_BESIDE = re.compile(
    r"(?: in)? ?(?:long|wide|high|tall|length|width|height)?,?(?: and| by)?(?: it)?(?: is)? "
)
_MOST = 4
_IMPERATIVE = word_set("find state give calculate determine")


def _asks(words: Sequence[Token]) -> bool:
    return words[-1].text == "?" or words[0].low in _IMPERATIVE


def _sides(lines: Sequence[Line]) -> Sides:
    """The sides and areas told. Raises UnreadError where a number is neither."""
    sides: list[tuple[Amount, str]] = []
    areas: list[Amount] = []
    for line in lines:
        for at, amount in line.amounts.items():
            if measure_of(amount.thing)[:1] == ("square",):
                areas.append(amount)
                continue
            word = _said(line, at)
            if not word or not set(measure_of(amount.thing)) <= _LENGTHS:
                raise UnreadError
            sides.append((amount, word))
    units = {measure_of(a.thing)[-1:] for a in (*(a for a, _ in sides), *areas)}
    units -= {()}  # 4 by 3 meters
    if len(units) != 1:
        raise UnreadError
    return Sides(tuple(sides), tuple(areas))


_LENGTHS = word_set("inch foot yard mile meter centimeter kilometer millimeter")


def _said(line: Line, at: int) -> str:
    """The word that says which side a length is, "" where none does."""
    behind = [line.low(at + 1), line.low(at + 2)]
    if behind[0] in _WIDE:
        return _WIDE[behind[0]]
    if behind[0] == "in" and behind[1] in _WIDE:
        return _WIDE[behind[1]]
    before_by = line.low(at - 1) == "by" and line.low(at - 2) == "#"
    if before_by or behind == ["by", "#"]:
        return "side"
    before = [line.low(i) for i in range(max(0, at - _NEAR), at)]
    if "#" in before and "sides" not in before:
        before = before[len(before) - before[::-1].index("#") :]
    named = [w for w in before if w in _WIDE or w in ("side", "sides")]
    return _WIDE.get(named[-1], "side") if named else ""


_NEAR = 6


def _work(told: Sides, question: str) -> tuple[Expr, tuple[Amount, ...], str]:
    """What is worked out, of which amounts, and what is unknown."""
    sides = tuple(a for a, _ in told.sides)
    words = [word for _, word in told.sides]
    if len(sides) == 2 and not (words[0] == words[1] != "side"):
        area = joined("×", *(a.tree for a in sides))
        if not told.areas and _AREA.search(question) and not _LEFT.search(question):
            return area, sides, "product"
        if len(told.areas) == 1 and _AREA.search(question) and _LEFT.search(question):
            tree = joined("−", area, told.areas[0].tree)
            if value(tree) > 0:
                return tree, (*sides, *told.areas), "left"
    side = _SIDE.search(question)
    if len(sides) == len(told.areas) == 1 and side and not _LEFT.search(question):
        named = next(w for w in side.groups() if w)
        if _WIDE.get(named, "side") != words[0] or words[0] == "side":
            return joined("÷", told.areas[0].tree, sides[0].tree), (told.areas[0], *sides), "side"
    raise UnreadError


_SPARED = word_set("area side sides length width other longer shorter in as many much up")
_OF_LEFT = word_set("left remain remains not uncovered")
_BENIGN = word_set(
    "square cover rectangle rectangular how many much long wide high tall deep meter take measure "
    "what find state give calculate need use lay be do have netting carpet sod cloth tile"
)


def _refuse(lines: Sequence[Line], unknown: str) -> None:
    """Raises UnreadError where a word may say more, or the question speaks of another thing."""
    spared = _SPARED | (_OF_LEFT if unknown == "left" else frozenset())
    for line in lines:
        if any(is_loaded(w, spared) for w in line.words if w.kind != "n"):
            raise UnreadError
    *told, asked = lines
    if not any(line.amounts for line in told):
        return
    every = [w for line in told for w in line.words]
    known = {w.lemma for w in every} | {VERBS.get(w.low, w.lemma) for w in every}
    for word in asked.words:
        base = VERBS.get(word.low, word.lemma)
        told_of = {base, word.lemma} & (known | _BENIGN | UNITS | _SPARED)
        small = word.kind != "w" or word.low in NO_THING | spared
        if not (told_of or small or _is_material(asked, word)):
            raise UnreadError


def _is_material(asked: Line, word: Token) -> bool:
    """Whether a word names what covers the rectangle: how many square meters of sod."""
    lows = " ".join(w.low for w in asked.words)
    return re.search(rf"\b(?:how much|square [a-z]+ of) {re.escape(word.low)}\b", lows) is not None


def _quantities(told: Sides, text: str) -> Iterator[Quantity]:
    for a in sorted((*(a for a, _ in told.sides), *told.areas), key=lambda a: a.start):
        yield Quantity(
            start=a.start, end=a.end, tree=a.tree, thing=a.thing, text=text[a.start : a.end]
        )


_UNKNOWN = {
    "product": ("area", "product"),
    "side": ("area", "side"),
    "left": ("take from", "result"),
}


def _understood(
    text: str,
    told: Sides,
    tree: Expr,
    used: Sequence[Amount],
    unknown: str,
    asked: Sequence[Token],
) -> Understood:
    quantities = list(_quantities(told, text))
    by_start = {q.start: q for q in quantities}
    unit = next(a.thing[-1] for a in used if a.thing)
    thing = (unit,) if unknown != "left" else ("square", unit)
    query = Query(
        kind="area" if unknown == "product" else "many", thing=thing, words=frozenset(),
        start=asked[0].start, end=asked[-1].end,
    )  # fmt: skip
    story = Story(text=text.lower(), clauses=(), quantities=quantities, query=query)
    situation, unknown = _UNKNOWN[unknown]
    answer = Answer(
        tree=tree,
        used=tuple(by_start[a.start] for a in used),
        situation=situation,
        unknown=unknown,
    )
    found = from_answer(text, story, answer)
    return found if situation == "area" else replace(found, unit=f"square {unit}")
