"""Voices: found where they are, said safely, cut to their speech, kept, at the pace asked for."""

from __future__ import annotations

import os
import random
import shutil
import stat
import wave
from array import array
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from narrate.errors import OutputFailed, WrongUse
from narrate.lesson import pieces
from narrate.lesson.timeline import paced_words
from narrate.voices import _engine, choose, espeak_ng, festival, find_voices, speaking
from narrate.voices._clips import Clips, Line, trimmed
from tests.fitting.lessons import demo, made, said

VOICES = {"espeak-ng": espeak_ng, "festival": festival}


def need(name: str) -> None:
    """Without the voice a test is skipped, but never on the build server."""
    if missing := VOICES[name].missing():
        assert not os.environ.get("CI"), missing
        pytest.skip(missing)


@pytest.fixture(params=sorted(VOICES))
def name(request: pytest.FixtureRequest) -> str:
    name: str = request.param
    need(name)
    return name


@pytest.fixture
def espeak() -> None:
    need("espeak-ng")


class Made:
    """A voice for tests: a sentence is a tone of 100 ms a letter between 50 ms of silence."""

    RATE = 8_000
    LANGUAGES: tuple[str, ...] = ("en",)

    def __init__(self, stops_at: str = "") -> None:
        self.said: list[str] = []
        self.stops_at = stops_at

    def missing(self) -> str:
        return ""

    def version(self) -> str:
        return "made 1"

    def say(self, text: str, language: str, wpm: int) -> bytes:
        if text == self.stops_at:
            raise KeyboardInterrupt
        self.said.append(text)
        return bytes(800) + array("h", [9_000, -9_000] * (400 * len(text))).tobytes() + bytes(800)


def chosen(name: str, language: str) -> str | None:
    found = choose(name, language)
    return found[0] if found else None


