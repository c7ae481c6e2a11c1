"""Her recording as a WAV file of one channel of 16 bits, whatever form it came in."""

from __future__ import annotations

import wave
from pathlib import Path

from narrate.errors import WrongUse
from narrate.fitting.compressed import pieces_at
from narrate.fitting.sound import clock

RATE = 44_100
_OFF_MS = 2_000


def write_wav(path: Path, to: Path, total_ms: int) -> None:
    """Writes a recording to a WAV file, piece by piece, on a timeline of so many ms.

    Raises WrongUse where it is no recording, or one of another length than the timeline.
    """
    count = 0
    with wave.open(str(to), "wb") as sound:
        sound.setnchannels(1)
        sound.setsampwidth(2)
        sound.setframerate(RATE)
        for piece in pieces_at(path, RATE):
            sound.writeframesraw(piece.tobytes())
            count += len(piece)
    length = count * 1000 // RATE
    if abs(length - total_ms) > _OFF_MS:
        raise WrongUse(
            f"{path} lasts {clock(length)}, but the times end at {clock(total_ms)}; give the"
            " recording that these times are of"
        )
