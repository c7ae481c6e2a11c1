"""The list of answers at an end of a paper: under a heading or by its form, in lines or a table.

An entry is the number of an item, its part where it names one, and a letter or what is worked out.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import islice

from narrate.pasting.numbers import starts

_HEADING = re.compile(
    r"\W*(?:(?:test|quiz|review|paper|correct)\s+)?(?:answer\s*(?:key|sheet|list)|answers|key|solutions)"
    r"(?:\s*(?:\(.*\)|(?:to|for|of)\s.{1,60}))?\W*",
    re.IGNORECASE,
)
_NAMED = re.compile(
    r"^\s*(?:(?:answer\s*)?(?:key|answers?)\s*[:=]|answers\b|answer\s+key\b)\s*(?=\d)",
    re.IGNORECASE,
)
_LETTERS = r"[A-Ja-j](?:\s*(?:,|&|and)\s*[A-Ja-j])*"
_ENTRY = re.compile(
    r"(?:^|(?<=[\s|;,]))(?:(?:question|item|problem|no\.?|#|q)\s*)?(\d{1,3})(?:([a-f](?=[.):\s]))|\s([a-f](?=[.):]\s*\S)))?\s*"
    r"(?:[.):=]|[-–—](?=\s|[A-J](?:[\s,;]|$))|\s|\|)\s*",
    re.IGNORECASE,
)
_COMPACT = re.compile(r"\d{1,3}\s?[A-Ja-j](?:[\s,;]+\d{1,3}\s?[A-Ja-j])+[;,.]?")
"""1A 2C 3B: numbers and letters alone, more than one of them."""

_WORKED_OUT = re.compile(r"[$−-]?(?:\d+\s+)?\d[\d,]*(?:\.\d+|/\d+)?%?")
_LONE = re.compile(rf"\(?(?P<letters>{_LETTERS})\)?\.?", re.IGNORECASE)
_OF_PART = (
    r"(?:part\s+(?=\(?[A-F]\)?\s)\(?|(?:part\s+)?\(?(?=[A-F]\s*[:=.)]\s))([A-F])\s*[:=.)]*\s+"
)
_PARTED = re.compile(
    rf"(?:^|(?<=[\s;,])){_OF_PART}(\S[^;]*?)(?=[;,]?\s+{_OF_PART.replace('([A-F])', '[A-F]')}|$)",
    re.IGNORECASE,
)
_TABLE_WORDS = re.compile(
    r"\W*(?:question|item|problem|number|no\.?|#|q|answer|key|letter|standard|points?|[\s|:\t-])+\W*",
    re.IGNORECASE,
)


LONGEST_LINE = 2_000
"""A longer line is no line of answers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """An answer as the list tells it: the item's number, its part ("" for none) and the answer."""

    number: int
    part: str
    answer: str


@dataclass(slots=True)
class AnswerList:
    """The answers, and the lines of the list that were not understood."""

    told: list[Told] = field(default_factory=list)
    left: list[str] = field(default_factory=list)


def without_answers(lines: Sequence[str]) -> tuple[list[str], AnswerList]:
    """The lines of a paper without its list of answers, and the list."""
    found = AnswerList()
    start = _start(lines)
    if start is None:
        return list(lines), found
    end = _end(lines, start)
    block = [line for line in lines[start:end] if line.strip()]
    block = [_NAMED.sub("", line) for line in block if not _HEADING.fullmatch(line.strip())]
    for told, line in _read(block):
        found.told += told
        if not told:
            found.left.append(line.strip())
    return [*lines[:start], *lines[end:]], found


def _start(lines: Sequence[str]) -> int | None:
    """Where the list begins: under its heading, or at the last lines that only answer."""
    for at, line in enumerate(lines):
        if len(line) > 100 or not _HEADING.fullmatch(line.strip()):
            continue
        rest = list(islice((below for below in lines[at + 1 :] if below.strip()), 2))
        if rest and _is_list(rest):
            return at
    at = len(lines)
    while at and (not lines[at - 1].strip() or _only_answers(lines[at - 1])):
        at -= 1
    if at and _NAMED.match(lines[at - 1]) and _is_of_several(lines[: at - 1], lines[at - 1]):
        at -= 1
    told = [line for line in lines[at:] if line.strip()]
    entries = sum(len(_entries(_NAMED.sub("", line))) for line in told)
    return at if entries > 1 and at else None


def _is_of_several(before: Sequence[str], line: str) -> bool:
    """Whether a key on a line is for several items: Key: 1 B, 2 10; and not 1 1/2, 2 3/4."""
    told = _entries(_NAMED.sub("", line))
    letters = any(_LONE.fullmatch(entry.answer) for entry in told)
    items = {start.number for start in starts(before)}
    return bool(told) and (letters or {entry.number for entry in told} == items)


def _is_list(lines: Sequence[str]) -> bool:
    """Whether the lines under a heading begin a list of answers."""
    return any(_only_answers(line) or _entries(line) or _numbers(line) for line in lines) and not (
        len(lines[0].split()) > 12
    )


