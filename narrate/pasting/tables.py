"""Tables in the words of a question, their rows one behind the other: Monday: 3 1/2; Tuesday: 2.

Lists under dashes or bullets are made sentences in the same way.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

MOST_ROWS = 60


def in_rows(lines: Sequence[str]) -> tuple[list[str], int]:
    """The lines with each table on a line of its own, and how many tables there are."""
    made: list[str] = []
    tables = 0
    at = 0
    while at < len(lines):
        rows = _rows(lines[at : at + MOST_ROWS])
        if len(rows) < 2:
            made.append(lines[at])
            at += 1
            continue
        told = [row for row in rows if row]
        made.append("; ".join(f"{row[0]}: {', '.join(row[1:])}" for row in told) + ".")
        tables += 1
        at += len(rows)
    return made, tables


_POINT = re.compile(r"^\s*[-*•–—]\s+(?=\S)")


def in_sentences(lines: Sequence[str]) -> list[str]:
    """The lines with each list under dashes or bullets as a sentence: 2 cups for bread; 1 for tea.

    A dash is no minus where every line of a list has words: - 3 alone may be a number below zero.
    """
    made: list[str] = []
    at = 0
    while at < len(lines):
        end = at
        while end < len(lines) and _is_point(lines[end]):
            end += 1
        above = next((line for line in reversed(made) if line.strip()), "")
        if end - at < 2 and not (end > at and above.rstrip().endswith(":")):
            made.append(lines[at])
            at += 1
            continue
        points = [_POINT.sub("", line).strip().rstrip(";,. ") for line in lines[at:end]]
        whole = all(re.search(r"[.?!]\s*$", line) for line in lines[at:end])
        made.append((". " if whole else "; ").join(points) + ".")
        at = end
    return made


def _is_point(line: str) -> bool:
    """Whether a line is one point of a list, with words in it."""
    found = _POINT.match(line)
    return found is not None and bool(re.search(r"[^\W\d_]{2}", line[found.end() :]))


def _rows(lines: Sequence[str]) -> list[list[str]]:
    """The rows of the table that lines begin with; a rule of a table is an empty row."""
    rows: list[list[str]] = []
    for line in lines:
        if rows and re.fullmatch(r"\s*\|?[\s:|+-]*-{2}[\s:|+-]*", line):
            rows.append([])
            continue
        cells = _cells(line)
        if len(cells) < 2 or (rows and len(cells) != len(rows[0])):
            break
        rows.append(cells)
    return rows if sum(map(bool, rows)) > 1 else []


def _cells(line: str) -> list[str]:
    if "|" in line:
        return [cell.strip() for cell in line.strip().strip("|").split("|") if cell.strip()]
    if re.search(r"\S\t+\S", line) or re.search(r"\S\s{3,}\S", line.strip()):
        return [cell.strip() for cell in re.split(r"\t+|\s{3,}", line.strip()) if cell.strip()]
    return []
