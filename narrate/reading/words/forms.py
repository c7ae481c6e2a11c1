"""Stories that tests tell in fixed forms: discounts, ratios, scales, averages, ages.

A row is the whole text of such a story, with names for its numbers and things. A word that could
change what is asked (left, each, half, not ...) is read only where the row itself says it.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from math import ceil

from narrate.errors import ExactError
from narrate.exact.parser import parse_expr
from narrate.exact.tree import Expr, Frac, Group, Op, Whole, Writing, value
from narrate.reading.reading import Counted, Situation
from narrate.reading.words.facts import without_ones
from narrate.reading.words.lexicon import DETERMINERS, PRONOUNS, UNITS, one
from narrate.reading.words.masking import Masked, digits, masked
from narrate.reading.words.plain import (
    BELOW_ZERO,
    MOST_NUMBERS,
    SHORT,
    may_be,
    word_set,
    words_said,
)
from narrate.reading.words.understood import Marked, Understood

_LOADED = word_set(
    "not n't no none never except excluding without only other others another more less fewer "
    "than left remain remaining remainder rest each every per apiece half halves third quarter "
    "twice double triple times both total altogether together all average mean percent discount "
    "off tax tip again next before after ago later then first last second least most fewest "
    "about around approximately estimate almost nearly rounded nearest if when but while until "
    "instead unless because or either extra additional also too increase increased decrease "
    "decreased added same different equal equally share shared split up down away back ratio "
    "probability perimeter area volume square cubic difference between sum product older younger "
    "old faster slower longer shorter what how which nor plus minus reduced marked raised stops "
    "breaks lost broke ate gave sold spent"
)
"""Words that a row must say itself: what they change, another row would not see."""

_WHERE = (
    r"(?: (?:in|at|on|of|for|from|during) (?:the|a|an|his|her|their|its|this|that|my|our|mr|ms|mrs)"
    r" ?[a-z'-]+(?: [a-z'-]+){0,2}?)?"
)
_THING = r"[a-z'-]+(?: [a-z'-]+){0,4}?"
_WHO = r"(?:(?!not )[a-z'-]+ ){1,5}?"
_MACROS = (
    (r"(?<!P)<\$(\w+)>", r"\\$#(?P<\1>\\d+)"),
    (r"(?<!P)<(\w+)%>", r"#(?P<\1>\\d+)%"),
    (r"(?<!P)<@(\w+)>", r"@(?P<\1>\\d+)"),
    (r"(?<!P)<(\w+)>", r"#(?P<\1>\\d+)"),
    (r"\[_\]", _THING),
    (r"\[(\w+)\]", rf"(?P<\1>{_THING})"),
    (r"\{who\}", _WHO),
    (r"\{(who\d)\}", r"(?P<\1>(?:(?!not )[a-z'-]+ ){1,5}?)"),
    (r"\{where\}", _WHERE),
)

Named = Mapping[str, str]
"""The numbers of a row as they are written, and the words of its things, by their names."""


@dataclass(frozen=True, slots=True)
class Case:
    """What is worked out where things are the same ("a=b"), or are not ("a!b")."""

    where: str
    work: str | Callable[[Named], str | None]


@dataclass(frozen=True, slots=True)
class Form:
    """The whole words of a story, `<n>` for a number, `[x]` for a thing (`[_]` for any),
    `{who1}` and `{who2}` for one who acts, and what to work out.

    `unit` is the unit of the answer, or the thing that names it; `says` are words that the work
    looks at itself; with `clue`, only a text with one of its words is looked at. `rounding` says
    that a part of one counts as a whole one ("up"), as `Understood` does.
    """

    kind: str
    words: str
    cases: tuple[Case, ...]
    unit: str = ""
    says: str = ""
    clue: str = ""
    rounding: str = ""


def form(kind: str, words: str, work: str | Callable[[Named], str | None], **more: str) -> Form:
    """A row with one case."""
    return Form(kind, words, (Case(more.pop("where", ""), work),), **more)


def one_of(*ways: str) -> str:
    """Ways to say one thing, as one pattern."""
    return f"(?:{'|'.join(ways)})"


def _plain_name(name: str) -> str:
    return name.partition("_")[0]


@cache
def _compiled(words: str) -> tuple[re.Pattern[str], frozenset[str]]:
    """A row's pattern, and the words that it says itself."""
    said = frozenset(re.findall(r"[a-z']+", re.sub(r"[<\[]\W*\w+%?[>\]]|\(\?", " ", words)))
    for macro, pattern in _MACROS:
        words = re.sub(macro, pattern, words)
    return re.compile(_told_apart(words) + r" ?[?.]?"), said


def _told_apart(pattern: str) -> str:
    """A pattern whose groups of one name are numbered from the second on: p, p_2, p_3."""
    seen: Counter[str] = Counter()

    def named(group: re.Match[str]) -> str:
        seen[group[1]] += 1
        return f"(?P<{group[1]}>" if seen[group[1]] == 1 else f"(?P<{group[1]}_{seen[group[1]]}>"

    return re.sub(r"\(\?P<(\w+)>", named, pattern)


