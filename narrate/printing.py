"""Rows as they are printed: the answers to stdout, what is wrong or left out to stderr."""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Iterable, Mapping
from typing import Any


def tell(line: object) -> None:
    """Prints a line to stderr at once."""
    print(line, file=sys.stderr, flush=True)


def print_json(rows: Iterable[Mapping[str, Any]]) -> set[str]:
    """Prints rows as they come; the kinds of status seen. Faults of whole files go to stderr."""
    seen = set()
    for row in rows:
        seen.add(row["status"])
        if row["item"] is None:
            tell(row["message"])
        else:
            print(json.dumps(row, ensure_ascii=False))
    return seen


def print_read(rows: Iterable[Mapping[str, Any]]) -> set[str]:
    """Prints readings in plain words, the others to stderr; the kinds of status seen."""
    seen = set()
    for row in rows:
        seen.add(row["status"])
        if row["status"] == "read":
            print(f"{row['item']}, part {row['part']}: {row['said']}")
            print(f"    {row['marked']}")
        else:
            tell(row["message"])
    return seen


_COLUMNS = ("item", "part", "answer", "choice", "written")


def print_table(rows: Iterable[Mapping[str, Any]]) -> set[str]:
    """Prints the solved parts as a table, the others to stderr; the kinds of status seen."""
    seen, lines = set(), [_COLUMNS]
    for row in rows:
        seen.add(row["status"])
        if row["status"] == "solved":
            lines.append(_cells(row))
        else:
            tell(row["message"])
    widths = [max(map(len, column)) for column in zip(*lines, strict=True)]
    for line in lines if len(lines) > 1 else ():
        print(
            "  ".join(cell.ljust(width) for cell, width in zip(line, widths, strict=True)).rstrip()
        )
    return seen


def _cells(row: Mapping[str, Any]) -> tuple[str, str, str, str, str]:
    key = row["key"]
    letters = ", ".join(key) if isinstance(key, list) else key or "-"
    unit = f" {row['unit']}" if row["unit"] else ""
    answer = f"{row['answer']}{unit}" if row["answer"] is not None else "-"
    if row["answer"] is not None and row["written"] and re.search("[a-z:]", row["written"]):
        answer = row["written"]  # a time of day, an amount in two units, a ratio, a remainder
    return str(row["item"]), str(row["part"]), answer, letters, row["written"] or "-"
