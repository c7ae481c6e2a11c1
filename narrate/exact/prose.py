"""Mathematics inside an item's own words: found, spoken and captioned.

Words stay words. A stretch is mathematics only where the parser reads it; what could be a date, a
time, a range of pages, a unit, markup or a lone question mark is left alone.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import islice

from narrate.exact._language import Language
from narrate.exact._languages import words_of
from narrate.exact._plain import (
    SENTENCE_END,
    YEAR,
    plain,
    unit_after,
    with_money,
    with_unit,
    written_unit_after,
)
from narrate.exact._scanner import GLYPHS, MAX_TEXT
from narrate.exact.caption import caption
from narrate.exact.parser import parse_start
from narrate.exact.spoken import speak
from narrate.exact.tree import Decimal, Frac, Mixed, Piece, Whole, Writing, walk


@dataclass(frozen=True, slots=True)
class Run:
    """Characters `start` to `end` of a text: words as they are, or mathematics."""

    start: int
    end: int
    piece: Piece


@lru_cache(maxsize=512)  # a text is read for its meaning, and again for its words
def read(text: str) -> tuple[Run, ...]:
    """The text as runs of words and of mathematics; together they cover it, in order."""
    runs: list[Run] = []
    at = 0
    for found in _mathematics(text):
        if found.start > at:
            runs.append(Run(at, found.start, text[at : found.start]))
        runs.append(found)
        at = found.end
    if at < len(text):
        runs.append(Run(at, len(text), text[at:]))
    return tuple(runs)


def shown(text: str) -> tuple[Run, ...]:
    """The runs as they are shown: four digits in words stay as typed, they may be a year."""
    runs = read(text)
    return runs if len(runs) == 1 else tuple(_as_typed(run, text) for run in runs)


def _as_typed(run: Run, text: str) -> Run:
    """A run of four digits as words, any other as it is."""
    is_short = isinstance(run.piece, Whole) and run.end - run.start == _YEAR
    return Run(run.start, run.end, text[run.start : run.end]) if is_short else run


_YEAR = 4
"""Characters: 1998, not 1,998."""


def pieces(text: str) -> tuple[Piece, ...]:
    """The runs of a text without their places."""
    return tuple(run.piece for run in read(text))


def caption_prose(text: str) -> str:
    """The text with its mathematics in symbols: `3 * 4 - 1` becomes `3 × 4 − 1`."""
    return caption([run.piece for run in shown(text)])


def say_prose(text: str, language: str = "en") -> str:
    """The text as it is read aloud to pupils who haven't solved it: no digit is left in it.

    An unfilled place is called what is printed, "blank" or "question mark", not "what number".
    """
    words = words_of(language)
    said: list[str] = []
    at = 0
    for run in read(text):
        if isinstance(run.piece, str):
            said.append(_say_words(text, max(at, run.start), run.end, words))
            continue
        has_coin = text[: run.start].endswith("$")
        if has_coin:
            said[-1] = said[-1].removesuffix("$")
        amount = _say_tree(run.piece, text[run.start : run.end], words)
        if has_coin:
            named = _names_a_thing(text[: run.start - 1], run.piece, text[run.end :], words)
            worth = f"{amount}-{words.coin.one}" if named else with_money(run.piece, amount, words)
            said.append(worth)
            continue
        after = text[run.end : run.end + _UNIT_REACH]
        measure = unit_after(after, words) or written_unit_after(
            text[: run.start], run.piece, after, words
        )
        amount = with_unit(run.piece, amount, measure.unit) if measure else amount
        at = run.end + (measure.end if measure else 0)
        said.append(_apart(text, run.start, at, amount))
    return "".join(said)


_AFTER_PRICE = re.compile(
    r" (?!(?:about|after|and|any|before|but|for|from|has|have|less|more|off|per|than|that|then"
    r"|total|was|were|when|with)\b)[a-z]{3,}\b"
)
"""The name of a thing right behind its price."""


def _names_a_thing(before: str, amount: Writing, after: str, words: Language) -> bool:
    """Whether dollars say what a thing is worth, which is named behind them: a $50 note."""
    article = before.split()[-1:]
    is_one = bool(article) and article[0].lower() in words.articles - {"the"}
    return is_one and isinstance(amount, Whole) and _AFTER_PRICE.match(after) is not None


def _say_words(text: str, start: int, end: int, words: Language) -> str:
    return plain(text[start:end], words) if start < end else ""


def _say_tree(tree: Writing, source: str, words: Language) -> str:
    blank = words.question_mark if "?" in source else words.blank
    return speak(tree, words.code, blank=blank)


def _apart(text: str, start: int, end: int, said: str) -> str:
    """What is said in a place of a text, never grown together with a word beside a bracket."""
    before, after = text[:start][-1:], text[end:][:1]
    gap = " " if before.isalnum() or before == ")" else ""
    return f"{gap}{said} " if after.isalpha() or after == "(" else f"{gap}{said}"


_UNIT_REACH = 32  # longer than any unit with what tells that a sentence ends


# -- finding mathematics

_UNITS = "|".join(sorted(map(re.escape, words_of("en").units), key=len, reverse=True))
_GLYPHS = "".join(GLYPHS)
_BEFORE_QUESTION = r"(?<![^\s(+\-−–×·⋅*÷=<>≤≥≠])"

# One atom of a text. What is no mathematics stands before or after what it could be taken for.
_ATOM = re.compile(
    rf"""
    (?P<markup>   </?[A-Za-z][^<>]*> )
  | (?P<date>     (?<!\w)(?:\d+/\d+(?:/\d+)+|\d{{4}}-\d\d-\d\d)(?!\w) )
  | (?P<year>     {YEAR} )
  | (?P<number>   (?<!\w)(?<!\d[.,:])
                  (?> (?:(?:[1-9][0-9]{{0,2}}(?:,[0-9]{{3}})+|0|[1-9][0-9]*)?\.[0-9]+)
                    | [1-9][0-9]{{0,2}}(?:,[0-9]{{3}})+ | 0 | [1-9][0-9]* )
                  (?: (?!\w|[.,:]\d) | (?=[{_GLYPHS}]) | (?=(?:{_UNITS})[²³]?(?!\w)) ) )
  | (?P<glyph>    (?:(?<!\w)|(?<=[0-9]))[{_GLYPHS}](?!\w) )
  | (?P<blank>    [□▢☐] | (?<!\w)_+(?!\w) | {_BEFORE_QUESTION}\? )
  | (?P<times>    (?<=[\s\d□)])[xX](?=\s*[\d(□_?]) )
  | (?P<letter>   (?<![\w'’.])(?!a\s+\w)[a-z](?![\w'’]|[.-][A-Za-z]) )
  | (?P<word>     \w+(?:['’:-]\w+|(?<=\d)[.,](?=\d)\w+)* )
  | (?P<relation> [<>!]=|[=≠<>≤≥] )
  | (?P<sign>     [+−–×·⋅*÷/⁄∕-] )
  | (?P<bracket>  [()] )
  | (?P<space>    \s+ )
  | (?P<other>    . )
    """,
    re.VERBOSE | re.DOTALL,
)
_OPERANDS = {"number", "glyph", "blank", "letter"}
_MATHEMATICAL = _OPERANDS | {"times", "relation", "sign", "bracket"}
_RANGE = re.compile(r"[0-9]+[-–][0-9]+(?:/[0-9]+)?")
_GOES_ON = re.compile(r"\s*(?:[/⁄∕]|[<>!]=|[=≠<>≤≥])\s*[\d□?(_]|\s+[□▢☐_?]\s*[/⁄∕]")


@dataclass(frozen=True, slots=True)
class _Atom:
    kind: str
    start: int
    end: int


def _mathematics(text: str) -> Iterator[Run]:
    for stretch in _stretches(text):
        yield from _runs(text, stretch)


def _stretches(text: str) -> Iterator[list[_Atom]]:
    """Atoms of mathematics that nothing but space stands between."""
    stretch: list[_Atom] = []
    for found in _ATOM.finditer(text):
        atom = _Atom(found.lastgroup or "", found.start(), found.end())
        if atom.kind == "space":
            continue
        if atom.kind in _MATHEMATICAL and not _is_unit(atom, stretch):
            stretch.append(atom)
            continue
        yield stretch
        stretch = []
    yield stretch


def _is_unit(atom: _Atom, stretch: Sequence[_Atom]) -> bool:
    """A letter right after a number or blank counts it: `3 m`."""
    return atom.kind == "letter" and bool(stretch) and stretch[-1].kind in _OPERANDS


def _runs(text: str, stretch: list[_Atom]) -> Iterator[Run]:
    """The longest expressions in a stretch, from its left."""
    at = 0
    while at < len(stretch):
        run = _run(text, stretch, at)
        if run is None:
            at += 1
            continue
        if _GOES_ON.match(text, run.end, stretch[-1].end):
            return  # an equation that can't be read whole is not read by half
        if _is_sure(run, text[run.start : run.end]):
            yield run
        while at < len(stretch) and stretch[at].start < run.end:
            at += 1


def _run(text: str, stretch: list[_Atom], at: int) -> Run | None:
    """The longest expression that starts with one atom of a stretch."""
    start = stretch[at].start
    if not _can_start(text, stretch, at):
        return None
    window = islice(stretch, at, at + MAX_TEXT)
    reach = max((atom.end for atom in window if atom.end - start <= MAX_TEXT), default=start)
    found = parse_start(text[start:reach])
    if found is None:
        return None
    tree, length = found
    return Run(start, start + length, tree)


def _can_start(text: str, stretch: list[_Atom], at: int) -> bool:
    """A minus that starts an expression stands close to it and free of what is before it."""
    first = stretch[at]
    if first.start and text[first.start - 1] in "/⁄∕":
        return False
    if first.kind != "sign":
        return first.kind in _OPERANDS or text[first.start] == "("
    is_close = at + 1 < len(stretch) and stretch[at + 1].start == first.end
    is_free = first.start == 0 or text[first.start - 1] in " \t\n(\u00a0"
    return text[first.start] in "-−" and is_close and is_free


def _is_sure(run: Run, source: str) -> bool:
    """A number or an empty box is in it, and it is no range: letters and `?` alone are words."""
    if isinstance(run.piece, str) or _RANGE.fullmatch(source):
        return False
    tree = run.piece
    has_number = any(isinstance(node, Whole | Frac | Mixed | Decimal) for node in walk(tree))
    return has_number or not set(source).isdisjoint("□▢☐_")


# -- sentences

_END = re.compile(r"[.?!]+[\"'”’)\]]*(?=\s|$)")
_LAST_WORD = re.compile(r"(?:^|[\s(\d])([A-Za-z](?:[A-Za-z]|\.(?=[A-Za-z]))*)\.$")
_TITLES = {"Mr", "Mrs", "Ms", "Dr", "St", "e.g", "i.e", "vs"}
_SHORT_UNITS = {"in", "ft", "yd", "mi", "lb", "oz", "pt", "qt", "gal", "hr", "min", "sec"}
_ABBREVIATIONS = _SHORT_UNITS | {"a.m", "p.m", "etc", "No"}


@lru_cache(maxsize=512)
def sentences(text: str) -> tuple[str, ...]:
    """The sentences of a text, without the space around them.

    A full stop inside mathematics or after a title ends none; after an abbreviation such as `in.`
    it ends one where a capital follows.
    """
    inside = [run for run in read(text) if not isinstance(run.piece, str)]
    found: list[str] = []
    start = 0
    for end in (match.end() for match in _END.finditer(text)):
        if _ends(text, start, end) and not any(run.start < end < run.end for run in inside):
            found.append(text[start:end].strip())
            start = end
    rest = text[start:].strip()
    return (*found, rest) if rest else tuple(found)


def _ends(text: str, start: int, end: int) -> bool:
    """Whether the marks before `end` end the sentence that began at `start`."""
    sentence = text[start:end].strip()
    if re.fullmatch(r"(?:\d+|[A-Za-z])\.", sentence):
        return False  # the number of a list
    last = _LAST_WORD.search(sentence)
    if last is None or last[1] not in _TITLES | _ABBREVIATIONS:
        return True
    return last[1] in _ABBREVIATIONS and re.match(SENTENCE_END, text[end:]) is not None