def read_form(text: str, rows: tuple[Form, ...]) -> Understood | None:
    """What a story in a fixed form asks for, None where no row is all of its words."""
    if len(text) > SHORT or BELOW_ZERO.search(text):
        return None
    told = masked(text)
    before, _, question = told.text.rpartition(". ")
    if _asks_in_other_unit(told) or _MAY.search(before) or _asks_for_each_of(question, before):
        return None
    words = words_said(told.text)
    heard = words & _LOADED
    count = told.text.count("#")
    few = (row for row in rows if count <= _most_numbers(row.words))
    may = (row for row in few if _may_be(row, words, told.text))
    found = [read for row in may if (read := _by(row, told, text, heard)) is not None]
    return found[0] if len({each.value for each in found}) == 1 else None


def _asks_for_each_of(question: str, before: str) -> bool:
    """Whether a question ends with "per" and what was not told of before: per person."""
    per = re.search(r"\bper ([a-z]+) ?[?.]?$", question)
    return per is not None and per[1] not in UNITS and one(per[1]) not in heads(before)


@cache
def _clues(clue: str) -> frozenset[str]:
    return frozenset(clue.split())


_SIGNS = (("<$", "$#"), ("%>", "%"), ("<@", "@"))


def _may_be(row: Form, words: frozenset[str], told: str) -> bool:
    """Whether a row could be all of a text: it has the row's words, a price, a percent, a time."""
    if (row.clue and words.isdisjoint(_clues(row.clue))) or not may_be(row.words, words):
        return False
    return not any(mark in row.words and sign not in told for mark, sign in _SIGNS)


@cache
def _most_numbers(words: str) -> int:
    """How many numbers a row can be told with: its words stand for none."""
    named = len(re.findall(r"(?<!P)<[$@]?\w+%?>", words))
    return MOST_NUMBERS if re.search(r"#|\\d|\[\^", words) else named


_MAY = re.compile(r"\b(?:might|would|could|should|may|must)\b")
"""What was not done for certain is told nowhere but in the question."""


def _asks_untold(found: re.Match[str]) -> bool:
    """Whether the question names a thing by a word that was not told before: broken pots."""
    start = found.string.rfind(". ") + 1
    before = {one(word) for word in re.findall(r"[a-z0-9']+", found.string[:start])}
    asked = [
        word
        for name, word in found.groupdict().items()
        if word and start <= found.start(name) and _is_thing(name) and not word.isdigit()
    ]
    pronouns = {"he", "she", "they", "it"}
    return bool(before) and any(not heads(word) - pronouns <= before for word in asked)


def _is_thing(name: str) -> bool:
    return len(_plain_name(name)) < len("abc")


def _named(found: re.Match[str]) -> dict[str, str] | None:
    """What was found by its names; None where one name is told in two ways that differ."""
    named: dict[str, str] = {}
    for name, word in found.groupdict().items():
        if word is not None and named.setdefault(_plain_name(name), word) != word:
            return None
    return named


def _by(row: Form, told: Masked, text: str, heard: frozenset[str]) -> Understood | None:
    pattern, said = _compiled(row.words)
    found = pattern.fullmatch(told.text) if heard <= said | word_set(row.says) else None
    if found is None or _asks_untold(found):
        return None
    named = _named(found)
    if named is None or not are_one(
        word for name, word in named.items() if re.fullmatch(r"who\d", name)
    ):
        return None
    things = {name: word for name, word in named.items() if not word.isdigit()}
    given = things | {
        name: told.times[int(at)] if name.startswith("clock") else digits(told.numbers[int(at)])
        for name, at in named.items()
        if at.isdigit()
    }
    given |= {f"#{at}": digits(number) for at, number in enumerate(told.numbers)}
    works = {_work(case, given) for case in row.cases if _holds(case.where, things)} - {None}
    unit = " per ".join(one(given.get(u, u).split()[-1]) for u in row.unit.split(" per ") if u)
    work = works.pop() if len(works) == 1 else None
    if work is None:
        return None
    return as_read(row.kind, work, given, told, text, unit=unit, rounding=row.rounding)


def _work(case: Case, given: Named) -> str | None:
    try:
        return case.work if isinstance(case.work, str) else case.work(given)
    except ValueError:  # a fraction where a row counts
        return None


def _holds(where: str, things: Named) -> bool:
    """Whether things are the same (a=b) or not (a!b), hold (a&b) or are (a~time) what is wanted."""
    for wanted in where.split():
        left, sign, right = re.split("([=!~&])", wanted)
        if sign == "&":
            if not heads(things[right]) <= heads(things[left]):
                return False
        elif sign == "~":
            if not {one(word) for word in things[left].split()} & _NAMED_UNITS[right]:
                return False
        elif same(things[left], things[right]) != (sign == "="):
            return False
    return True


LENGTHS = word_set(
    "inch foot yard mile meter centimeter kilometer millimeter cm km mm ft m in mi unit"
)
_NAMED_UNITS = {
    "unit": UNITS,
    "length": LENGTHS,
    "time": word_set("second minute hour day week month year"),
}
"""What a thing has to be where a case says "x~length"."""


