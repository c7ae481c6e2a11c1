"""Fractions that were pasted over three lines (numerator, rule, denominator) on one line again."""

from __future__ import annotations

import re
from collections.abc import Sequence

_LABEL = r"\s*(?:\([A-Ha-h]\)|[A-Ha-h][.)]|\d{1,3}[.)])\s+"
_RULE = re.compile(r"[-–—―_─]{2,}|[–—―─](?=\s|$)")
_LONE = re.compile(rf"^({_LABEL})?\s*-\s*$")
_NUMBERS = re.compile(rf"^({_LABEL})?\s*(\d+(?:\s+\d+)*)\s*$")


def unstacked(lines: Sequence[str]) -> list[str]:
    """The lines with each fraction of three lines written as 3/4, on the line of its rule."""
    made: list[str] = []
    at = 0
    while at < len(lines):
        joined = _joined(lines[at : at + 3])
        made.append(lines[at] if joined is None else joined)
        at += 1 if joined is None else 3
    return made


def _joined(three: Sequence[str]) -> str | None:
    """Three lines as one, where the middle one has as many rules as the others have numbers."""
    if len(three) < 3:
        return None
    above, below = _NUMBERS.match(three[0]), _NUMBERS.match(three[2])
    if above is None or below is None or below[1]:
        return None
    middle = _LONE.sub(r"\g<1>--" if _LONE.match(three[1]) and _label(three[1]) else "--", three[1])
    tops, bottoms = above[2].split(), below[2].split()
    rules = list(_RULE.finditer(middle))
    if not len(tops) == len(rules) == len(bottoms) or (above[1] and _label(middle)):
        return None
    parts, start = [above[1] or ""], 0
    for rule, top, bottom in zip(rules, tops, bottoms, strict=True):
        parts += [middle[start : rule.start()], f"{top}/{bottom}"]
        start = rule.end()
    return "".join([*parts, middle[start:]])


def _label(line: str) -> bool:
    return re.match(_LABEL, line) is not None
