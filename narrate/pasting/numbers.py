"""Where items begin: numbers with a point or a word, and bare numbers that go on counting.

A bare number ("12 Ana has ...", "12" on a line of its own) begins an item only where it is the next
one of the paper and what stands before it is complete; else it is a number of the text.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

_NAMED = re.compile(
    r"^\s*(?:question|item|problem|exercise)\s*(?:no\.?\s*|number\s+|#\s*)?(\d{1,3})\b"
    r"(?:\s+of\s+\d{1,3}\b)?(?:\s*[.:)–—-](?=\s|$)|\s*$|(?=\s+[A-Z“\"]))\s*",
    re.IGNORECASE,
)
_WORTH = r"(?:worth\s+)?(?:\d{1,2}|_+)\s*(?:points?|pts?\.?|marks?)"
_NAMED_WORTH = re.compile(
    r"^\s*(?:question|item|problem|exercise)\s*(?:no\.?\s*|number\s+|#\s*)?(\d{1,3})\b"
    r"(?:\s+of\s+\d{1,3}\b)?\s*[.:)–—-]?\s*"
    rf"(?:(?=[(\[]\s*{_WORTH}[^()\[\]]{{0,30}}[)\]])|{_WORTH}(?:\s+each)?\s*$)",
    re.IGNORECASE,
)
"""A named number with what its question is worth behind it: Question 3 (2 points)."""

_SHORT = re.compile(
    r"^\s*(?:#\s?|[Qq]\.?\s?#?|[Nn]o\.\s?)(\d{1,3})(?:\s*[.:)](?=\s|$)|(?=\s|$))\s*"
)
_POINTED = re.compile(
    r"^\s*(?:\*\*)?(?:\((\d{1,3})\)|(\d{1,3})\s?(?:\.\)|[.):]))(?:\*\*)?(?:\s+|$|(?=[A-Z][a-z]|[“\"]))"
    r"(?![+−×÷=])"
)
_BARE = re.compile(r"^\s*(\d{1,3})(?:\s+(?=\S)|$)")
_GOES_ON = re.compile(r"^(?:[A-Z“\"‘'$(_−-]|\d|[¼-¾⅐-⅞])")
_COMPLETE = re.compile(r"[.?!:_…]['\"’”)]*\s*$")
_OF_A_CHOICE = re.compile(r"^\s*(?:\(?[A-Ja-j][.):]|\([A-Ja-j]\)|[A-J]\s)")
_LONE_LETTER = re.compile(r"\s*\(?[A-Ja-j][.):]?\)?\s*")


@dataclass(frozen=True, slots=True, kw_only=True)
class Start:
    """Where an item begins: its line, number, the words behind it; a bare number, or a named one.

    `mark` is all that stands there for the number: Question 3 of 20 (2 points).
    """

    line: int
    number: int
    rest: str
    bare: bool = False
    named: bool = False
    mark: str = ""


def starts(lines: Sequence[str]) -> list[Start]:
    """Where the items of a paper begin, in the order of its lines."""
    sure = {at: found for at, line in enumerate(lines) if (found := _sure(at, line))}
    bare = {
        at: found for at, line in enumerate(lines) if at not in sure and (found := _bare(at, line))
    }
    made: list[Start] = []
    for at in sorted([*sure, *bare]):
        found = sure.get(at) or bare[at]
        if found.bare:
            begins = _counts_on(found, made, lines, sure, bare)
        else:
            begins = not made or not _inside(found, made[-1], lines, list(sure.values()))
        if begins:
            made.append(found)
    return made


def _inside(found: Start, last: Start, lines: Sequence[str], sure: Sequence[Start]) -> bool:
    """Whether a number with a point stands inside the item before it: ends its sentence, or lists.

    A list inside item 7 begins anew and is followed by 8; a section of its own is not.
    """
    if found.named or found.number == last.number + 1:
        return False
    above = lines[found.line - 1]
    cut = above.strip() and not _COMPLETE.search(above) and not _OF_A_CHOICE.match(above)
    if cut and re.match(r"\s*\d+\.", lines[found.line]) and found.line > last.line:
        return True
    after = [start.number for start in sure if start.line >= found.line]
    next_one = last.number + 1
    if found.number > last.number or next_one not in after:
        return False
    return after[after.index(next_one) - 1] != last.number


def _sure(at: int, line: str) -> Start | None:
    for pattern in (_NAMED_WORTH, _NAMED, _SHORT, _POINTED):
        if found := pattern.match(line):
            number = next(group for group in found.groups() if group)
            named = pattern is not _POINTED
            rest, mark = line[found.end() :], found[0].strip()
            return Start(line=at, number=int(number), rest=rest, named=named, mark=mark)
    return None


def is_named(line: str) -> bool:
    """Whether a line begins an item by its name: Question 3, Item 3 (2 points)."""
    return bool(_NAMED_WORTH.match(line) or _NAMED.match(line))


def _bare(at: int, line: str) -> Start | None:
    found = _BARE.match(line)
    if found is None:
        return None
    rest = line[found.end() :]
    if rest and not _GOES_ON.match(rest):
        return None
    return Start(line=at, number=int(found[1]), rest=rest, bare=True)


def _counts_on(
    found: Start,
    before: Sequence[Start],
    lines: Sequence[str],
    sure: dict[int, Start],
    bare: dict[int, Start],
) -> bool:
    """Whether a bare number is the next of the paper, and stands where an item may begin."""
    if not found.rest and not _text_follows(found.line, lines):
        return False
    if before:
        following = next((s.number for at, s in sure.items() if at > found.line), None)
        last = before[-1]
        return (
            found.number == last.number + 1
            and following != found.number
            and _whole(lines[last.line + 1 : found.line], last.rest)
        )
    if any(s.number <= found.number for s in sure.values()):
        return False
    later = [s.number for at, s in {**bare, **sure}.items() if at > found.line]
    work = re.search(r"\d\s*[+×÷−]|\d\s+-\s", found.rest) and _choice_follows(found.line, lines)
    begins = re.match(r"[A-Z“\"]|$", found.rest) or (found.number == 1 and work)
    return found.number + 1 in later and bool(begins)


def _text_follows(at: int, lines: Sequence[str]) -> bool:
    """Whether words stand below a number on a line of its own."""
    below = next((line for line in lines[at + 1 : at + 3] if line.strip()), "")
    return re.search(r"[^\W\d_]{2}|[=+×÷]", below) is not None


def _choice_follows(at: int, lines: Sequence[str]) -> bool:
    """Whether the next line with something on it is a choice."""
    below = next((line for line in lines[at + 1 :] if line.strip()), "")
    return _OF_A_CHOICE.match(below) is not None


def _whole(between: Sequence[str], first: str) -> bool:
    """Whether the lines of an item before a bare number say all that a question must."""
    said = [first, *between]
    last = said[-1]
    told = [line for line in said if line.strip()]
    if not told or _LONE_LETTER.fullmatch(last):
        return False
    words = any(re.search(r"[?_=.:+×÷−]|\s[–-]\s|[^\W\d_]{3}", line) for line in told)
    if not words and sum(bool(_OF_A_CHOICE.match(line)) for line in told[1:]) < 1:
        return False
    return (
        not last.strip()
        or bool(_COMPLETE.search(last))
        or bool(_OF_A_CHOICE.match(last))
        or bool(re.match(r"\s*(?:key|answer)\b", last, re.IGNORECASE))
    )
