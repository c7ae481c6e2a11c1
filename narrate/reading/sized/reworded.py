"""Sentences about one measure said in another way, each turned into one that a row reads.

"Wanda's vine, now 6 feet long, is 3 times ...", "a mass 4 times as great", "3 times that height",
"heavier than the loaf by how many kilograms?", "one basket of each size".
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from narrate.reading.sized.forms import UNIT
from narrate.reading.sized.rows import may_fit

_NOUN = {
    "mass": "heavy", "weight": "heavy", "length": "long", "height": "tall", "width": "wide",
    "depth": "deep", "age": "old", "time": "long",
}  # fmt: skip
_N = "|".join(_NOUN)
_TIMES = r"(?P<k>#\d+ times|x\d+|#\d+)"
_BE = r"(?:is|was|are|were|weighs|weighed|costs?|measures|measured)"


@dataclass(frozen=True, slots=True)
class Way:
    """A way to say it, and how it is read; `{how}` stands for the adjective of a named measure."""

    said: str
    read: str


WAYS: tuple[Way, ...] = (
    Way(r" (?:near|next to|beside|behind|across from|opposite) (?:it|him|her|them)\b", ""),
    Way(
        rf"^(?P<s>[^,#$]+) , (?:(?:which is|who is|now|at|currently) )*(?P<n>[#$]\d+(?: {UNIT})?"
        rf"(?: (?:long|tall|high|wide|deep|old))?) , (?P<b>{_BE}) (?P<rest>.*\btimes\b.*)$",
        r"\g<s> is \g<n> and it \g<b> \g<rest>",
    ),
    Way(
        rf"\bha(?:s|d) an? (?P<noun>{_N}) (?:of |that is |which is )?{_TIMES} as "
        r"(?:great|large|big|much|long|high)\b",
        r"is \g<k> as {how}",
    ),
    Way(rf"{_TIMES} that (?P<m>many|much)\b", r"\g<k> as \g<m>"),
    Way(
        rf"^(?P<s>[^,#$]+[#$]\d+(?: {UNIT})?) , "
        rf"(?P<rest>(?:#\d+ times|x\d+) the (?:{_N}|price|cost) of [^,#$]+)$",
        r"\g<s> and it is \g<rest>",
    ),
    Way(rf"{_TIMES} that (?P<noun>{_N})\b(?! of)", r"\g<k> as {how}"),
    Way(
        rf"^(?P<s>.+?) (?P<b>is|was|are|were) (?P<c>\w+er) than (?P<o>.+?) by how "
        rf"(?P<u>many {UNIT}|much)$",
        r"how \g<u> \g<c> \g<b> \g<s> than \g<o>",
    ),
    Way(
        r"^(?:how much|what) (?:would|will|does|do|did) one(?: \w+)? of each(?: \w+)? cost"
        r"(?: (?:together|altogether|in all|in total))?",
        r"what is the total cost",
    ),
    Way(r"\b(?:needed|needs|used|spent) (?P<k>#\d+ times|x\d+) as long\b", r"took \g<k> as long"),
    Way(r"\b(?P<as>as (?:long|much|far)) for (?:his|hers|theirs|that)$", r"\g<as>"),
    Way(r"\b(?P<the>an?|the|one|each) can\b", r"\g<the> tin"),
)  # fmt: skip
"""Each row is tried in turn on what the rows before have made."""


def reworded(line: str) -> str:
    """A line of words with each way of saying it that a row knows said plainly."""
    for way in WAYS:
        if may_fit(way.said, line):
            found = _pattern(way.said)
            line = found.sub(lambda m, read=way.read: _read(m, read), line)  # type: ignore[misc]
    return line


@cache
def _pattern(said: str) -> re.Pattern[str]:
    """A way as a pattern, made for the first line that has its words."""
    return re.compile(said, re.IGNORECASE)


def _read(found: re.Match[str], read: str) -> str:
    noun = found.groupdict().get("noun")
    how = _NOUN[noun.lower()] if noun else ""
    return found.expand(read.replace("{how}", how))