class TestChoosing:
    def test_all_are_found(self) -> None:
        assert list(find_voices()) == sorted(VOICES)

    def test_the_first_that_is_installed_speaks(self, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setattr(espeak_ng, "missing", lambda: "")
        assert chosen("", "en") == "espeak-ng"
        monkeypatch.setattr(espeak_ng, "missing", lambda: "install it")
        monkeypatch.setattr(festival, "missing", lambda: "")
        assert chosen("", "en") == "festival"
        monkeypatch.setattr(festival, "missing", lambda: "install it")
        assert choose("", "en") is None

    def test_nobody_speaks_where_that_is_asked(self) -> None:
        assert choose("nobody", "en") is None

    def test_no_voice_of_a_language(self, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setattr(espeak_ng, "missing", lambda: "")
        assert choose("", "xx") is None
        with pytest.raises(WrongUse, match="does not speak 'xx'; it speaks: en"):
            choose("espeak-ng", "xx")

    def test_an_unknown_one_is_told_with_those_there_are(self) -> None:
        with pytest.raises(
            WrongUse, match="no voice 'anna'; there are: espeak-ng, festival, nobody"
        ):
            choose("anna", "en")

    def test_one_that_is_not_installed_is_told_with_what_to_install(
        self, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        monkeypatch.setattr(shutil, "which", lambda name: None)
        with pytest.raises(WrongUse, match="cannot speak yet: install espeak-ng"):
            choose("espeak-ng", "en")


class TestSaying:
    @pytest.mark.parametrize(
        "text",
        [
            "x" * 20_000,
            " ".join(["three fourths"] * 400),
            "\x00\x01\x1b\ud800\n\r\t",
            "-f /etc/passwd",
            "$(touch here) `id` ; rm -rf / && echo",
            '") (system "touch here") ("',
            "≥ ⅔ π 🍅 مرحبا 你好 ½",
            "",
            "…",
        ],
    )
    def test_no_text_breaks_the_call(self, text: str, espeak: None) -> None:
        assert len(espeak_ng.say(text, "en", 150)) % 2 == 0

    def test_festival_takes_its_text_as_text(self, tmp_path: Path) -> None:
        need("festival")
        here = tmp_path / "here"
        said = festival.say(f'One") (system "touch {here}") (quit) ("two.', "en", 150)
        assert len(said) > festival.RATE
        assert not here.exists()

    @settings(max_examples=25)
    @given(st.text(max_size=60))
    def test_any_text_is_said_or_passed_over(self, text: str) -> None:
        need("espeak-ng")
        assert len(espeak_ng.say(text, "en", 200)) % 2 == 0

    def test_markup_is_not_obeyed(self, espeak: None) -> None:
        """SSML's break would be ten seconds of silence in it."""
        text = 'One <break time="10s"/> two.'
        samples = array("h", espeak_ng.say(text, "en", 150))
        assert longest_silence(samples, espeak_ng.RATE) < 700

    def test_phonemes_in_a_text_are_not_obeyed(self, espeak: None) -> None:
        assert "[[" not in espeak_ng.respelt("Say [[h@l'oU]] and [[[x]]] now.")

    def test_an_engine_that_hangs_is_ended(
        self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        put(tmp_path / "espeak-ng", f"echo $$ > {tmp_path}/pid; exec sleep 100")
        monkeypatch.setenv("PATH", f"{tmp_path}:{os.environ['PATH']}")
        monkeypatch.setattr(_engine, "_PATIENCE_S", 1)
        with pytest.raises(OutputFailed, match="it took more than 1 s"):
            espeak_ng.say("One.", "en", 150)
        with pytest.raises(ProcessLookupError):
            os.kill(int((tmp_path / "pid").read_text()), 0)

    @pytest.mark.parametrize(
        ("script", "why"),
        [
            ("echo it has no voice >&2; exit 3", "it has no voice"),
            ("exit 3", "it ended with 3"),
            ("exit 0", "it said nothing"),
            ("echo no sound at all, I fear", "file does not start with RIFF id"),
        ],
    )
    def test_an_engine_that_fails_is_told(
        self, script: str, why: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        put(tmp_path / "espeak-ng", script)
        monkeypatch.setenv("PATH", f"{tmp_path}:{os.environ['PATH']}")
        with pytest.raises(OutputFailed, match=f"{why}; choose another voice"):
            espeak_ng.say("One.", "en", 150)


def put(path: Path, script: str) -> None:
    path.write_text(f"#!/bin/sh\ncat >/dev/null\n{script}\n")
    path.chmod(path.stat().st_mode | stat.S_IXUSR)


def longest_silence(samples: array[int], rate: int) -> int:
    """The longest stretch below a hundredth of the loudest sample, in ms."""
    limit, longest, now = max(map(abs, samples)) // 100, 0, 0
    for sample in samples:
        now = 0 if abs(sample) > limit else now + 1
        longest = max(longest, now)
    return longest * 1000 // rate


class TestPace:
    """Words a minute are those of the sentences, without the pauses between them."""

    @pytest.mark.parametrize("wpm", [70, 110, 140, 180, 230])
    def test_it_is_the_one_asked_for(self, name: str, wpm: int) -> None:
        lines = sorted({s.say for b in demo(2).beats for s in b.sentences if len(s.say) > 30})
        chosen = random.Random(5).sample(lines, 20 if name == "espeak-ng" else 8)
        voice = VOICES[name]
        lengths = [len(trimmed(voice.say(text, "en", wpm), voice.RATE)) for text in chosen]
        seconds = sum(lengths) / 2 / voice.RATE
        assert sum(map(paced_words, chosen)) * 60 / seconds == pytest.approx(wpm, rel=0.07)


class TestClips:
    def clips(self, voice: Made, folder: Path) -> Clips:
        folder.mkdir(exist_ok=True)
        return Clips(name="made", voice=voice, language="en", folder=folder)

    def test_the_silence_around_a_sentence_is_cut_off(self, name: str) -> None:
        voice = VOICES[name]
        samples = array("h", trimmed(voice.say("Fifths and sixths.", "en", 110), voice.RATE))
        limit = max(map(abs, samples)) // 300
        edge = voice.RATE * 10 // 1000
        assert max(map(abs, samples[:edge])) > limit
        assert max(map(abs, samples[-edge:])) > limit

    def test_what_is_silent_is_nothing(self) -> None:
        assert trimmed(bytes(4_000), 8_000) == b""
        assert trimmed(b"", 8_000) == b""

    def test_equal_sentences_are_said_once_and_kept(self, tmp_path: Path) -> None:
        voice = Made()
        lines = [Line("ab", 150), Line("c", 150), Line("ab", 150)]
        self.clips(voice, tmp_path / "kept").prepare(lines)
        assert sorted(voice.said) == ["ab", "c"]
        again = Made()
        clips = self.clips(again, tmp_path / "kept")
        clips.prepare(lines)
        assert len(clips.take(lines[0])) == 2 * (1_600 + 2 * 40)  # 200 ms, 5 ms on either side
        assert again.said == []

    def test_another_pace_voice_or_version_is_said_anew(
        self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        def said(wpm: int) -> list[str]:
            voice = Made()
            self.clips(voice, tmp_path / "kept").prepare([Line("ab", wpm)])
            return voice.said

        assert said(150) == said(151) == ["ab"]
        assert said(150) == []
        monkeypatch.setattr(Made, "version", lambda self: "made 2")
        assert said(150) == ["ab"]

    def test_a_build_that_was_stopped_goes_on_where_it_was(self, tmp_path: Path) -> None:
        lines = [Line(letter * 3, 150) for letter in "abcdefgh"]
        stopped = Made(stops_at="eee")
        with pytest.raises(KeyboardInterrupt):
            self.clips(stopped, tmp_path / "kept").prepare(lines)
        assert not list((tmp_path / "kept").rglob("*.part"))
        rest = Made()
        self.clips(rest, tmp_path / "kept").prepare(lines)
        assert "eee" in rest.said
        assert sorted(rest.said + stopped.said) == [line.text for line in lines]

    @pytest.mark.parametrize("change", [Path.unlink, lambda path: path.write_bytes(b"")])
    def test_the_folder_may_go_at_any_time(
        self, change: Callable[[Path], object], tmp_path: Path
    ) -> None:
        voice, line = Made(), Line("ab", 150)
        clips = self.clips(voice, tmp_path / "kept")
        clips.prepare([line])
        whole = clips.take(line)
        (kept,) = (tmp_path / "kept").rglob("*.piece")
        change(kept)
        assert clips.take(line) == whole
        shutil.rmtree(tmp_path / "kept")
        assert clips.take(line) == whole


class TestSpeaking:
    def test_spans_are_speech_and_pauses_are_as_written(self, tmp_path: Path) -> None:
        lesson = made((said("ab", 700), said("abc", 300)), (said("a", 2_000),))
        timeline, narration = speaking.speak(
            lesson, "made", Made(), 150, tmp_path / "n.wav", tmp_path / "pieces"
        )
        spans = [span for spans in timeline.sentences.values() for span in spans]
        assert [span.length for span in spans] == [210, 310, 110]  # 5 ms on either side
        assert [b.start - a.end for a, b in pairwise(spans)] == [700, 300]
        assert timeline.total_ms == 210 + 700 + 310 + 300 + 110 + 2_000
        with wave.open(str(narration.path)) as sound:
            assert sound.getnframes() == timeline.total_ms * Made.RATE // 1000
        for span in spans:
            heard = array("h", narration.cut(span))
            assert any(heard[: Made.RATE // 100])
            assert any(heard[-Made.RATE // 100 :])
        assert not any(array("h", narration.cut(type(spans[0])(spans[0].end, spans[1].start))))

    def test_a_folder_that_cannot_be_made_is_done_without(self, tmp_path: Path) -> None:
        (tmp_path / "file").write_text("no folder")
        voice = Made()
        timeline, _ = speaking.speak(
            made((said("a"), said("a"))), "made", voice, 150, tmp_path / "n.wav", tmp_path / "file"
        )
        assert voice.said == ["a"]
        assert timeline.total_ms == 2 * (110 + 500)

    def test_a_full_disk_keeps_nothing_and_says_all(
        self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        def full(folder: Path, key: str, write: object) -> None:
            raise OSError(28, "No space left on device")

        monkeypatch.setattr(pieces, "make", full)
        timeline, _ = speaking.speak(
            made((said("ab"),)), "made", Made(), 150, tmp_path / "n.wav", tmp_path
        )
        assert timeline.total_ms == 710
