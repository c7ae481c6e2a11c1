"""Samples encoded as mp3 or AAC: the one place where PyAV does it, an extra of the installation."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from importlib import import_module
from pathlib import Path
from typing import Any, BinaryIO

_BYTES = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Coding:
    """How a sound of one channel is encoded: its container and codec, as FFmpeg names them, bits a
    second, and samples a second (None for as many as it has)."""

    container: str
    codec: str
    bits: int
    rate: int | None = None
    options: Mapping[str, str] = field(default_factory=dict)


_FAST = {"aac_coder": "fast"}
"""Coded in the encoder's usual way, peaks were seen to rise by 3 dB in places; so, by 0.3."""

PAGE = Coding(container="mp3", codec="libmp3lame", bits=32_000, rate=24_000)
"""For browsers; a constant rate, so that it seeks. Enough for a voice alone (common practice, no
source)."""
SLIDE = Coding(container="ipod", codec="aac", bits=64_000, options=_FAST)
VIDEO = Coding(container="mp4", codec="aac", bits=96_000, rate=48_000, options=_FAST)


def encode(pieces: Iterable[bytes], rate: int, coding: Coding, to: Path | BinaryIO) -> None:
    """Encodes samples (one channel of 16 bits, little-endian), piece by piece, into a file.

    Raises ImportError without PyAV, and OSError.
    """
    av: Any = import_module("av")
    file = str(to) if isinstance(to, Path) else to
    samples = coding.rate or rate
    with av.open(file, "w", format=coding.container, options={"fflags": "+bitexact"}) as out:
        stream = out.add_stream(
            coding.codec, rate=samples, layout="mono", options=dict(coding.options)
        )
        stream.bit_rate = coding.bits
        resampler = av.AudioResampler(format=stream.format, layout="mono", rate=samples)
        done = 0
        for piece in filter(None, pieces):
            frame = av.AudioFrame(format="s16", layout="mono", samples=len(piece) // _BYTES)
            frame.planes[0].update(piece.ljust(frame.planes[0].buffer_size, b"\0"))
            frame.rate, frame.pts, frame.time_base = rate, done, Fraction(1, rate)
            done += len(piece) // _BYTES
            for part in resampler.resample(frame):
                out.mux(stream.encode(part))
        for part in resampler.resample(None):
            out.mux(stream.encode(part))
        out.mux(stream.encode(None))
