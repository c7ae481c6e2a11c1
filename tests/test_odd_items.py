"""Whatever an item holds: no traceback, one clear line for what is wrong, and no wrong number.

Expected values are sympy's (sympy.org), read from the printed text.
"""

from __future__ import annotations

import json
import re
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import Any

import pytest

from narrate import cli
from tests.odd_items import odd_item
from tests.solution.by_sympy import exact, sides

Row = dict[str, Any]
LINE = re.compile(r"(?:declined: |to settle by eye: )?\S+:[1-9]\d*:[1-9]\d*: .+; .+")


def _write(folder: Path, count: int, seed: int) -> tuple[Path, list[dict[str, Any]]]:
    random = Random(seed)
    items = [odd_item(random, number) for number in range(count)]
    path = folder / f"odd-{seed}.jsonl"
    path.write_text("".join(json.dumps(item) + "\n" for item in items), encoding="utf-8")
    return path, items


def _rows(path: Path, capsys: pytest.CaptureFixture[str]) -> Iterator[Row]:
    code = cli.main(["solve", "--json", str(path)])
    printed = capsys.readouterr()
    rows = [json.loads(line) for line in printed.out.splitlines()]
    _are_clear(printed.err)
    statuses = {row["status"] for row in rows}
    expected = 1 if "fault" in statuses or printed.err else 3 if "declined" in statuses else 0
    assert code == expected
    yield from rows


def _are_clear(text: str) -> None:
    for line in text.splitlines():
        assert LINE.fullmatch(line), line
        assert line.isprintable(), line


def _check(row: Row, sources: dict[str, dict[str, Any]]) -> None:
    if row["status"] != "solved":
        _are_clear(row["message"])
        assert row["message"]
        return
    item = sources[row["item"]]
    part = item["parts"][row["part"] - 1] if item.get("parts") else item
    answer = _answer(part, row)
    for step in row["steps"]:
        if step["shows"] and not step["move"].startswith("multiples"):
            values = {exact(side, blank=answer) for side in sides(step["shows"])}
            assert len(values) == 1, (step, part)
    if row["answer"] is not None:
        assert exact(row["answer"]) == exact(row["written"]), part
        if answer is not None:
            assert exact(row["answer"]) == answer, part
    _check_choices(row)


def _answer(part: dict[str, Any], row: Row) -> Any:
    """What sympy makes of the model, where there is one without a blank; else what was printed."""
    model = part.get("model")
    if isinstance(model, str) and re.fullmatch(r"[-−+ 0-9/]+", model) and model.strip():
        return exact(model)
    return exact(row["answer"]) if row["answer"] is not None else None


def _check_choices(row: Row) -> None:
    right = row["key"] if isinstance(row["key"], list) else [row["key"]]
    for letter, choice in row["choices"].items():
        assert (choice["ruled_out_at"] is None) == (letter in right), row
        assert bool(choice["reason"]) == (letter not in right), row
        if choice["value"] is not None and row["answer"] is not None and letter in right:
            assert exact(choice["value"]) == exact(row["answer"]), row


def _as_read(scalar: object) -> str:
    """A scalar as the file holds it: numbers and truth values are texts to us."""
    return scalar if isinstance(scalar, str) else json.dumps(scalar)


def _run(folder: Path, count: int, seed: int, capsys: pytest.CaptureFixture[str]) -> set[str]:
    path, items = _write(folder, count, seed)
    names = Counter(_as_read(item.get("id")) for item in items)  # an odd id may come twice
    sources = {name: item for item in items if names[name := _as_read(item.get("id"))] == 1}
    rows = list(_rows(path, capsys))
    for row in rows:
        if row["item"] in sources or row["status"] != "solved":
            _check(row, sources)
    assert cli.main(["check", str(path)]) in (0, 1, 3)
    printed = capsys.readouterr()
    faults = [line for line in printed.out.splitlines() if not line.startswith("no faults in ")]
    _are_clear("\n".join([*faults, *printed.err.splitlines()]))
    return {row["status"] for row in rows}


def _build(folder: Path, count: int, seed: int, capsys: pytest.CaptureFixture[str]) -> None:
    path, _ = _write(folder, count, seed)
    rows = list(_rows(path, capsys))
    whole = {row["item"] for row in rows} - {
        row["item"] for row in rows if row["status"] != "solved"
    }
    assert cli.main(["build", str(path), "--to", str(folder / "out")]) in (0, 1, 3)
    assert "Traceback" not in capsys.readouterr().err
    lesson = json.loads((folder / "out" / path.stem / "lesson.json").read_text(encoding="utf-8"))
    assert {beat["item"] for beat in lesson["beats"]} - {None} == whole
    assert not [beat["say"] for beat in lesson["beats"] if re.search(r"\d", beat["say"])]


def test_odd_items_are_told_or_solved(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert _run(tmp_path, 600, 1, capsys) == {"solved", "declined", "fault"}


def test_odd_items_are_built_or_left_out(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    _build(tmp_path, 60, 2, capsys)


@pytest.mark.long
@pytest.mark.parametrize("seed", range(10, 20))
def test_many_odd_items(tmp_path: Path, seed: int, capsys: pytest.CaptureFixture[str]) -> None:
    """20,000 in all, a tenth of them built."""
    _run(tmp_path, 2_000, seed, capsys)
    _build(tmp_path, 200, 100 + seed, capsys)
