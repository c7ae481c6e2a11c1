"""How well rows are solved end to end: right, wrong, declined, for each set of a folder of rows.

Run from the project's folder: `python -m tests.benchmarks.solving_rows FOLDER [--wrong]
[--declined SET]`. The rows and sets are those of `tests.benchmarks.reading`; each row becomes an
item with its choices, where all of them are numbers, or with one number box, and goes through
`narrate solve`. A row that is read and then declined counts as declined. It ends with 1 where a row
is solved wrong.
"""

from __future__ import annotations

import argparse
import json
import sys
import tempfile
from collections import Counter
from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path
from string import ascii_uppercase
from typing import Any

from narrate.items.texts import choice_flaw
from narrate.pipeline import solve
from tests.benchmarks.reading import SETS, Row, expected, is_right, load, question


def main() -> int:
    """Print the table; 1 where a row is solved wrong."""
    words = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    words.add_argument("folder", type=Path)
    words.add_argument("--wrong", action="store_true", help="print the rows solved wrong")
    words.add_argument("--declined", metavar="SET", help="print why the rows of a set are declined")
    args = words.parse_args()
    rows = list(load(args.folder))
    all_wrong = 0
    print(f"{'set':28}{'right':>7}{'wrong':>7}{'declined':>10}{'fault':>7}")
    for each in SETS:
        held = [row for row in rows if each.holds(row) and question(row)]
        counts, wrong, declined = measure(held)
        if not held:
            continue
        all_wrong += len(wrong)
        print(
            f"{each.name:28}{counts['right']:7}{counts['wrong']:7}"
            f"{counts['declined']:10}{counts['fault']:7}"
        )
        if args.wrong:
            print("\n".join(f"    {line}" for line in wrong))
        if args.declined and each.name.startswith(args.declined):
            print("\n".join(f"    {line}" for line in declined))
    return int(all_wrong > 0)


def measure(rows: Sequence[Row]) -> tuple[Counter[str], list[str], list[str]]:
    """What comes of rows: how many are right, wrong, declined or faults, and which."""
    counts: Counter[str] = Counter()
    wrong, declined = [], []
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "rows.jsonl"
        items = [
            {"id": f"r{k}", "stem": question(row), **answers(row)} for k, row in enumerate(rows)
        ]
        path.write_text("\n".join(json.dumps(item) for item in items) + "\n", encoding="utf-8")
        for made in solve([path]):
            if made["item"] is None:
                counts["fault"] += 1
                continue
            row = rows[int(made["item"][1:])]
            kind = made["status"]
            if kind == "solved":
                kind = "right" if is_solved_right(row, made) else "wrong"
            counts[kind] += 1
            told = f"{row.get('id')}: {question(row)}  =>"
            if kind == "wrong":
                wrong.append(f"{told}  {made['answer']}, not {expected(row)}")
            elif kind in ("declined", "fault"):
                declined.append(f"{told}  {made['message'].partition(': ')[2]}")
    return counts, wrong, declined


def answers(row: Row) -> dict[str, Any]:
    """The row's choices with their letters where all are numbers, else one box."""
    texts = [str(text) for text in row.get("choices") or ()]
    if len(texts) < 2 or any(choice_flaw(text, keyed=False) for text in texts):
        return {"boxes": ["number"]}
    return {"choices": dict(zip(ascii_uppercase, texts, strict=False))}


def is_solved_right(row: Row, made: dict[str, Any]) -> bool:
    """Whether what was solved is the row's answer: its text among the choices, or its value."""
    if made["key"] is None:
        return is_right(row, Fraction(made["answer"]))
    chosen = str(row["choices"][ascii_uppercase.index(made["key"])])
    return chosen in (str(row.get("answer")), str(row.get("answer_raw")))


if __name__ == "__main__":
    sys.exit(main())
