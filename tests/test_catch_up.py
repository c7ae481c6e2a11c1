"""Decks of what was missed: the plan, the list of who was away, what comes out, and every fault.

What is held is the project's own contract (README, "For whoever was away"): the words and lengths
of a pupil's lesson are those of the ordinary build. Decks are read back by python-pptx, and looked
over by openxml-audit (ECMA-376).
"""

from __future__ import annotations

import csv
import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from openxml_audit import validate_pptx
from pptx import Presentation

from narrate.cli import main
from narrate.errors import FaultsFound
from narrate.items.absent import is_like_a_name, read_absences
from narrate.items.days import day
from narrate.items.plan import read_plan
from tests.test_pipeline import entrances

ROOT = Path(__file__).resolve().parents[1]
Captured = pytest.CaptureFixture[str]
Beat = dict[str, Any]

WEEK = """\
review: Bean week
items:
  - {id: q1, standard: 5.NF.A.1, stem: 1/2 + 1/3, choices: {A: 2/5, B: 5/6, C: 2/6}}
  - {id: q2, standard: 5.NF.A.1, stem: 3/4 + 1/5, boxes: [numerator, denominator]}
  - id: q3
    standard: 5.NF.A.2
    HOLD
    stem: >-
      A barrel is 1/4 full. Rain adds 1/3 of the barrel.
      What fraction of the barrel is full now?
    choices: {A: 2/7, B: 7/12, C: 2/12}
  - {id: q4, standard: 4.NF.B.3a, stem: 3/8 + 2/8, boxes: [numerator, denominator]}
"""
NEXT = """\
review: Pea week
items:
  - {id: q1, standard: 5.NF.A.1, stem: 2/3 - 1/4, boxes: [numerator, denominator]}
"""
PLAN = """\
2026-05-06:
  beans.yaml: q3, q4
  peas.yaml: all
2026-05-04:
  beans.yaml: [q1, q2]
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    write(tmp_path)
    return tmp_path


def write(folder: Path, plan: str = PLAN, absent: str = "p1,2026-05-04\n", hold: str = "") -> None:
    (folder / "beans.yaml").write_text(WEEK.replace("HOLD\n", f"{hold}\n"), "utf-8")
    (folder / "peas.yaml").write_text(NEXT, "utf-8")
    (folder / "plan.yaml").write_text(plan, "utf-8")
    (folder / "absent.csv").write_text(f"code,day\n{absent}", "utf-8")


def run(folder: Path, *more: str, code: int = 0, source: str = "--absent") -> Path:
    words = ["catch-up", "--plan", str(folder / "plan.yaml"), "--to", str(folder / "out")]
    if source:
        words += [source, str(folder / "absent.csv")]
    assert main([*words, *more]) == code
    return folder / "out"


def topics(folder: Path, codes: str, *more: str, code: int = 0) -> Path:
    return run(folder, "--topics", codes, *more, code=code, source="")


def told(folder: Path) -> dict[str, Any]:
    found: dict[str, Any] = json.loads((folder / "lesson.json").read_text("utf-8"))
    return found


def beats(folder: Path) -> list[Beat]:
    found: list[Beat] = told(folder)["beats"]
    return found


def index(out: Path) -> list[dict[str, str]]:
    with (out / "index.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def items(folder: Path) -> list[str]:
    return list(dict.fromkeys(beat["item"] for beat in beats(folder) if beat["item"]))


def is_definition(beat: Beat) -> bool:
    return ".define-" in beat["id"]


class TestWhatComesOut:
    def test_each_set_of_days_has_a_folder_with_only_what_was_missed(self, folder: Path) -> None:
        write(folder, absent="p1,2026-05-04\np2,2026-05-06\np3,2026-05-06 2026-05-04\n")
        out = run(folder)
        assert items(out / "2026-05-04") == ["beans-q1", "q2"]
        assert items(out / "2026-05-06") == ["q3", "q4", "peas-q1"]
        both = out / "2026-05-04_2026-05-06"
        assert items(both) == ["beans-q1", "q2", "q3", "q4", "peas-q1"]
        assert [row["folder"] for row in index(out)] == ["2026-05-04", "2026-05-06", both.name]

    def test_pupils_with_the_same_days_share_one(self, folder: Path) -> None:
        write(folder, absent="p1,2026-05-04\np2,2026-05-04\n")
        out = run(folder)
        assert [row["folder"] for row in index(out)] == ["2026-05-04"] * 2
        assert sorted(path.name for path in out.iterdir()) == ["2026-05-04", "index.csv"]

    def test_or_each_has_one(self, folder: Path) -> None:
        write(folder, absent="p1,2026-05-04\np2,2026-05-04\n")
        out = run(folder, "--each")
        names = [row["folder"] for row in index(out)]
        assert names == ["2026-05-04_1", "2026-05-04_2"]
        assert beats(out / names[0]) == beats(out / names[1])

    def test_an_item_of_two_days_is_missed_by_who_was_away_on_both(self, folder: Path) -> None:
        plan = "2026-05-04:\n  beans.yaml: [q1, q2]\n2026-05-06:\n  beans.yaml: [q4, q1]\n"
        rows = "p1,2026-05-04\np2,2026-05-06\np3,2026-05-06 2026-05-04\n"
        write(folder, plan, absent=rows)
        out = run(folder)
        names = [row["folder"] for row in index(out)]
        assert names == ["2026-05-04", "2026-05-06", "2026-05-04_2026-05-06"]
        assert [items(out / name) for name in names] == [["q2"], ["q4"], ["q1", "q2", "q4"]]

    def test_what_differs_is_never_in_one_folder(self, folder: Path) -> None:
        """q1 alone is of two days; without q2, which is held, both pupils' days are the same."""
        plan = "2026-05-04:\n  beans.yaml: [q1, q4]\n2026-05-06:\n  beans.yaml: [q1, q3]\n"
        rows = "p1,2026-05-04 2026-05-06\np2,2026-05-06\np3,2026-05-04\n"
        write(folder, plan, absent=rows, hold="hold-until: 2030-01-01")
        found = {row["code"]: row["folder"] for row in index(run(folder))}
        assert found["p2"] == ""
        assert items(folder / "out" / found["p1"]) == ["q1", "q4"]
        assert items(folder / "out" / found["p3"]) == ["q4"]

    def test_slides_name_their_review_where_the_plan_has_several(self, folder: Path) -> None:
        """Two reviews have a question 1 each."""
        write(folder, absent="p1,2026-05-04 2026-05-06\n")
        deck = Presentation(str(run(folder) / "2026-05-04_2026-05-06" / "deck.pptx"))
        titles = [slide.shapes.title.text for slide in deck.slides][1:-1]
        assert titles[0] == "Bean week: Question 1"
        assert "Pea week: Question 1" in titles
        assert all(title.startswith(("Bean week: ", "Pea week: ")) for title in titles)

    def test_the_first_slide_and_the_greeting_say_the_days(self, folder: Path) -> None:
        write(folder, absent="p1,2026-05-04 2026-05-06\n")
        out = run(folder) / "2026-05-04_2026-05-06"
        first = Presentation(str(out / "deck.pptx")).slides[0]
        title = first.shapes.title.text.replace("\v", " ")
        assert title == "What you missed on May 4 and May 6"
        assert "May fourth and May sixth" in beats(out)[0]["say"]
        assert "May 4 and May 6" in beats(out)[0]["caption"]

    def test_codes_are_in_the_index_alone(self, folder: Path) -> None:
        write(folder, absent="zq77,2026-05-04\n")
        out = run(folder)
        for path in (out / "2026-05-04").iterdir():
            assert b"zq77" not in path.read_bytes()
        deck = Presentation(str(out / "2026-05-04" / "deck.pptx"))
        words = [s.notes_slide.notes_text_frame.text for s in deck.slides]
        assert not any("zq77" in text for text in words)
        assert index(out)[0]["code"] == "zq77"

    def test_same_in_same_out(self, folder: Path) -> None:
        write(folder, absent="p1,2026-05-04 2026-05-06\n")

        def contents() -> dict[str, bytes]:
            made = run(folder) / "2026-05-04_2026-05-06"
            return {path.name: path.read_bytes() for path in made.iterdir()}

        assert contents() == contents()

    def test_more_days_than_are_named(self, folder: Path) -> None:
        plan = "".join(
            f"2026-05-{n:02}:\n  {file}: {item}\n"
            for n, (file, item) in enumerate(
                [
                    ("beans.yaml", "q1"),
                    ("beans.yaml", "q2"),
                    ("beans.yaml", "q3"),
                    ("beans.yaml", "q4"),
                    ("peas.yaml", "q1"),
                ],
                start=1,
            )
        )
        write(folder, plan, "p1," + " ".join(f"2026-05-{n:02}" for n in range(1, 6)) + "\n")
        (row,) = index(run(folder))
        assert row["folder"].startswith("2026-05-01_to_2026-05-05_5-days_")


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The example of problems/, and an ordinary build of its reviews."""
    out = tmp_path_factory.mktemp("demo")
    example = ROOT / "problems" / "catch-up"
    words = ["--plan", str(example / "plan.yaml"), "--absent", str(example / "absent.csv")]
    assert main(["catch-up", *words, "--to", str(out / "missed")]) == 0
    names = ("garden-week.yaml", "kitchen-market.yaml")
    assert main(["build", *(str(ROOT / "problems" / n) for n in names), "--to", str(out)]) == 0
    return out


KITCHEN = ("seedling-trays", "squash-weight")
"""The items that the example's plan takes from the kitchen's review."""


def as_built(demo: Path) -> list[Beat]:
    """The beats of both ordinary builds that the example's plan takes its items from."""
    kitchen = [b for b in beats(demo / "kitchen-market") if b["item"] in KITCHEN]
    return [*beats(demo / "garden-week"), *kitchen]


