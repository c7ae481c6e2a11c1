"""Less told: what is left out and in which order, and what never is."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache
from pathlib import Path

import pytest

from narrate import cli
from narrate.items.item import Review
from narrate.lesson.brevity import LEFT_OUT, Brevity
from narrate.lesson.checking import overlaps
from narrate.lesson.lesson import Lesson
from narrate.lesson.timeline import pace, predict
from narrate.lesson.wishes import Detail, Wishes
from narrate.lesson.wording import Words
from narrate.pipeline import make_lesson
from tests.generated import parts as generated_parts
from tests.lesson.told import DEMO, review_of


@cache
def review(name: str) -> Review:
    if name == "demo":
        return review_of(DEMO)
    items = tuple(dict.fromkeys(item for item, _ in generated_parts(210, seed=5)))
    return Review(id="generated", title="Generated", grade=5, language="en", items=items)


@cache
def lesson(name: str, detail: Detail, minutes: int | None = None) -> tuple[Lesson, Brevity]:
    brevity = Brevity(Wishes(detail=detail, minutes=minutes), pace(5), "en")
    made, *_ = make_lesson(review(name), Words("en"), brevity=brevity)
    assert made is not None
    return made, brevity


REVIEWS = pytest.mark.parametrize("name", ["demo", "generated"])
SHORTER: Sequence[Detail] = ("brief", "lines")


def shown(lesson: Lesson, *moves: str) -> dict[tuple[str | None, int | None], list[str]]:
    """What comes on the pages of each part with beats of some moves."""
    found: dict[tuple[str | None, int | None], list[str]] = {}
    for beat in lesson.beats:
        if beat.move in moves:
            found.setdefault((beat.item, beat.part), []).extend(beat.appears)
    return {part: sorted(appears) for part, appears in found.items()}


def lines_of(
    found: dict[tuple[str | None, int | None], list[str]],
) -> dict[tuple[str | None, int | None], list[str]]:
    """The equations among what comes."""
    return {part: [text for text in texts if " = " in text] for part, texts in found.items()}


@REVIEWS
@pytest.mark.parametrize("detail", SHORTER)
def test_no_strike_no_reason_and_no_line_is_left_out(name: str, detail: Detail) -> None:
    """Each choice is struck with its reason beside it and said, and each line of work is there."""
    full, _ = lesson(name, "full")
    less, _ = lesson(name, detail)
    assert shown(less, "rule out") == shown(full, "rule out")
    for move in ("join", "rewrite", "regroup", "improper", "look back"):
        if move != "look back" or detail == "lines":
            assert lines_of(shown(less, move)) == lines_of(shown(full, move))
    assert all(beat.say for beat in less.beats if beat.move == "rule out")


@REVIEWS
def test_lines_keep_the_words_that_strike(name: str) -> None:
    full, _ = lesson(name, "full")
    left = {beat.id: beat for beat in lesson(name, "lines")[0].beats}
    assert all(left[beat.id] == beat for beat in full.beats if beat.move == "rule out")


def struck_by(lesson: Lesson) -> dict[tuple[str | None, int | None, str], str]:
    """The move before each strike, asides passed over: the one that told the fact."""
    found, told = {}, ""
    for beat in lesson.beats:
        if beat.move == "rule out":
            found.update({(beat.item, beat.part, strike): told for strike in beat.appears})
        elif beat.move not in ("slip", "doubt", "define"):
            told = "asked" if beat.move == "set up" else beat.move
    return found


@REVIEWS
@pytest.mark.parametrize("detail", SHORTER)
def test_what_a_choice_is_struck_by_stays(name: str, detail: Detail) -> None:
    """The beat before a strike, asides passed over, is the one that told the fact."""
    assert struck_by(lesson(name, detail)[0]) == struck_by(lesson(name, "full")[0])


@REVIEWS
@pytest.mark.parametrize("detail", SHORTER)
def test_pages_stay_readable_and_builds_in_order(name: str, detail: Detail) -> None:
    less, _ = lesson(name, detail)
    assert [fault for page in less.pages for fault in overlaps(page)] == []
    assert [beat.id for beat in less.beats] == [b for page in less.pages for b in page.beats]
    builds = [build.beat for page in less.pages for build in page.builds]
    assert builds == sorted(builds, key=[beat.id for beat in less.beats].index)


@REVIEWS
def test_lines_are_the_shortest_and_brief_is_between(name: str) -> None:
    full, brief, lines = (
        predict(lesson(name, detail)[0]).total_ms for detail in ("full", *SHORTER)
    )
    assert lines < brief < full


def test_a_brief_telling_ends_in_time_and_leaves_out_no_more() -> None:
    """Beats go by classes in the order stated: a later class only where earlier ones are gone."""
    full = predict(lesson("demo", "full")[0]).total_ms // 60_000
    for minutes in (full - 1, full - 3, full - 5):
        made, brevity = lesson("demo", "full", minutes)
        total = predict(made).total_ms
        assert minutes * 60_000 - 30_000 < total <= minutes * 60_000
        assert brevity.too_long_ms == 0
        left = [sum(each.holds(beat) for beat in made.beats) for each in LEFT_OUT]
        whole = [sum(each.holds(b) for b in lesson("demo", "full")[0].beats) for each in LEFT_OUT]
        cut = [at for at, (a, b) in enumerate(zip(left, whole, strict=True)) if a < b]
        assert cut == list(range(len(cut)))
        gone = [at for at in cut[:-1] if LEFT_OUT[at].name != "estimate"]  # some of them strike
        assert not any(left[at] for at in gone)


def test_where_full_words_take_too_long_short_ones_are_said() -> None:
    """Half as long again as the shortest, by words alone; and no longer in full words."""
    _, shortest = lesson("demo", "full", 1)
    minutes = shortest.least_ms // 60_000 + 1
    made, brevity = lesson("demo", "full", minutes)
    assert brevity.in_short_words
    assert predict(made).total_ms <= minutes * 60_000
    assert shortest.least_ms * 3 <= predict(lesson("demo", "full")[0]).total_ms * 2


def test_a_review_that_cannot_be_so_short_is_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The plan says what was left out of each part, and by how much it is too long."""
    words = ["build", str(DEMO), "--to", str(tmp_path), "--minutes", "5"]
    assert cli.main(words) == 0
    told = capsys.readouterr().err
    assert "garden-week: Question 1: left out: slip, sentence to take along, " in told
    least = re.search(r"and (\d+ min \d+ s) is the shortest with every reason said", told)
    assert least, told
    assert "; --detail lines, skip: or --only is shorter" in told


