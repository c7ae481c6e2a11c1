"""selfrun.pptx: runs by itself, is heard or else read, and no click moves it.

Read back by python-pptx, PyAV (the sounds), openxml-audit (the schema) and LibreOffice.
"""

from __future__ import annotations

import io
import re
import wave
import zipfile
from array import array
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

import av
import numpy as np
import pytest
from lxml import etree
from openxml_audit import validate_pptx

from narrate.cli import main
from narrate.lesson.lesson import Lesson, Span, Timeline
from narrate.lesson.marks import PAGE_HEIGHT, PAGE_WIDTH
from narrate.lesson.narration import Narration
from narrate.lesson.timeline import predict
from narrate.outputs import USUAL, Options, captions_vtt, deck, selfrun
from narrate.outputs._cues import make_cues
from narrate.outputs._running import running
from tests.outputs import libreoffice
from tests.outputs.libreoffice import ANIM, DRAW, SHOW, SMIL
from tests.outputs.samples_deck import sample
from tests.outputs.test_deck_plays import demo

P = "{http://schemas.openxmlformats.org/presentationml/2006/main}"
A = "{http://schemas.openxmlformats.org/drawingml/2006/main}"
R = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}"
RATE = 22_050
LOWEST_FIFTH = PAGE_HEIGHT * 4 // 5


def written(lesson: Lesson, timeline: Timeline, options: Options) -> bytes:
    sink = io.BytesIO()
    selfrun.write(lesson, timeline, options, sink)
    return sink.getvalue()


def uneven(lesson: Lesson) -> Timeline:
    """Beats of lengths that are no whole frames of sound."""
    spans, now = {}, 0
    for number, beat in enumerate(lesson.beats):
        spans[beat.id] = Span(now, now := now + 3_017 + 411 * number)
    return Timeline(
        beats=spans,
        sentences={beat.id: _shared(spans[beat.id], len(beat.sentences)) for beat in lesson.beats},
    )


def _shared(span: Span, count: int) -> tuple[Span, ...]:
    each = span.length // count
    return tuple(
        Span(span.start + n * each, span.start + (n + 1) * each - 700) for n in range(count)
    )