FOLDERS = ("2026-05-04", "2026-05-04_2026-05-06", "2026-05-06", "2026-05-11")


class TestToldOnce:
    """A pupil hears what the class hears: the words and lengths of the ordinary build."""

    @pytest.mark.parametrize("name", FOLDERS)
    def test_beat_by_beat(self, demo: Path, name: str) -> None:
        built = {beat["id"]: beat for beat in as_built(demo)}
        for beat in beats(demo / "missed" / name)[1:-1]:
            if is_definition(beat) and beat["id"] not in built:
                continue
            was = built[beat["id"]]
            for key in ("item", "part", "say", "caption", "builds", "waits"):
                assert beat[key] == was[key]
            assert beat["end_ms"] - beat["start_ms"] == was["end_ms"] - was["start_ms"]

    @pytest.mark.parametrize("name", FOLDERS)
    def test_no_beat_of_an_item_is_missing(self, demo: Path, name: str) -> None:
        here = beats(demo / "missed" / name)
        wanted = [b["id"] for b in as_built(demo) if b["item"] in items(demo / "missed" / name)]
        assert [b["id"] for b in here if b["id"] in wanted] == wanted

    @pytest.mark.parametrize("name", FOLDERS)
    def test_a_term_is_explained_before_it_is_said(self, demo: Path, name: str) -> None:
        """“Denominator” is explained with the first item of the review, which two decks lack."""
        said = [beat for beat in beats(demo / "missed" / name) if beat["item"]]
        uses = [at for at, b in enumerate(said) if "denominator" in b["say"].lower()]
        assert uses
        assert is_definition(said[uses[0]]), said[uses[0]]

    def test_a_day_that_is_a_whole_review_is_told_as_that_review(self, folder: Path) -> None:
        write(folder, "2026-05-04:\n  beans.yaml: all\n")
        out = run(folder) / "2026-05-04"
        assert main(["build", str(folder / "beans.yaml"), "--to", str(folder)]) == 0
        built = beats(folder / "beans")
        keys = ("id", "item", "part", "slide", "say", "caption", "builds", "waits")
        for here, there in zip(beats(out)[1:], built[1:], strict=True):
            assert [here[key] for key in keys] == [there[key] for key in keys]

    def test_her_edits_hold(self, folder: Path) -> None:
        assert main(["build", str(folder / "beans.yaml"), "--to", str(folder)]) == 0
        was = next(b for b in beats(folder / "beans") if b["id"] == "q2.1.try")
        edit = f'q2.1.try:\n  was: "{was["caption"]}"\n  say: Now you, with a strip of paper.\n'
        (folder / "beans.edits.yaml").write_text(edit, "utf-8")
        (mine,) = [b for b in beats(run(folder) / "2026-05-04") if b["id"] == "q2.1.try"]
        assert mine["say"] == "Now you, with a strip of paper."


