"""Lessons that were built are taken as they are, not told again (own contract: README).

What was built, its words, pages and times, is what `lesson.json` and the deck of that build hold.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from pptx import Presentation

from narrate import pipeline
from narrate.cli import main
from tests.outputs.study import data_of
from tests.test_catch_up import beats, items, run, told, write

Captured = pytest.CaptureFixture[str]
Patch = pytest.MonkeyPatch
DAY = "2026-05-04"
PLAN = f"{DAY}:\n  beans.yaml: all\n"


@pytest.fixture
def place(tmp_path: Path) -> Path:
    """The bean week, all of one day, built in brief words; and who was away."""
    write(tmp_path, PLAN)
    build(tmp_path, "--detail", "brief")
    return tmp_path


def build(place: Path, *words: str) -> None:
    assert main(["build", str(place / "beans.yaml"), "--to", str(built(place)), *words]) == 0


def built(place: Path) -> Path:
    return place / "built"


def again(place: Path, *words: str, code: int = 0) -> Path:
    return run(place, "--built", str(built(place)), *words, code=code)


def lengths(found: list[dict[str, Any]]) -> list[int]:
    return [beat["end_ms"] - beat["start_ms"] for beat in found]


def of_items(folder: Path) -> list[dict[str, Any]]:
    return [beat for beat in beats(folder) if beat["item"]]


def no_telling(monkeypatch: Patch) -> None:
    def tell(*_: object, **__: object) -> None:
        raise AssertionError("a lesson was told that is built")

    monkeypatch.setattr(pipeline, "make_lesson", tell)


def edited(place: Path, old: str, new: str) -> None:
    path = place / "beans.yaml"
    text = path.read_text("utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), "utf-8")


class TestTakenAsBuilt:
    def test_nothing_is_told(self, place: Path, monkeypatch: Patch, capsys: Captured) -> None:
        """A brief telling is taken, though catch-up itself would tell all of it."""
        no_telling(monkeypatch)
        capsys.readouterr()
        here = of_items(again(place) / DAY)
        assert "to look at" not in capsys.readouterr().err
        there = of_items(built(place) / "beans")
        for key in ("id", "item", "part", "slide", "say", "caption", "builds", "waits"):
            assert [beat[key] for beat in here] == [beat[key] for beat in there]
        assert lengths(here) == lengths(there)

    def test_told_anew_it_is_another(self, place: Path) -> None:
        whole = of_items(run(place) / DAY)
        assert len(whole) > len(of_items(again(place) / DAY))

    def test_pages_are_those_of_the_built_deck(self, place: Path) -> None:
        """Slide by slide the same shapes at the same places."""

        def drawn(deck: Path) -> list[list[tuple[object, ...]]]:
            slides = list(Presentation(str(deck)).slides)[1:-1]
            return [
                [(s.name, s.left, s.top, s.width, s.height) for s in slide.shapes]
                for slide in slides
            ]

        there = drawn(built(place) / "beans" / "deck.pptx")
        assert len(there) > 4
        assert drawn(again(place) / DAY / "deck.pptx") == there

    def test_at_the_pace_that_it_was_built_at(self, place: Path) -> None:
        build(place, "--wpm", "90")
        slow = lengths(of_items(built(place) / "beans"))
        assert lengths(of_items(again(place) / DAY)) == slow

    def test_work_that_was_left_blank_is_there(self, place: Path) -> None:
        """The pupil's page is worked, though the teacher wrote on an empty one."""
        before = (again(place) / DAY / "deck.pptx").read_bytes()
        build(place, "--detail", "brief", "--blank-work")
        assert (again(place) / DAY / "deck.pptx").read_bytes() == before

    def test_one_item_alone_is_no_lesson_of_the_review(self, place: Path, capsys: Captured) -> None:
        shutil.rmtree(built(place))
        main(["build", str(place / "beans.yaml"), "--to", str(built(place)), "--only", "q1"])
        capsys.readouterr()
        assert items(again(place) / DAY) == ["q1", "q2", "q3", "q4"]
        assert "to look at" not in capsys.readouterr().err

    def test_a_page_asks_what_the_build_did_not(self, place: Path) -> None:
        page = again(place, "--also", "selfstudy", "--spoken-by", "nobody") / DAY
        data = data_of((page / "selfstudy.html").read_bytes())
        assert len(data["questions"]) == 4
        assert lengths(of_items(page)) == lengths(of_items(built(place) / "beans"))

    def test_pieces_of_a_build_are_found(self, place: Path) -> None:
        """Films of a part's pages are not made again: only greeting and closing are new."""
        silent = ("--also", "video", "--height", "720", "--spoken-by", "nobody")
        build(place, *silent)
        before = set((built(place) / ".pieces").rglob("*.piece"))
        made = again(place, *silent) / DAY
        new = set((built(place) / ".pieces").rglob("*.piece")) - before
        assert len(before) > 9
        assert len(new) < len(before) // 2
        assert not (made.parent / ".pieces").exists()

    def test_without_a_folder_of_builds_pieces_lie_with_what_is_written(
        self, place: Path, monkeypatch: Patch
    ) -> None:
        """The usual `out` may be missing; one that is named is there (below)."""
        silent = ("--also", "video", "--height", "720", "--spoken-by", "nobody")
        (place / "empty").mkdir()
        monkeypatch.chdir(place / "empty")
        assert (run(place, *silent) / ".pieces").is_dir()
        assert not any((place / "empty").iterdir())


