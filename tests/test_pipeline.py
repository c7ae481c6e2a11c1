"""From a file of items to a folder of files: the contract that other programs call.

What is checked is the project's own contract (README.md, "The commands" and "What comes out").
Decks are read back by python-pptx, and their timing by lxml from ECMA-376's `p:timing`.
"""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby, pairwise
from pathlib import Path
from typing import Any, BinaryIO

import pytest
import yaml
from pptx import Presentation

from narrate.cli import main
from narrate.items.item import Item, Review
from narrate.items.loading import load
from narrate.lesson.checking import overlaps
from narrate.lesson.palette import DARK
from narrate.lesson.wording import Words
from narrate.outputs import captions_vtt
from narrate.pipeline import make_lesson
from narrate.saving import save
from tests.generated import loaded, made, made_with_products

ROOT = Path(__file__).resolve().parents[1]
DEMO = ROOT / "problems" / "garden-week.yaml"
FILES = {
    "deck.pptx",
    "script.html",
    "runthrough.html",
    "transcript.txt",
    "description.txt",
    "captions.vtt",
    "captions.srt",
    "chapters.vtt",
    "lesson.json",
    "lesson.built",
}
P = "{http://schemas.openxmlformats.org/presentationml/2006/main}"

Captured = pytest.CaptureFixture[str]
Patch = pytest.MonkeyPatch

GOOD = "  - {id: good, stem: 1/2 + 1/4, boxes: [numerator, denominator]}\n"
FAULTY = "  - {id: faulty, stem: 1/2 + 1/0, boxes: [numerator, denominator]}\n"
DECLINED = "  - {id: story, stem: 1/2 of a tray and 1/4 of a tray?, boxes: [number]}\n"
WRONG_KEY = "  - {id: keyed, stem: 1/2 + 1/4, choices: {A: 3/4, B: 2/6}, key: B}\n"


def review(folder: Path, *items: str, name: str = "beds.yaml") -> Path:
    file = folder / name
    file.write_text("items:\n" + "".join(items), encoding="utf-8")
    return file


def contents(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir())}


