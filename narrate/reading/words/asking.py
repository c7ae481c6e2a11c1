"""Questions said in another way, each turned into the one that is read, such as "how many".

"Find the number of eggs", "What do 3 kilograms cost?", "What is the mass of the bag?": a row is a
way to ask, as a pattern over the words, and what it asks for in the words of a plain question.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache

from narrate.reading.words.plain import word_set
from narrate.reading.words.token import Token

_ASK = (
    r"(?:find|give|state|tell|name|determine|compute|calculate|work out|figure out|say|write down"
    r"|write|record)(?: (?:me|us))?"
)
_DO = r"(?:do|does|did|will|would|must|should|can)"
_IS = r"(?:is|was|are|were|will be|would be)"
_NAMES = "weight|mass|length|height|width|depth|cost|price|distance|area|perimeter|capacity"
_BEGIN = r"(?:^|(?<=, )|(?<=then ))"


@dataclass(frozen=True, slots=True)
class Way:
    """A way to ask: a pattern over the words in small letters, and the words to read instead."""

    said: str
    read: str


WAYS: tuple[Way, ...] = (
    Way(rf"^{_ASK} (?=how (?:many|much|long|far|tall|heavy|wide|deep|high)\b)", ""),
    Way(rf"^{_ASK} (?=what \w+)", ""),
    Way(
        rf"^{_ASK} the (?=(?:total |whole |combined |full )?(?:number|{_NAMES}|amount|sum)\b)",
        "find the ",
    ),
    Way(rf"^{_ASK} (?P<a>(?:\w+ )?\w+'s) (?=(?:total )?(?:{_NAMES})\b)", "what is \\g<a> "),
    Way(rf"{_BEGIN}(?P<a>(?:what {_IS}|find) .*?)\bmass\b", "\\g<a>weight"),
    Way(rf"{_BEGIN}what {_DO} (?P<a>[^,?]+?) (?P<b>weigh|cost)\b", "how much does \\g<a> \\g<b>"),
    Way(
        rf"{_BEGIN}what {_DO} (?P<a>[^,?]+?) (?:sell for|come to)(?= [?,]|$)",
        "how much does \\g<a> cost",
    ),
    Way(
        rf"{_BEGIN}what (?P<d>{_DO}) (?P<a>[^,?]+?) (?P<b>pay|earn|spend|owe)\b",
        "how much \\g<d> \\g<a> \\g<b>",
    ),
    Way(rf"{_BEGIN}what (?P<d>{_DO}) (?P<a>[^,?]+?) measure\b", "how long is \\g<a>"),
    Way(
        rf"{_BEGIN}what {_IS} (?:its|his|her|their|the) (?:average )?(?:speed|rate)(?: ,)? in "
        r"(?P<a>\w+) (?:per|an|a) (?P<b>\w+)",
        "how many \\g<a> per \\g<b>",
    ),
    Way(
        rf"{_BEGIN}at what (?:average )?(?:speed|rate)(?: ,)? in (?P<a>\w+) (?:per|an|a) "
        rf"(?P<b>\w+)(?: ,)?",
        "how many \\g<a> per \\g<b>",
    ),
    Way(
        rf"{_BEGIN}what {_IS} the total amount(?: of money)?(?: , in dollars ,)?(?: that)? "
        r"(?P<a>\w+(?: \w+)?) (?:paid|spent)\b",
        "how much in all did \\g<a> pay",
    ),
    Way(
        rf"{_BEGIN}(?:what {_IS}|find) (?P<a>(?:\w+ ){{0,3}}?\w+'s) "
        r"(?P<b>weight|length|height|width|depth|price|cost)\b",
        "what is the \\g<b> of \\g<a>",
    ),
    Way(
        rf"{_BEGIN}(?:what {_IS}|find) the (?:least|smallest|fewest|minimum) number of "
        r"(?P<a>\w+ \w+) (?:needed|required)(?= |$)",
        "how many \\g<a> are needed",
    ),
    Way(
        rf"{_BEGIN}(?:what {_IS}|find) the (?:least|smallest|fewest|lowest|minimum) number of "
        r"(?P<a>\w+)(?: that)?(?: (?:is|are|was|were|will))?(?: (?:needed|required|do|necessary))?",
        "how many \\g<a> are needed",
    ),
    Way(
        rf"{_BEGIN}(?:what {_IS}|find) the (?:greatest|largest|biggest|highest|maximum|most) "
        r"number of (?P<a>(?:\w+ )?\w+?)(?: that)? (?P<s>\w+) (?P<c>can|could) (?P<b>\w+)",
        "how many full \\g<a> \\g<c> \\g<s> \\g<b>",
    ),
    Way(rf"{_BEGIN}at (?:most|the most) how many (?=\w)", "how many full "),
    Way(
        rf"{_BEGIN}what {_DO} (?P<a>(?:the|his|her|its) [^,?]+?) (?:show|read|say|display) "
        r"(?P<b>now|then|at the end|afterwards)(?= \?|$)",
        "how much does \\g<a> show \\g<b>",
    ),
    Way(
        rf"{_BEGIN}(?:what {_IS}|find) their (?=(?:total |combined )?(?:{_NAMES})\b)",
        "what is the ",
    ),
    Way(rf"{_BEGIN}what number of (?P<a>\w+) (?:is|are)\b", "how many \\g<a> are"),
    Way(
        r"(?P<a>(?:cost|price|total|weight|length|distance)) , in (?:\w+ )?\w+ , of\b", "\\g<a> of"
    ),
)
"""Each row is tried in turn on what the row before has made."""


def asked_plainly(sentence: Sequence[Token]) -> list[Token]:
    """A sentence with the plain question for the one it asks, where it asks in another way."""
    words = list(sentence)
    if not any(t.low in _OPENING for t in words):
        return words
    for pattern, read in _ways():
        words = _turned(words, pattern, read) or words
    return words


_OPENING = word_set(
    "find give state tell name determine compute calculate work figure say write record what at"
)


@cache
def _ways() -> tuple[tuple[re.Pattern[str], str], ...]:
    return tuple((re.compile(way.said), way.read) for way in WAYS)


def _turned(words: list[Token], pattern: re.Pattern[str], read: str) -> list[Token] | None:
    """The words with the first place that fits said as `read`, None where none fits."""
    ends: list[int] = []
    line = ""
    for word in words:
        line = f"{line} {word.low}" if line else word.low
        ends.append(len(line))
    found = pattern.search(line)
    if found is None:
        return None
    starts = [0, *(end + 1 for end in ends[:-1])]
    first = _at(starts, found.start())
    last = _at(starts, found.end()) if found.end() < len(line) else len(words)
    if found.end() in ends:
        last = ends.index(found.end()) + 1
    here = words[min(first, len(words) - 1)]
    return [*words[:first], *_said(read, found, words, starts, ends, here), *words[last:]]


def _at(starts: Sequence[int], place: int) -> int:
    return next((i for i, start in enumerate(starts) if start >= place), len(starts))


def _said(
    read: str,
    found: re.Match[str],
    words: Sequence[Token],
    starts: Sequence[int],
    ends: Sequence[int],
    here: Token,
) -> Iterator[Token]:
    """The tokens of a row's words; those it takes from the text stay as they are."""
    for piece in read.split():
        if not piece.startswith("\\g<"):
            yield replace(here, kind="w", text=piece, tree=None, sort="", joined=False)
            continue
        begin, end = found.span(piece[3 : piece.index(">")])
        taken = [w for w, s, e in zip(words, starts, ends, strict=True) if begin <= s and e <= end]
        yield from taken
        if rest := piece[piece.index(">") + 1 :]:
            yield replace(here, kind="w", text=rest, tree=None, sort="", joined=False)
