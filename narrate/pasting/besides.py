"""What stands on a paper beside its questions: running heads, page numbers, points, directions.

It is kept, in comments; only directions for several items give these what they share.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence

from narrate.pasting.numbers import Start, is_named

_BESIDE = re.compile(
    r"(?:[-–—|]\s*)?(?:page|p\.|pg\.?)\s*\d{1,3}(?:\s*(?:of|/)\s*\d{1,3})?(?:\s*[-–—|])?"
    r"|[-–—|]\s*\d{1,3}\s*[-–—|]"
    r"|\d{1,3}\s*(?:of|/)\s*\d{1,3}\s*pages?"
    r"|(?:go on|continue)(?: to the next page)?\W*|turn (?:the page|over)\W*|stop[.!]*"
    r"|(?:this is the )?end of (?:the )?(?:test|section|part|session|paper|quiz)\b.*"
    r"|(?:©|copyright\b).*"
    r"|_*\s*(?:name|pupil|student|date|class|period|teacher|score)\s*:?\s*_{2,}.*"
    r"|(?:section|part|session|unit)\s+(?:\d{1,2}|[IVX]{1,4})\b[^?]{0,60}"
    r"|directions?:.*"
    r"|(?:multiple[- ]choice|short[- ]answer|(?:constructed|extended) response|open[- ]ended)\b.*"
    r"|(?:questions?|items?|problems?) \d+ ?[-–—] ?\d+ ?[:.] ?"
    r"(?:choose|select|circle|solve|answer|show)\b.*",
    re.IGNORECASE,
)
_POINTS = re.compile(
    r"[(\[]\s*(?:worth\s+)?(?:\d{1,2}|_+)\s*(?:points?|pts?\.?|marks?)(?:\s+each|[,;][^()\[\]]{0,30})?\s*[)\]]"
    r"|(?<=[?.)])\s*\[\s*\d{1,2}\s*\]\s*$",
    re.IGNORECASE,
)
_SHOW = re.compile(
    r"\(\s*(?:show|explain) (?:all )?your (?:work|thinking|reasoning)[.!]?\s*\)"
    r"|(?<=[.?!:=_)])\s*(?:show|explain)\s+(?:all\s+)?your\s+(?:work|thinking|reasoning)"
    r"(?: in the (?:space|box) below)?\s*[.!]|(?<=[.?!:=_)])\s*circle your answer\.",
    re.IGNORECASE,
)
_FOR_SEVERAL = re.compile(
    r"\b(?:questions?|items?|problems?|exercises?|numbers?|nos?\.)\s+(?:numbers?\s+|#)?(\d{1,3})"
    r"((?:\s*,\s*\d{1,3})*)\s*(?:,\s*and|and|&|[-–—,]|to|through|thru)\s*(\d{1,3})\b(?!\s*[%/$])",
    re.IGNORECASE,
)
_USE = re.compile(
    r"\b(?:use|read|refer|answer|look|study|directions?|following|below|for|about|are based)\b",
    re.IGNORECASE,
)
_SENTENCE = re.compile(r"(?<=[.:!?])\s+(?=\S)")


def beside(lines: Sequence[str]) -> set[int]:
    """The places of the lines that are no part of a question, by their words or as they repeat."""
    known = {at for at, line in enumerate(lines) if _BESIDE.fullmatch(line.strip())}
    shapes = Counter(_shape(_first_cell(line)) for line in lines if _may_run(_first_cell(line)))
    for at, line in enumerate(lines):
        head = _first_cell(line) if _PAGE_BEHIND.search(line) else line
        if _may_run(head) and shapes[_shape(head)] > 1 and _alone(lines, at, known):
            known.add(at)
    return known


_PAGE_BEHIND = re.compile(r"(?:\s{3,}|\t)\s*(?:page|p\.|pg\.?)?\s*\d{1,3}\s*$", re.IGNORECASE)
"""A page's number, well apart from the words of a running head."""


def _first_cell(line: str) -> str:
    """A line up to a wide gap: a running head without the place for a name beside it."""
    return re.split(r"\s{3,}|\t", line.strip())[0]


def _shape(line: str) -> str:
    return re.sub(r"\d+", "0", " ".join(line.split())).lower()


def _may_run(line: str) -> bool:
    """Whether a line may be the running head or foot of pages: some words and no sentence."""
    text = line.strip()
    words = re.findall(r"[^\W\d_]{3,}", text)
    numbered = re.match(r"\(?(?:[A-Ja-j]|\d{1,3})[.):]|part\b|answer\b|key\b", text, re.IGNORECASE)
    sentence = re.search(r"[?.:!,=_]\s*$", text)
    return len(words) > 1 and not sentence and not numbered and not is_named(line)


def _alone(lines: Sequence[str], at: int, known: set[int]) -> bool:
    """Whether a line is parted from a text above and below: at an end, an empty line, a page."""
    above = at == 0 or not lines[at - 1].strip() or at - 1 in known
    below = at == len(lines) - 1 or not lines[at + 1].strip() or at + 1 in known
    return above or below


def page_numbers(lines: Sequence[str], begun: Sequence[Start]) -> set[int]:
    """Numbers on a line of their own, between empty lines, that begin no item."""
    items = {start.line for start in begun}
    return {
        at
        for at, line in enumerate(lines)
        if re.fullmatch(r"\s*\d{1,3}\s*", line)
        and at not in items
        and (at + 1 == len(lines) or not lines[at + 1].strip())
        and (at == 0 or not lines[at - 1].strip())
    }


def without_points(text: str) -> tuple[str, list[str]]:
    """A question without what it is worth and how it is to be written, and these."""
    taken: list[str] = []
    for pattern in (_POINTS, _SHOW):
        taken += [" ".join(found[0].split()) for found in pattern.finditer(text)]
        text = pattern.sub(" ", text)
    return " ".join(text.split()), taken


def for_several(line: str) -> tuple[range, str, str] | None:
    """The items a direction is for, the direction, and the words of its line that are none."""
    sentences = _SENTENCE.split(line.strip())
    for at, sentence in enumerate(sentences):
        found = _FOR_SEVERAL.search(sentence)
        if found and _USE.search(sentence) and int(found[1]) < int(found[3]) <= int(found[1]) + 12:
            rest = " ".join([*sentences[:at], *sentences[at + 1 :]])
            return range(int(found[1]), int(found[3]) + 1), sentence, rest
    return None
