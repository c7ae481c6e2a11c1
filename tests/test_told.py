"""Parts told by hand: beats, captions and pages as for any other, and their arithmetic checked."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from narrate import cli
from narrate.items.loading import load
from narrate.lesson.checking import overlaps
from narrate.lesson.wording import Words
from narrate.pipeline import make_lesson

REVIEW = """\
items:
  - id: tiles
    stem: A patio is 2/3 tiled. Each tile covers 1/12 of the patio. How many tiles lie there?
    choices: {A: 6, B: 8, C: 9}
    key: B
    told:
      - say: How many twelfths make 2/3? Cut each third into 4 pieces.
        show: 2/3 = 8/12
      - wait: 3
      - show: 8/12 ÷ 1/12 = 8
      - say: So eight tiles lie there.
        show: B
        wait: 2.5
      - say: Count pieces of one size.
        show: pieces of one size
"""


@pytest.fixture
def review(tmp_path: Path) -> Path:
    path = tmp_path / "patio.yaml"
    path.write_text(REVIEW, encoding="utf-8")
    return path


def beats(review: Path) -> dict[str, dict[str, Any]]:
    out = review.parent / "out"
    assert cli.main(["build", str(review), "--to", str(out)]) == 0
    made = json.loads((out / "patio" / "lesson.json").read_text("utf-8"))
    return {beat["id"]: beat for beat in made["beats"]}


def test_it_is_built_like_any_other(review: Path) -> None:
    """Times, captions, builds and notes; without `told` the item is declined."""
    found = beats(review)
    mine = [name for name in found if name.startswith("tiles.1.")]
    ends = ("read", "try", "told", "told-2", "told-3", "told-4")
    assert mine == [f"tiles.1.{end}" for end in ends]
    first = found["tiles.1.told"]
    assert first["say"] == ("How many twelfths make two thirds? Cut each third into four pieces.")
    assert first["caption"] == "How many twelfths make 2/3? Cut each third into 4 pieces."
    assert first["builds"]
    assert found["tiles.1.told-2"]["say"] == ("Eight twelfths divided by one twelfth equals eight.")
    text = REVIEW.partition("    told:")[0]
    review.write_text(text, encoding="utf-8")
    assert cli.main(["build", str(review), "--to", str(review.parent / "other")]) == 3


def test_solve_says_that_it_is_told_by_hand(
    review: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """It stays declined, for no answer is known; the message says why nothing has to be added."""
    assert cli.main(["solve", str(review), "--json"]) == 3
    (row,) = map(json.loads, capsys.readouterr().out.splitlines())
    assert row["status"] == "declined"
    assert "tiles: it is told by hand; nobody solved it: I found 2/3, 1/12" in row["message"]


def test_waits_are_silences(review: Path) -> None:
    """A wait by itself is the silence after the moment before it."""
    before = beats(review)
    text = REVIEW.replace("wait: 3", "wait: 5").replace("wait: 2.5", "wait: 0.5")
    review.write_text(text, encoding="utf-8")
    after = beats(review)

    def length(found: dict[str, dict[str, Any]], name: str) -> int:
        return int(found[name]["end_ms"]) - int(found[name]["start_ms"])

    assert length(after, "tiles.1.told") - length(before, "tiles.1.told") == 2000
    assert length(after, "tiles.1.told-3") - length(before, "tiles.1.told-3") == -2000


def test_its_pages_are_readable(review: Path) -> None:
    (loaded,) = load([review]).reviews
    lesson, *_ = make_lesson(loaded, Words("en"))
    assert lesson is not None
    assert [fault for page in lesson.pages for fault in overlaps(page)] == []
    names = [build.group.name for page in lesson.pages for build in page.builds]
    assert any(name.startswith("ring B") or name.endswith(" B") for name in names), names


def test_many_moments_take_several_pages(tmp_path: Path) -> None:
    moments = "".join(f"      - show: {n}/12 + 1/12 = {n + 1}/12\n" for n in range(1, 12))
    moments += "".join(f"      - show: words to remember, number {n}\n" for n in range(1, 8))
    path = tmp_path / "long.yaml"
    path.write_text(REVIEW.partition("      - say")[0] + moments, encoding="utf-8")
    (loaded,) = load([path]).reviews
    lesson, *_ = make_lesson(loaded, Words("en"))
    assert lesson is not None
    assert [fault for page in lesson.pages for fault in overlaps(page)] == []
    builds = [build.beat for page in lesson.pages for build in page.builds]
    assert builds == sorted(builds, key=[beat.id for beat in lesson.beats].index)
    assert {f"tiles.1.told-{n}" for n in range(2, 19)} <= set(builds)


@pytest.mark.parametrize(
    ("old", "new", "fault"),
    [
        (
            "show: 2/3 = 8/12",
            "show: 15/20 + 4/20 = 18/20",
            "8:15: “15/20 + 4/20 = 18/20” is not so: the sides are 19/20 and 9/10; ",
        ),
        ("So eight tiles", "So 2 × 4 = 9 tiles", "11:17: “2 × 4 = 9” is not so: "),
        ("show: B", "show: C", "12:15: C is shown as right, and it is no key; "),
        ("wait: 2.5", "wait: soon", '13:15: "wait" is no number of seconds; '),
        ("      - wait: 3\n", "      - {}\n", "9:9: nothing is said or shown here; "),
        ("show: B", "shwo: B", '12:9: unknown key "shwo"; did you mean "show"?'),
        ("wait: 3", "say: 1/0", "9:16: a denominator is zero; "),
    ],
)
def test_what_is_wrong_in_it_is_a_fault(review: Path, old: str, new: str, fault: str) -> None:
    review.write_text(REVIEW.replace(old, new), encoding="utf-8")
    found = [str(each) for each in load([review]).faults]
    assert found[0].startswith(f"{review}:{fault}"), found


def test_a_wrong_key_is_told_where_narrate_can_solve_it(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = "items:\n  - id: a\n    stem: 1/2 + 1/3\n    choices: {A: 2/5, B: 5/6}\n    key: A\n"
    path = tmp_path / "a.yaml"
    path.write_text(text + "    told:\n      - say: It is 5/6.\n", encoding="utf-8")
    assert cli.main(["check", str(path)]) == 1
    assert "5/6" in capsys.readouterr().out


@pytest.mark.parametrize("told", ["[]", "a text", "[a]"])
def test_what_is_no_list_of_moments_is_told(tmp_path: Path, told: str) -> None:
    path = tmp_path / "a.yaml"
    path.write_text(f"items:\n  - id: a\n    stem: Why?\n    told: {told}\n", encoding="utf-8")
    (fault,) = load([path]).faults
    assert "told" in str(fault) or "moment" in str(fault)
