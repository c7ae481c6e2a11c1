"""What is heard: the sound of a whole review, laid on its timeline."""

from __future__ import annotations

import wave
from dataclasses import dataclass
from pathlib import Path

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
