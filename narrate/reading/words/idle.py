"""Words that say nothing of how much there is, left out where a text is declined with them.

They are made blanks, so that all other words keep their places: "including tax" beside a price that
is paid, "There was no tax", "at the end of the 8 days" where so many are told, a constant rate. A
row is a phrase, and what of the text must be so that it is idle.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from narrate.reading.words.counting import SMALL
from narrate.reading.words.plain import may_read_again

_Fits = Callable[[str, re.Match[str]], bool]


@dataclass(frozen=True, slots=True)
class Idle:
    """A phrase as a pattern over a text in small letters, whether it is idle there, and the
    shorter words that say the same, if any.
    """

    said: re.Pattern[str]
    fits: _Fits
    read: str = ""


def _always(_text: str, _found: re.Match[str]) -> bool:
    return True


def without_idle(text: str) -> str:
    """The text with blanks for what is idle in it; the same text where nothing is."""
    low, made = text.lower(), text
    if not may_read_again(text):
        return text
    for row in _ROWS:
        for found in row.said.finditer(low):
            if row.fits(low, found):
                start, end = found.span("idle")
                plain = found.expand(row.read).ljust(end - start)
                made = f"{made[:start]}{plain}{made[end:]}" if len(plain) == end - start else made
    return made


_NUMBER = r"(?:\d+|[a-z]+)"
_DAYS = r"(?:days?|weeks?|hours?|months?|nights?|mornings?|lessons?|school days?)"


def _told_so(text: str, found: re.Match[str]) -> bool:
    """Whether just so many days are told before: for 8 days; on each of 5 days and on Saturday."""
    asked = _count(found["n"])
    before = text[: found.start()]
    told = [_count(n) for n in re.findall(rf"\b({_NUMBER}) {_DAYS}\b", before)]
    named = set(re.findall(r"\bon (?:the )?([a-z]+day|[a-z]+th day|last day)\b", before))
    within = bool(re.search(r"\b(?:through|to|until) [a-z]+day\b", before))
    days = [n for n in told if n is not None]
    if asked is None or len(set(days)) != 1:
        return False
    return asked == days[0] + (len(named) if not within else len(named - {""}))


def _count(word: str) -> int | None:
    return int(word) if word.isdigit() else SMALL.get(word)


def _has_only_dollars(text: str, _found: re.Match[str]) -> bool:
    return "$" in text and not re.search(r"\bcents?\b|¢", text.replace("dollars and cents", ""))


def _is_shared_rate(text: str, _found: re.Match[str]) -> bool:
    """Whether a rate is asked for, or told: all that a constant one says is read."""
    return not re.search(r"\b(?:changes?|changed|then|slower|faster|until)\b", text)


def _only_both_do(text: str, found: re.Match[str]) -> bool:
    """Whether amounts are told of both who "both walk": Ada walks 2 miles, and Bo walks 3."""
    rest = text[found.end() :]
    told = (rf"\b{name}(?:'s [a-z]+)? [a-z]+ [\d$]" for name in (found["a"], found["b"]))
    return all(re.search(pattern, rest) for pattern in told)


def _is_all_that_is_paid(text: str, found: re.Match[str]) -> bool:
    """Whether what is paid for is all that has a price: for admission and rides."""
    return text.count("$") == len("ab") and found["n"] in text[: found.start()]


_ROWS = tuple(
    Idle(re.compile(said), fits, *read)
    for said, fits, *read in (
        (r"(?P<idle> for (?:the )?(?:admission|entry|entrance|getting in) and (?:all )?(?:the )?"
         r"(?P<n>[a-z]+))(?= ?\?)", _is_all_that_is_paid),
        (r"(?P<idle>\ba recipe for (?:one|a|1) (?P<n>batch|loaf|pan|pie|cake|pot|serving)(?: "
         r"of [a-z]+)?"
         r" (?:calls for|uses|needs|requires|takes))\b", _always, r"each \g<n> needs"),
        (r"(?<!not)(?<!without)(?P<idle>,? (?:including|which includes?) (?:the |all |sales )?"
         r"tax(?:es)?,?)(?=[ .])(?! of\b)", _always),
        (r"[.?!](?P<idle> (?:there (?:is|was|are|were) no (?:sales )?tax(?:es)?|no (?:sales )?tax "
         r"(?:is|was) (?:charged|added|paid)|(?:all |the )?prices? includes? (?:the "
         r")?tax)\.)", _always),
        (r"(?P<idle>,? before (?:the |any )?(?:sales )?tax(?:es)?)(?= ?\?)", _always),
        (r"(?P<idle>,? in dollars(?: and cents)?,?)(?= [a-z]+ |\?)", _has_only_dollars),
        (rf"(?P<idle> (?:at the end of|over|during|in|on|for|after) (?:the|those|these|all) "
         rf"(?:all )?"
         rf"(?P<n>{_NUMBER}) {_DAYS})(?= ?\?)", _told_so),
        (r"[.?!](?P<idle> (?:the [a-z]+(?: [a-z]+)?|it|he|she|they) [a-z]+ at a "
         r"(?:constant|steady|uniform) "
         r"(?:rate|speed|pace)\.)", _is_shared_rate),
        (r"^(?P<idle>(?P<a>[a-z]+) and (?P<b>[a-z]+) both [a-z]+(?: (?:to|in|at|for|on) (?:the "
         r"|a )?"
         r"[a-z]+| the [a-z]+| [a-z]+){0,2}\.)", _only_both_do),
        (r"(?P<idle>,? monday through friday,?)(?=[ .])", _always),
        (r"[.?!](?P<idle> (?:the weather was|it was an? "
         r"(?:sunny|warm|cool|cloudy|hot|cold|rainy|busy)) "
         r"[a-z]+(?: [a-z]+){0,2}\.)", _always),
    )
)  # fmt: skip
