"""The video against the lesson, read by FFmpeg's own programs and by PyAV (LGPL FFmpeg libraries).

`ffprobe` and `ffmpeg` are Debian's, another version than PyAV carries, which wrote the file.
"""

from __future__ import annotations

import array
import json
import re
import shutil
import struct
import subprocess
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
import webvtt
from PIL import Image, ImageChops

from narrate.cli import main
from narrate.lesson.palette import DARK, LIGHT
from narrate.lesson.timeline import chapter_spans
from narrate.outputs import Options, captions_vtt, chapters, video_vtt
from narrate.outputs._canvas import Canvas
from narrate.outputs._cues import make_cues
from narrate.outputs._takes import ALIVE_MS, KEY_MS
from tests.outputs.videos import DEMO, RATE, most, pictures, probed, shoot, states, told, unlike
from tests.voices import meter

pytest.importorskip("av", reason="PyAV writes videos")
needs_ffmpeg = pytest.mark.skipif(
    not (shutil.which("ffprobe") and shutil.which("ffmpeg")), reason="ffmpeg reads videos back"
)

ALIKE = 48
"""Out of focus by 4 pixels of 1920, a frame differs from its picture by so much of 255 at the most
(20 was seen); one build more or less differs by more than 200."""

SAME = 4
"""A page drawn build by build differs from the whole raster by so much of 255 at any pixel: marks
laid over each other are rounded once more."""


