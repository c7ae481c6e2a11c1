"""Text made plain before it is read: one character for one, so that places stay true."""

from __future__ import annotations

import re
import unicodedata
from functools import cache

LONGEST, SHORT, MOST_NUMBERS = 2_000, 500, 16
"""Characters of a story and of a bare question, and numbers, that are read; more is declined."""

_LONGEST_AGAIN, _FOR_A_NUMBER = 280, 20
_NUMBER = re.compile(r"\d[\d,.]*(?:/\d+| \d+/\d+)?")


def may_read_again(text: str) -> bool:
    """Whether a text is so short, with so few numbers in digits, that there is time to read it
    twice: a story of one or two steps."""
    return len(text) + _FOR_A_NUMBER * len(_NUMBER.findall(text)) <= _LONGEST_AGAIN


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


_ENDING = re.compile(r"([a-z']+)\(\?:([a-z|]+)\)\?")
_OPTIONAL = re.compile(r"\((?:\?:|\?P<\w+>)?[^()]*\)[?*]")
_GROUP = re.compile(r"\((?P<by>\?:|\?P<\w+>|\?[!=<]+)?(?P<of>[^()]*)\)")
_SLOT = re.compile(r"\{\w+\}\w*|<\W*\w+%?>|\[\w+\]")
_WORD = re.compile(r"(?<!\S)[a-z]{2,}(?![^\s\\])")
_FIRST = re.compile(r"(?P<word>[a-z']+?)(?P<may>[a-z]\?)?(?= |$)")


def words_said(text: str) -> frozenset[str]:
    """The words of a text in small letters, as `may_be` asks for them."""
    return frozenset(re.findall(r"[a-z']+", text.lower()))


def may_be(row: str, said: frozenset[str]) -> bool:
    """Whether a text of these words could be what a row of patterns says."""
    return not any(map(said.isdisjoint, words_needed(row)))


@cache
def words_needed(row: str) -> tuple[frozenset[str], ...]:
    """The words that a row of patterns cannot do without: of each set one must be there.

    They are those outside its brackets and slots, and the first words of what stands in brackets
    side by side. A pattern costs much to make: it is made only for a text that has these words.
    """
    row = _ENDING.sub(_with_endings, row)
    while (inner := _OPTIONAL.sub(" ", row)) != row:
        row = inner
    sets = []
    for group in _GROUP.finditer(row):
        before = row[: group.start()]
        stands = before.count("(") == before.count(")") and not before[-1:].isalpha()
        plain_group = (group["by"] or "?:")[1] in ":P" and stands
        if plain_group and (first := _first_words(group["of"])):
            sets.append(first)
    while (inner := _GROUP.sub(" ", row)) != row:
        row = inner
    return (*sets, *(frozenset({word}) for word in _WORD.findall(_SLOT.sub(" ", row))))


def _with_endings(found: re.Match[str]) -> str:
    """A word with all that may stand at its end: pack|packs|packed."""
    return "|".join([found[1], *(found[1] + ending for ending in found[2].split("|"))])


def _first_words(group: str) -> frozenset[str]:
    """The words that what stands side by side in a group begins with; none where one has none."""
    found = [_FIRST.match(alternative) for alternative in group.split("|")]
    if any(first is None for first in found):
        return frozenset()
    told = [(first["word"], (first["may"] or "").removesuffix("?")) for first in found if first]
    return frozenset(word for word, may in told) | {word + may for word, may in told}


_LONGEST_NAMED = 90
"""So many characters of a sentence are quoted."""


def shortened(sentence: str) -> str:
    """A sentence as it is quoted in a message, its end left out where it is long."""
    if len(sentence) <= _LONGEST_NAMED:
        return sentence
    return f"{sentence[:_LONGEST_NAMED].rsplit(' ', 1)[0]} …"
