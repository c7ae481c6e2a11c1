"""Sound as mp3, which every current browser plays, kept from one build to the next."""

from __future__ import annotations

from functools import partial
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from typing import Any

from narrate.errors import OutputFailed
from narrate.lesson.pieces import kept

RATE = 24_000
BITS_A_SECOND = 32_000
"""Enough for a voice alone (one channel; common practice, no source)."""


def mp3(samples: bytes, rate: int, pieces: Path | None = None) -> bytes:
    """Samples of one channel (16 bits, little-endian) as mp3; a constant rate, so that it seeks.

    What was made before is found in the folder `pieces`. Raises OutputFailed without PyAV.
    """
    key = sha256(b"mp3 %d %d %d " % (rate, RATE, BITS_A_SECOND) + samples).hexdigest()[:40]
    return kept(pieces and pieces / "page", key, partial(_encoded, samples, rate))


def _encoded(samples: bytes, rate: int) -> bytes:
    av = _library()
    sink = BytesIO()
    with av.open(sink, "w", format="mp3") as container:
        stream = container.add_stream("libmp3lame", rate=RATE)
        stream.layout = "mono"
        stream.format = "s16p"
        stream.bit_rate = BITS_A_SECOND
        frame = av.AudioFrame(format="s16", layout="mono", samples=len(samples) // 2)
        frame.sample_rate = rate
        frame.planes[0].update(samples)
        resampler = av.AudioResampler(format="s16p", layout="mono", rate=RATE)
        for given in (frame, None):
            for part in resampler.resample(given):
                container.mux(stream.encode(part))
        container.mux(stream.encode(None))
    return sink.getvalue()


def _library() -> Any:
    try:
        import av
    except ImportError:
        raise OutputFailed(
            'a voice in a page needs the extra: pip install "narrate[audio]"; or build it silent '
            "with --spoken-by nobody"
        ) from None
    return av
