"""One loudness for all that is heard: -16 LUFS ± 1, no true peak above -1 dBTP.

The figures are the issue's; the meter is PyPI `pyloudnorm`, which has nothing in common with
ffmpeg's, by which we level.
"""

from __future__ import annotations

import random
import wave
from array import array
from pathlib import Path

import pytest

from narrate.voices import loudness, speaking
from tests.fitting.lessons import demo
from tests.voices import meter
from tests.voices.test_voices import VOICES, need


def save(path: Path, samples: array[int], rate: int = 22_050) -> Path:
    with wave.open(str(path), "wb") as sound:
        sound.setnchannels(1)
        sound.setsampwidth(2)
        sound.setframerate(rate)
        sound.writeframes(samples.tobytes())
    return path


def noise(seconds: int, size: int, rate: int = 22_050) -> array[int]:
    chance = random.Random(4)
    return array("h", (chance.randint(-size, size) for _ in range(seconds * rate)))


class TestLevel:
    @pytest.mark.parametrize("name", sorted(VOICES))
    def test_a_lesson_by_a_voice(self, name: str, tmp_path: Path) -> None:
        need(name)
        lesson = demo(1 if name == "espeak-ng" else 0)
        timeline, narration = speaking.speak(
            lesson, name, VOICES[name], 140, tmp_path / "n.wav", tmp_path / "pieces"
        )
        assert timeline.total_ms > 5_000
        assert abs(meter.loudness(narration.path) + 16) <= 1
        assert meter.true_peak(narration.path) <= -1

    @pytest.mark.parametrize("size", [60, 1_000, 8_000, 32_000])
    @pytest.mark.parametrize("rate", [8_000, 22_050, 48_000])
    def test_whatever_it_was(self, size: int, rate: int, tmp_path: Path) -> None:
        """Noise with a click in it that is far louder."""
        samples = noise(8, size, rate)
        samples[rate * 3] = 32_767
        path = save(tmp_path / "n.wav", samples, rate)
        loudness.level(path)
        assert abs(meter.loudness(path) + 16) <= 1
        assert meter.true_peak(path) <= -1
        with wave.open(str(path)) as sound:
            assert sound.getnframes() == len(samples)

    def test_nothing_moves_in_time(self, tmp_path: Path) -> None:
        """A burst stays where it was, to the millisecond."""
        samples = array("h", bytes(2 * 22_050 * 6))
        samples[22_050 * 2 : 22_050 * 3] = noise(1, 2_000)
        path = save(tmp_path / "n.wav", samples)
        loudness.level(path)
        _, levelled = meter.samples(path)
        loud = [at for at, sample in enumerate(levelled) if abs(sample) > 0.01]
        assert abs(loud[0] - 22_050 * 2) <= 22
        assert abs(loud[-1] - 22_050 * 3) <= 22

    def test_silence_stays_silent(self, tmp_path: Path) -> None:
        path = save(tmp_path / "n.wav", array("h", bytes(22_050 * 2 * 3)))
        before = path.read_bytes()
        loudness.level(path)
        assert path.read_bytes() == before

    def test_what_is_shorter_than_the_measure_is_left(self, tmp_path: Path) -> None:
        """BS.1770 measures by 400 ms; a shorter sound has no loudness."""
        path = save(tmp_path / "n.wav", noise(1, 3_000)[:2_000])
        loudness.level(path)
        with wave.open(str(path)) as sound:
            assert sound.getnframes() == 2_000

    def test_no_file_is_left_beside(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        path = save(tmp_path / "n.wav", noise(2, 3_000))

        def stop(*_: object) -> None:
            raise KeyboardInterrupt

        real = loudness.measure
        calls: list[Path] = []

        def measure(one: Path) -> float:
            calls.append(one)
            if len(calls) > 1:
                stop()
            return real(one)

        monkeypatch.setattr(loudness, "measure", measure)
        with pytest.raises(KeyboardInterrupt):
            loudness.level(path)
        assert list(tmp_path.iterdir()) == [path]