def other_units(text: str, told: Collection[str]) -> bool:
    """Whether a text speaks of a unit beside those told: an area asked for in square feet."""
    said = {one(word) for word in re.findall(r"(?<![#$])\b[a-z]+", text)} & UNITS - {"in", "unit"}
    return bool(said - set(told) - {"square", "cubic"})


def _asks_in_other_unit(told: Masked) -> bool:
    """Whether the question names a unit that nothing before it is told in."""
    *before, asked = re.split(r"[.?] | (?=how (?:many|much|long) )", told.text)
    units = {one(word) for part in before for word in part.split()} & UNITS
    units |= {"dollar"} if units and any("$" in part for part in before) else set()
    return bool(units) and other_units(asked, units)


def are_one(names: Iterable[str]) -> bool:
    """Whether all names that are no pronouns are of one."""
    said = [name.strip() for name in names if name.strip() not in PRONOUNS]
    return all(same(first, second) for first in said for second in said)


def same(one_thing: str, other: str) -> bool:
    """Whether two names are of one thing: tulips, and the red tulips."""
    first, second = heads(one_thing), heads(other)
    return bool(first and second) and (first <= second or second <= first)


def heads(thing: str) -> set[str]:
    """The words of a thing, each as one of it: red tulip for the red tulips."""
    return {one(word) for word in thing.split() if word not in DETERMINERS} - {"of"}


def as_read(
    kind: str,
    work: str,
    given: Named,
    told: Masked,
    text: str,
    *,
    unit: str = "",
    rounding: str = "",
) -> Understood | None:
    """The reading of a story: what to work out, written with the numbers told."""
    for name in sorted(given, key=len, reverse=True):
        work = re.sub(rf"(?<![\w]){name}(?![\w])", _held(given[name]), work)
    try:
        tree = without_ones(_of_a_hundred(_tidy(parse_expr(work))))
        made = value(tree)
    except ExactError:
        return None
    situation, unknown = _TOLD_AS.get(kind, (kind, "answer"))
    return Understood(
        value=Fraction(ceil(made)) if rounding == "up" else made,
        rounding=rounding,
        expression=tree if isinstance(tree, Op) else None,
        situation=situation,
        unknown=unknown,
        unit=unit,
        marks=tuple(_marks(told, text)),
        why=f"the whole text is a story of one form: {kind}",
        money=unit == "dollar",
        counted=tuple(_first_step(kind, tree)),
    )


def _of_a_hundred(tree: Expr) -> Expr:
    """An expression with its percents as hundredths, where they come out whole: 25/100 × 24."""
    match tree:
        case Op("÷", Op("×", Whole(whole), Whole(percent)), Whole(100)) if (
            percent and whole * percent % 100 == 0
        ):
            return Op("×", Frac(percent, 100), Whole(whole))
        case Op(sign, left, right):
            return Op(sign, _of_a_hundred(left), _of_a_hundred(right))
        case _:
            return tree


_TOLD_AS = {
    "mean": ("equal groups", "mean"),
    "perimeter": ("area", "perimeter"),
    "a thing and what is in it": ("take apart", "addend"),
    "two prices apart": ("difference", "difference"),
    "to be added": ("needed", "addend"),
}
"""Forms that a lesson has words for: situation, and what is unknown."""


_FIRST: dict[str, Situation] = {
    "same rate": "for one",
    "same price": "for one",
    "ratio": "number of groups",
    "scale": "number of groups",
}
"""What is found first where the rest is multiplying: how much for each, or how many groups."""


def _first_step(kind: str, tree: Expr) -> Iterator[Counted]:
    """What a first step that divides finds, as its reason."""
    match tree:
        case Op("×", Op("÷") as first, _) if kind in _FIRST:
            yield Counted(tree=first, unit="", situation=_FIRST[kind])


def _held(number: str) -> str:
    return f"({number})" if "/" in number else number


def _tidy(tree: Writing) -> Expr:
    """An expression without brackets around single numbers, and without × 1 and ÷ 1."""
    match tree:
        case Group(inner):
            inner = _tidy(inner)
            return Group(inner) if isinstance(inner, Op) else inner
        case Op("×" | "÷", left, right) if right == parse_expr("1"):
            return _tidy(left)
        case Op(sign, left, right):
            return Op(sign, _tidy(left), _tidy(right))
        case _:
            assert not isinstance(tree, str)
            return tree  # type: ignore[return-value]


def _marks(told: Masked, text: str) -> list[Marked]:
    """The amounts of a text, and its question."""
    marks = [
        Marked(start=n.start, end=n.end, role="amount", text=text[n.start : n.end])
        for n in told.numbers
    ]
    starts = [found.end() for found in re.finditer(r"[.?!]\s+", text.rstrip())]
    start = max([0, *starts])
    return [
        *(m for m in marks if m.end <= start),
        Marked(start=start, end=len(text), role="unknown", text=text[start:]),
    ]
