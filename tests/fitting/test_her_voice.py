"""Her own recording as what is heard: cut at the slides' times, levelled, never lost.

The recording is a voice's, so that what must be heard when is known.
"""

from __future__ import annotations

import json
import shutil
import wave
from pathlib import Path
from typing import Any

import av
import numpy as np
import pytest

from narrate.items.loading import load
from narrate.lesson.wording import Words
from narrate.pipeline import make_lesson
from narrate.voices import espeak_ng
from narrate.voices.speaking import speak
from tests.fitting.lessons import DEMO, fit
from tests.fitting.recordings import need_espeak
from tests.outputs.test_selfrun import Deck, decoded, stays
from tests.voices import meter

Captured = pytest.CaptureFixture[str]


@pytest.fixture(scope="module")
def recorded(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a short review, and it read aloud in `talk.wav` and `talk.m4a`."""
    need_espeak()
    folder = tmp_path_factory.mktemp("recorded")
    text = DEMO.read_text("utf-8")
    first = text.index("  - id: ")
    (folder / "week.yaml").write_text(text[: text.index("  - id: ", first + 1)], "utf-8")
    (review,) = load([folder / "week.yaml"]).reviews
    lesson, *_ = make_lesson(review, Words("en"))
    assert lesson
    speak(lesson, "espeak-ng", espeak_ng, 140, folder / "talk.wav", folder / "pieces")
    quieter(folder / "talk.wav")
    with wave.open(str(folder / "talk.wav")) as sound, av.open(folder / "talk.m4a", "w") as out:
        stream = out.add_stream("aac", rate=sound.getframerate(), layout="mono")
        samples = sound.readframes(sound.getnframes())
        frame = av.AudioFrame.from_ndarray(
            np.frombuffer(samples, "<i2").reshape(1, -1), format="s16", layout="mono"
        )
        frame.sample_rate = sound.getframerate()
        out.mux(stream.encode(frame))
        out.mux(stream.encode(None))
    return folder


def quieter(path: Path) -> None:
    with wave.open(str(path)) as sound:
        form, samples = sound.getparams(), sound.readframes(sound.getnframes())
    with wave.open(str(path), "wb") as sound:
        sound.setparams(form)
        sound.writeframes((np.frombuffer(samples, "<i2") // 8).astype("<i2").tobytes())


@pytest.fixture
def place(recorded: Path, tmp_path: Path) -> Path:
    shutil.copytree(recorded, tmp_path / "place")
    return tmp_path / "place"


def slides(place: Path) -> list[tuple[int, int]]:
    """The first and last ms of each slide, as `lesson.json` has them."""
    beats: list[dict[str, Any]] = json.loads((place / "out/week/lesson.json").read_text())["beats"]
    numbers = sorted({beat["slide"] for beat in beats})
    edges = [[b for b in beats if b["slide"] == number] for number in numbers]
    return [(group[0]["start_ms"], group[-1]["end_ms"]) for group in edges]


def heard(place: Path) -> tuple[Deck, list[Any]]:
    found = Deck((place / "out/week/selfrun.pptx").read_bytes())
    count = len(found.slides)
    return found, [decoded(found.zip.read(found.sound(n)))[1] for n in range(1, count + 1)]


@pytest.mark.parametrize("name", ["talk.wav", "talk.m4a"])
def test_each_slide_is_heard_as_she_said_it(place: Path, name: str) -> None:
    """A slide's sound is the recording's, from its first to its last moment, and only louder."""
    assert fit(place, "--audio", place / name, "--also", "selfrun") == 0
    rate, whole = meter.samples(place / "talk.wav")
    if name == "talk.m4a":
        whole = decoded((place / name).read_bytes())[1]
    found, sounds = heard(place)
    times = slides(place)
    assert len(times) == len(sounds) > 4
    for (start, end), slide, sound in zip(times, found.slides, sounds, strict=True):
        assert 0 <= stays(slide) - (end - start) <= 50
        hers = loudness_by_20_ms(whole[start * rate // 1000 : end * rate // 1000], rate)
        ours = loudness_by_20_ms(sound, 44_100)
        likeness = [alike(hers, ours, late) for late in range(-10, 11)]
        assert abs(int(np.argmax(likeness)) - 10) <= 1  # nowhere as alike as at the same moment
        assert max(likeness) > 0.9
    together = place / "all.wav"
    with wave.open(str(together), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(44_100)
        file.writeframes((np.concatenate(sounds) * 32767).astype("<i2").tobytes())
    assert abs(meter.loudness(together) + 16) <= 1
    assert meter.true_peak(together) <= -1
    assert meter.loudness(place / "talk.wav") < -28


def alike(hers: Any, ours: Any, late: int) -> float:
    """How alike two courses of loudness are where one is so many stretches late; 1 is the same."""
    count = min(len(hers), len(ours)) - 20
    return float(np.corrcoef(hers[10 : 10 + count], ours[10 + late : 10 + late + count])[0, 1])


def loudness_by_20_ms(samples: Any, rate: int) -> Any:
    size = rate // 50
    whole = samples[: len(samples) // size * size].reshape(-1, size)
    return np.sqrt(np.mean(whole**2, axis=1))


def test_a_corrected_table_keeps_her_voice(place: Path) -> None:
    assert fit(place, "--audio", place / "talk.wav", "--also", "selfrun") == 0
    before = (place / "out/week/selfrun.pptx").read_bytes()
    shutil.copy(place / "out/week/times.csv", place / "mine.csv")
    words = ["--times", place / "mine.csv", "--sound", place / "talk.wav"]
    assert fit(place, *words, "--also", "selfrun") == 0
    assert (place / "out/week/selfrun.pptx").read_bytes() == before


def test_without_her_voice_it_is_silent_on_her_times(place: Path, capsys: Captured) -> None:
    assert fit(place, "--audio", place / "talk.wav") == 0
    times = slides(place)
    shutil.copy(place / "out/week/times.csv", place / "mine.csv")
    assert fit(place, "--times", place / "mine.csv", "--also", "selfrun") == 0
    assert "selfrun.pptx: silent, captions shown; --sound FILE" in capsys.readouterr().err
    found = Deck((place / "out/week/selfrun.pptx").read_bytes())
    assert [stays(slide) for slide in found.slides] == [end - start for start, end in times]
    assert b"caption 1" in found.zip.read("ppt/slides/slide1.xml")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--audio", "talk.wav", "--part", "rain-barrel.1"), "holds rain-barrel.1 alone"),
        (("--audio", "talk.wav", "--spoken-by", "espeak-ng"), "fit keeps your times"),
        (("--audio", "talk.wav", "--sound", "talk.wav"), "leave out --sound"),
        (("--times", "mine.csv", "--sound", "text.wav"), "is no recording that can be read"),
        (("--times", "mine.csv", "--sound", "none.wav"), "is no recording that can be read"),
        (("--times", "mine.csv", "--sound", "short.wav"), "lasts 0:05, but the times end at"),
        (("--times", "mine.csv", "--sound", "cut.m4a"), "can be read"),
    ],
)
def test_what_does_not_fit_is_told_and_nothing_is_written(
    place: Path, words: tuple[str, ...], told: str, capsys: Captured
) -> None:
    assert fit(place, "--audio", place / "talk.wav") == 0
    shutil.copy(place / "out/week/times.csv", place / "mine.csv")
    (place / "text.wav").write_text("This is no sound at all.\n" * 40)
    (place / "cut.m4a").write_bytes((place / "talk.m4a").read_bytes()[:90_000])
    with wave.open(str(place / "short.wav"), "wb") as sound:
        sound.setparams((1, 2, 8_000, 0, "NONE", ""))
        sound.writeframes(bytes(16_000 * 5))
    before = {p: p.read_bytes() for p in (place / "out").rglob("*") if p.is_file()}
    capsys.readouterr()
    named = [str(place / word) if "." in word and word[-2] != "." else word for word in words]
    assert fit(place, *named, "--also", "selfrun") == 2
    assert told in capsys.readouterr().err
    assert {p: p.read_bytes() for p in (place / "out").rglob("*") if p.is_file()} == before


def test_without_the_library_it_is_told_what_to_install(
    place: Path, monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    monkeypatch.setitem(__import__("sys").modules, "av", None)
    assert fit(place, "--audio", place / "talk.wav", "--also", "selfrun") == 2
    assert 'pip install "narrate[audio]"' in capsys.readouterr().err
    assert not (place / "out").exists()
