"""Sentences that a voice has said, each in a file of its own, kept from one build to the next.

A build that breaks off leaves whole clips, and the next goes on with them.
"""

from __future__ import annotations

import os
import sys
from array import array
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import partial
from hashlib import sha256
from pathlib import Path
from typing import NamedTuple

from narrate.lesson.bar import bar
from narrate.lesson.pieces import kept
from narrate.voices import Voice

_FORM = "1"
"""Changes where clips are made in another way."""
_QUIET = 300
"""Less than this share of a clip's loudest sample (-50 dB) is silence."""
_MARGIN_MS = 5


class Line(NamedTuple):
    """A sentence and how fast it is said, in words a minute."""

    text: str
    wpm: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Clips:
    """What one voice says in one language, in a folder that is there."""

    name: str
    voice: Voice
    language: str
    folder: Path

    def prepare(self, lines: list[Line]) -> None:
        """Says what is not there yet, several sentences at once. Raises OutputFailed."""
        wanted = dict.fromkeys(lines)
        pool = ThreadPoolExecutor(min(os.cpu_count() or 1, 4))
        try:
            for _ in bar(self.name, len(wanted), over=pool.map(self.take, wanted)):
                pass
        finally:  # where one fails or she stops it, those that were not begun are not said
            pool.shutdown(cancel_futures=True)

    def take(self, line: Line) -> bytes:
        """The samples of a sentence, without the silence around it."""
        return kept(self.folder, self._key(line), partial(self._said, line))

    def _said(self, line: Line) -> bytes:
        return trimmed(self.voice.say(line.text, self.language, line.wpm), self.voice.RATE)

    def _key(self, line: Line) -> str:
        spoken = (self.name, self.voice.version(), self.language, str(line.wpm), line.text)
        made_of = "\0".join((_FORM, str(self.voice.RATE), *spoken))
        return sha256(made_of.encode(errors="replace")).hexdigest()[:40]


def trimmed(samples: bytes, rate: int) -> bytes:
    """Samples without the silence before and after what is heard."""
    values = array("h", samples)
    if sys.byteorder == "big":
        values.byteswap()
    loudest = max(max(values, default=0), -min(values, default=0))
    if not loudest:
        return b""
    heard = range(len(values))
    first = next(at for at in heard if abs(values[at]) * _QUIET >= loudest)
    last = next(at for at in reversed(heard) if abs(values[at]) * _QUIET >= loudest)
    margin = _MARGIN_MS * rate // 1000
    return samples[2 * max(first - margin, 0) : 2 * (last + 1 + margin)]