class TestNoLongerTheSame:
    """What was changed since is told as it is now, and that is said once."""

    def test_an_item_that_was_edited(self, place: Path, capsys: Captured) -> None:
        edited(place, "stem: 3/4 + 1/5", "stem: 3/4 + 1/10")
        capsys.readouterr()
        out = again(place) / DAY
        assert f"q2: not as {built(place) / 'beans'} was built, so told anew" in (
            capsys.readouterr().err
        )
        now = [beat for beat in beats(out) if beat["item"] == "q2"]
        assert any("17/20" in beat["caption"] for beat in now)
        others = [b["say"] for b in of_items(out) if b["item"] in ("q3", "q4")]
        assert others == [
            b["say"] for b in beats(built(place) / "beans") if b["item"] in ("q3", "q4")
        ]

    def test_an_item_that_was_put_in(self, place: Path, capsys: Captured) -> None:
        path = place / "beans.yaml"
        path.write_text(path.read_text("utf-8") + "  - {id: q9, stem: 1/2 + 1/8, boxes: number}\n")
        capsys.readouterr()
        assert items(again(place) / DAY)[-1] == "q9"
        assert "q9: not as " in capsys.readouterr().err

    def test_a_beat_that_she_has_worded_since(self, place: Path, capsys: Captured) -> None:
        was = next(b["caption"] for b in beats(built(place) / "beans") if b["id"] == "q2.1.try")
        edit = f'q2.1.try:\n  was: "{was}"\n  say: Now you, with a strip of paper.\n'
        (place / "beans.edits.yaml").write_text(edit, "utf-8")
        capsys.readouterr()
        out = again(place) / DAY
        assert "look at: q2: not as " in capsys.readouterr().err
        (mine,) = [b for b in beats(out) if b["id"] == "q2.1.try"]
        assert mine["say"] == "Now you, with a strip of paper."

    @pytest.mark.parametrize(
        ("old", "new"),
        [
            ("review: Bean week\n", "\n\nreview: Bean week\n"),
            ("stem: 3/4 + 1/5,", "note: looked at, stem: 3/4 + 1/5,"),
            ("stem: 3/4 + 1/5,", "hold-until: 2020-01-01, stem: 3/4 + 1/5,"),
            ("stem: 1/2 + 1/3,", "counts: {A: 3, B: 9}, stem: 1/2 + 1/3,"),
        ],
    )
    def test_what_does_not_change_what_is_told(
        self, place: Path, monkeypatch: Patch, old: str, new: str
    ) -> None:
        edited(place, old, new)
        no_telling(monkeypatch)
        again(place)

    def test_nothing_was_built(self, place: Path, monkeypatch: Patch, capsys: Captured) -> None:
        """As a teacher who has built nothing: told as ever, and nothing to remark."""
        (place / "empty").mkdir()
        monkeypatch.chdir(place / "empty")
        capsys.readouterr()
        out = run(place)
        assert "to look at" not in capsys.readouterr().err
        assert not any((place / "empty").iterdir())
        assert of_items(out / DAY)


def cut(data: bytes) -> bytes:
    return data[: len(data) // 2]


def one_letter(data: bytes) -> bytes:
    at = data.index(b"Now you", data.index(b'"Lesson"')) if b"Now you" in data else len(data) // 2
    return data[:at] + bytes([data[at] ^ 1]) + data[at + 1 :]


def other_form(data: bytes) -> bytes:
    head, _, rest = data.partition(b"\n")
    return head.replace(b'"form": "', b'"form": "0') + b"\n" + rest


class TestDamaged:
    """One clear message; what is asked for is told anew, and what was built stays as it is."""

    @pytest.mark.parametrize(
        ("change", "said"),
        [
            (cut, "is damaged"),
            (one_letter, "is damaged"),
            (other_form, "is of another version of narrate"),
            (lambda data: b"", "is damaged"),
            (lambda data: b"\xff\xfe no text", "is damaged"),
            (lambda data: b"[" * 100_000, "is damaged"),
            (lambda data: b'{"sha256": 3}\n', "is damaged"),
        ],
    )
    def test_it_is_said_once(
        self, place: Path, capsys: Captured, change: Callable[[bytes], bytes], said: str
    ) -> None:
        path = built(place) / "beans" / "lesson.built"
        path.write_bytes(change(path.read_bytes()))
        kept = path.read_bytes()
        whole = items(run(place) / DAY)
        capsys.readouterr()
        assert items(again(place) / DAY) == whole
        told = [line for line in capsys.readouterr().err.splitlines() if "to look at" in line]
        assert told == [
            f"to look at: {path} {said}: beans is told anew, as it is today; build it again, or "
            "fit it again if it was fitted"
        ]
        assert path.read_bytes() == kept

    def test_one_that_is_missing(self, place: Path, capsys: Captured) -> None:
        (built(place) / "beans" / "lesson.built").unlink()
        again(place)
        assert "lesson.built cannot be opened (no such file" in capsys.readouterr().err


def test_the_totals_of_what_was_built(place: Path) -> None:
    lesson = told(again(place) / DAY)
    assert lesson["total_ms"] == sum(lengths(lesson["beats"]))


def test_a_folder_of_builds_that_is_not_there_is_wrong_use(place: Path, capsys: Captured) -> None:
    out = run(place, "--built", str(place / "nowhere"), code=2)
    assert f"there is no folder {place / 'nowhere'}" in capsys.readouterr().err
    assert not out.exists()


def test_a_build_tells_what_it_leaves_of_another_lesson(place: Path, capsys: Captured) -> None:
    build(place, "--also", "pictures", "--also", "selfstudy", "--spoken-by", "nobody")
    build(place, "--wpm", "90")
    assert "still there" not in capsys.readouterr().err  # the same words, more slowly
    edited(place, "3/4 + 1/5", "3/4 + 1/8")
    build(place)
    files, also = "pictures/, selfstudy.html", "--also pictures --also selfstudy"
    err = capsys.readouterr().err
    assert f"another lesson than the rest: {files}; delete them or build again with {also}" in err