@pytest.mark.parametrize("option", [("--detail", "short"), ("--minutes", "0"), ("--minutes", "x")])
def test_other_values_are_wrong_use(option: tuple[str, str]) -> None:
    assert cli.main(["build", "a.yaml", *option]) == 2


def test_words_of_hers_are_never_left_out(tmp_path: Path) -> None:
    path = tmp_path / "week.yaml"
    path.write_text(DEMO.read_text("utf-8"), "utf-8")
    edits = "rain-barrel.1.look-back:\n  wait: 4\n"
    (tmp_path / "week.edits.yaml").write_text(edits, "utf-8")
    for detail in SHORTER:
        words = ["build", str(path), "--to", str(tmp_path / "out"), "--detail", detail]
        assert cli.main(words) == 0
        transcript = (tmp_path / "out" / "week" / "transcript.txt").read_text("utf-8")
        assert "19/20 − 4/20" in transcript


class TestWhy:
    """A question why, with time to think, before the step that answers it."""

    @REVIEWS
    def test_one_in_a_part_at_most_with_three_seconds(self, name: str) -> None:
        """Wait time of 3 s or more: Rowe 1974 (facts of the trade)."""
        full, _ = lesson(name, "full")
        asked = [beat for beat in full.beats if beat.move == "why"]
        if name == "demo":  # in a long review each wording has been said three times at last
            assert len(asked) * 4 >= len({(b.item, b.part) for b in full.beats})
        assert asked
        assert len({(beat.item, beat.part) for beat in asked}) == len(asked)
        for beat in asked:
            assert beat.say.endswith("?")
            assert beat.sentences[-1].pause_ms == 3000
            after = full.beats[full.beats.index(beat) + 1]
            assert after.move in ("one size", "like size", "regroup", "whole as pieces", "define")