def _end(lines: Sequence[str], start: int) -> int:
    """Where the list ends: at the end, or, before the items, behind its last answer."""
    seen: set[int] = set()
    last = start + 1
    for at in range(start, len(lines)):
        line = _NAMED.sub("", lines[at])
        begun = next(iter(starts([line])), None)
        if begun and begun.number in seen and len(re.findall(r"[^\W\d_]{2,}", begun.rest)) > 2:
            return last
        understood = _numbers(line) or _entries(line)
        seen |= {entry.number for entry in _entries(line)} | set(_numbers(line))
        last = at + 1 if understood else last
    return len(lines)


def _only_answers(line: str) -> bool:
    """Whether a line is nothing but numbers of items with letters: 1. C  2. A, or 3. B.

    Of a part it may be a number: 4 Part A $12; Part B $8.
    """
    entries = _entries(line)
    return bool(entries) and all(
        _LONE.fullmatch(entry.answer) or (entry.part and _WORKED_OUT.fullmatch(entry.answer))
        for entry in entries
    )


def _entries(line: str) -> list[Told]:
    """The entries of a line."""
    line = line.replace("|", "  ").strip()
    if len(line) > LONGEST_LINE:
        return []
    if _COMPACT.fullmatch(line):
        found = re.findall(r"(\d{1,3})\s?([A-Ja-j])", line)
        return [Told(number=int(n), part="", answer=letter.upper()) for n, letter in found]
    marks: list[re.Match[str]] = []
    for mark in _ENTRY.finditer(line):
        if not marks or _next_entry(line, mark, marks[-1]):
            marks.append(mark)
    if not marks or marks[0].start() > 0:
        return []
    made: list[Told] = []
    for mark, end in zip(marks, [*(m.start() for m in marks[1:]), len(line)], strict=True):
        answer = line[mark.end() : end].strip(" \t;,")
        if not answer:
            return []
        parts = list(_PARTED.finditer(answer))
        if parts and parts[0].start() == 0:
            made += [_told(mark, p[1].upper(), p[2].strip(" ,;")) for p in parts]
        else:
            made.append(_told(mark, _part(mark), answer))
    return made


def _next_entry(line: str, mark: re.Match[str], last: re.Match[str]) -> bool:
    """Whether a number inside a line begins an entry.

    It has a point, a letter alone stands behind it, or it is the next one behind a whole answer.
    """
    sign = line[mark.start() : mark.end()]
    behind = re.match(rf"{_LETTERS}(?=[\s;,]|$)", line[mark.end() :])
    gap = re.search(r"(?:\s{2,}|[;,]\s*|\t)$", line[: mark.start()])
    if behind is not None or (bool(gap) and bool(re.search(r"[.)]", sign))):
        return True
    answer = line[last.end() : mark.start()].strip(" \t;,")
    whole = _LONE.fullmatch(answer) or _WORKED_OUT.fullmatch(answer)
    counts = int(mark[1]) == int(last[1]) + 1 or (mark[1] == last[1] and _part(mark) > _part(last))
    return counts and bool(answer) and (bool(gap) or whole is not None)


def _part(mark: re.Match[str]) -> str:
    return (mark[2] or mark[3] or "").upper()


def _told(mark: re.Match[str], part: str, answer: str) -> Told:
    lone = _LONE.fullmatch(answer)
    return Told(number=int(mark[1]), part=part, answer=lone["letters"].upper() if lone else answer)


def _numbers(line: str) -> list[int]:
    """The numbers of a row of a table that counts the items: 1 2 3 4, 1 | 2 | 3."""
    cells = [c for c in re.split(r"[\s|]+", line.strip()) if c and not re.fullmatch(r"[-:]+", c)]
    cells = [c for c in cells if not _TABLE_WORDS.fullmatch(c)]
    if len(cells) < 2 or not all(re.fullmatch(r"\d{1,3}\.?", cell) for cell in cells):
        return []
    numbers = [int(cell.rstrip(".")) for cell in cells]
    return numbers if all(b == a + 1 for a, b in itertools.pairwise(numbers)) else []


def _read(block: Sequence[str]) -> Iterator[tuple[list[Told], str]]:
    """The entries of each line of a list, none for a line that is not understood."""
    waiting: list[int] = []
    row = ""
    for line in block:
        if re.fullmatch(r"[\s|:=-]+", line):
            continue
        if waiting:
            cells = _cells(line, len(waiting))
            if cells:
                yield (
                    [
                        Told(number=n, part="", answer=c)
                        for n, c in zip(waiting, cells, strict=True)
                    ],
                    line,
                )
            else:
                yield [], row
                yield [], line
            waiting = []
        elif numbers := _numbers(line):
            waiting, row = numbers, line
        else:
            yield _entries(line), line
    if waiting:
        yield [], row


def _cells(line: str, count: int) -> list[str]:
    """The answers in a row of a table, where there are as many as items."""
    for pattern in (r"\s*\|\s*", r"\t", r"\s{2,}", r"\s+"):
        cells = [
            cell.strip() for cell in re.split(pattern, line.strip().strip("|")) if cell.strip()
        ]
        cells = cells[1:] if cells and _TABLE_WORDS.fullmatch(cells[0]) else cells
        if len(cells) == count:
            return [c.upper() if re.fullmatch(r"[a-j]", c) else c for c in cells]
    return []
