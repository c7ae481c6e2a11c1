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


def in_words(lines: Sequence[str]) -> tuple[list[str], list[str]]:
    """The lines with each pair of lines that hold one number each written as a fraction, and these.

    3, and 4 below it, is 3/4; 2 1, and 5 below it, is 2 1/5.
    """
    made: list[str] = []
    read: list[str] = []
    at = 0
    while at < len(lines):
        run = at
        while run < len(lines) and re.fullmatch(r"\s*(?:\d{1,3}\s+)?\d{1,3}\s*", lines[run]):
            run += 1
        if run - at == 2 and re.fullmatch(r"\s*[1-9]\d{0,2}\s*", lines[at + 1]):
            fraction = f"{' '.join(lines[at].split())}/{lines[at + 1].strip()}"
            made.append(fraction)
            read.append(fraction)
        else:
            made += lines[at : max(run, at + 1)]
        at = max(run, at + 1)
    return made, read


_LETTERED = re.compile(r"\(?[A-Ka-k][.)]\s*|(?<=\s\s)[A-K]\s+|^\s*[A-K]\s+")


def two_lines(lines: Sequence[str]) -> list[str]:
    """The lines with fractions over two lines of choices side by side on one, without a rule.

    A.  3   B.  1   above   4   2   is A.  3/4   B.  1/2.
    """
    made: list[str] = []
    for line in lines:
        below = line.split()
        above = made[-1] if made else ""
        tops = list(re.finditer(r"(?<![\d/.,$])\d+(?=\s|$)", above))
        letters = len(_LETTERED.findall(above))
        fits = 1 < len(below) == letters and all(part.isdigit() for part in below)
        ends = [top for top in tops if re.match(r"\s*$|\s+\(?[A-Ka-k][.)\s]", above[top.end() :])]
        if not fits or len(ends) != letters:
            made.append(line)
            continue
        for top, bottom in reversed(list(zip(ends, below, strict=True))):
            above = f"{above[: top.end()]}/{bottom}{above[top.end() :]}"
        made[-1] = above
    return made
