"""Recordings as files: WAV in its forms (RIFF, Microsoft 1991), others, and those that are none."""

from __future__ import annotations

import builtins
import math
import random
import struct
import time
import tracemalloc
from array import array
from pathlib import Path
from typing import Any

import pytest

from narrate.errors import WrongUse
from narrate.fitting.heard import from_sound
from narrate.fitting.sound import SILENCE_DB, levels
from narrate.lesson.timeline import predict
from tests.fitting.lessons import demo

HOUR = 3_600_000


def header(size: int, *, rate: int, channels: int = 1, bits: int = 16, kind: int = 1) -> bytes:
    step = channels * bits // 8
    form = struct.pack("<HHIIHH", kind, channels, rate, rate * step, step, bits)
    whole = min(36 + size, 2**32 - 1)
    data = b"data" + struct.pack("<I", size)
    return b"RIFF" + struct.pack("<I", whole) + b"WAVEfmt " + struct.pack("<I", 16) + form + data


def tone(rate: int, seconds: float, size: float) -> list[float]:
    return [size * math.sin(2 * math.pi * 200 * n / rate) for n in range(int(rate * seconds))]


def packed(samples: list[float], bits: int, kind: int) -> bytes:
    if kind == 3:
        return array("f" if bits == 32 else "d", samples).tobytes()
    if bits == 8:
        return bytes(round(127.5 + 127 * sample) for sample in samples)
    whole = [round(sample * (2 ** (bits - 1) - 1)) for sample in samples]
    return b"".join(number.to_bytes(bits // 8, "little", signed=True) for number in whole)


@pytest.mark.parametrize(("bits", "kind"), [(8, 1), (16, 1), (24, 1), (32, 1), (32, 3), (64, 3)])
@pytest.mark.parametrize(("rate", "channels"), [(8_000, 1), (22_050, 1), (48_000, 2)])
def test_every_form_of_wav_gives_the_same_levels(
    bits: int, kind: int, rate: int, channels: int, tmp_path: Path
) -> None:
    """A sine of half the full size has a power of 1/8: -9 dB. Then a second of silence."""
    loud = [sample for sample in tone(rate, 1.0, 0.5) for _ in range(channels)]
    data = packed(loud + [0.0] * rate * channels, bits, kind)
    path = tmp_path / "tone.wav"
    head = header(len(data), rate=rate, channels=channels, bits=bits, kind=kind)
    path.write_bytes(head + data)
    found = levels(path, 0, HOUR)
    assert len(found) == 200
    assert sum(found[:100]) / 100 == pytest.approx(10 * math.log10(1 / 8), abs=0.4)
    assert max(found[101:]) < -40
    if bits > 8:
        assert found[150] == SILENCE_DB


def test_nothing_drifts_where_a_frame_is_no_whole_number_of_samples(tmp_path: Path) -> None:
    """At 22,050 Hz 10 ms are 220.5 samples: after a minute the sound still begins on its frame."""
    rate = 22_050
    data = array("h", bytes(2 * rate * 60) + array("h", [9_000, -9_000] * rate).tobytes())
    path = tmp_path / "late.wav"
    path.write_bytes(header(len(data) * 2, rate=rate) + data.tobytes())
    found = levels(path, 0, HOUR)
    assert found[5_999] == SILENCE_DB
    assert found[6_000] > -20


def test_a_recording_that_a_crash_left_without_a_length_is_read(tmp_path: Path) -> None:
    for size in (0, 0xFFFFFFFF):
        path = tmp_path / "crashed.wav"
        path.write_bytes(header(size, rate=8_000) + array("h", [5_000, -5_000] * 8_000).tobytes())
        assert len(levels(path, 0, HOUR)) == 200


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", "talk.wav is empty"),
        (b"RIFF\x04\0\0\0WAVE", "talk.wav is a WAV file without sound in it"),
        (header(0, rate=8_000), "talk.wav holds no sound"),
        (header(4, rate=8_000, kind=85) + b"abcd", "talk.wav is a WAV file of an unusual form"),
        (header(4, rate=0) + b"abcd", "talk.wav is a WAV file of an unusual form"),
        (header(4, rate=8_000, channels=0) + b"abcd", "talk.wav is a WAV file of an unusual form"),
        (b"Hello, this is no recording at all.", "talk.wav is no recording that can be read"),
    ],
)
def test_what_is_no_recording_is_told(content: bytes, told: str, tmp_path: Path) -> None:
    if b"Hello" in content:
        pytest.importorskip("av")
    path = tmp_path / "talk.wav"
    path.write_bytes(content)
    with pytest.raises(WrongUse) as raised:
        levels(path, 0, HOUR)
    assert told in str(raised.value)


