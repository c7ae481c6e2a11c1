"""What a reading is: quantities with places and roles, what is asked, what made it sure."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, cast

from narrate.exact.tree import Expr
from narrate.reading.reading import Counted, Situation
from narrate.reading.words.facts import Answer, Story, without_ones
from narrate.reading.words.lexicon import UNITS, one
from narrate.reading.words.plain import word_set
from narrate.reading.words.quantity import Quantity

_CONDITION = re.compile(
    r"\b(?:in (?:simplest|lowest|simplified) (?:form|terms)|select all that apply|show your work"
    r"|as an? (?:mixed number|improper fraction|decimal|fraction|percent)"
    r"|(?:rounded )?to the nearest \w+)\b",
    re.IGNORECASE,
)

Role = Literal["amount", "relationship", "unknown", "condition", "extra"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Marked:
    """A phrase of the text, characters `start` to `end`, and the role it plays.

    `of` says what it is an amount of, or whose; "" for other roles.
    """

    start: int
    end: int
    role: Role
    text: str
    of: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Understood:
    """A question read: the value of its answer, and how the words lead there.

    `expression` is None where the answer is no sum or product of the numbers (a least common
    multiple). `situation` and `unknown` are as CCSSM (2010), glossary Tables 1 and 2, names them,
    "" for a bare question. `unit` is what the answer counts, `money` says that it is dollars,
    `counted` what the numbers and the steps between them count. `why` says what made it sure.
    `demand` is what is asked beyond a value, in words; `asked_for` that these say all of it.
    """

    value: Fraction
    expression: Expr | None
    situation: str = ""
    unknown: str = ""
    unit: str = ""
    rounding: str = ""
    marks: tuple[Marked, ...] = ()
    why: str = ""
    money: bool = False
    counted: tuple[Counted, ...] = ()
    demand: str = ""
    asked_for: bool = False


def from_answer(text: str, story: Story, answer: Answer) -> Understood:
    """The reading that one row made of a story."""
    used = answer.places
    marks = [_marked(text, q, q.start in used) for q in story.original if q.known]
    query = story.query
    marks += [
        Marked(start=m.start(), end=m.end(), role="condition", text=m[0])
        for m in _CONDITION.finditer(text)
    ]
    marks.append(
        Marked(start=query.start, end=query.end, role="unknown", text=text[query.start : query.end])
    )
    return Understood(
        value=answer.value,
        expression=without_ones(answer.tree),
        situation=_situation(story, answer),
        unknown=answer.unknown,
        unit="dollar" if _is_money(story, answer) else _unit(story, text),
        rounding=answer.rounding,
        marks=tuple(sorted(marks, key=lambda mark: mark.start)),
        why=_why(story, answer),
        money=_is_money(story, answer),
        counted=tuple(_counted(text, story, answer)),
    )


def _situation(story: Story, answer: Answer) -> str:
    """The situation, two steps named where an amount put together is told by a comparison."""
    used = [q for q in story.original if q.start in answer.places and q.known]
    both = sorted(q.sort for q in used) == ["amount", "compare"]
    joins = (answer.situation, answer.unknown) == ("put together", "total")
    return "compare and put together" if both and joins else answer.situation


def _counted(text: str, story: Story, answer: Answer) -> Iterator[Counted]:
    """What the numbers and the steps between them count, in words of the text."""
    for q in dict.fromkeys((*story.original, *story.quantities, *answer.used)):
        if q.tree is not None and q.sort in ("amount", "rate", "compare"):
            word = _what(q.thing, text[q.start :])
            unit = as_written(word, text) if word and not q.money else ""
            filled = re.match(r"\S+(?: \S+)? ((?:square|cubic) )(?=[a-z])", text[q.start :])
            unit = f"{filled[1]}{unit}" if filled and word in UNITS else unit
            made_by = cast("Situation | Literal['']", q.made_by)
            yield Counted(tree=q.tree, unit=unit, situation=made_by)


def _what(thing: Sequence[str], told: str) -> str:
    """The word for what is counted: its measure, else the last word of it; "" where not sure.

    Only the last word of a name is plural: "18 pupils pull weeds" are no weeds. `told` begins
    where its words stand.
    """
    if measure := next((word for word in thing if word in UNITS), ""):
        return measure
    words = [word.lower() for word in re.findall(r"[^\W\d_]+", told)]
    first = {one(word): word for word in reversed(words)}
    if any(first.get(word, word) != word for word in thing[:-1]):
        return ""
    return thing[-1] if thing else ""


def as_written(unit: str, text: str) -> str:
    """A unit as the text writes it, the plural where it has one, "" where it has none."""
    if " per " in unit:
        many, single = (as_written(word, text) for word in unit.split(" per "))
        return f"{many} per {one(single)}" if many and single else ""
    forms = {word for word in re.findall(r"[^\W\d_]+", text) if unit and one(word) == unit}
    several = {word for word in forms if word.lower() != unit} or forms
    return max(sorted(several), key=len).lower() if forms else ""


def unit_in(found: Understood, text: str) -> str:
    """The answer's unit as the text writes it; "" for a fraction and for so many times as much."""
    times = (found.situation, found.unknown) == ("times as many", "number of groups")
    if times or found.unknown == "fraction":
        return ""
    unit = as_written(found.unit.removeprefix("square "), text)
    squared = found.unit.startswith("square ") or (found.situation, found.unknown) == _AREA
    if not unit or not squared:
        return unit
    return f"square {in_full(unit)}"


