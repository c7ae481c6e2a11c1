"""Recordings made by espeak-ng whose true times are known: each line is spoken on its own.

The silence around a line is cut off, and lines are put one after another with pauses of known
length, so every boundary is known to a few milliseconds. Breaths are bursts of noise in a pause.
"""

from __future__ import annotations

import os
import random
import shutil
import subprocess
import tempfile
import wave
from array import array
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import lru_cache
from itertools import cycle
from operator import add
from pathlib import Path

import pytest

RATE = 22_050
FLOOR_DB, BREATH_DB, LEAN = -55, -34, 0.6
"""Below the loudest sample that a file can hold; espeak-ng's speech lies about -17 dB."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """A line as it is to be recorded: which of the script, and the silence after it in ms."""

    line: int
    pause: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Recording:
    """Samples, and for each line said its number in the script, start and end in ms."""

    samples: array[int]
    truth: tuple[tuple[int, int, int], ...]

    def save(self, path: Path) -> Path:
        with wave.open(str(path), "wb") as file:
            file.setnchannels(1)
            file.setsampwidth(2)
            file.setframerate(RATE)
            file.writeframes(self.samples.tobytes())
        return path


def need_espeak() -> None:
    if shutil.which("espeak-ng") is None:
        assert not os.environ.get("CI"), "espeak-ng is not installed"
        pytest.skip("espeak-ng is not installed")


def speak(lines: Sequence[str], voice: str, speed: int) -> list[array[int]]:
    """Each line as samples, the silence around it cut off."""
    with ThreadPoolExecutor(2) as pool:
        return list(pool.map(lambda line: _spoken(line, voice, speed), lines))


@lru_cache(maxsize=2_000)
def _spoken(line: str, voice: str, speed: int) -> array[int]:
    with tempfile.TemporaryDirectory() as folder:
        wav = Path(folder) / "line.wav"
        words = ["espeak-ng", "-v", voice, "-s", str(speed), "-w", str(wav), line]
        subprocess.run(words, check=True)
        with wave.open(str(wav)) as sound:
            assert sound.getframerate() == RATE
            samples: array[int] = array("h", sound.readframes(sound.getnframes()))
    samples = array("h", (sample * 7 // 10 for sample in samples))  # room for the noise
    loud = [at for at, sample in enumerate(samples) if abs(sample) > 200]
    return samples[loud[0] : loud[-1] + 1]


def pauses(script: Sequence[int], seed: int) -> list[int]:
    """The pauses of a script in ms, as someone keeps them: 0.4 to 1.3 times, at least 0.25 s."""
    chance = random.Random(seed)
    return [max(250, round(pause * chance.uniform(0.4, 1.3))) for pause in script]


def record(spoken: Sequence[array[int]], order: Sequence[Said], *, breaths: float = 0.5,
           lead: int = 800, seed: int = 1) -> Recording:  # fmt: skip
    """Puts spoken lines together in this order, over a noise floor, with breaths in some pauses."""
    chance = random.Random(seed)
    samples: array[int] = array("h", bytes(2 * _count(lead)))
    truth = []
    for said in order:
        start = len(samples)
        samples.extend(spoken[said.line])
        truth.append((said.line, _ms(start), _ms(len(samples))))
        silence: array[int] = array("h", bytes(2 * _count(said.pause)))
        if chance.random() < breaths:
            _breathe(silence, chance)
        samples.extend(silence)
    floor = cycle(_noise(FLOOR_DB, RATE * 2, random.Random(seed + 1)))
    return Recording(samples=array("h", map(add, samples, floor)), truth=tuple(truth))


def _breathe(silence: array[int], chance: random.Random) -> None:
    """A breath of 120 to 400 ms just before the next line, swelling and falling."""
    length = min(_count(chance.randint(120, 400)), len(silence) - _count(60))
    if length <= 0:
        return
    breath = _noise(BREATH_DB, length, chance)
    at = len(silence) - length - _count(chance.randint(10, 50))
    for place, sample in enumerate(breath):
        share = min(place, length - place) / (length / 2)
        silence[at + place] = round(sample * share)


def _noise(level_db: float, count: int, chance: random.Random) -> list[int]:
    """Noise stronger at low pitches, as breath and rooms are: each sample leans on the last."""
    size, last, noise = 32768 * 10 ** (level_db / 20), 0.0, []
    for _ in range(count):
        last = LEAN * last + chance.gauss(0, size * (1 - LEAN * LEAN) ** 0.5)
        noise.append(round(last))
    return noise


def _count(ms: int) -> int:
    return ms * RATE // 1000


def _ms(count: int) -> int:
    return round(count * 1000 / RATE)