class TestInvariants:
    """Those of every build (DEVELOPERS.md), on decks that are put together."""

    @pytest.mark.parametrize("name", FOLDERS)
    def test_times_add_up(self, demo: Path, name: str) -> None:
        lesson = told(demo / "missed" / name)
        now = 0
        for beat in lesson["beats"]:
            assert beat["start_ms"] == now
            now = beat["end_ms"]
        assert now == lesson["total_ms"]

    @pytest.mark.parametrize("name", FOLDERS)
    def test_builds_are_the_entrances_and_words_stand_in_the_notes(
        self, demo: Path, name: str
    ) -> None:
        deck = Presentation(str(demo / "missed" / name / "deck.pptx"))
        lesson = told(demo / "missed" / name)
        assert len(deck.slides) == lesson["slides"]
        for number, slide in enumerate(deck.slides, start=1):
            here = [beat for beat in lesson["beats"] if beat["slide"] == number]
            assert here
            assert [n for n, _ in entrances(slide)] == [n for b in here for n in b["builds"]]
            notes = slide.notes_slide.notes_text_frame.text
            assert all(beat["say"] in notes for beat in here)
            shown = [s.text_frame.text for s in slide.placeholders if "number" in s.name.lower()]
            assert shown in ([], [str(number)])

    @pytest.mark.parametrize("name", FOLDERS)
    def test_ids_are_unique_and_slides_in_order(self, demo: Path, name: str) -> None:
        found = beats(demo / "missed" / name)
        ids = [beat["id"] for beat in found]
        assert len(set(ids)) == len(ids)
        assert [b["slide"] for b in found] == sorted(b["slide"] for b in found)

    @pytest.mark.parametrize("name", FOLDERS)
    def test_validators_find_nothing(self, demo: Path, name: str) -> None:
        file = demo / "missed" / name / "deck.pptx"
        assert [str(error) for error in validate_pptx(str(file)).errors] == []

    def test_a_deck_that_was_kept_is_the_deck_that_is_written_alone(
        self, demo: Path, tmp_path: Path
    ) -> None:
        """Slides are written once for all pupils; alone, the deck has the same bytes."""
        example = ROOT / "problems" / "catch-up"
        (tmp_path / "absent.csv").write_text("code,day\np1,2026-05-06\n", "utf-8")
        words = ["--plan", str(example / "plan.yaml"), "--absent", str(tmp_path / "absent.csv")]
        assert main(["catch-up", *words, "--to", str(tmp_path)]) == 0
        alone, among = (root / "2026-05-06" / "deck.pptx" for root in (tmp_path, demo / "missed"))
        assert alone.read_bytes() == among.read_bytes()


