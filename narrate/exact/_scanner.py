"""Text into tokens: the first half of reading an expression."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from narrate.errors import ExactError

MAX_DIGITS = 12
MAX_TEXT = 200

TokenKind = Literal[
    "whole", "decimal", "glyph", "blank", "sign", "slash", "relation", "open", "close", "end"
]


def _glyph(glyph: str) -> tuple[int, int]:
    top, bottom = unicodedata.normalize("NFKD", glyph).split("⁄")
    return int(top), int(bottom)


GLYPHS = {glyph: _glyph(glyph) for glyph in "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"}
"""One-character fractions, as Unicode's own decompositions give them."""

SIGNS = {"+": "+", "-": "−", "−": "−", "–": "−"} | dict.fromkeys("×·⋅*", "×") | {"÷": "÷"}
RELATIONS = {"<=": "≤", ">=": "≥", "!=": "≠"} | {sign: sign for sign in "=≠<>≤≥"}
BLANKS = "□▢☐?"

# One alternative for each kind of token; a longer spelling stands before a shorter one.
_TOKEN = re.compile(
    rf"""
    (?P<decimal> (?:[0-9]{{1,3}}(?:,[0-9]{{3}})+|[0-9]*)\.[0-9]+ )
  | (?P<whole>   [0-9]{{1,3}}(?:,[0-9]{{3}})+(?![0-9])|[0-9]+ )
  | (?P<glyph>   [{"".join(GLYPHS)}] )
  | (?P<blank>   [{BLANKS}]|_+|[a-z] )
  | (?P<relation> [<>!]=|[=≠<>≤≥] )
  | (?P<sign>    [{re.escape("".join(SIGNS))}]|X )
  | (?P<slash>   [/⁄∕] )
  | (?P<open>    \( )
  | (?P<close>   \) )
    """,
    re.VERBOSE,
)
_SPACE = re.compile(r"\s*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Token:
    """One token. `text` is normalised, `start` and `end` are offsets, `spaced`: a space before."""

    kind: TokenKind
    text: str
    start: int
    end: int
    spaced: bool

    @property
    def column(self) -> int:
        """Its place, counted from 1."""
        return self.start + 1

    @property
    def ends_operand(self) -> bool:
        """Whether an operand can end with it."""
        return self.kind in {"whole", "decimal", "glyph", "blank", "close"}

    @property
    def starts_operand(self) -> bool:
        """Whether an operand can start with it (a minus sign aside)."""
        return self.kind in {"whole", "decimal", "glyph", "blank", "open"}


def scan(text: str) -> Iterator[Token]:
    """The tokens of a text one by one, an `end` token last.

    The letter x between two operands is a times sign; anywhere else it is a letter. Raises
    ExactError where the text is too long, and at the first foreign character when it comes to it.
    """
    if len(text) > MAX_TEXT:
        raise ExactError(f"the text is longer than {MAX_TEXT} characters", MAX_TEXT + 1)
    before, token = None, _token(text, 0)
    while token.kind != "end":
        after = _token(text, token.end)
        is_times = token.text == "x" and before and before.ends_operand and after.starts_operand
        before = replace(token, kind="sign", text="×") if is_times else token
        yield before
        token = after
    yield token


def _token(text: str, at: int) -> Token:
    """The token behind the space at `at`."""
    space = _SPACE.match(text, at)
    start = space.end() if space else at
    if start == len(text):
        return Token(kind="end", text="", start=start, end=start, spaced=start > at)
    found = _TOKEN.match(text, start)
    if found is None or found.lastgroup is None:
        shown = named(text[start])
        raise ExactError(f"{shown} is not part of a number or expression", start + 1)
    kind: TokenKind = found.lastgroup  # type: ignore[assignment]  # the groups are the kinds
    written = _normal(kind, found.group())
    if kind in {"whole", "decimal"} and len(written.replace(".", "")) > MAX_DIGITS:
        raise ExactError(f"the number has more than {MAX_DIGITS} digits", start + 1)
    return Token(kind=kind, text=written, start=start, end=found.end(), spaced=start > at)


def _normal(kind: TokenKind, written: str) -> str:
    match kind:
        case "whole" | "decimal":
            return written.replace(",", "")
        case "blank":
            return written if written.isalpha() else "□"
        case "sign":
            return SIGNS.get(written, "×")
        case "relation":
            return RELATIONS[written]
        case _:
            return written


def named(character: str) -> str:
    """A character in quotes, or its code point where it can't be printed."""
    return f"'{character}'" if character.isprintable() else f"U+{ord(character):04X}"