def test_a_missing_file_and_a_folder_are_told(tmp_path: Path) -> None:
    for path in (tmp_path / "none.wav", tmp_path):
        with pytest.raises(WrongUse, match="cannot be opened"):
            levels(path, 0, HOUR)


def fit(path: Path) -> str:
    lesson = demo(1)
    with pytest.raises(WrongUse) as raised:
        from_sound(lesson, predict(lesson), path)
    return str(raised.value)


def test_three_hours_are_refused_by_the_header(tmp_path: Path) -> None:
    """A sparse file of 2 GB: answered in a second, in a few megabytes."""
    path = tmp_path / "long.wav"
    size = 3 * 3_600 * 48_000 * 4
    with path.open("wb") as file:
        file.write(header(size, rate=48_000, channels=2))
        file.truncate(44 + size)
    demo(1)  # made once, and not counted
    tracemalloc.start()
    begun = time.monotonic()
    told = fit(path)
    taken = time.monotonic() - begun
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert "long.wav lasts 3:00:00, but what is to be said takes" in told
    assert taken < 2
    assert most < 5_000_000


def test_silence_is_told(tmp_path: Path) -> None:
    path = tmp_path / "silent.wav"
    seconds = predict(demo(1)).total_ms // 1_000
    path.write_bytes(header(seconds * 16_000, rate=8_000) + bytes(seconds * 16_000))
    assert fit(path) == f"{path}: no voice is heard, it is silent; check the microphone"


def test_noise_alone_is_told(tmp_path: Path) -> None:
    path = tmp_path / "noise.wav"
    seconds = predict(demo(1)).total_ms // 1_000
    chance = random.Random(2)
    noise = array("h", [round(chance.gauss(0, 2_000)) for _ in range(80_000)]).tobytes()
    data = noise * (seconds // 10 + 1)
    path.write_bytes(header(len(data), rate=8_000) + data)
    assert "no voice is heard, it is equally loud throughout" in fit(path)


def test_a_recording_of_something_short_is_told(tmp_path: Path) -> None:
    path = tmp_path / "short.wav"
    path.write_bytes(header(160_000, rate=8_000) + bytes(160_000))
    assert "short.wav lasts 0:10, but what is to be said takes" in fit(path)


def test_without_pyav_it_says_what_to_install(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = builtins.__import__

    def without(name: str, *args: Any, **kwargs: Any) -> Any:
        if name == "av":
            raise ImportError(name)
        return real(name, *args, **kwargs)

    monkeypatch.setattr(builtins, "__import__", without)
    path = tmp_path / "talk.m4a"
    path.write_bytes(b"\0\0\0\x20ftypM4A ")
    with pytest.raises(WrongUse, match=r'pip install "narrate\[audio\]"'):
        levels(path, 0, HOUR)


@pytest.mark.parametrize(("name", "codec"), [("talk.mp3", "mp3"), ("talk.m4a", "aac")])
def test_compressed_recordings_are_read(name: str, codec: str, tmp_path: Path) -> None:
    """A second of silence, one of sound, one of silence, written by PyAV (FFmpeg)."""
    av = pytest.importorskip("av")
    rate = 44_100
    sound = array("h", [round(s * 32_767) for s in tone(rate, 1.0, 0.5)]).tobytes()
    data = bytes(2 * rate) + sound + bytes(2 * rate)
    path = tmp_path / name
    with av.open(str(path), "w") as container:
        stream = container.add_stream(codec, rate=rate, layout="mono")
        frame = av.AudioFrame(format="s16", layout="mono", samples=len(data) // 2)
        frame.planes[0].update(data)
        frame.sample_rate = rate
        resampler = av.AudioResampler(
            format=stream.format, layout="mono", rate=rate, frame_size=stream.frame_size or 1_024
        )
        for piece in [*resampler.resample(frame), *resampler.resample(None)]:
            container.mux(stream.encode(piece))
        container.mux(stream.encode(None))
    found = levels(path, 0, HOUR)
    assert 295 <= len(found) <= 310
    begun = next(n for n, level in enumerate(found) if level > -20)
    assert begun == pytest.approx(100, abs=6)
    assert sum(level > -20 for level in found) == pytest.approx(100, abs=8)
