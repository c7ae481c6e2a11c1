"""What pasting broke inside a line, mended: words grown together, fractions read out, dots.

A word is parted only where its first half or its second is one of a few words of test questions and
the other stands elsewhere in the same text, or is one of these too.
"""

from __future__ import annotations

import re

_AFTER = {
    "what": "is are was were does did",
    "which": "is are was were of",
    "how": "many much far long old tall",
    "number": "of",
    "total": "number amount cost of",
    "amount": "of",
}
"""Words that are known to stand side by side: Whatis, howmany, numberof."""
_BEFORE = ("same", "total", "number", "the", "each", "every", "all")
_BEHIND = re.compile(r"of|in(?= (?:all|each|the)\b)")
_WORD = re.compile(r"(?<![\w'’-])[A-Za-z][a-z]{4,}(?![\w'’-])")

_NUMBER = r"\d+(?:,\d{3})*(?:\.\d+)?"
_NO_FRACTION = r"(?! (?!(?:and|or|of|as|in|is|to|from|by|plus|minus|times|than)\b)[A-Za-z])"
_SIGNS = (
    (r"(?<=[a-z]{2}[.?!])(?=[A-Z][a-z])", " "),
    (rf"(?<!over )(?<![\w/.,-])(\d+) and (\d+) over (\d+)\b{_NO_FRACTION}", r"\1 \2/\3"),
    (rf"(?<![\w.,-])({_NUMBER}|[b-z]) over ({_NUMBER}|[b-z])\b(?![.,]\d){_NO_FRACTION}", r"\1/\2"),
    (r"\b(in|ft|yd|mi|mm|cm|m|km)(\.?) ?\^ ?2(?!\d)", r"\1\2²"),
    (r"\b(in|ft|yd|mi|mm|cm|m|km)(\.?) ?\^ ?3(?!\d)", r"\1\2³"),
    (r"(?<=[\d)]) (?:\[ ?\]|\( ?\)|Box|\[box\]) (?=[\d(])", " □ "),
    (r"(?<=[\d)]) ?[•∙] ?(?=[\d(−-])", " × "),
    (rf"(\bquotient of {_NUMBER}) ?/ ?(?={_NUMBER}\s*[?.]?$)", r"\1 ÷ "),
)
"""A fraction read out (3 over 4, 8 and 2 over 4), a dot that multiplies, a slash that divides."""


def mended(text: str) -> str:
    """A text of one line without what pasting breaks."""
    said = {word.lower() for word in _WORD.findall(text)} | set(re.findall(r"[a-z]+", text))
    text = _WORD.sub(lambda found: _parted(found, said), text)
    for pattern, right in _SIGNS:
        text = re.sub(pattern, right, text)
    return text


def parted_words(text: str, right: str) -> tuple[str, ...]:
    """The words of a pasted text that its mended one no longer has."""
    kept = set(_WORD.findall(right))
    return tuple(dict.fromkeys(word for word in _WORD.findall(text) if word not in kept))


def _parted(found: re.Match[str], said: set[str]) -> str:
    word = found[0]
    if len(word) > 40:
        return word
    for at in range(3, len(word) - 1):
        first, second = word[:at], word[at:]
        low = first.lower()
        known = second in _AFTER.get(low, "").split()
        behind = _BEHIND.match(found.string, found.start() + at)
        ends = behind is not None and behind.end() == found.end() and low in said and at > 3
        before = low in _BEFORE and second in said and len(second) > 3
        if known or ends or before:
            return f"{first} {second}"
    return word
