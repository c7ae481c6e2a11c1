"""Sound as mp3, which every current browser plays, kept from one build to the next."""

from __future__ import annotations

from functools import partial
from hashlib import sha256
from io import BytesIO
from pathlib import Path

from narrate.errors import OutputFailed
from narrate.lesson.pieces import kept
from narrate.outputs._encoding import PAGE, encode

_PIECE = 1 << 20


def mp3(samples: bytes, rate: int, pieces: Path | None = None) -> bytes:
    """Samples of one channel (16 bits, little-endian) as mp3.

    What was made before is found in the folder `pieces`. Raises OutputFailed without PyAV.
    """
    key = sha256(f"{PAGE} {rate} ".encode() + samples).hexdigest()[:40]
    return kept(pieces and pieces / "page", key, partial(_encoded, samples, rate))


def _encoded(samples: bytes, rate: int) -> bytes:
    sink = BytesIO()
    cut = (samples[at : at + _PIECE] for at in range(0, len(samples), _PIECE))
    try:
        encode(cut, rate, PAGE, sink)
    except ImportError:
        raise OutputFailed(
            'a voice in a page needs the extra: pip install "narrate[audio]"; or build it silent '
            "with --spoken-by nobody"
        ) from None
    return sink.getvalue()
