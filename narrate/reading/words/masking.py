"""A text in small letters with names in place of its numbers, for rows that are whole texts."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction

from narrate.exact.caption import write
from narrate.reading.words.plain import plain
from narrate.reading.words.token import Token
from narrate.reading.words.tokens import tokens


@dataclass(frozen=True, slots=True)
class Masked:
    """A text in small letters with its numbers as #0, #1 and its times of day as @0, @1."""

    text: str
    numbers: tuple[Token, ...]
    times: tuple[str, ...]


_TITLE = re.compile(r"\b(mr|mrs|ms|dr|st)\.", re.IGNORECASE)
_TIME = re.compile(r"\d{1,2}:\d\d(?:\s?[ap]\.?\s?m\b\.?)?|\d{1,2}\s?[ap]\.m\.", re.IGNORECASE)


def masked(text: str) -> Masked:
    """A text with its numbers and times named, commas left out."""
    out, at = "", 0
    numbers: list[Token] = []
    times: list[str] = []
    for token in tokens(text):
        out += plain(text[at : token.start])
        at = token.end
        if token.kind == "n":
            money, percent = token.sort == "money", token.sort == "percent"
            out += f"{'$' if money else ''}#{len(numbers)}{'%' if percent else ''}"
            numbers.append(token)
        elif token.kind == "t" and _TIME.fullmatch(token.text):
            out += f"@{len(times)}"
            times.append(token.text)
        else:
            out += plain(token.text)
    said = _TITLE.sub(r"\1", out + plain(text[at:])).lower().replace(",", "").replace("-", " ")
    said = "".join(c for c in unicodedata.normalize("NFD", said) if not unicodedata.combining(c))
    return Masked(" ".join(said.split()).rstrip(" ."), tuple(numbers), tuple(times))


def digits(number: Token) -> str:
    """A number as it is written in figures."""
    assert number.tree is not None
    return write(number.tree).replace(",", "")


def amount(written: str) -> Fraction:
    """What a number that a row names is worth: "2 3/4"."""
    return sum((Fraction(part) for part in written.split()), Fraction(0))