class TestHold:
    """An item in use as a test is left out until its day has come."""

    HOLD = "hold-until: 2026-05-20"

    def test_before_its_day(self, folder: Path, capsys: Captured) -> None:
        write(folder, absent="p1,2026-05-06\n", hold=self.HOLD)
        out = run(folder, "--today", "2026-05-19")
        assert items(out / "2026-05-06") == ["q4", "peas-q1"]
        assert index(out)[0]["note"] == "left out: q3"
        told = (
            "plan.yaml:2:15: q3 is held until 2026-05-20: left out; --twins puts fresh numbers in"
        )
        assert told in capsys.readouterr().err

    def test_on_its_day(self, folder: Path) -> None:
        write(folder, absent="p1,2026-05-06\n", hold=self.HOLD)
        out = run(folder, "--today", "2026-05-20")
        assert items(out / "2026-05-06") == ["q3", "q4", "peas-q1"]

    def test_or_with_a_twin(self, folder: Path) -> None:
        write(folder, absent="p1,2026-05-06\n", hold=self.HOLD)
        out = run(folder, "--today", "2026-05-19", "--twins") / "2026-05-06"
        assert items(out) == ["q3-twin", "q4", "peas-q1"]
        said = " ".join(b["caption"] for b in beats(out) if b["item"] == "q3-twin")
        assert "barrel" in said
        assert "7/12" not in said
        assert "1/4 full" not in said

    def test_all_of_a_day(self, folder: Path, capsys: Captured) -> None:
        plan = "2026-05-06:\n  beans.yaml: q3\n"
        write(folder, plan, "p1,2026-05-06\n", hold=self.HOLD)
        assert index(run(folder, "--today", "2026-05-19"))[0]["folder"] == ""
        assert "p1: left out: q3" in capsys.readouterr().err

    @pytest.mark.parametrize("given", ["20 May", "2026-02-30", "5/20/2026", "2026-5-2"])
    def test_a_day_that_is_none_is_a_fault(
        self, folder: Path, capsys: Captured, given: str
    ) -> None:
        write(folder, hold=f"hold-until: {given}")
        assert main(["check", str(folder / "beans.yaml")]) == 1
        told = (
            f'beans.yaml:7:17: "{given}" is no day; write it as year-month-day, such as 2026-05-20'
        )
        assert told in capsys.readouterr().out

    def test_plain_builds_have_it(self, folder: Path) -> None:
        write(folder, hold="hold-until: 2999-01-01")
        assert main(["build", str(folder / "beans.yaml"), "--to", str(folder)]) == 0
        assert "q3" in items(folder / "beans")


