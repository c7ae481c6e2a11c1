"""How loud a recording is, hundredth by hundredth of a second.

WAV is read here (RIFF, Microsoft 1991; also files that a crash left without a length), everything
else by PyAV where it is installed. A recording is read in pieces: an hour holds 1.4 MB of levels.
"""

from __future__ import annotations

import math
import sys
from array import array
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from operator import mul
from pathlib import Path
from typing import Any, BinaryIO, TypeAlias

from narrate.errors import WrongUse

FRAME_MS = 10
SILENCE_DB = -100.0
_SAMPLES_A_SECOND = 8_000  # more tell no more about loudness
_PIECES_A_SECOND = 1

_PCM, _FLOAT, _EXTENSIBLE = 1, 3, 0xFFFE
_UNKNOWN_SIZE = (0, 0xFFFFFFFF)

Samples: TypeAlias = "array[Any]"
Pieces: TypeAlias = Iterator[Samples]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sound:
    """An opened recording: its length, and its samples in pieces, -1 to 1 being `full`.

    `length_ms` is None where only reading tells. `rate` counts the samples of all channels.
    """

    length_ms: int | None
    rate: int
    full: float
    pieces: Callable[[], Pieces]


def levels(path: Path, shortest_ms: int, longest_ms: int) -> array[float]:
    """The level of each 10 ms in dB below the loudest that the file can hold.

    Raises WrongUse where the file is no sound, or shorter or longer than the recording can be; a
    length that its header tells is judged before any sound is read.
    """
    try:
        sound = _opened(path)
        if sound.length_ms is not None:
            _check_length(path, sound.length_ms, shortest_ms, longest_ms)
        found = array("f")
        for level in _levels(sound):
            found.append(level)
            if len(found) * FRAME_MS > longest_ms:
                _check_length(path, len(found) * FRAME_MS, shortest_ms, longest_ms)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise WrongUse(f"{path} cannot be opened ({reason}); check its name") from None
    _check_length(path, len(found) * FRAME_MS, shortest_ms, longest_ms)
    return found


def _check_length(path: Path, length: int, shortest: int, longest: int) -> None:
    if length == 0:
        raise WrongUse(f"{path} holds no sound; record again, or give another file")
    if not shortest <= length <= longest:
        raise WrongUse(
            f"{path} lasts {clock(length)}, but what is to be said takes {clock(shortest)} to"
            f" {clock(longest)}; give the recording of this review, or name the part with --part"
        )


def clock(ms: int) -> str:
    """A time as people say it: `1:02:03` or `2:03` (hours, minutes, seconds)."""
    minutes, seconds = divmod(round(ms / 1000), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{seconds:02}" if hours else f"{minutes}:{seconds:02}"


def _levels(sound: Sound) -> Iterator[float]:
    """Levels of frames, from every so many samples; the stride is odd to meet both channels."""
    stride = max(sound.rate // _SAMPLES_A_SECOND, 1) | 1
    rest: Samples = array("h")
    frame, begun = 0, 0  # the frame in hand, and the sample that `rest` begins with
    for piece in sound.pieces():
        rest = rest + piece if rest else piece
        start, end = 0, _edge(frame + 1, sound.rate) - begun
        while end <= len(rest):
            yield _level(rest[start:end:stride], sound.full)
            frame += 1
            start, end = end, _edge(frame + 1, sound.rate) - begun
        rest = rest[start:]
        begun += start


def _edge(frame: int, rate: int) -> int:
    """The sample that a frame begins with; rounded each time anew, so that nothing drifts."""
    return frame * rate * FRAME_MS // 1000


def _level(samples: Samples, full: float) -> float:
    count = len(samples)
    mean = sum(samples) / count
    power = sum(map(mul, samples, samples)) / count - mean * mean
    if not power > 0:  # not a number, in a broken file, is silence too
        return SILENCE_DB
    return max(10 * math.log10(power / (full * full)), SILENCE_DB)


def _opened(path: Path) -> Sound:
    with path.open("rb") as file:
        head = file.read(12)
    if not head:
        raise WrongUse(f"{path} is empty; record again, or give another file")
    if head[:4] in (b"RIFF", b"RF64") and head[8:] == b"WAVE":
        return _wave(path)
    from narrate.fitting.compressed import opened

    return opened(path)


# -- WAV


@dataclass(frozen=True, slots=True)
class _Format:
    kind: int
    channels: int
    rate: int
    bits: int

    @property
    def typecode(self) -> str:
        """How `array` names these samples; "" where it cannot (24 bits are made 16)."""
        if self.kind == _FLOAT:
            return {32: "f", 64: "d"}.get(self.bits, "")
        return {8: "B", 16: "h", 24: "h", 32: "i"}.get(self.bits, "")

    @property
    def full(self) -> float:
        """The loudest sample."""
        return 1.0 if self.kind == _FLOAT else {8: 128.0, 32: 2.0**31}.get(self.bits, 32768.0)


def _wave(path: Path) -> Sound:
    with path.open("rb") as file:
        form, start, size = _chunks(path, file)
    if form.kind not in (_PCM, _FLOAT) or not form.typecode or not form.channels or not form.rate:
        raise WrongUse(f"{path} is a WAV file of an unusual form; save it as 16-bit PCM")
    step = form.channels * form.bits // 8
    return Sound(
        length_ms=size // step * 1000 // form.rate,
        rate=form.rate * form.channels,
        full=form.full,
        pieces=lambda: _pieces(path, form, start, size // step * step),
    )


def _chunks(path: Path, file: BinaryIO) -> tuple[_Format, int, int]:
    """The form of the samples, where they start and how many bytes they are."""
    whole = path.stat().st_size
    form, at = None, 12
    while at + 8 <= whole:
        file.seek(at)
        name, size = file.read(4), int.from_bytes(file.read(4), "little")
        if name == b"fmt ":
            form = _format(file.read(min(size, 40)))
        elif name == b"data" and form:
            there = whole - at - 8
            return form, at + 8, there if size in _UNKNOWN_SIZE else min(size, there)
        at += 8 + size + size % 2
    raise WrongUse(f"{path} is a WAV file without sound in it; save it again")


def _format(data: bytes) -> _Format:
    kind, channels, rate, bits, real = (
        int.from_bytes(data[start:end], "little")
        for start, end in ((0, 2), (2, 4), (4, 8), (14, 16), (24, 26))
    )
    return _Format(real if kind == _EXTENSIBLE else kind, channels, rate, bits)


def _pieces(path: Path, form: _Format, start: int, size: int) -> Pieces:
    step = form.channels * form.bits // 8
    with path.open("rb") as file:
        file.seek(start)
        while size > 0 and (data := file.read(min(size, form.rate * step // _PIECES_A_SECOND))):
            size -= len(data)
            yield _samples(data[: len(data) // step * step], form)


def _samples(data: bytes, form: _Format) -> Samples:
    if form.bits == 24:  # the two upper bytes of each three
        upper = bytearray(len(data) // 3 * 2)
        upper[0::2], upper[1::2] = data[1::3], data[2::3]
        data = bytes(upper)
    samples: Samples = array(form.typecode)
    samples.frombytes(data)
    if sys.byteorder == "big":
        samples.byteswap()
    return samples
