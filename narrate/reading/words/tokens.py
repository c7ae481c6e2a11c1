"""A text's words, numbers and marks, each with its place.

Numbers are whole numbers, decimals, fractions and mixed numbers, in digits, glyphs or words.
A name with a number (Class 4, Bed 2B) is one word. Ordinals ("the second day"), times ("4:02 p.m.")
and years stay words: they count nothing.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

from narrate.exact._scanner import GLYPHS
from narrate.exact.tree import Decimal, Expr, Frac, Mixed, Whole
from narrate.reading.words.counting import SMALL, TENS, with_counting
from narrate.reading.words.plain import plain, word_set
from narrate.reading.words.token import Token

_GLYPHS = "".join(GLYPHS)
_TOKEN = re.compile(
    rf"""
    (?P<t> \d{{1,2}}:\d\d(?:\s?[ap]\.?m\b\.?)? | \d{{1,2}}\s?[ap]\.?m\.(?=\s|$)
         | \d+(?:st|nd|rd|th)\b | \d{{1,2}}\s?o'clock\b
         | (?<=\bin\s)(?:19|20)\d\d\b(?!\s[a-z]+s\b) | \d+/\d+/\d+ )
  | (?P<n> (?:\$\s?)?(?:\d{{1,3}}(?:,\d{{3}})+|\d+)?\.\d+
         | (?:\$\s?)?(?:\d+(?:\s|-)\d+/[1-9]\d*(?![\d/])
             |\d+\sand\s\d+/[1-9]\d*(?![\d/]|\s(?:is|are|was|were|of)\b))
         | (?:\$\s?)?\d+/[1-9]\d*(?:ths?|rds?|nds?)?(?![\d/])
         | \d*\s?[{_GLYPHS}]
         | (?:\$\s?)?\d{{1,3}}(?:,\d{{3}})+(?!\d)
         | (?:\$\s?)?\d+ )
  | (?P<c> (?:Class|Year|Grade|Team|Group|Bed|Plot|Row|Table|Room|Shelf|Garden)\s
           \d{{1,2}}[A-F]?\b(?![/%-]|\.\d|\s\d) )
  | (?P<w> [^\W\d_]+(?:'[^\W\d_]+)*(?:-[^\W\d_]+(?:'[^\W\d_]+)*)* )
  | (?P<p> \S )
    """,
    re.VERBOSE,
)


@lru_cache(maxsize=64)  # several readers look at the same words
def tokens(text: str) -> tuple[Token, ...]:
    """The tokens of a text in order."""
    return tuple(with_counting(list(_raw(plain(text)))))


def _raw(text: str) -> Iterator[Token]:
    passed, before = 0, ""
    for found in _TOKEN.finditer(text):
        if found.start() < passed:
            continue
        last, before = before, found[0].lower()
        kind = found.lastgroup or "p"
        token = Token(kind=kind, text=found[0], start=found.start(), end=found.end())
        if kind == "n" and last in _LABELS and token.text.isdigit():
            yield replace(token, kind="t")
        elif kind == "c":
            yield replace(token, kind="w", text=found[0].replace(" ", "-"))
        elif kind == "n":
            token = _number(text, token)
            passed = token.end
            yield token
        elif kind == "w" and "-" in token.text and _is_counting(token.text):
            yield from _apart(token)
        else:
            yield token


_LABELS = word_set("grade page room chapter question route highway lesson unit")
"""Words before a number that is a name: grade 4, room 12."""


def _is_counting(word: str) -> bool:
    parts = word.lower().split("-")
    first = parts[0] in SMALL or parts[0] in TENS or parts[0] == "half"
    return first and len(parts) >= 2 and parts != ["one", "half", "hour"]


def _apart(token: Token) -> Iterator[Token]:
    """The words of a hyphened number: twenty-five, three-fourths, six-inch."""
    at = token.start
    for part in token.text.split("-"):
        yield Token(
            kind="w", text=part, start=at, end=at + len(part), joined=at + len(part) < token.end
        )
        at += len(part) + 1


_PERCENT = re.compile(r"\s?(?:%|percent\b)")
_COIN_AFTER = re.compile(r"\s?\$(?!\s?\d)")


def _number(text: str, token: Token) -> Token:
    """A number in digits with its tree and its sort."""
    tree = _tree(token.text.lstrip("$ ").replace(",", ""))
    if token.text.startswith("$"):
        return replace(token, tree=tree, sort="money")
    for after, sort in ((_PERCENT, "percent"), (_COIN_AFTER, "money")):
        if found := after.match(text, token.end):
            return replace(token, tree=tree, sort=sort, end=found.end())
    part = isinstance(tree, Frac) and tree.numerator < tree.denominator
    joined = (
        text[token.end : token.end + 1] == "-" and text[token.end + 1 : token.end + 2].isalpha()
    )
    return replace(token, tree=tree, sort="part" if part else "", joined=joined)


def _tree(digits: str) -> Expr:
    if found := re.fullmatch(r"(\d+)(?:\s|-|\sand\s)(\d+)/(\d+)", digits):
        return Mixed(int(found[1]), int(found[2]), int(found[3]))
    if found := re.fullmatch(r"(\d+)/(\d+)[a-z]*", digits):
        return Frac(int(found[1]), int(found[2]))
    if digits[-1] in GLYPHS:
        top, bottom = GLYPHS[digits[-1]]
        whole = digits[:-1].strip()
        return Mixed(int(whole), top, bottom) if whole else Frac(top, bottom)
    if "." in digits:
        whole, places = digits.split(".")
        return Decimal(whole or "0", places)
    return Whole(int(digits))


# -- numbers in words