@pytest.fixture(scope="module")
def film(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return shoot(tmp_path_factory.mktemp("video"), Options())


@pytest.fixture(scope="module")
def silent(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return shoot(tmp_path_factory.mktemp("silent"), Options(height=720, dark=True), voice=False)


@pytest.fixture(scope="module")
def frames(film: Path) -> list[tuple[int, bool, Image.Image]]:
    return list(pictures(film))


def of_kind(found: Any, kind: str, *, attached: bool = False) -> list[Any]:
    return [
        stream
        for stream in found["streams"]
        if stream["codec_type"] == kind and stream["disposition"]["attached_pic"] == attached
    ]


@needs_ffmpeg
class TestStreams:
    def test_picture_sound_captions_and_poster(self, film: Path) -> None:
        found = probed(film)
        (seen,) = of_kind(found, "video")
        (heard,) = of_kind(found, "audio")
        (read,) = of_kind(found, "subtitle")
        (poster,) = of_kind(found, "video", attached=True)
        assert (seen["codec_name"], seen["pix_fmt"]) == ("h264", "yuv420p")
        assert (seen["width"], seen["height"], seen["has_b_frames"]) == (1920, 1080, 0)
        assert (seen["color_space"], seen["color_range"]) == ("bt709", "tv")
        assert (heard["codec_name"], heard["profile"], heard["sample_rate"]) == (
            "aac",
            "LC",
            "48000",
        )
        assert read["codec_name"] == "mov_text"
        assert (poster["codec_name"], poster["width"]) == ("mjpeg", 1280)

    def test_titles_and_languages(self, film: Path) -> None:
        lesson, _ = told()
        found = probed(film)
        assert found["format"]["tags"]["title"] == lesson.title
        tags = [of_kind(found, kind)[0]["tags"] for kind in ("video", "audio", "subtitle")]
        assert [tag["language"] for tag in tags] == ["eng"] * 3
        assert [tag["handler_name"] for tag in tags] == [lesson.title, "Voice", "English"]

    def test_all_last_as_long_as_the_lesson(self, film: Path) -> None:
        """Within 100 ms."""
        _, timeline = told()
        found = probed(film)
        lengths = [found["format"]["duration"]]
        lengths += [of_kind(found, kind)[0]["duration"] for kind in ("video", "audio")]
        for length in lengths:
            assert abs(float(length) * 1000 - timeline.total_ms) <= 100

    def test_chapters(self, film: Path) -> None:
        expected = [
            (chapter.title, span.start, span.end) for chapter, span in chapter_spans(*told())
        ]
        found = [
            (
                c["tags"]["title"],
                round(float(c["start_time"]) * 1000),
                round(float(c["end_time"]) * 1000),
            )
            for c in probed(film)["chapters"]
        ]
        assert found == expected
        assert len(found) > 1

    def test_soft_captions_are_those_of_captions_vtt(self, film: Path, tmp_path: Path) -> None:
        """Read out by ffmpeg, both parsed by webvtt-py (PyPI)."""
        out, own = tmp_path / "out.vtt", tmp_path / "own.vtt"
        subprocess.run(["ffmpeg", "-v", "error", "-i", film, "-map", "0:s:0", out], check=True)
        with own.open("wb") as sink:
            captions_vtt.write(*told(), Options(), sink)
        read, written = webvtt.read(str(out)).captions, webvtt.read(str(own)).captions
        assert [(c.text, c.start, c.end) for c in read] == [
            (c.text, c.start, c.end) for c in written
        ]
        assert len(read) > 20

    def test_the_index_comes_before_the_media(self, film: Path) -> None:
        """ISO/IEC 14496-12: a box is its length, four letters, and what is in it."""
        names = [name for name, _ in boxes(film.read_bytes())]
        assert names.index(b"moov") < names.index(b"mdat")

    def test_the_sound_is_where_something_is_said(self, film: Path, tmp_path: Path) -> None:
        """The hum is loud in sentences; pauses, as the lesson has them, are silent (−50 dB)."""
        raw = subprocess.run(
            ["ffmpeg", "-v", "error", "-i", film, "-f", "s16le", "-ac", "1", "-ar", str(RATE), "-"],
            capture_output=True,
            check=True,
        ).stdout
        samples = array.array("h", raw)
        _, timeline = told()
        spans = [span for each in timeline.sentences.values() for span in each]
        for span in spans:
            assert loudest(samples, span.start + 50, span.end - 50) > 4_000
        pauses = [(a.end + 50, b.start - 50) for a, b in pairwise(spans)]
        assert sum(end > start for start, end in pauses) > 20
        for start, end in pauses:
            assert end <= start or loudest(samples, start, end) < 100


@needs_ffmpeg
@pytest.mark.skipif(not shutil.which("espeak-ng"), reason="espeak-ng speaks")
def test_what_is_heard_is_as_loud_as_it_should_be(tmp_path: Path) -> None:
    """-16 LUFS ± 1 and no true peak above -1 dBTP in the file itself, by PyPI pyloudnorm."""
    command = ["build", str(DEMO), "--only", "radish-patch", "--also", "video", "--height", "720"]
    assert main([*command, "--spoken-by", "espeak-ng", "--to", str(tmp_path)]) == 0
    (made,) = tmp_path.rglob("video.mp4")
    sound = tmp_path / "sound.wav"
    subprocess.run(["ffmpeg", "-v", "error", "-i", made, sound], check=True)
    assert abs(meter.loudness(sound) + 16) <= 1
    assert meter.true_peak(sound) <= -1
    captions = [made.parent / name for name in ("video.vtt", "captions.vtt")]
    assert captions[0].read_bytes() == captions[1].read_bytes()
    length = json.loads((made.parent / "lesson.json").read_text("utf-8"))["total_ms"]
    assert abs(float(probed(made)["format"]["duration"]) * 1000 - length) <= 100


def loudest(samples: array.array[int], start: int, end: int) -> int:
    return max(map(abs, samples[start * RATE // 1000 : end * RATE // 1000]))


def boxes(data: bytes) -> Iterator[tuple[bytes, int]]:
    place = 0
    while place < len(data):
        size, name = struct.unpack_from(">I4s", data, place)
        if size == 1:
            (size,) = struct.unpack_from(">Q", data, place + 8)
        yield name, size
        place += size


class TestFrames:
    def test_each_state_of_each_page_is_seen_from_its_moment_on(
        self, frames: list[tuple[int, bool, Image.Image]]
    ) -> None:
        lesson, timeline = told()
        expected = list(states(lesson, timeline, 1_080))
        assert len(expected) > 12
        ends = [start for _, _, start, _ in expected[1:]] + [timeline.total_ms]
        for (page, builds, start, picture), end in zip(expected, ends, strict=True):
            seen = [frame for time, _, frame in frames if start <= time < end]
            assert start in [time for time, _, _ in frames], f"page {page}, {builds} builds"
            for frame in (seen[0], seen[-1]):
                assert unlike(frame, picture) <= ALIKE, f"page {page}, {builds} builds"

    def test_a_build_more_or_less_would_be_seen(self) -> None:
        """The bound can fail: pictures of one page, one build apart, are far beyond it."""
        found = list(states(*told(), 1_080))
        apart = [unlike(a[3], b[3]) for a, b in pairwise(found) if a[0] == b[0]]
        assert min(apart) > 4 * ALIKE

    def test_players_can_seek(self, frames: list[tuple[int, bool, Image.Image]]) -> None:
        lesson, timeline = told()
        times = [time for time, _, _ in frames]
        keys = [time for time, key, _ in frames if key]
        gaps = [after - before for before, after in pairwise([*times, timeline.total_ms])]
        assert max(gaps) <= ALIVE_MS
        assert min(gaps) > 0
        assert {timeline.beats[page.beats[0]].start for page in lesson.pages} <= set(keys)
        assert max(after - before for before, after in pairwise(keys)) <= KEY_MS + ALIVE_MS


class TestSilent:
    def test_no_sound_and_captions_in_the_picture_alone(self, silent: Path) -> None:
        import av

        with av.open(str(silent)) as found:
            assert not found.streams.audio
            assert not found.streams.subtitles
            assert (found.streams.video[0].width, found.streams.video[0].height) == (1280, 720)

    def test_each_caption_is_there_while_it_is_read_and_above_it_the_page(
        self, silent: Path
    ) -> None:
        lesson, timeline = told()
        cues = make_cues(lesson, timeline)
        pages = list(states(lesson, timeline, 720, DARK))
        shown = [time for time, _, _ in pictures(silent)]
        assert {edge for cue in cues for edge in (cue.start, cue.end)} <= set(shown)
        foot = 720 * 4 // 5
        for time, _, frame in pictures(silent):
            page = next(picture for _, _, start, picture in reversed(pages) if start <= time)
            assert unlike(frame.crop((0, 0, 1280, foot)), page.crop((0, 0, 1280, foot))) <= ALIKE
            below = unlike(frame.crop((0, foot, 1280, 720)), page.crop((0, foot, 1280, 720)))
            read = any(cue.start <= time < cue.end for cue in cues)
            assert below > 2 * ALIKE if read else below <= ALIKE, time


class TestBesideIt:
    def test_video_vtt_is_captions_vtt_under_its_name(self, tmp_path: Path) -> None:
        made = []
        for output in (captions_vtt, video_vtt):
            with (tmp_path / output.FILE).open("wb") as sink:
                output.write(*told(), Options(), sink)
            made.append((tmp_path / output.FILE).read_bytes())
        assert made[0] == made[1]
        assert video_vtt.FILE == "video.vtt"

    @needs_ffmpeg
    def test_chapters_are_those_of_chapters_vtt(self, film: Path, tmp_path: Path) -> None:
        with (tmp_path / "chapters.vtt").open("wb") as sink:
            chapters.write(*told(), Options(), sink)
        written = webvtt.read(str(tmp_path / "chapters.vtt")).captions
        assert [c["tags"]["title"] for c in probed(film)["chapters"]] == [c.text for c in written]


class TestDrawnBuildByBuild:
    @pytest.mark.parametrize(("height", "palette"), [(1_080, LIGHT), (720, DARK)])
    def test_it_is_what_the_whole_raster_shows(self, height: int, palette: Any) -> None:
        lesson, timeline = told()
        canvas, at = None, -1
        for number, builds, _, picture in states(lesson, timeline, height, palette):
            if number != at:
                canvas, at = Canvas(lesson.pages[number], palette, height), number
            assert canvas is not None
            assert most(ImageChops.difference(canvas.show(builds), picture)) <= SAME

    def test_a_caption_goes_without_a_trace(self) -> None:
        from narrate.outputs._takes import burnt_in

        canvas = Canvas(told()[0].pages[0], LIGHT, 720)
        before = canvas.show(0).copy()
        assert ImageChops.difference(before, canvas.show(0, burnt_in(("So 3/4.",)))).getbbox()
        assert not ImageChops.difference(before, canvas.show(0)).getbbox()


def test_no_two_frames_of_a_take_share_a_moment() -> None:
    from narrate.outputs._takes import takes

    for take in takes(*told(), Options()):
        times = [frame.start for frame in take.frames()]
        assert times[0] == 0
        assert all(a < b for a, b in pairwise(times))
        assert times[-1] < take.length


def test_keys_name_all_that_is_seen() -> None:
    """Another look, size, moment or mark is another piece; another place in the video is not."""
    from dataclasses import replace

    from narrate.outputs._takes import State, takes

    (_, one, *_) = takes(*told(), Options())
    others = [
        replace(one, height=720),
        replace(one, palette=dict(DARK)),
        replace(one, length=one.length + 1),
        replace(one, states=(*one.states, State(one.length - 1, 0))),
        replace(one, page=replace(one.page, builds=one.page.builds[:-1])),
    ]
    keys = [take.key for take in (one, *others)]
    assert len(set(keys)) == len(keys)
    assert all(re.fullmatch("[0-9a-f]{64}", key) for key in keys)