def humming(path: Path, timeline: Timeline) -> Narration:
    """Each sentence a hum with a pitch of its own, silence between them."""
    samples = np.zeros(timeline.total_ms * RATE // 1000)
    spans = [span for spans in timeline.sentences.values() for span in spans]
    for number, span in enumerate(spans):
        first, last = (edge * RATE // 1000 for edge in (span.start, span.end))
        wave_ = np.sin(np.arange(last - first) * 2 * np.pi * (300 + 60 * number) / RATE)
        samples[first:last] = 9_000 * wave_
    with wave.open(str(path), "wb") as sound:
        sound.setnchannels(1)
        sound.setsampwidth(2)
        sound.setframerate(RATE)
        sound.writeframes(samples.astype("<i2").tobytes())
    return Narration(path=path, voice="made")


class Deck:
    """A deck, part by part."""

    def __init__(self, data: bytes) -> None:
        self.zip = zipfile.ZipFile(io.BytesIO(data))

    def part(self, name: str) -> Any:
        return etree.fromstring(self.zip.read(name))

    @property
    def slides(self) -> list[Any]:
        count = sum(bool(re.match(r"ppt/slides/slide\d+", n)) for n in self.zip.namelist())
        return [self.part(f"ppt/slides/slide{n}.xml") for n in range(1, count + 1)]

    def relations(self, slide: int) -> dict[str, tuple[str, str]]:
        root = self.part(f"ppt/slides/_rels/slide{slide}.xml.rels")
        return {each.get("Id"): (each.get("Type"), each.get("Target")) for each in root}

    def sound(self, slide: int) -> str:
        """The part of a slide's sound, by both its relationships."""
        found = {
            kind.rsplit("/", 1)[1]: target.replace("../", "ppt/")
            for kind, target in self.relations(slide).values()
            if kind.endswith(("/audio", "/media"))
        }
        assert found["audio"] == found["media"]
        return found["audio"]


def stays(slide: Any) -> int:
    turn = slide.find(f"{P}transition")
    assert turn.get("advClick") == "0"
    return int(turn.get("advTm"))


def decoded(data: bytes) -> tuple[float, Any]:
    """A sound's length in ms as its container says it, and its samples."""
    with av.open(io.BytesIO(data), "r") as container:
        assert container.duration is not None
        pieces = [frame.to_ndarray()[0] for frame in container.decode(audio=0)]
        return container.duration / 1000, np.concatenate(pieces)


@pytest.fixture(scope="module")
def lesson() -> Lesson:
    return sample()


@pytest.fixture(scope="module")
def heard(tmp_path_factory: pytest.TempPathFactory, lesson: Lesson) -> tuple[Narration, bytes]:
    timeline = uneven(lesson)
    narration = humming(tmp_path_factory.mktemp("sound") / "n.wav", timeline)
    return narration, written(lesson, timeline, replace(USUAL, narration=narration, loop=True))


@pytest.fixture(scope="module")
def folder(
    tmp_path_factory: pytest.TempPathFactory, lesson: Lesson, heard: tuple[Narration, bytes]
) -> Path:
    """Decks that are heard and silent, of the sample and of the demo, as .pptx and .odp."""
    folder = tmp_path_factory.mktemp("selfrun")
    (folder / "heard.pptx").write_bytes(heard[1])
    (folder / "silent.pptx").write_bytes(written(lesson, uneven(lesson), USUAL))
    (folder / "demo.pptx").write_bytes(written(demo(), predict(demo()), USUAL))
    libreoffice.convert(folder, "odp", "heard.pptx", "silent.pptx", "demo.pptx")
    return folder


class TestHeard:
    def test_slides_stay_for_the_lessons_times_and_their_sounds(
        self, lesson: Lesson, heard: tuple[Narration, bytes]
    ) -> None:
        found = Deck(heard[1])
        for number, (page, slide) in enumerate(zip(lesson.pages, found.slides, strict=True), 1):
            beats = [uneven(lesson).beats[name] for name in page.beats]
            length, _ = decoded(found.zip.read(found.sound(number)))
            assert stays(slide) == beats[-1].end - beats[0].start
            assert stays(slide) - 150 < length <= stays(slide)

    def test_sounds_are_cut_at_the_slides_times(
        self, lesson: Lesson, heard: tuple[Narration, bytes]
    ) -> None:
        """Decoded, each is what the whole has from the slide's first to its last millisecond."""
        found = Deck(heard[1])
        for number, page in enumerate(lesson.pages, 1):
            beats = [uneven(lesson).beats[name] for name in page.beats]
            cut = heard[0].cut(Span(beats[0].start, beats[-1].end))
            wanted = np.array(array("h", cut)) / 32768
            _, samples = decoded(found.zip.read(found.sound(number)))
            at = [np.flatnonzero(np.abs(each) > 0.1)[[0, -1]] for each in (wanted, samples)]
            assert np.max(np.abs(at[0] - at[1])) <= RATE * 3 // 1000
            size = min(len(wanted), len(samples))
            assert np.corrcoef(wanted[:size], samples[:size])[0, 1] > 0.98

    def test_a_slide_that_is_filled_to_its_end_stays_until_its_sound_has_ended(
        self, lesson: Lesson, tmp_path: Path
    ) -> None:
        timeline = uneven(lesson)
        full = Timeline(
            beats=timeline.beats, sentences={n: (s,) for n, s in timeline.beats.items()}
        )
        narration = humming(tmp_path / "n.wav", full)
        found = Deck(written(lesson, full, replace(USUAL, narration=narration)))
        for number, slide in enumerate(found.slides, 1):
            length, _ = decoded(found.zip.read(found.sound(number)))
            assert length <= stays(slide) < length + 2

    def test_a_slide_without_a_word_has_no_sound(self, lesson: Lesson, tmp_path: Path) -> None:
        timeline = uneven(lesson)
        last = lesson.pages[-1].beats[0]
        still = Timeline(beats=timeline.beats, sentences={**timeline.sentences, last: ()})
        narration = humming(tmp_path / "n.wav", still)
        found = Deck(written(lesson, timeline, replace(USUAL, narration=narration)))
        assert "narration" in etree.tostring(found.slides[0]).decode()
        assert "narration" not in etree.tostring(found.slides[-1]).decode()

    def test_equal_sounds_are_held_once_and_typed(self, lesson: Lesson, tmp_path: Path) -> None:
        beats = {b.id: Span(n * 4_000, (n + 1) * 4_000) for n, b in enumerate(lesson.beats)}
        timeline = Timeline(
            beats=beats, sentences={n: (Span(s.start, s.end - 500),) for n, s in beats.items()}
        )
        path = humming(tmp_path / "n.wav", timeline).path
        with wave.open(str(path)) as sound:
            form, first = sound.getparams(), sound.readframes(4 * RATE)
        with wave.open(str(path), "wb") as sound:
            sound.setparams(form)
            sound.writeframes(first * len(beats))
        found = Deck(written(lesson, timeline, replace(USUAL, narration=Narration(path=path))))
        assert found.sound(1) == found.sound(4) != found.sound(2)
        assert len([n for n in found.zip.namelist() if n.endswith(".m4a")]) == 3
        types = found.part("[Content_Types].xml")
        known = {each.get("Extension"): each.get("ContentType") for each in types}
        assert (known["m4a"], known["png"]) == ("audio/mp4", "image/png")

    def test_nothing_of_it_is_seen(self, heard: tuple[Narration, bytes]) -> None:
        """Its picture lies beside the slide, is empty, and is hidden while it is silent."""
        for slide in Deck(heard[1]).slides:
            (picture,) = slide.iter(f"{P}pic")
            off, size = picture.find(f".//{A}off"), picture.find(f".//{A}ext[@cx]")
            assert int(off.get("x")) + int(size.get("cx")) <= 0
            (node,) = slide.iter(f"{P}cMediaNode")
            assert node.get("showWhenStopped") == "0"
            assert node.getparent().get("isNarration") == "1"

    def test_without_the_library_sounds_are_wav(
        self, lesson: Lesson, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        timeline = uneven(lesson)
        narration = humming(tmp_path / "n.wav", timeline)
        monkeypatch.setitem(__import__("sys").modules, "av", None)
        found = Deck(written(lesson, timeline, replace(USUAL, narration=narration)))
        for number, (page, slide) in enumerate(zip(lesson.pages, found.slides, strict=True), 1):
            beats = [timeline.beats[name] for name in page.beats]
            with wave.open(io.BytesIO(found.zip.read(found.sound(number)))) as sound:
                cut = narration.cut(Span(beats[0].start, beats[-1].end))
                assert sound.readframes(sound.getnframes()) == cut
            assert 0 <= stays(slide) - (beats[-1].end - beats[0].start) <= 1  # ms, rounded up


class TestSilent:
    def test_the_captions_are_those_of_the_file(self, lesson: Lesson) -> None:
        """Text and times, slide by slide: as in captions.vtt."""
        timeline = uneven(lesson)
        sink = io.BytesIO()
        captions_vtt.write(lesson, timeline, USUAL, sink)
        wanted = re.findall(r"(\S+) --> (\S+)\n(.*?)\n\n", sink.getvalue().decode() + "\n", re.S)
        seen = []
        for clock, page in zip(running(lesson, timeline, USUAL).clocks, lesson.pages, strict=True):
            start = timeline.beats[page.beats[0]].start
            for each in clock.passing:
                (words,) = (mark for mark in each.group.marks if hasattr(mark, "lines"))
                times = (vtt(start + each.start), vtt(start + each.end))
                seen.append((*times, "\n".join(words.lines).replace("&", "&amp;")))
        assert seen == wanted

    def test_each_comes_and_goes_in_its_time(self, lesson: Lesson, folder: Path) -> None:
        """As LibreOffice reads it: an appearance and a disappearance for each cue."""
        timeline = uneven(lesson)
        _, pages = libreoffice.slides(folder / "silent.odp")
        for page, drawn in zip(lesson.pages, pages, strict=True):
            start, end = timeline.beats[page.beats[0]].start, timeline.beats[page.beats[-1]].end
            cues = [c for c in make_cues(lesson, timeline) if start <= c.start < end]
            wanted = [
                (f"caption {number}", kind, at - start)
                for number, cue in enumerate(cues, 1)
                for kind, at in (("entrance", cue.start), ("exit", cue.end))
            ]
            assert cues
            assert [e for e in effects(drawn) if e[0].startswith("caption")] == wanted

    def test_captions_lie_in_the_lowest_fifth_and_all_else_above(self) -> None:
        """The lowest fifth is kept clear (trade habit, no source)."""
        lesson = demo()
        shown = running(lesson, predict(lesson), USUAL)
        for clock, page in zip(shown.clocks, lesson.pages, strict=True):
            for each in clock.passing:
                for mark in each.group.marks:
                    assert mark.y >= LOWEST_FIFTH  # type: ignore[union-attr]
                    assert mark.y + mark.height <= PAGE_HEIGHT  # type: ignore[union-attr]
                    assert mark.x + mark.width <= PAGE_WIDTH  # type: ignore[union-attr]
            for group in (*page.base, *(build.group for build in page.builds)):
                assert max(bottom(mark) for mark in group.marks) <= LOWEST_FIFTH

    def test_the_same_lesson_gives_the_same_bytes(self, lesson: Lesson) -> None:
        timeline = uneven(lesson)
        assert written(lesson, timeline, USUAL) == written(lesson, timeline, USUAL)


def vtt(ms: int) -> str:
    return f"{ms // 3_600_000:02}:{ms // 60_000 % 60:02}:{ms // 1000 % 60:02}.{ms % 1000:03}"


def bottom(mark: Any) -> int:
    if hasattr(mark, "points"):
        return max(int(y) for _, y in mark.points)
    return int(max(mark.y1, mark.y2) if hasattr(mark, "y1") else mark.y + mark.height)


def effects(page: Any) -> Iterator[tuple[str, str, int]]:
    """The entrances and exits of a slide as LibreOffice read them: shape, class, delay in ms."""
    names = {shape.get(libreoffice.XML_ID): shape.get(f"{DRAW}name") for shape in page.iter()}
    for effect in page.iter(f"{ANIM}par"):
        kind = effect.get(f"{SHOW}preset-class")
        if kind in ("entrance", "exit"):
            (target,) = {
                e.get(f"{SMIL}targetElement") for e in effect if e.get(f"{SMIL}targetElement")
            }
            begin = effect.get(f"{SMIL}begin", "0s").removesuffix("s")
            yield names[target] or "", kind, round(float(begin) * 1000)


class TestAll:
    @pytest.mark.parametrize("name", ["heard", "silent", "demo"])
    def test_the_audit_finds_nothing(self, folder: Path, name: str) -> None:
        errors = validate_pptx(str(folder / f"{name}.pptx")).errors
        assert [str(error) for error in errors] == []

    @pytest.mark.parametrize("name", ["heard", "silent", "demo"])
    def test_no_click_moves_anything(self, folder: Path, name: str) -> None:
        root, pages = libreoffice.slides(folder / f"{name}.odp")
        triggers = {e.get(f"{SHOW}node-type") for p in pages for e in p.iter(f"{ANIM}par")}
        assert "on-click" not in triggers
        assert {"after-previous", "with-previous"} & triggers
        for page in pages:
            assert libreoffice.turns(root, page)[0] == "automatic"

    @pytest.mark.parametrize("name", ["heard", "silent"])
    def test_builds_come_with_their_beats(self, folder: Path, name: str, lesson: Lesson) -> None:
        timeline = uneven(lesson)
        _, pages = libreoffice.slides(folder / f"{name}.odp")
        for page, drawn in zip(lesson.pages, pages, strict=True):
            start = timeline.beats[page.beats[0]].start
            wanted = [
                (b.group.name, "entrance", timeline.beats[b.beat].start - start)
                for b in page.builds
            ]
            assert [e for e in effects(drawn) if not e[0].startswith("caption")] == wanted

    def test_sounds_are_read_and_begin_with_their_slides(self, folder: Path) -> None:
        _, pages = libreoffice.slides(folder / "heard.odp")
        held = zipfile.ZipFile(folder / "heard.odp").namelist()
        for page in pages:
            (sound,) = page.iter(f"{DRAW}plugin")
            assert sound.get("{http://www.w3.org/1999/xlink}href") in held
            (command,) = page.iter(f"{ANIM}command")
            assert command.get(f"{ANIM}command") == "play"
            assert command.getparent().get(f"{SMIL}begin") in (None, "0s")
            shape = sound.getparent()
            assert command.get(f"{SMIL}targetElement") == shape.get(libreoffice.XML_ID)

    def test_the_show_runs_by_its_times_and_loops_where_asked(
        self, lesson: Lesson, heard: tuple[Narration, bytes]
    ) -> None:
        """ECMA-376 Part 1, 19.2.1.30: showPr."""
        for data, loops in ((heard[1], "1"), (written(lesson, uneven(lesson), USUAL), None)):
            (show,) = Deck(data).part("ppt/presProps.xml").findall(f"{P}showPr")
            assert (show.get("useTimings"), show.get("showNarration")) == ("1", "1")
            assert show.get("loop") == loops
            assert [each.tag for each in show] == [f"{P}present", f"{P}sldAll"]

    def test_notes_are_those_of_the_deck(
        self, lesson: Lesson, heard: tuple[Narration, bytes]
    ) -> None:
        sink = io.BytesIO()
        deck.write(lesson, uneven(lesson), USUAL, sink)
        usual, found = zipfile.ZipFile(sink), zipfile.ZipFile(io.BytesIO(heard[1]))
        names = [name for name in usual.namelist() if "notesSlide" in name]
        assert len(names) == 2 * len(lesson.pages)
        assert all(usual.read(name) == found.read(name) for name in names)


class TestCommand:
    REVIEW = str(Path(__file__).resolve().parents[2] / "problems" / "garden-week.yaml")

    def build(self, tmp_path: Path, *words: str) -> int:
        place = ["--to", str(tmp_path / "out"), "--only", "rain-barrel", "--also", "selfrun"]
        return main(["build", self.REVIEW, *place, *words])

    def test_nobody_speaks(self, tmp_path: Path) -> None:
        assert self.build(tmp_path, "--spoken-by", "nobody", "--loop") == 0
        (found,) = tmp_path.rglob("selfrun.pptx")
        shown = Deck(found.read_bytes())
        assert b'loop="1"' in shown.zip.read("ppt/presProps.xml")
        assert not [n for n in shown.zip.namelist() if n.endswith((".m4a", ".wav"))]

    def test_an_unknown_voice_ends_it_before_anything_is_written(
        self, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        assert self.build(tmp_path, "--spoken-by", "anna") == 2
        assert "there is no voice 'anna'; there are: " in capsys.readouterr().err
        assert not [path for path in tmp_path.rglob("*") if path.is_file()]
