"""Tables in the words of a question, their rows one behind the other: Monday: 3 1/2; Tuesday: 2."""

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
