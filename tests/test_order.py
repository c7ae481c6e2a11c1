"""Which items a review tells and in which order, and the slips that were really made."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from narrate import cli
from narrate.errors import FaultsFound
from narrate.items.answers import with_answers
from narrate.items.loading import load

REVIEW = """\
items:
  - id: one
    stem: 1/2 + 1/3
    choices: {A: 2/5, B: 5/6, C: 2/6}
  - id: two
    stem: 3/4 + 1/5
    choices: {A: 4/9, B: 9/10, C: 19/20, D: 4/20}
    COUNTS
  - id: three
    stem: 1/4 + 1/3
    boxes: [numerator, denominator]
    SKIP
"""


def write(folder: Path, counts: str = "", skip: str = "") -> Path:
    path = folder / "week.yaml"
    path.write_text(REVIEW.replace("COUNTS", counts).replace("SKIP", skip), encoding="utf-8")
    return path


def items(path: Path, *options: str, code: int = 0) -> list[str]:
    """The items of the lesson, in order."""
    out = path.parent / "out"
    assert cli.main(["build", str(path), "--to", str(out), *options]) == code
    return list(dict.fromkeys(beat["item"] for beat in beats(path) if beat["item"]))


def beats(path: Path) -> list[dict[str, str]]:
    made = json.loads((path.parent / "out" / "week" / "lesson.json").read_text("utf-8"))
    found = made["beats"]
    assert isinstance(found, list)
    return found


def test_the_items_named_come_first(tmp_path: Path) -> None:
    assert items(write(tmp_path), "--order", "three, one") == ["three", "one", "two"]


def test_a_name_that_is_none_is_wrong_use(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = write(tmp_path)
    assert cli.main(["build", str(path), "--order", "thre"]) == 2
    told = "narrate: no item to put in order has the id 'thre'; did you mean three?\n"
    assert capsys.readouterr().err == told


def test_an_item_to_skip_is_left_out_and_keeps_its_number(tmp_path: Path) -> None:
    path = write(tmp_path, skip="skip: true")
    assert items(path) == ["one", "two"]
    assert cli.main(["check", str(path)]) == 0  # it is checked all the same
    assert cli.main(["build", str(path), "--only", "three", "--to", str(tmp_path / "out")]) == 0


def test_what_was_missed_most_comes_first(tmp_path: Path) -> None:
    """Shares of the class, not numbers; items without counts keep their order at the end."""
    path = write(tmp_path, counts="counts: {A: 1, B: 0, C: 1, D: 0}")
    assert items(path) == ["two", "one", "three"]
    assert items(path, "--order", "one") == ["one", "two", "three"]


def slips(path: Path) -> list[str]:
    return [beat["say"] for beat in beats(path) if beat["id"].startswith("two.1.slip")]


@pytest.mark.parametrize(
    ("counts", "named"),
    [
        ("{A: 1, B: 0, C: 9, D: 8}", ["four twentieths", "four ninths"]),
        ("{A: 1, B: 0, C: 9, D: 0}", ["four ninths"]),
        ("{A: 0, B: 0, C: 9, D: 8}", ["four twentieths"]),
        ("{A: 0, B: 0, C: 9, D: 0}", []),
    ],
)
def test_slips_that_were_made_are_named_and_no_others(
    tmp_path: Path, counts: str, named: list[str]
) -> None:
    """A and D are struck together; one slip is named for them, the one that more made."""
    path = write(tmp_path, counts=f"counts: {counts}")
    items(path)
    found = slips(path)
    assert len(found) == min(len(named), 1)
    assert all(named[0] in say.lower() for say in found)


ANSWERS = """\
code,two,one
p01,A,B
p02,A,B
p03,C,
p04,D,a
"""


class TestAnswers:
    def test_they_are_counted_by_item(self, tmp_path: Path) -> None:
        path, answers = write(tmp_path), tmp_path / "answers.csv"
        answers.write_text(ANSWERS, encoding="utf-8")
        (review,) = with_answers(load([path]).reviews, answers)
        counts = {item.id: dict(item.parts[0].counts) for item in review.items}
        assert counts == {"one": {"A": 1, "B": 2}, "two": {"A": 2, "C": 1, "D": 1}, "three": {}}
        assert items(path, "--answers", str(answers)) == ["two", "one", "three"]
        assert "four ninths" in slips(path)[0].lower()

    @pytest.mark.parametrize(
        ("text", "fault"),
        [
            ("code,tow\np,A\n", '1:2: "tow" is no item or part; did you mean two?'),
            ("name,two\np,A\n", '1:1: the first column is "name"; write code, and a code for each'),
            ("code,two\np,E\n", '2:2: "E" is no choice of two.1; write A, B, C, D, or nothing'),
            ("code,three\np,A\n", "1:2: three.1 has no choices to count; take its column out"),
            ("code,two,two.1\np,A,A\n", "1:3: two.1 has two columns; keep one"),
            ("", "1:1: this file is empty; begin with a row of names: code, then ids of items"),
            ('code,two\np,"A\n', "1:1: this cannot be read as a table of answers"),
            ("code,two\np,\xff\n", "1:1: this cannot be read as a table of answers (it is not"),
        ],
    )
    def test_a_fault_is_told_with_its_row_and_column(
        self, tmp_path: Path, text: str, fault: str
    ) -> None:
        answers = tmp_path / "answers.csv"
        answers.write_bytes(text.encode("latin-1"))
        with pytest.raises(FaultsFound) as found:
            with_answers(load([write(tmp_path)]).reviews, answers)
        assert str(found.value).startswith(f"{answers}:{fault}")

    def test_a_file_that_is_not_there_is_told(self, tmp_path: Path) -> None:
        with pytest.raises(FaultsFound, match="no file here to read as a table of answers"):
            with_answers(load([write(tmp_path)]).reviews, tmp_path / "none.csv")


@pytest.mark.parametrize(
    ("counts", "fault"),
    [
        ("counts: {E: 1}", '8:14: counts: "E" is no choice; name one of A, B, C, D'),
        ("counts: {A: few}", '8:17: "A" is "few"; write how many chose each choice'),
        ("counts: {A: -1}", '8:17: "A" is "-1"; write how many chose each choice'),
        ("counts: 3", '8:13: "counts" is "3"; write how many chose each choice'),
        ("skip: maybe", '8:11: "skip" is "maybe"; write true or false'),
    ],
)
def test_faults_of_the_keys(tmp_path: Path, counts: str, fault: str) -> None:
    (found,) = load([write(tmp_path, counts=counts)]).faults
    assert str(found).startswith(f"{tmp_path / 'week.yaml'}:{fault}")
