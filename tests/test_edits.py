"""The teacher's edits: put in, kept over rebuilds, and told where they do not fit."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from narrate import cli
from narrate.items.edits import edits_beside, read_edits
from narrate.items.loading import load
from narrate.lesson.checking import overlaps
from narrate.lesson.edits import ON_THE_ITEM, Edits
from narrate.lesson.lesson import Lesson
from narrate.lesson.wording import Words
from narrate.pipeline import make_lesson
from tests.lesson.told import DEMO

REVIEW = """\
review: Rain
items:
  - id: barrel
    stem: A rain barrel is 3/4 full. A shower adds another 1/5. What fraction is full now?
    choices: {A: 4/9, B: 9/10, C: 19/20, D: 4/20}
    model: 3/4 + 1/5
"""


@pytest.fixture
def review(tmp_path: Path) -> Path:
    path = tmp_path / "rain.yaml"
    path.write_text(REVIEW, encoding="utf-8")
    return path


def build(review: Path, edits: str = "") -> tuple[int, dict[str, Any]]:
    """The exit code of a build with some edits, and the beats that came of it."""
    if edits:
        edits_beside(review).write_text(edits, encoding="utf-8")
    out = review.parent / "out"
    code = cli.main(["build", str(review), "--to", str(out)])
    made = json.loads((out / "rain" / "lesson.json").read_text("utf-8"))
    return code, {beat["id"]: beat for beat in made["beats"]}


def edit(beat: dict[str, Any], **changes: str) -> str:
    lines = [f"{beat['id']}:", f"  was: {json.dumps(beat['caption'], ensure_ascii=False)}"]
    return "\n".join([*lines, *(f"  {k}: {v}" for k, v in changes.items())]) + "\n"


def test_what_she_writes_is_said_captioned_and_shown(review: Path) -> None:
    """Mathematics is spoken and captioned from one tree; other beats stay as they were."""
    code, before = build(review)
    join, strike = before["barrel.1.join"], before["barrel.1.rule-out"]
    edits = edit(join, say="Count them up - 15/20 + 4/20 = 19/20", wait="2.5")
    edits += edit(strike, say="A and D are less than 3/4.", show="below 3/4")
    code, after = build(review, edits)
    assert code == 0
    assert after["barrel.1.join"]["say"] == (
        "Count them up - fifteen twentieths plus four twentieths equals nineteen twentieths."
    )
    assert after["barrel.1.join"]["caption"] == "Count them up - 15/20 + 4/20 = 19/20."
    assert after["barrel.1.rule-out"]["say"] == "A and D are less than three fourths."
    script = (review.parent / "out" / "rain" / "script.html").read_text("utf-8")
    assert "below 3/4" in re.sub(r"<[^>]+>", "", script)
    same = set(before) - {"barrel.1.join", "barrel.1.rule-out"}
    assert {name: before[name]["say"] for name in same} == {n: after[n]["say"] for n in same}


def test_a_wait_is_the_silence_after_the_words(review: Path) -> None:
    _, before = build(review)
    _, after = build(review, "barrel.1.choose:\n  wait: 9\n")

    def length(beats: dict[str, Any]) -> int:
        beat = beats["barrel.1.choose"]
        found = beat["end_ms"] - beat["start_ms"]
        assert isinstance(found, int)
        return found

    assert length(after) - length(before) == 8000  # it was one second


def test_a_sentence_to_take_along_is_shown_as_it_is_said(review: Path) -> None:
    _, before = build(review)
    edits = edit(before["barrel.1.take-along"], say="One size first. Then count.")
    build(review, edits)
    transcript = (review.parent / "out" / "rain" / "transcript.txt").read_text("utf-8")
    assert transcript.count("One size first. Then count.") == 2  # said, and shown


def test_edits_survive_a_rebuild_and_give_the_same_bytes(review: Path) -> None:
    _, before = build(review)
    edits = edit(before["barrel.1.join"], say="Nineteen of them, so 19/20.")
    build(review, edits)
    files = sorted((review.parent / "out" / "rain").iterdir())
    first = [path.read_bytes() for path in files]
    build(review)
    assert [path.read_bytes() for path in files] == first
    assert edits_beside(review).read_text("utf-8") == edits


class TestWhatDoesNotFit:
    """It is told with its place and both texts, ours is said, and the rest is built."""

    def told(self, review: Path, edits: str, capsys: pytest.CaptureFixture[str]) -> str:
        _, before = build(review)
        capsys.readouterr()
        code, after = build(review, edits.replace("JOIN", before["barrel.1.join"]["caption"]))
        assert code == 1
        assert after["barrel.1.join"]["say"] == before["barrel.1.join"]["say"]
        lines = capsys.readouterr().err.splitlines()
        (line,) = [line for line in lines if ".edits.yaml:" in line and " is written" not in line]
        return line.removeprefix(str(edits_beside(review)))

    def test_a_beat_that_has_changed(
        self, review: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        line = self.told(review, 'barrel.1.join:\n  was: "Old words."\n  say: New words.\n', capsys)
        assert line.startswith(":1:1: barrel.1.join no longer says what this edit replaced: ")
        assert "“Old words.”" in line
        assert "19/20" in line

    @pytest.mark.parametrize(
        ("say", "column", "number"),
        [
            ("Now we have 17/20.", 20, "17/20"),
            ("Seventeen pieces.", 8, "seventeen"),
            ("It makes nineteen thirtieths.", 17, "nineteen thirtieths"),
            ("We count in thirtieths.", 20, "thirtieths"),
            ("There are 23 pieces.", 18, "23"),
        ],
    )
    def test_a_number_that_the_part_does_not_hold(
        self,
        review: Path,
        capsys: pytest.CaptureFixture[str],
        say: str,
        column: int,
        number: str,
    ) -> None:
        line = self.told(review, f'barrel.1.join:\n  was: "JOIN"\n  say: {say}\n', capsys)
        wrong = f":3:{column}: “{say}” says {number}, which this part does not hold; "
        assert line.startswith(wrong)
        assert "the beat says “" in line

    def test_a_line_that_is_not_so(self, review: Path, capsys: pytest.CaptureFixture[str]) -> None:
        edits = 'barrel.1.join:\n  was: "JOIN"\n  say: So 15/20 + 4/20 = 18/20.\n'
        line = self.told(review, edits, capsys)
        sides = "“15/20 + 4/20 = 18/20” is not so: the sides are 19/20 and 9/10"
        assert line == f":3:11: {sides}; correct the line"

    def test_a_beat_that_there_is_not(
        self, review: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        line = self.told(review, "barrel.1.joint:\n  was: Old.\n  say: New.\n", capsys)
        wrong = "there is no beat barrel.1.joint to say “New.” in place of “Old.”"
        assert line == f":1:1: {wrong}; did you mean barrel.1.join?"


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("barrel.1.join: {}\n", '1:1: "barrel.1.join" changes nothing'),
        ("barrel.1.join:\n  sey: Hm\n", '2:3: unknown key "sey"; did you mean "say"?'),
        ("barrel.1.join:\n  say: Hm\n", '1:1: "barrel.1.join" has say: but no was:'),
        ("barrel.1.join:\n  wait: long\n", '2:9: "wait" is no number of seconds'),
        ("barrel.1.join:\n  wait: 999\n", '2:9: "wait" is no number of seconds'),
        ("barrel.1.join:\n  say: [a]\n  was: b\n", '2:8: "say" is no text'),
        ("barrel.1.join:\n  wait: 1\nbarrel.1.join:\n  wait: 2\n", '3:1: the key "barrel.1.join"'),
        ("- say: Hm\n", "1:1: this is no set of keys; write a key"),
        ("a: [\n", "2:1: "),
        ("greeting:\n  was: a\n  say: b 1/0\n", "3:12: a denominator is zero"),
    ],
)
def test_a_faulty_file_is_told_and_nothing_is_built(
    review: Path, text: str, fault: str, capsys: pytest.CaptureFixture[str]
) -> None:
    edits_beside(review).write_text(text, encoding="utf-8")
    assert cli.main(["build", str(review), "--to", str(review.parent / "out")]) == 1
    assert f"{edits_beside(review)}:{fault}" in capsys.readouterr().err
    assert not (review.parent / "out").exists()


class TestNarrateEdits:
    def test_it_writes_what_is_said_as_remarks(
        self, review: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        """As written it changes nothing; without its first # every line is an edit that fits."""
        _, before = build(review)
        assert cli.main(["edits", str(review)]) == 0
        path = edits_beside(review)
        code, after = build(review)
        assert (code, after) == (0, before)
        rows = path.read_text("utf-8").splitlines()
        path.write_text("\n".join(row.removeprefix("#") for row in rows[4:]), encoding="utf-8")
        code, after = build(review)
        assert code == 0
        assert {k: v["say"] for k, v in after.items()} == {k: v["say"] for k, v in before.items()}

    def test_it_never_overwrites_hers(
        self, review: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        edits_beside(review).write_text("# mine", encoding="utf-8")
        assert cli.main(["edits", str(review)]) == 2
        assert edits_beside(review).read_text("utf-8") == "# mine"
        assert "is there already" in capsys.readouterr().err


def test_a_folder_of_reviews_passes_over_edits(review: Path) -> None:
    edits_beside(review).write_text("# nothing\n", encoding="utf-8")
    loaded = load([review.parent])
    assert [each.id for each in loaded.reviews] == ["rain"]
    assert not loaded.faults
    (fault,) = load([edits_beside(review)]).faults
    assert str(fault).endswith("1:1: this file belongs to a review; give the review itself")


def test_an_edit_of_another_item_is_passed_over_where_one_is_built_alone(tmp_path: Path) -> None:
    text = DEMO.read_text("utf-8")
    path = tmp_path / "week.yaml"
    path.write_text(text, encoding="utf-8")
    edits_beside(path).write_text("rain-barrel.1.choose:\n  wait: 3\n", encoding="utf-8")
    out = str(tmp_path / "out")
    assert cli.main(["build", str(path), "--only", "lemonade", "--to", out]) == 0


def edited_demo(tmp_path: Path, show: str) -> tuple[Lesson, Edits]:
    """The demo with something shown beside every beat that can have it."""
    (review,) = load([DEMO]).reviews
    lesson, *_ = make_lesson(review, Words("en"))
    assert lesson is not None
    beats = [b for b in lesson.beats if b.item and b.move not in ON_THE_ITEM]
    path = tmp_path / "x.edits.yaml"
    path.write_text("".join(f"{b.id}:\n  show: {show}\n" for b in beats), encoding="utf-8")
    edits = Edits(read_edits(path))
    made, *_ = make_lesson(review, Words("en"), edits)
    assert made is not None
    return made, edits


def test_pages_stay_readable_with_words_beside_every_beat(tmp_path: Path) -> None:
    lesson, edits = edited_demo(tmp_path, "pieces of one size")
    assert not edits.faults
    found = [fault for page in lesson.pages for fault in overlaps(page)]
    assert found == []
    for page in lesson.pages:
        names = [build.group.name for build in page.builds]
        assert len(names) == len(set(names))
    shown = [beat for beat in lesson.beats if any("pieces of one size" in a for a in beat.appears)]
    assert len(shown) > 50
