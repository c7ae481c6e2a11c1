"""Sound as mp3, which every current browser plays, kept from one build to the next."""

from __future__ import annotations

from contextlib import suppress
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from typing import Any

from narrate.errors import OutputFailed

RATE = 24_000
BITS_A_SECOND = 32_000
"""Enough for a voice alone (one channel; common practice, no source)."""


def mp3(samples: bytes, rate: int, pieces: Path | None = None) -> bytes:
    """Samples of one channel (16 bits, little-endian) as mp3; a constant rate, so that it seeks.

    What was made before is found in the folder `pieces`. Raises OutputFailed without PyAV.
    """
    if pieces is None:
        return _encoded(samples, rate)
    name = sha256(b"%d %d %d " % (rate, RATE, BITS_A_SECOND) + samples).hexdigest()
    kept = pieces / f"{name}.mp3"
    with suppress(OSError):
        return kept.read_bytes()
    made = _encoded(samples, rate)
    with suppress(OSError):
        pieces.mkdir(parents=True, exist_ok=True)
        beside = kept.with_suffix(".new")
        beside.write_bytes(made)
        beside.replace(kept)
    return made


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