class TestTopics:
    def test_one_deck_of_the_items_with_a_standard(self, folder: Path) -> None:
        out = topics(folder, "5.NF.A.2,4.NF.B") / "topics_5.NF.A.2_4.NF.B"
        assert items(out) == ["q3", "q4"]
        assert Presentation(str(out / "deck.pptx")).slides[0].shapes.title.text == (
            "Review of 5.NF.A.2 and 4.NF.B"
        )

    def test_as_many_as_fit_each_topic_covered(self, folder: Path) -> None:
        codes = "5.NF.A.1,5.NF.A.2"
        whole = told(topics(folder, codes) / "topics_5.NF.A.1_5.NF.A.2")
        minutes = whole["total_ms"] // 60_000
        out = topics(folder, codes, "--minutes", str(minutes)) / "topics_5.NF.A.1_5.NF.A.2"
        assert told(out)["total_ms"] <= minutes * 60_000
        assert "q3" in items(out)
        assert {"beans-q1", "q2", "peas-q1"} & set(items(out))
        assert len(items(out)) == 3

    def test_too_short_says_how_long_it_is(self, folder: Path, capsys: Captured) -> None:
        topics(folder, "5.NF.A.1,5.NF.A.2", "--minutes", "1", code=2)
        err = capsys.readouterr().err
        assert "narrate: 1 min are too short: one item of each topic takes " in err
        assert not (folder / "out").exists()

    def test_the_least_that_is_named_does(self, folder: Path, capsys: Captured) -> None:
        topics(folder, "5.NF.A.1,5.NF.A.2", "--minutes", "1", code=2)
        least = capsys.readouterr().err.split("use --minutes ")[1].split()[0]
        topics(folder, "5.NF.A.1,5.NF.A.2", "--minutes", least)
        topics(folder, "5.NF.A.1,5.NF.A.2", "--minutes", str(int(least) - 1), code=2)

    def test_a_topic_that_nothing_has(self, folder: Path, capsys: Captured) -> None:
        topics(folder, "6.NS.A.1", code=2)
        assert (
            "the topic 6.NS.A.1 cannot be covered: no planned item has it; there are: 4.NF.B.3a"
            in (capsys.readouterr().err)
        )

    def test_minutes_are_for_topics(self, folder: Path) -> None:
        run(folder, "--minutes", "5", code=2)


