"""`narrate fit` from end to end: times noted, tables corrected, decks recorded, parts spliced."""

from __future__ import annotations

import csv
import io
import json
import os
import shutil
import subprocess
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from lxml import etree
from pptx import Presentation

from narrate.cli import main
from narrate.fitting.recorded_deck import slide_times
from tests.fitting.lessons import DEMO, fit
from tests.outputs.strict_webvtt import parse_strictly

P = "{http://schemas.openxmlformats.org/presentationml/2006/main}"
FODP = """<?xml version="1.0" encoding="UTF-8"?>
<office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"
 xmlns:draw="urn:oasis:names:tc:opendocument:xmlns:drawing:1.0"
 xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0"
 xmlns:presentation="urn:oasis:names:tc:opendocument:xmlns:presentation:1.0"
 office:version="1.3" office:mimetype="application/vnd.oasis.opendocument.presentation">
<office:automatic-styles>
<style:page-layout style:name="pl"/>
<style:style style:name="d7" style:family="drawing-page"><style:drawing-page-properties
 presentation:transition-type="automatic" presentation:duration="PT7S"/></style:style>
<style:style style:name="d0" style:family="drawing-page"/>
<style:style style:name="d23" style:family="drawing-page"><style:drawing-page-properties
 presentation:transition-type="automatic" presentation:duration="PT23S"/></style:style>
</office:automatic-styles>
<office:master-styles><style:master-page style:name="m" style:page-layout-name="pl"/>
</office:master-styles>
<office:body><office:presentation>
<draw:page draw:name="a" draw:style-name="d7" draw:master-page-name="m"/>
<draw:page draw:name="b" draw:style-name="d0" draw:master-page-name="m"/>
<draw:page draw:name="c" draw:style-name="d23" draw:master-page-name="m"/>
</office:presentation></office:body></office:document>
"""
Captured = pytest.CaptureFixture[str]


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a short review and its files in `out/week/`."""
    folder = tmp_path_factory.mktemp("built")
    text = DEMO.read_text("utf-8")
    (folder / "week.yaml").write_text(text[: text.index("  - id: vegetable-soup")], "utf-8")
    assert main(["build", str(folder / "week.yaml"), "--to", str(folder / "out")]) == 0
    return folder


@pytest.fixture
def place(built: Path, tmp_path: Path) -> Path:
    shutil.copytree(built, tmp_path / "place")
    return tmp_path / "place"


def told(place: Path) -> dict[str, Any]:
    lesson: dict[str, Any] = json.loads((place / "out/week/lesson.json").read_text("utf-8"))
    return lesson


def noted(place: Path, change: Callable[[int], int]) -> list[dict[str, Any]]:
    """The times of all beats, changed, as the run-through page saves them."""
    return [
        {"id": b["id"], "start_ms": change(b["start_ms"]), "end_ms": change(b["end_ms"])}
        for b in told(place)["beats"]
    ]


def save(path: Path, beats: list[dict[str, Any]], review: str = "week") -> Path:
    path.write_text(json.dumps({"review": review, "beats": beats}), "utf-8")
    return path


def table(place: Path) -> list[dict[str, str]]:
    text = (place / "out/week/times.csv").read_text("utf-8-sig")
    return list(csv.DictReader(io.StringIO(text)))


class TestTimes:
    def test_all_files_take_the_noted_times(self, place: Path, capsys: Captured) -> None:
        deck = (place / "out/week/deck.pptx").read_bytes()
        script = (place / "out/week/script.html").read_bytes()
        beats = noted(place, lambda ms: ms * 5 // 4)
        assert fit(place, "--times", save(place / "times.json", beats)) == 0
        lesson = told(place)
        assert [
            {key: b[key] for key in ("id", "start_ms", "end_ms")} for b in lesson["beats"]
        ] == beats
        assert lesson["total_ms"] == beats[-1]["end_ms"]
        for name in ("captions.vtt", "chapters.vtt"):
            parse_strictly((place / "out/week" / name).read_text("utf-8"))
        assert (place / "out/week/script.html").read_bytes() != script
        assert (place / "out/week/deck.pptx").read_bytes() == deck
        printed = capsys.readouterr()
        assert "Question one." in printed.out
        assert "words a minute" in printed.err

    def test_the_deck_is_written_where_asked(self, place: Path) -> None:
        deck = place / "out/week/deck.pptx"
        before = deck.read_bytes()
        beats = noted(place, lambda ms: ms * 3 // 2)
        assert fit(place, "--times", save(place / "times.json", beats), "--also", "deck") == 0
        assert deck.read_bytes() != before

    def test_her_pace_is_kept_and_used(self, place: Path, capsys: Captured) -> None:
        """140 words a minute at four fifths of the pace are near 112; pauses stretch as well."""
        beats = noted(place, lambda ms: ms * 5 // 4)
        assert fit(place, "--times", save(place / "times.json", beats)) == 0
        text = (place / "voice.yaml").read_text("utf-8")
        assert text.startswith("# ")
        pace = int(text.rsplit("pace: ", 1)[1])
        assert 100 <= pace <= 114
        to = str(place / "other")
        assert main(["build", str(place), "--to", to]) == 0  # voice.yaml is no review
        mine = (place / "other/week/lesson.json").read_bytes()
        asked = ["build", str(place / "week.yaml"), "--to", to, "--wpm"]
        assert main([*asked, str(pace)]) == 0
        assert (place / "other/week/lesson.json").read_bytes() == mine
        assert main([*asked, "140"]) == 0
        assert (place / "other/week/lesson.json").read_bytes() != mine

    def test_the_table_gives_the_same_files_again(self, place: Path) -> None:
        beats = noted(place, lambda ms: 1_500 + ms * 9 // 8)
        assert fit(place, "--times", save(place / "times.json", beats)) == 0
        names = ("lesson.json", "captions.vtt", "script.html", "times.csv")
        before = [(place / "out/week" / name).read_bytes() for name in names]
        shutil.copy(place / "out/week/times.csv", place / "mine.csv")
        assert fit(place, "--times", place / "mine.csv") == 0
        assert [(place / "out/week" / name).read_bytes() for name in names] == before

    def test_a_corrected_line_moves(self, place: Path) -> None:
        """Also as some spreadsheets save it: with semicolons."""
        assert fit(place, "--times", save(place / "times.json", noted(place, lambda ms: ms))) == 0
        text = (place / "out/week/times.csv").read_text("utf-8-sig")
        rows = [next(csv.reader([line])) for line in text.splitlines()]
        rows[2][2] = str(int(rows[2][2]) + 250)
        with (place / "mine.csv").open("w", encoding="utf-8", newline="") as file:
            csv.writer(file, delimiter=";").writerows(rows)
        assert fit(place, "--times", place / "mine.csv") == 0
        assert table(place)[1]["start_ms"] == rows[2][2]

    @pytest.mark.parametrize(
        ("beats", "says"),
        [
            ("[]", ":1:1: these are no times; give the file that the run-through page saves"),
            ("{", ":1:2: "),
            ('{"review": "week", "beats": []}', ":1:29: it holds no times of beats"),
            ('{"review": "other", "beats": [{"id": "greeting", "start_ms": 0, "end_ms": 9}]}',
             ':1:12: these are the times of "other"; give those of "week"'),
            ('{"review": "week", "beats": [{"id": "greeting", "start": 0, "end_ms": 9}]}',
             ':1:49: unknown key "start"; did you mean "start_ms"?'),
            ('{"review": "week", "beats": [{"id": "greeting", "start_ms": -4, "end_ms": 9}]}',
             ':1:61: "-4" is no time; write whole milliseconds'),
            ('{"review": "week", "beats": [{"id": "greeting", "start_ms": 9, "end_ms": 4}]}',
             ":1:30: greeting ends before it starts"),
            ('{"review": "week", "beats": [{"id": "hello", "start_ms": 0, "end_ms": 4}]}',
             ":1:1: none of its beats is to be fitted"),
            ("", ":1:1: this file is empty"),
        ],
    )  # fmt: skip
    def test_faulty_times_are_told_with_their_place(
        self, place: Path, beats: str, says: str, capsys: Captured
    ) -> None:
        before = (place / "out/week/lesson.json").read_bytes()
        (place / "times.json").write_text(beats, "utf-8")
        assert fit(place, "--times", place / "times.json") == 1
        assert f"{place / 'times.json'}{says}" in capsys.readouterr().err
        assert (place / "out/week/lesson.json").read_bytes() == before

    @pytest.mark.parametrize(
        ("row", "column", "value", "says"),
        [
            (1, 2, "1,5", ':2:1: "1,5" is no time; write whole milliseconds, such as 83400'),
            (3, 2, "0", ":4:1: 0 to "),
            (2, 0, "hallo", ":1:1: greeting has not all its lines; fit anew"),
            (0, 2, "start", ":1:1: there is no column start_ms; begin with beat,line,"),
        ],
    )
    def test_a_faulty_table_is_told_with_its_line(
        self, place: Path, row: int, column: int, value: str, says: str, capsys: Captured
    ) -> None:
        assert fit(place, "--times", save(place / "times.json", noted(place, lambda ms: ms))) == 0
        capsys.readouterr()
        text = (place / "out/week/times.csv").read_text("utf-8-sig")
        rows = [next(csv.reader([line])) for line in text.splitlines()]
        rows[row][column] = value
        with (place / "mine.csv").open("w", encoding="utf-8", newline="") as file:
            csv.writer(file).writerows(rows)
        assert fit(place, "--times", place / "mine.csv") == 1
        assert f"{place / 'mine.csv'}{says}" in capsys.readouterr().err


class TestPart:
    def test_one_part_is_fitted_and_the_others_move(self, place: Path) -> None:
        assert fit(place, "--times", save(place / "times.json", noted(place, lambda ms: ms))) == 0
        before = {b["id"]: b for b in told(place)["beats"]}
        part = [b for b in noted(place, lambda ms: ms * 2) if b["id"].startswith("compost.1.")]
        assert fit(place, "--times", save(place / "p.json", part), "--part", "compost.1") == 0
        for beat in told(place)["beats"]:
            was = before[beat["id"]]
            times = 2 if beat["item"] == "compost" and beat["part"] == 1 else 1
            assert beat["end_ms"] - beat["start_ms"] == times * (was["end_ms"] - was["start_ms"])

    @pytest.mark.parametrize("part", ["soup", "compost.9", "compost.x", "compost.1.2", "."])
    def test_an_unknown_part_is_told(self, place: Path, part: str, capsys: Captured) -> None:
        times = save(place / "times.json", noted(place, lambda ms: ms))
        assert fit(place, "--times", times, "--part", part) == 2
        known = "rain-barrel.1, compost.1, compost.2, seed-trays.1"
        assert f"there is no part {part}; there are: {known}" in capsys.readouterr().err


class TestDeck:
    def recorded(self, place: Path, times: list[int | None]) -> Path:
        """The deck with slide timings, set as ECMA-376 Part 1 (19.3.1.50) writes them."""
        deck = Presentation(str(place / "out/week/deck.pptx"))
        for slide, time in zip(deck.slides, times, strict=True):
            if time is not None:
                after = slide.element.find(f"{P}clrMapOvr")
                after.addnext(etree.Element(f"{P}transition", advTm=str(time)))
        deck.save(str(place / "recorded.pptx"))
        return place / "recorded.pptx"

    def test_slides_take_their_times(self, place: Path) -> None:
        times = [20_000 + 31_000 * (n % 3) for n in range(told(place)["slides"])]
        assert fit(place, "--deck", self.recorded(place, [*times])) == 0
        beats = told(place)["beats"]
        for number, time in enumerate(times, start=1):
            own = [b for b in beats if b["slide"] == number]
            assert own[-1]["end_ms"] - own[0]["start_ms"] == time

    def test_a_slide_without_a_timing_is_told(self, place: Path, capsys: Captured) -> None:
        times: list[int | None] = [20_000] * told(place)["slides"]
        times[2] = None
        assert fit(place, "--deck", self.recorded(place, times)) == 0
        assert "slide 3 has no timing; its predicted length stays" in capsys.readouterr().err

    def test_timings_that_libreoffice_saved_are_read(self, tmp_path: Path) -> None:
        """Three slides in OpenDocument (presentation:duration), saved by LibreOffice as pptx."""
        if shutil.which("soffice") is None:
            assert not os.environ.get("CI"), "LibreOffice is not installed"
            pytest.skip("LibreOffice is not installed")
        (tmp_path / "timed.fodp").write_text(FODP, "utf-8")
        words = ["soffice", f"-env:UserInstallation={(tmp_path / 'user').as_uri()}", "--headless",
                 "--convert-to", "pptx", "--outdir", str(tmp_path),
                 str(tmp_path / "timed.fodp")]  # fmt: skip
        subprocess.run(words, check=True, capture_output=True)
        assert slide_times(tmp_path / "timed.pptx") == [7_000, None, 23_000]

    def test_a_deck_of_other_slides_is_told(self, place: Path, capsys: Captured) -> None:
        deck = Presentation()
        slide = deck.slides.add_slide(deck.slide_layouts[6])
        slide.element.append(etree.Element(f"{P}transition", advTm="5000"))
        deck.save(str(place / "other.pptx"))
        assert fit(place, "--deck", place / "other.pptx") == 2
        assert "other.pptx has 1 slides that are shown, this review" in capsys.readouterr().err

    def test_a_recorded_deck_is_never_written_over(self, place: Path, capsys: Captured) -> None:
        deck = place / "out/week/deck.pptx"
        shutil.copy(self.recorded(place, [9_000] * told(place)["slides"]), deck)
        before = deck.read_bytes()
        assert fit(place, "--deck", deck, "--also", "deck") == 2
        assert "would be written over; copy the recorded deck" in capsys.readouterr().err
        assert deck.read_bytes() == before

    def test_what_is_no_recorded_deck_is_told(self, place: Path, capsys: Captured) -> None:
        (place / "text.pptx").write_text("no deck")
        with zipfile.ZipFile(place / "zip.pptx", "w") as package:
            package.writestr("a.txt", "no deck")
        for name, says in [
            ("text.pptx", "is no deck that can be read"),
            ("zip.pptx", "is no deck that can be read"),
            ("none.pptx", "cannot be opened (no such file or directory)"),
            ("out/week/deck.pptx", "holds no slide timings"),
        ]:
            assert fit(place, "--deck", place / name) == 2
            assert f"{place / name} {says}" in capsys.readouterr().err


def test_one_source_is_needed(place: Path) -> None:
    assert fit(place) == 2
    assert fit(place, "--times", "a", "--audio", "b") == 2