def in_full(unit: str) -> str:
    """A measure in short as it is said behind "square"."""
    return _LONG.get(unit, unit)


_AREA = ("area", "product")
_LONG = {"m": "meters", "cm": "centimeters", "mm": "millimeters", "km": "kilometers", "ft": "feet"}


def _marked(text: str, q: Quantity, used: bool) -> Marked:
    role: Role = "extra"
    if used:
        role = "amount" if q.sort in ("amount", "part") else "relationship"
    words = q.who or frozenset(q.thing)
    told = {one(word): word for word in reversed(re.findall(r"[^\W\d_]+", text))}
    named = (told.get(word, word) if told.get(word, word).istitle() else word for word in words)
    whose = " ".join(sorted(sorted(named), key=text.find))
    return Marked(start=q.start, end=q.end, role=role, text=text[q.start : q.end], of=whose)


def _unit(story: Story, text: str) -> str:
    """What the answer counts: its measure, else the thing asked for."""
    if story.query.kind == "fraction":
        return f"of the {' '.join(story.query.thing)}"
    if thing := story.query.thing:
        counted = {word for q in story.original for word in q.thing}
        if story.query.kind == "much" and not set(thing) & UNITS:
            return _measure(story)
        is_sure = len(thing) == 1 or counted & {thing[-1]} or set(thing) & UNITS
        return _what(thing, text[story.query.start :]) if is_sure else ""  # how many pull weeds?
    return _measure(story, besides=frozenset())


_TIMES = word_set("second minute hour day week month year")


def _measure(story: Story, besides: frozenset[str] = _TIMES) -> str:
    """The one measure of a story; "how much water" is not asked in those it names `besides`."""
    units = {w for q in story.quantities for w in q.thing if w in UNITS} - besides
    return units.pop() if len(units) == 1 else ""


def _is_money(story: Story, answer: Answer) -> bool:
    """Whether the answer is dollars: asked for in words of paying, or the change of a note."""
    change = story.query.thing[-1:] == ("change",)
    return story.money_asked or (change and any(q.money for q in answer.used))


def _why(story: Story, answer: Answer) -> str:
    """What made the reading sure, in plain words."""
    extra = [q.text for q in story.quantities if q.known and q.start not in answer.places]
    sure = f"every row that fits the question says “{answer.situation}, {answer.unknown} unknown”"
    if not extra:
        return f"{sure}, and every number is used"
    return f"{sure}; not needed: {', '.join(extra)}"