class TestPlan:
    """Every fault of a plan with its place; what is good in it is used."""

    @pytest.mark.parametrize(
        ("plan", "place", "wrong"),
        [
            ("2026-05-4:\n  beans.yaml: q1\n", "1:1", '"2026-05-4" is no day'),
            ("2026-04-31:\n  beans.yaml: q1\n", "1:1", '"2026-04-31" is no day'),
            ("2026-05-04: q1\n", "1:1", "nothing is planned on 2026-05-04"),
            ("2026-05-04:\n  bean.yaml: q1\n", "2:3", '"bean.yaml" is no such file'),
            ("2026-05-04:\n  beans.yaml: [q1, q9]\n", "2:20", 'has no good item "q9"'),
            ("2026-05-04:\n  beans.yaml: []\n", "2:15", "here is no list of ids"),
            ("2026-05-04:\n  beans.yaml: {a: b}\n", "2:15", "here is no list of ids"),
            ("- q1\n", "1:1", "this is no set of keys"),
            ("", "1:1", "this plan is empty"),
            ("2026-05-04:\n  beans.yaml: [q1, q2, q1]\n", "2:24", "already on this day, on line 2"),
            ("2026-05-04:\n  beans.yaml: q1\n2026-05-04:\n  peas.yaml: q1\n", "3:1", "twice"),
            ("2026-05-04: [\n", "2:1", ""),
        ],
    )
    def test_faults(self, folder: Path, plan: str, place: str, wrong: str) -> None:
        write(folder, plan)
        path = folder / "plan.yaml"
        try:
            faults = read_plan(path).faults
        except FaultsFound as found:
            faults = found.faults
        texts = [str(fault) for fault in faults]
        assert any(t.startswith(f"{path}:{place}: ") and wrong in t for t in texts), texts

    def test_what_is_good_is_built_all_the_same(self, folder: Path, capsys: Captured) -> None:
        write(folder, "2026-05-04:\n  beans.yaml: [q1, q12]\n  peas.yaml: q1\n")
        out = run(folder, code=1)
        assert items(out / "2026-05-04") == ["beans-q1", "peas-q1"]
        assert 'no good item "q12"; did you mean q2?' in capsys.readouterr().err

    def test_a_plan_lies_beside_reviews_and_is_none(self, folder: Path) -> None:
        assert main(["check", str(folder)]) == 0

    def test_items_are_in_the_order_of_days(self, folder: Path) -> None:
        found = [each.item.id for each in read_plan(folder / "plan.yaml").planned]
        assert found == ["q1", "q2", "q3", "q4", "q1"]


class TestAbsent:
    @pytest.mark.parametrize(
        ("rows", "place", "wrong"),
        [
            ("p1,4 May\n", "2:2", '"4" is no day'),
            ("p1,2026-13-01\n", "2:2", '"2026-13-01" is no day'),
            (",2026-05-04\n", "2:1", '"2026-05-04" is the day of nobody'),
        ],
    )
    def test_faults(
        self, folder: Path, capsys: Captured, rows: str, place: str, wrong: str
    ) -> None:
        write(folder, absent=rows + "p2,2026-05-04\n")
        out = run(folder, code=1)
        assert f"absent.csv:{place}: {wrong}" in capsys.readouterr().err
        assert index(out)[-1]["folder"] == "2026-05-04"  # the good rows are not lost

    def test_a_row_that_was_not_read_is_in_the_index(self, folder: Path) -> None:
        write(folder, absent="p1,2026-05-04\np1,05/06/2026\n")
        (row,) = index(run(folder, code=1))
        assert row["folder"] == "2026-05-04"
        assert row["note"].startswith("a day could not be read (")

    def test_of_a_day_that_was_not_read_nothing_is_known(
        self, folder: Path, capsys: Captured
    ) -> None:
        write(folder, absent="p1,4 May\n")
        (row,) = index(run(folder, code=1))
        err = capsys.readouterr().err
        assert "p1: a day could not be read (" in err
        assert "missed nothing" not in err + row["note"]

    def test_a_stretch_of_days_is_told_how_to_be_written(
        self, folder: Path, capsys: Captured
    ) -> None:
        write(folder, absent="p1,2026-05-04 to 2026-05-06\n")
        run(folder, code=1)
        assert "several with a space between: 2026-05-20 2026-05-21" in capsys.readouterr().err

    def test_a_list_that_is_not_there_is_told(self, folder: Path, capsys: Captured) -> None:
        (folder / "absent.csv").unlink()
        run(folder, code=1)
        err = capsys.readouterr().err
        assert "there is no file here to read as a list of absences" in err
        assert "CSV" not in err

    def test_a_day_without_a_review_is_told(self, folder: Path, capsys: Captured) -> None:
        write(folder, absent="p1,2026-05-05\n")
        out = run(folder)
        err = capsys.readouterr().err
        assert "absent.csv:2:2: nothing is planned on 2026-05-05" in err
        assert "p1: missed nothing that was reviewed" in err
        assert index(out)[0]["note"] == "missed nothing that was reviewed"

    def test_a_pupil_without_days_is_in_the_index(self, folder: Path) -> None:
        write(folder, absent="p1,\n\np2,2026-05-04\n")
        assert [row["folder"] for row in index(run(folder))] == ["", "2026-05-04"]

    def test_a_row_twice_counts_once(self, folder: Path, capsys: Captured) -> None:
        write(folder, absent="p1,2026-05-04\np1,2026-05-04\n")
        assert len(index(run(folder))) == 1
        assert "absent.csv:3:2: 2026-05-04 stands for this pupil on line 2 as well" in (
            capsys.readouterr().err
        )

    @pytest.mark.parametrize("code", ["Mara Beet", "beet.mara", "Beet, Mara"])
    def test_what_looks_like_a_name_is_told(
        self, folder: Path, capsys: Captured, code: str
    ) -> None:
        write(folder, absent=f'"{code}",2026-05-04\n')
        run(folder)
        assert "looks like a full name; use initials or a code" in capsys.readouterr().err

    @pytest.mark.parametrize("code", ["mb", "M. B.", "p07", "5b-12", "blue7"])
    def test_what_does_not_is_not(self, code: str) -> None:
        assert not is_like_a_name(code)

    @pytest.mark.parametrize(
        "text", ["", "name,day\np1,2026-05-04\n", "code\np1\n", 'code,day\n"p1']
    )
    def test_a_file_that_is_no_such_list(self, folder: Path, text: str) -> None:
        (folder / "absent.csv").write_text(text, "utf-8")
        with pytest.raises(FaultsFound, match=r"absent\.csv:1:1: "):
            read_absences(folder / "absent.csv")
        run(folder, code=1)
        assert not (folder / "out").exists()

    def test_bytes_that_are_no_text(self, folder: Path) -> None:
        (folder / "absent.csv").write_bytes(b"code,day\n\xff\xfe\n")
        run(folder, code=1)

    def test_files_that_are_not_there(self, tmp_path: Path, capsys: Captured) -> None:
        write(tmp_path)
        (tmp_path / "absent.csv").unlink()
        run(tmp_path, code=1)
        (tmp_path / "plan.yaml").unlink()
        run(tmp_path, code=1)
        assert "cannot be opened" in capsys.readouterr().err


