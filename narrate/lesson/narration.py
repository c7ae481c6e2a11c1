"""What is heard: the sound of a whole review, laid on its timeline."""

from __future__ import annotations

import wave
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from narrate.errors import OutputFailed
from narrate.lesson.lesson import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Narration:
    """A WAV file of a whole review, one channel of 16 bits, from 0 to the timeline's end.

    `voice` is the name of the voice, or "" where it is the teacher's own recording.
    """

    path: Path
    voice: str = ""

    @property
    def rate(self) -> int:
        """Samples a second."""
        with wave.open(str(self.path)) as sound:
            rate: int = sound.getframerate()
            return rate

    def cut(self, span: Span) -> bytes:
        """The samples of a stretch, little-endian; silence where the sound has ended.

        Exactly `end × rate // 1000 − start × rate // 1000` samples, so that stretches that meet
        join without a gap.
        """
        with wave.open(str(self.path)) as sound:
            rate = sound.getframerate()
            first, last = (edge * rate // 1000 for edge in (span.start, span.end))
            sound.setpos(min(first, sound.getnframes()))
            found: bytes = sound.readframes(last - first)
        return found.ljust(2 * (last - first), b"\0")


@contextmanager
def written_to(path: Path) -> Iterator[None]:
    """Raises OutputFailed, with what can be done, where sound cannot be written to a file."""
    try:
        yield
    except OSError as error:
        raise OutputFailed(
            f"{path.parent}: what is heard cannot be written ({error.strerror or error}); make room"
            " there, or name another folder by TMPDIR; nothing was written over"
        ) from error
