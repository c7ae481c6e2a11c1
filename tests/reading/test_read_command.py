"""`narrate read`: what was read in plain words, and as JSON with every phrase's place."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from narrate import cli

ITEMS = [
    {
        "id": "compost",
        "stimulus": {
            "text": "The first bed got 2 1/5 kilograms of compost. "
            "The second bed got 7/10 kilogram."
        },
        "parts": [
            {
                "ask": "How many more kilograms did the first bed get than the second bed?",
                "boxes": ["numerator", "denominator"],
            }
        ],
    },
    {"id": "bare", "stem": "3/4 + □ = 19/20", "boxes": ["numerator", "denominator"]},
    {"id": "told", "stem": "Ana mixed juice. How much?", "model": "1/2 + 1/4", "boxes": ["number"]},
]
UNREAD = {"id": "unread", "stem": "Ben doubles 3/4 and 1/5. How much?", "boxes": ["number"]}


@pytest.fixture
def items(tmp_path: Path) -> Path:
    path = tmp_path / "items.jsonl"
    path.write_text("\n".join(map(json.dumps, ITEMS)) + "\n", encoding="utf-8")
    return path


def test_it_tells_in_plain_words(items: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["read", str(items)]) == 0
    assert capsys.readouterr().out.splitlines() == [
        "compost, part 1: I read: first bed: 2 1/5 kilograms of compost, "
        "bed second: 7/10 kilogram; two amounts are compared: how far apart "
        "they are (compare, difference unknown); 2 1/5 − 7/10 kilograms",
        "    The first bed got [2 1/5 kilograms of compost: amount]. The second bed got "
        "[7/10 kilogram: amount]. "
        "How many more kilograms did the first bed get than the second bed?",
        "bare, part 1: I read: 19/20 − 3/4",
        "    3/4 + □ = 19/20",
        "told, part 1: I read: 1/2 + 1/4",
        "    Ana mixed juice. How much?",
    ]


def test_json_gives_places(items: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert cli.main(["read", str(items), "--json"]) == 0
    row = json.loads(capsys.readouterr().out.splitlines()[0])
    assert (row["expression"], row["value"], row["unit"]) == ("2 1/5 − 7/10", "3/2", "kilogram")
    assert (row["situation"], row["unknown"], row["status"]) == ("difference", "difference", "read")
    for phrase in row["quantities"]:
        item = ITEMS[0]
        source = item["parts"][0]["ask"] if phrase["source"] == "ask" else item["stimulus"]["text"]  # type: ignore[index]
        assert source[phrase["start"] : phrase["end"]] == phrase["text"]
    assert [p["role"] for p in row["quantities"]] == ["amount", "amount", "unknown"]


def test_what_is_not_read_is_told_with_lines_to_add(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "items.jsonl"
    path.write_text(json.dumps(UNREAD) + "\n", encoding="utf-8")
    assert cli.main(["read", str(path)]) == 3
    printed = capsys.readouterr()
    assert printed.out == ""
    assert f"{path}:1:1: unread: I found 3/4, 1/5 in the words" in printed.err
    assert "in plainer words, or add a `model:` line" in printed.err


AREA = "A bed is 12 feet long and 7 feet wide. What is the area of the bed in square feet?"
TIMES = (
    "A rose bush is 48 inches tall. A fern is 12 inches tall. "
    "How many times as tall as the fern is the rose bush?"
)


@pytest.mark.parametrize(("stem", "end"), [(AREA, "12 × 7 square feet"), (TIMES, "48 ÷ 12")])
def test_the_unit_is_the_answers(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], stem: str, end: str
) -> None:
    """An area is in square feet, and so many times as tall is in no unit."""
    path = tmp_path / "items.jsonl"
    path.write_text(json.dumps({"id": "one", "stem": stem, "boxes": ["number"]}), encoding="utf-8")
    assert cli.main(["read", str(path)]) == 0
    assert capsys.readouterr().out.splitlines()[0].endswith(f"); {end}")