def narrate(*words: object, cwd: Path, **environment: str) -> subprocess.CompletedProcess[bytes]:
    return subprocess.run(
        [sys.executable, "-m", "narrate", *map(str, words)],
        cwd=cwd,
        check=False,
        capture_output=True,
        env={**os.environ, "PYTHONPATH": str(ROOT), **environment},
    )


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the demo review, built once."""
    to = tmp_path_factory.mktemp("demo")
    assert main(["build", str(DEMO), "--to", str(to)]) == 0
    return to / "garden-week"


@pytest.fixture(scope="module")
def lesson(demo: Path) -> dict[str, Any]:
    found = json.loads((demo / "lesson.json").read_text("utf-8"))
    assert isinstance(found, dict)
    return found


@pytest.fixture(scope="module")
def beats(lesson: dict[str, Any]) -> list[dict[str, Any]]:
    return list(lesson["beats"])


@pytest.fixture(scope="module")
def slides(demo: Path) -> list[Any]:
    return list(Presentation(str(demo / "deck.pptx")).slides)


class TestLessonJson:
    """`lesson.json` says what is in the other files, beat by beat."""

    def test_every_file_is_there_and_no_other(self, demo: Path) -> None:
        assert {path.name for path in demo.iterdir()} == FILES
        assert all(path.stat().st_size for path in demo.iterdir())

    def test_its_keys(self, lesson: dict[str, Any], beats: list[dict[str, Any]]) -> None:
        assert list(lesson) == ["review", "total_ms", "slides", "beats"]
        keys = ["id", "item", "part", "slide", "start_ms", "end_ms"]
        keys += ["say", "caption", "builds", "waits"]
        assert all(list(beat) == keys for beat in beats)
        assert lesson["review"] == "garden-week"
        assert len({beat["id"] for beat in beats}) == len(beats)

    def test_its_values(self, beats: list[dict[str, Any]]) -> None:
        for beat in beats:
            assert type(beat["start_ms"]) is type(beat["end_ms"]) is type(beat["slide"]) is int
            assert type(beat["waits"]) is bool
            assert all(isinstance(name, str) and name for name in beat["builds"])

    def test_times_add_up(self, lesson: dict[str, Any], beats: list[dict[str, Any]]) -> None:
        assert beats[0]["start_ms"] == 0
        assert all(one["end_ms"] == after["start_ms"] for one, after in pairwise(beats))
        assert all(beat["start_ms"] < beat["end_ms"] for beat in beats)
        lengths = [beat["end_ms"] - beat["start_ms"] for beat in beats]
        assert lesson["total_ms"] == sum(lengths) == beats[-1]["end_ms"]

    def test_beats_are_told_item_by_item(self, beats: list[dict[str, Any]]) -> None:
        """As in the file; only the greeting and the closing belong to none."""
        told = [key for key, _ in groupby((beat["item"], beat["part"]) for beat in beats)]
        items = yaml.safe_load(DEMO.read_text("utf-8"))["items"]
        counts = [(item["id"], len(item.get("parts", [0]))) for item in items]
        written = [(name, part) for name, count in counts for part in range(1, count + 1)]
        assert told == [(None, None), *written, (None, None)]

    def test_slides_are_those_of_the_deck(
        self, lesson: dict[str, Any], beats: list[dict[str, Any]], slides: list[Any]
    ) -> None:
        assert lesson["slides"] == len(slides)
        turned = [number for number, _ in groupby(beat["slide"] for beat in beats)]
        assert turned == list(range(1, len(slides) + 1))

    def test_what_is_said_has_no_digits_and_stands_in_the_notes(
        self, beats: list[dict[str, Any]], slides: list[Any]
    ) -> None:
        for beat in beats:
            assert not re.search(r"\d", beat["say"]), beat["id"]
            notes = slides[beat["slide"] - 1].notes_slide.notes_text_frame.text
            assert beat["say"] in notes, beat["id"]

    def test_notes_come_in_the_order_of_beats(
        self, beats: list[dict[str, Any]], slides: list[Any]
    ) -> None:
        for number, told in groupby(beats, key=lambda beat: int(beat["slide"])):
            notes, at = slides[number - 1].notes_slide.notes_text_frame.text, 0
            for beat in told:
                at = notes.index(beat["say"], at) + len(beat["say"])

    def test_captions_write_mathematics_in_symbols(self, beats: list[dict[str, Any]]) -> None:
        (read,) = [beat["caption"] for beat in beats if beat["id"] == "rain-barrel.1.read"]
        assert "A rain barrel is 3/4 full." in read

    def test_captions_are_the_words_of_the_caption_files(
        self, demo: Path, beats: list[dict[str, Any]]
    ) -> None:
        for name in ("captions.vtt", "captions.srt"):
            lines = (demo / name).read_text("utf-8").splitlines()
            cues = [line for line in lines if not re.fullmatch(r"WEBVTT|\d*|.* --> .*", line)]
            whole = " ".join(beat["caption"] for beat in beats)
            assert "".join(" ".join(cues).split()) == "".join(whole.split())


def entrances(slide: Any) -> Iterator[tuple[str, str]]:
    """The shapes that enter a slide, in order, with the kind of start of each effect."""
    names = {shape.shape_id: shape.name for shape in slide.shapes}
    for effect in slide.element.iter(f"{P}cTn"):
        if effect.get("presetClass") == "entr":
            targets = {target.get("spid") for target in effect.iter(f"{P}spTgt")}
            (target,) = targets
            yield names[int(target)], effect.get("nodeType")


class TestBuilds:
    """Every build of the deck belongs to one beat and comes in beat order."""

    def test_they_are_the_entrances_of_the_slide(
        self, beats: list[dict[str, Any]], slides: list[Any]
    ) -> None:
        for number, slide in enumerate(slides, start=1):
            told = [name for beat in beats if beat["slide"] == number for name in beat["builds"]]
            assert [name for name, _ in entrances(slide)] == told

    def test_names_are_unique_on_their_slide(self, slides: list[Any]) -> None:
        for slide in slides:
            names = [shape.name for shape in slide.shapes]
            assert len(set(names)) == len(names)

    def test_a_click_begins_the_builds_of_a_beat_that_waits(
        self, beats: list[dict[str, Any]], slides: list[Any]
    ) -> None:
        for number, slide in enumerate(slides, start=1):
            told = [beat for beat in beats if beat["slide"] == number and beat["builds"]]
            clicks = [name for name, start in entrances(slide) if start == "clickEffect"]
            assert clicks == [beat["builds"][0] for beat in told if beat["waits"]]

    def test_there_are_many(self, beats: list[dict[str, Any]]) -> None:
        assert sum(len(beat["builds"]) for beat in beats) > 200


class TestPages:
    """Nothing overlaps or leaves its room, at any build (builds only add)."""

    def faults(self, items: Sequence[Item]) -> list[str]:
        review = Review(id="r", title="R", grade=5, language="en", items=tuple(items))
        told, wrong, declined = make_lesson(review, Words("en"))
        assert told is not None
        assert (wrong, declined) == ([], [])
        return [fault for page in told.pages for fault in overlaps(page)]

    def test_of_the_demo(self) -> None:
        (review,) = load([DEMO]).reviews
        assert self.faults(review.items) == []

    def test_of_the_demo_that_asks_for_more_than_a_value(self) -> None:
        (review,) = load([DEMO.with_name("harvest-count.yaml")]).reviews
        assert self.faults(review.items) == []

    @pytest.mark.parametrize("seed", range(10))
    def test_of_500_made_items(self, seed: int) -> None:
        """Ten reviews of fifty."""
        assert self.faults([item for item, _ in loaded(made(50, seed))]) == []

    @pytest.mark.parametrize("seed", range(2))
    def test_of_100_made_items_with_products(self, seed: int) -> None:
        assert self.faults([item for item, _ in loaded(made_with_products(50, seed))]) == []


class TestSameInSameOut:
    def test_bytes_do_not_depend_on_place_or_process(self, demo: Path, tmp_path: Path) -> None:
        """From another folder, by another path, with another order of hashes and another locale."""
        copy = tmp_path / "garden-week.yaml"
        copy.write_bytes(DEMO.read_bytes())
        environment = {"PYTHONHASHSEED": "4242", "TZ": "Asia/Tokyo", "LC_ALL": "C"}
        ended = narrate("build", copy.name, cwd=tmp_path, **environment)
        assert ended.returncode == 0, ended.stderr
        assert contents(tmp_path / "out" / "garden-week") == contents(demo)

    def test_building_again_changes_nothing(self, tmp_path: Path) -> None:
        file = review(tmp_path, GOOD)
        assert main(["build", str(file), "--to", str(tmp_path)]) == 0
        before = contents(tmp_path / "beds")
        assert main(["build", str(file), "--to", str(tmp_path)]) == 0
        assert contents(tmp_path / "beds") == before

    def test_a_review_does_not_depend_on_the_one_built_before(self, tmp_path: Path) -> None:
        """No words are remembered from one review to the next."""
        alone, after = tmp_path / "alone", tmp_path / "after"
        first = review(tmp_path, GOOD, name="a.yaml")
        second = review(tmp_path, GOOD, GOOD.replace("good", "more"), name="b.yaml")
        assert main(["build", str(second), "--to", str(alone)]) == 0
        assert main(["build", str(first), str(second), "--to", str(after)]) == 0
        assert contents(after / "b") == contents(alone / "b")


class TestSafeWriting:
    """A build writes beside and replaces; an old file stays whole until the new one is."""

    @pytest.fixture
    def built(self, tmp_path: Path) -> Path:
        assert main(["build", str(review(tmp_path, GOOD)), "--to", str(tmp_path)]) == 0
        return tmp_path / "beds"

    def again(self, folder: Path) -> int:
        """Builds another review over the first."""
        file = review(folder.parent, GOOD.replace("1/4", "1/3"))
        return main(["build", str(file), "--to", str(folder.parent)])

    def test_lesson_json_comes_last(self, tmp_path: Path, monkeypatch: Patch) -> None:
        order = tmp_path / "order"  # a file: some are written by a process of their own

        def noted(path: Path, write: Any) -> None:
            save(path, write)
            with order.open("a") as names:
                names.write(f"{path.name}\n")

        monkeypatch.setattr("narrate.writing.save", noted)
        monkeypatch.setattr("narrate.built.save", noted)
        assert main(["build", str(review(tmp_path, GOOD)), "--to", str(tmp_path)]) == 0
        written = order.read_text().split()
        assert sorted(written) == sorted(FILES)
        assert written[-1] == "lesson.json"

    @pytest.mark.parametrize(
        ("error", "code"), [(OSError(28, "No space left on device"), 1), (KeyboardInterrupt(), 130)]
    )
    def test_an_output_that_breaks_off(
        self, built: Path, monkeypatch: Patch, capsys: Captured, error: BaseException, code: int
    ) -> None:
        def break_off(_: object, __: object, ___: object, sink: BinaryIO) -> None:
            sink.write(b"WEBVTT\n\nhalf a")
            raise error

        before = contents(built)
        monkeypatch.setattr(captions_vtt, "write", break_off)
        assert self.again(built) == code
        after = contents(built)
        assert set(after) == FILES  # nothing left beside
        assert after["captions.vtt"] == before["captions.vtt"]
        assert after["lesson.json"] == before["lesson.json"]
        assert "Traceback" not in capsys.readouterr().err

    def test_a_full_disk_is_told(self, built: Path, monkeypatch: Patch, capsys: Captured) -> None:
        def fill(*_: object) -> None:
            raise OSError(28, "No space left on device")

        monkeypatch.setattr(captions_vtt, "write", fill)
        assert self.again(built) == 1
        (line,) = [ln for ln in capsys.readouterr().err.splitlines() if ln.startswith("narrate: ")]
        assert "captions.vtt: not written (No space left on device)" in line
        assert "what was there is kept" in line

    def test_a_deck_held_open(self, built: Path, monkeypatch: Patch, capsys: Captured) -> None:
        """Windows lets no program replace a file that another holds open: PermissionError."""
        replace = Path.replace

        def held(self: Path, target: Path) -> Path:
            if Path(target).name == "deck.pptx":
                raise PermissionError(13, "Permission denied")
            return replace(self, target)

        before = contents(built)
        monkeypatch.setattr(Path, "replace", held)
        assert self.again(built) == 1
        after = contents(built)
        assert set(after) == FILES
        assert after["deck.pptx"] == before["deck.pptx"]
        assert after["lesson.json"] == before["lesson.json"]
        message = capsys.readouterr().err.splitlines()[-1]
        assert "deck.pptx: held open by another program, the old file is kept" in message
        assert "close it and build again" in message

    def test_a_folder_that_cannot_be_made(self, tmp_path: Path, capsys: Captured) -> None:
        (tmp_path / "taken").write_text("a file")
        words = ["build", str(review(tmp_path, GOOD)), "--to", str(tmp_path / "taken")]
        assert main(words) == 1
        message = capsys.readouterr().err.splitlines()[-1]
        assert message.startswith(f"narrate: {tmp_path / 'taken' / 'beds'}: cannot be written (")
        assert message.endswith("choose another folder with --to")
        assert (tmp_path / "taken").read_text() == "a file"


class TestWhatIsLeftOut:
    """Good items are built, the others told; 1 faults, 3 declined, and 1 outranks 3."""

    @pytest.mark.parametrize(
        ("items", "code", "told"),
        [
            ([GOOD], 0, ()),
            ([GOOD, FAULTY], 1, ("beds.yaml:3:32: a denominator is zero",)),
            ([GOOD, WRONG_KEY], 1, ("beds.yaml:3:61: the key says B (2/6)",)),
            ([DECLINED, GOOD], 3, ("beds.yaml:2:5: story: ",)),
            ([DECLINED, GOOD, FAULTY], 1, ("beds.yaml:4:32: ", "beds.yaml:2:5: story: ")),
        ],
    )
    def test_build(
        self, tmp_path: Path, capsys: Captured, items: list[str], code: int, told: tuple[str, ...]
    ) -> None:
        file = review(tmp_path, *items)
        assert main(["build", str(file), "--to", str(tmp_path)]) == code
        printed = capsys.readouterr()
        assert printed.out == ""
        lines = [ln for ln in printed.err.splitlines() if ln.startswith(f"{file}:")]
        assert len(lines) == len(told)
        assert all(f"{tmp_path}/{text}" in line for line, text in zip(lines, told, strict=True))
        found = json.loads((tmp_path / "beds" / "lesson.json").read_text("utf-8"))["beats"]
        assert {beat["item"] for beat in found} == {None, "good"}

    @pytest.mark.parametrize(("item", "code"), [(FAULTY, 1), (DECLINED, 3), (WRONG_KEY, 1)])
    def test_nothing_is_built_where_no_item_is_good(
        self, tmp_path: Path, item: str, code: int
    ) -> None:
        assert main(["build", str(review(tmp_path, item)), "--to", str(tmp_path / "out")]) == code
        assert not (tmp_path / "out").exists()

    @pytest.mark.parametrize("data", [b"", b"items: [\n", b"items:\n\t- id: a\n", b"\xff\xfe"])
    def test_a_file_that_cannot_be_read_builds_nothing(
        self, tmp_path: Path, capsys: Captured, data: bytes
    ) -> None:
        """The other files of the same command are built."""
        bad = tmp_path / "bad.yaml"
        bad.write_bytes(data)
        to = tmp_path / "out"
        assert main(["build", str(bad), str(review(tmp_path, GOOD)), "--to", str(to)]) == 1
        assert [path.name for path in to.iterdir()] == ["beds"]
        assert f"{bad}:" in capsys.readouterr().err

    def test_a_declined_part_keeps_its_item_out(self, tmp_path: Path, capsys: Captured) -> None:
        """Half an item is never told."""
        parts = "  - id: two\n    parts:\n      - {ask: 1/2 + 1/4, boxes: [number]}\n"
        parts += "      - {ask: 1/2 of 1/4 of a tray?, boxes: [number]}\n"
        assert main(["build", str(review(tmp_path, parts, GOOD)), "--to", str(tmp_path)]) == 3
        found = json.loads((tmp_path / "beds" / "lesson.json").read_text("utf-8"))["beats"]
        assert {beat["item"] for beat in found} == {None, "good"}

    def test_progress_names_every_file_and_the_lengths(
        self, tmp_path: Path, capsys: Captured
    ) -> None:
        assert main(["build", str(review(tmp_path, GOOD)), "--to", str(tmp_path)]) == 0
        lines = capsys.readouterr().err.splitlines()
        assert {str(tmp_path / "beds" / name) for name in FILES} <= set(lines)
        assert any(re.fullmatch(r"beds: Question 1: \d+ s", line) for line in lines)
        assert any(re.fullmatch(r"beds: \d+ min \d+ s in all", line) for line in lines)


ROW = ["item", "part", "status", "answer", "unit", "key", "choices", "written", "steps", "message"]


def solved(capsys: Captured, *paths: Path) -> list[dict[str, Any]]:
    capsys.readouterr()
    main(["solve", *map(str, paths), "--json"])
    return [json.loads(line) for line in capsys.readouterr().out.splitlines()]


class TestSolveJson:
    """One JSON line for each part, as other programs read it."""

    @pytest.fixture
    def rows(self, capsys: Captured) -> list[dict[str, Any]]:
        return solved(capsys, DEMO)

    def test_there_is_one_for_each_part_in_order(self, rows: list[dict[str, Any]]) -> None:
        items = yaml.safe_load(DEMO.read_text("utf-8"))["items"]
        counts = [(item["id"], len(item.get("parts", [0]))) for item in items]
        written = [(name, part) for name, count in counts for part in range(1, count + 1)]
        assert [(row["item"], row["part"]) for row in rows] == written
        assert {row["status"] for row in rows} == {"solved"}

    def test_keys(self, rows: list[dict[str, Any]]) -> None:
        for row in rows:
            assert list(row) == ROW
            for choice in row["choices"].values():
                assert list(choice) == ["value", "ruled_out_at", "reason", "slip"]
            assert row["steps"]
            for step in row["steps"]:
                assert list(step) == ["move", "shows", "facts"]
                assert isinstance(step["shows"], str)

    def test_an_answer_is_exact_and_in_lowest_terms(self, rows: list[dict[str, Any]]) -> None:
        answers = [row["answer"] for row in rows if row["answer"] is not None]
        assert len(answers) > 10
        assert all(re.fullmatch(r"-?\d+(/\d+)?", answer) for answer in answers)
        assert all(str(Fraction(answer)) == answer for answer in answers)

    def test_an_answer_is_null_where_choices_are_expressions(
        self, rows: list[dict[str, Any]]
    ) -> None:
        without = {row["item"] for row in rows if row["answer"] is None}
        assert without == {"seed-trays", "equal-sums"}

    def test_answers_keys_and_written_forms(self, rows: list[dict[str, Any]]) -> None:
        """Worked by hand, at the least common denominator, unsimplified unless asked."""
        found = {
            f"{row['item']}.{row['part']}": (row["answer"], row["key"], row["written"])
            for row in rows
        }
        by_hand = {
            "rain-barrel.1": ("19/20", "C", "19/20"),  # 15/20 + 4/20
            "compost.1": ("29/10", None, "2 9/10"),  # 2 2/10 + 7/10
            "compost.2": ("3/2", None, "15/10"),  # 22/10 - 7/10, two boxes
            "seed-trays.1": (None, "C", None),
            "vegetable-soup.1": ("23/12", None, "23/12"),  # 6/12 + 8/12 + 9/12
            "flower-beds.1": ("19/24", None, "19/24"),  # 10/24 + 9/24
            "flower-beds.2": ("1/24", "A", "1/24"),
            "garden-hose.1": ("29/12", None, "2 5/12"),  # 5 3/12 - 2 10/12
            "equal-sums.1": (None, ["A", "C", "E"], None),  # 11/12
            "berry-juice.1": ("3/10", None, "3/10"),  # 9/10 - 6/10
            "herb-bed.1": ("4/15", "C", "4/15"),  # 15/15 - 5/15 - 6/15
            "oat-bars.1": ("2/3", "B", "2/3"),  # 8/12 in simplest form
            "bean-row.1": ("4/5", None, "8/10"),  # 5/10 + 3/10
            "radish-patch.1": ("5/8", None, "5/8"),
            "lemonade.1": ("8/5", None, "1 3/5"),  # 5 5/5 - 4 2/5
            "bean-poles.1": ("15", "B", "15"),
        }
        assert {name: found[name] for name in by_hand if name in found} == by_hand

    def test_every_wrong_choice_is_ruled_out_at_a_step(self, rows: list[dict[str, Any]]) -> None:
        for row in rows:
            right = set(row["key"] or ())
            for letter, choice in row["choices"].items():
                at = choice["ruled_out_at"]
                if letter in right:
                    assert (at, choice["reason"], choice["slip"]) == (None, None, None)
                else:
                    assert at in range(len(row["steps"]))
                    assert choice["reason"]

    def test_a_declined_part_and_a_faulty_item(self, tmp_path: Path, capsys: Captured) -> None:
        rows = solved(capsys, review(tmp_path, DECLINED, FAULTY, WRONG_KEY))
        assert {(row["item"], row["status"]) for row in rows} == {
            ("story", "declined"),
            ("faulty", "fault"),
            ("keyed", "fault"),
        }
        for row in rows:
            assert list(row) == ROW
            empty = (row["answer"], row["key"], row["written"], row["choices"], row["steps"])
            assert empty == (None, None, None, {}, [])
            assert row["message"]

    @pytest.mark.parametrize(
        ("items", "code"),
        [([GOOD], 0), ([GOOD, DECLINED], 3), ([GOOD, FAULTY], 1), ([DECLINED, WRONG_KEY], 1)],
    )
    def test_exit_codes(self, tmp_path: Path, items: list[str], code: int) -> None:
        file = str(review(tmp_path, *items))
        assert main(["solve", file, "--json"]) == code
        assert main(["solve", file]) == code

    def test_check_solves_for_keys_and_tells_what_is_declined(self, tmp_path: Path) -> None:
        assert main(["check", str(review(tmp_path, GOOD))]) == 0
        assert main(["check", str(review(tmp_path, GOOD, DECLINED))]) == 3
        assert main(["check", str(review(tmp_path, GOOD, WRONG_KEY))]) == 1

    def test_jsonl_is_read_as_yaml_is(self, tmp_path: Path, capsys: Captured) -> None:
        row = {"id": "good", "stem": "1/2 + 1/4", "boxes": ["numerator", "denominator"]}
        lines = tmp_path / "lines.jsonl"
        lines.write_text(json.dumps(row) + "\n", "utf-8")
        assert solved(capsys, lines) == solved(capsys, review(tmp_path, GOOD))


def spoken(folder: Path) -> str:
    return " ".join(b["say"] for b in json.loads((folder / "lesson.json").read_text())["beats"])


class TestOptions:
    def test_a_folder_of_ones_own_sentences(self, tmp_path: Path) -> None:
        """One wording is replaced, the others stay."""
        (tmp_path / "mine" / "en").mkdir(parents=True)
        (tmp_path / "mine" / "en" / "try.j2").write_text("Now it's your turn. <try>\n")
        file = str(review(tmp_path, GOOD))
        assert main(["build", file, "--to", str(tmp_path / "ours")]) == 0
        words = ["--templates", str(tmp_path / "mine"), "--to", str(tmp_path / "theirs")]
        assert main(["build", file, *words]) == 0
        ours, theirs = (spoken(tmp_path / name / "beds") for name in ("ours", "theirs"))
        assert "Pause here and try it" in ours
        assert "Pause here" not in theirs
        assert "Now it's your turn." in theirs
        greeting = ours.split(".")[0]
        assert theirs.startswith(greeting)

    def test_ones_own_sentence_around_ours(self, tmp_path: Path) -> None:
        (tmp_path / "en").mkdir()
        added = '{% include "builtin/closing.j2" %}\nThank you for working with us.\n'
        (tmp_path / "en" / "closing.j2").write_text(added)
        file = str(review(tmp_path, GOOD))
        words = ["--templates", str(tmp_path), "--to", str(tmp_path / "out")]
        assert main(["build", file, *words]) == 0
        said = spoken(tmp_path / "out" / "beds")
        assert "That's the end of our review." in said
        assert said.endswith("Thank you for working with us.")

    def test_an_output_that_is_not_there(self, tmp_path: Path, capsys: Captured) -> None:
        words = ["--also", "decks", "--to", str(tmp_path / "out")]
        assert main(["build", str(review(tmp_path, GOOD)), *words]) == 2
        message = capsys.readouterr().err
        assert "there is no output 'decks'" in message
        assert "captions_vtt" in message
        assert not (tmp_path / "out").exists()

    def test_a_pace_of_ones_own(self, tmp_path: Path) -> None:
        """Words take longer at a slower pace, pauses do not: length = words / pace + pauses."""
        file = str(review(tmp_path, GOOD))
        total = {}
        for pace in (75, 100, 150):
            to = tmp_path / str(pace)
            assert main(["build", file, "--to", str(to), "--wpm", str(pace)]) == 0
            found = json.loads((to / "beds" / "lesson.json").read_text("utf-8"))
            total[pace] = found["total_ms"]
            sentences = 4 * len(found["beats"])
        assert total[75] > total[100] > total[150] > 0
        # 1/75 - 1/150 is twice 1/100 - 1/150; each sentence is rounded to a millisecond.
        twice = 2 * (total[100] - total[150])
        assert abs((total[75] - total[150]) - twice) <= 3 * sentences


@pytest.mark.parametrize(
    "environment",
    [
        {"PYTHONIOENCODING": "ascii", "PYTHONUTF8": "0"},
        {"LANG": "C", "LC_ALL": "C", "PYTHONCOERCECLOCALE": "0", "PYTHONUTF8": "0"},
    ],
)
def test_output_is_utf8_whatever_the_terminal(tmp_path: Path, environment: dict[str, str]) -> None:
    garden = "  - {id: hose, stem: 'Zoë: 5 1/4 − 2 5/6', boxes: [number, mètres]}\n"
    pans = "  - {id: pans, stem: Mia has 3 pots and 2 pans. How many pans?, boxes: [number]}\n"
    file = review(tmp_path, garden, pans)
    ended = narrate("solve", file, "--json", cwd=tmp_path, **environment)
    assert ended.returncode == 3, ended.stderr
    rows = [json.loads(line) for line in ended.stdout.decode("utf-8").splitlines()]
    assert rows[0]["unit"] == "mètres"
    assert "−" in rows[0]["steps"][0]["shows"]
    told = narrate("build", file, cwd=tmp_path, **environment)
    assert told.returncode == 3
    assert "say “How many pans?” in plainer words" in told.stderr.decode("utf-8")
    assert "Zoë" in (tmp_path / "out" / "beds" / "script.html").read_text("utf-8")


def test_a_strip_that_does_not_serve_is_drawn_again_where_work_is_carried_over(
    tmp_path: Path,
) -> None:
    """Part B re-cuts the strip although the equal fractions are on the board from part A."""
    file = tmp_path / "strip.yaml"
    file.write_text(
        "items:\n"
        "  - id: a\n"
        "    stimulus:\n"
        "      text: One bed got 1/2 kilogram and the other got 1/5 kilogram.\n"
        "      diagram: {strip: {wholes: 2, parts: 5}}\n"
        "    parts:\n"
        "      - {ask: How many kilograms is that in all?, model: 1/2 + 1/5,"
        " boxes: [numerator, denominator]}\n"
        "      - {ask: How many more did the first bed get?, model: 1/2 - 1/5,"
        " boxes: [numerator, denominator]}\n",
        encoding="utf-8",
    )
    assert main(["build", str(file), "--to", str(tmp_path / "out")]) == 0


def test_a_faulty_template_is_told_with_its_place(tmp_path: Path, capsys: Captured) -> None:
    """A teacher's own template that cannot be read is one line, not a traceback."""
    folder = tmp_path / "own" / "en"
    folder.mkdir(parents=True)
    (folder / "try.j2").write_text("{# routine #}\nPause {{ here\n", encoding="utf-8")
    file = tmp_path / "sum.yaml"
    file.write_text(
        "items:\n  - {id: a, stem: 1/4 + 1/4, boxes: [numerator, denominator]}\n", encoding="utf-8"
    )
    args = ["build", str(file), "--to", str(tmp_path / "out"), "--templates", str(folder.parent)]
    assert main(args) == 2
    assert "try.j2" in capsys.readouterr().err


