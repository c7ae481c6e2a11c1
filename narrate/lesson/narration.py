"""What is heard: the sound of a whole review, laid on its timeline."""

from __future__ import annotations

import sys
import wave
from array import array
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import zip_longest
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


LEAD_MS = 80
"""A stretch is heard from so long before its first word: a soft beginning of it is not cut off."""
_FADE_MS = 5
_CHUNK_MS = 10_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """What is heard for `length` ms: a sound from `start` on, or None for silence.

    `quiet` ms of its end are a pause, of which the next stretch may take some.
    """

    sound: Narration | None
    start: int
    length: int
    quiet: int


def put_together(stretches: Sequence[Stretch], rate: int, path: Path) -> None:
    """Writes stretches of sounds of one rate one after another to a WAV file. Raises OSError.

    They stand at their times to the sample. One sound passes to the next a little before the
    border, in the pause there, so that no word is cut; silence is silent to its end.
    """
    with wave.open(str(path), "wb") as out:
        out.setnchannels(1)
        out.setsampwidth(2)
        out.setframerate(rate)
        begin = now = 0
        for each, after in zip_longest(stretches, stretches[1:]):
            now += each.length
            meet = each.sound and after and after.sound
            end = max(now - min(LEAD_MS, each.quiet), begin) if meet else now
            shift = each.start - (now - each.length)
            for span, edges in _chunks(begin, end):
                count = span.end * rate // 1000 - span.start * rate // 1000
                out.writeframesraw(_cut(each.sound, span, shift, count, edges, rate))
            begin = end


def _chunks(begin: int, end: int) -> Iterator[tuple[Span, tuple[bool, bool]]]:
    """A stretch in pieces that fit in memory, and whether each is its first and its last."""
    for start in range(begin, end, _CHUNK_MS):
        stop = min(start + _CHUNK_MS, end)
        yield Span(start, stop), (start == begin, stop == end)


def _cut(
    sound: Narration | None,
    span: Span,
    shift: int,
    count: int,
    edges: tuple[bool, bool],
    rate: int,
) -> bytes:
    """So many samples of a sound, which begins `shift` ms later there, soft at its edges."""
    if sound is None:
        return bytes(2 * count)
    before = max(-(span.start + shift), 0)  # silence, where the sound has not begun
    silent = bytes(2 * (before * rate // 1000))
    cut = sound.cut(Span(span.start + shift + before, max(span.end + shift, 0)))
    samples = array("h", (silent + cut)[: 2 * count].ljust(2 * count, b"\0"))
    if sys.byteorder == "big":
        samples.byteswap()
    soft = min(_FADE_MS * rate // 1000, count)
    for at in range(soft):
        if edges[0]:
            samples[at] = samples[at] * at // soft
        if edges[1]:
            samples[-1 - at] = samples[-1 - at] * at // soft
    if sys.byteorder == "big":
        samples.byteswap()
    return samples.tobytes()


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
