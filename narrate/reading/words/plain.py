"""Text made plain before it is read: one character for one, so that places stay true."""

from __future__ import annotations

import re
import unicodedata

LONGEST, SHORT, MOST_NUMBERS = 2_000, 500, 16
"""Characters of a story and of a bare question, and numbers, that are read; more is declined."""

_ALIKE = str.maketrans(
    {
        "–": "-", "—": "-", "−": "-", "‐": "-", "‑": "-", "‒": "-",
        "⁄": "/", "∕": "/", "’": "'", "‘": "'", "“": '"', "”": '"', "\u00a0": " ",
        "\u2009": " ", "\u202f": " ", "•": "*", "·": "*", "⋅": "*", "×": "*", "∙": "*", "÷": "÷",
    }
)  # fmt: skip


def plain(text: str) -> str:
    """The text with alike signs made one and control characters made spaces; same length."""
    said = text.translate(_ALIKE)
    return said if said.isprintable() else "".join(map(_visible, said))


def _visible(character: str) -> str:
    return " " if unicodedata.category(character) in ("Cc", "Cf", "Zs", "Zl", "Zp") else character


def word_set(text: str) -> frozenset[str]:
    """The words of a text as a set: how the tables of words in this room are written."""
    return frozenset(text.split())


BELOW_ZERO = re.compile(
    r"(?:^|[\s(])[-−–]\s?\$?\d|\bbelow (?:zero|freezing|sea level|0)\b|\bminus \d"
)
"""What says that a number is below zero; no story is read with one."""


_BRACKETED = re.compile(r"\((?:\?:|\?P<\w+>|\?[!=<]+)?[^()]*\)[?*]?")
_SLOT = re.compile(r"\{\w+\}\w*|<\W*\w+%?>|\[\w+\]")
_WORD = re.compile(r"(?<!\S)[a-z]{2,}(?![^\s\\])")


def words_needed(row: str) -> frozenset[str]:
    """The words that a row of patterns cannot do without: those outside its brackets and slots.

    A pattern costs much to make: it is made only for a text that has these words.
    """
    while (inner := _BRACKETED.sub(" ", row)) != row:
        row = inner
    return frozenset(_WORD.findall(_SLOT.sub(" ", row)))