TWO_PARTS = """\
  - id: two
    label: Question 7
    stimulus: {text: One bed got 3/4 kilogram and the other got 1/8 kilogram.}
    parts:
      - {ask: How many kilograms is that in all?, model: 3/4 + 1/8, boxes: [numerator, denominator]}
      - {ask: How much more is the first?, model: 3/4 - 1/8, boxes: [numerator, denominator]}
"""


def slides_in(folder: Path) -> list[Any]:
    return list(Presentation(str(folder / "deck.pptx")).slides)


def read_lesson(folder: Path) -> dict[str, Any]:
    found = json.loads((folder / "lesson.json").read_text("utf-8"))
    assert isinstance(found, dict)
    return found


class TestOnly:
    """One item or part by itself, in a folder of its own; the rest is left as it is."""

    def build(self, folder: Path, *words: str) -> int:
        file = review(folder, GOOD, TWO_PARTS)
        return main(["build", str(file), "--to", str(folder), *words])

    def test_a_part(self, tmp_path: Path) -> None:
        assert self.build(tmp_path) == 0
        before = {path.name: path.read_bytes() for path in (tmp_path / "beds").iterdir()}
        assert self.build(tmp_path, "--only", "two.2") == 0
        own = tmp_path / "beds" / "only" / "two.2"
        assert {path.name for path in own.iterdir()} == FILES - {"lesson.built"}
        told = {(beat["item"], beat["part"]) for beat in read_lesson(own)["beats"]}
        assert told == {(None, None), ("two", 2)}
        after = {p.name: p.read_bytes() for p in (tmp_path / "beds").iterdir() if p.is_file()}
        assert after == before

    def test_a_part_by_itself_tells_all_that_it_needs(self, tmp_path: Path) -> None:
        """Its letter stays, and what the parts share is read with it."""
        assert self.build(tmp_path, "--only", "two.2") == 0
        own = tmp_path / "beds" / "only" / "two.2"
        said = " ".join(beat["caption"] for beat in read_lesson(own)["beats"])
        assert "part B" in said
        assert "One bed got 3/4 kilogram" in said
        titles = [slide.shapes.title.text_frame.text for slide in slides_in(own)]
        assert "Question 7, part B" in titles

    def test_a_first_part_keeps_its_letter(self, tmp_path: Path) -> None:
        assert self.build(tmp_path, "--only", "two.1") == 0
        titles = [
            slide.shapes.title.text_frame.text
            for slide in slides_in(tmp_path / "beds" / "only" / "two.1")
        ]
        assert "Question 7, part A" in titles

    def test_an_item(self, tmp_path: Path) -> None:
        assert self.build(tmp_path, "--only", "two") == 0
        told = {b["part"] for b in read_lesson(tmp_path / "beds" / "only" / "two")["beats"]}
        assert told == {None, 1, 2}
        assert [path.name for path in (tmp_path / "beds").iterdir()] == ["only"]

    @pytest.mark.parametrize(
        ("name", "says"),
        [
            ("tow", "no item has the id 'tow'; did you mean two?"),
            ("zebra", "no item has the id 'zebra'; there are: good, two"),
            ("two.3", "two has no part '3'; it has parts 1 to 2"),
            ("good.B", "good has no part 'B'; it has one part, 1"),
            ("two.", "two has no part ''"),
        ],
    )
    def test_what_is_not_there(
        self, tmp_path: Path, capsys: Captured, name: str, says: str
    ) -> None:
        assert self.build(tmp_path, "--only", name) == 2
        assert says in capsys.readouterr().err
        assert not (tmp_path / "beds").exists()

    def test_faults_of_others_do_not_matter_but_its_own_do(self, tmp_path: Path) -> None:
        file = review(tmp_path, GOOD, FAULTY)
        words = ["build", str(file), "--to", str(tmp_path), "--only"]
        assert main([*words, "good"]) == 0
        assert main([*words, "faulty"]) == 1