def test_days_are_read_in_one_way() -> None:
    assert day(" 2026-05-04 ") == date(2026, 5, 4)
    assert [day(t) for t in ("2026-5-4", "20260504", "2026-W19-1", "٢٠٢٦-٠٥-٠٤", "")] == [None] * 5


class TestWhatIsStillThere:
    """Files of an earlier lesson, and folders of an earlier list, are told and never deleted."""

    def test_folders_of_an_earlier_list(self, folder: Path, capsys: Captured) -> None:
        write(folder, absent="p1,2026-05-04\np2,2026-05-06\n")
        out = run(folder)
        assert "still there" not in capsys.readouterr().err
        (out / "2026-notes").mkdir()
        (out / "2026-notes" / "lesson.json").touch()  # another's
        write(folder, absent="p1,2026-05-04\n")
        run(folder)
        err = capsys.readouterr().err
        assert f"{out}: still there from an earlier list: 2026-05-06; nobody on this list" in err
        assert err.count("still there") == 1
        assert (out / "2026-05-06" / "deck.pptx").is_file()

    def test_files_of_another_lesson(self, folder: Path, capsys: Captured) -> None:
        also = ("--also", "selfstudy", "--also", "selfrun", "--spoken-by", "nobody")
        out = run(folder, *also)
        (out / "2026-05-04" / "notes.html").touch()  # hers
        run(folder)
        assert "still there" not in capsys.readouterr().err  # the same lesson
        beans = folder / "beans.yaml"
        beans.write_text(beans.read_text("utf-8").replace("3/4 + 1/5", "3/4 + 1/8"), "utf-8")
        run(folder, "--also", "selfrun", "--spoken-by", "nobody")
        (line,) = (x for x in capsys.readouterr().err.splitlines() if "still there" in x)
        assert line.startswith(f"{out / '2026-05-04'}: ")
        assert ": selfstudy.html; delete it or build again with --also selfstudy" in line
        assert (out / "2026-05-04" / "selfstudy.html").is_file()