class TestForms:
    """The deck by itself, flat, without its work; on a board; on a teacher's own template."""

    def build(self, folder: Path, *words: str) -> Path:
        assert main(["build", str(review(folder, GOOD)), "--to", str(folder), *words]) == 0
        return folder / "beds"

    def test_by_itself(self, tmp_path: Path) -> None:
        folder = self.build(tmp_path, "--builds", "timed")
        slides = slides_in(folder)
        turns = [slide.element.find(f"{P}transition").get("advTm") for slide in slides]
        assert sum(map(int, turns)) == read_lesson(folder)["total_ms"]
        starts = {start for slide in slides for _, start in entrances(slide)}
        assert starts <= {"afterEffect", "withEffect"}

    def test_flat(self, tmp_path: Path) -> None:
        folder = self.build(tmp_path, "--builds", "flat")
        told, slides = read_lesson(folder), slides_in(folder)
        assert told["slides"] == len(slides) > sum(len(b["builds"]) for b in told["beats"])
        script = (folder / "script.html").read_text("utf-8")
        assert f"<dt>slides</dt><dd>{len(slides)}</dd>" in script

    def test_without_work(self, tmp_path: Path) -> None:
        full, blank = tmp_path / "full", tmp_path / "blank"
        full.mkdir()
        blank.mkdir()
        whole, left = self.build(full), self.build(blank, "--blank-work")
        assert len(slides_in(whole)) == len(slides_in(left))
        names = {name for b in read_lesson(left)["beats"] for name in b["builds"]}
        assert any(name.startswith("empty line ") for name in names)
        shown = {shape.name for slide in slides_in(left) for shape in slide.shapes}
        assert names <= shown

    def test_on_a_board(self, tmp_path: Path) -> None:
        folder = self.build(tmp_path, "--dark")
        (theme,) = [
            rel.target_part.blob
            for rel in slides_in(folder)[0].slide_layout.slide_master.part.rels.values()
            if rel.reltype.endswith("/theme")
        ]
        assert DARK["paper"].encode() in theme

    def test_a_template_that_cannot_be_used_stops_all_before_it_begins(
        self, tmp_path: Path, capsys: Captured
    ) -> None:
        (tmp_path / "school.pptx").write_bytes(b"no deck")
        words = ["--to", str(tmp_path / "out"), "--theme", str(tmp_path / "school.pptx")]
        assert main(["build", str(review(tmp_path, GOOD)), *words]) == 2
        assert "school.pptx is broken or no .pptx file" in capsys.readouterr().err
        assert not (tmp_path / "out").exists()

    def test_pictures_come_in_a_folder(self, tmp_path: Path, capsys: Captured) -> None:
        folder = self.build(tmp_path, "--also", "pictures")
        names = {path.name for path in (folder / "pictures").iterdir()}
        assert {"slide-01.png", "sheet-good.1.png"} <= names
        assert str(folder / "pictures") in capsys.readouterr().err.splitlines()


def test_a_folder_of_templates_reaches_every_page(tmp_path: Path) -> None:
    own = tmp_path / "mine" / "en"
    own.mkdir(parents=True)
    labels = "script: {said: Aloud}\nrunthrough: {kind: Trial run}\ntranscript: {shown: Drawn}\n"
    (own / "labels.yaml").write_text(labels, encoding="utf-8")
    wanted = ["build", str(review(tmp_path, GOOD)), "--to", str(tmp_path / "out")]
    assert main([*wanted, "--templates", str(own.parent)]) == 0
    for name, words in (
        ("script.html", "Aloud"),
        ("runthrough.html", "Trial run"),
        ("transcript.txt", "[Drawn: "),
    ):
        assert words in (tmp_path / "out" / "beds" / name).read_text("utf-8")
