"""Sentences that a voice has said, each in a file of its own, kept from one build to the next.

The folder may be deleted at any time: what is not there is said again. A file is written beside and
then put in place, so that a build that breaks off leaves whole clips and goes on with them.
"""

from __future__ import annotations

import os
import sys
import time
from array import array
from concurrent.futures import ThreadPoolExecutor
from contextlib import suppress
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import NamedTuple

from narrate.voices import Voice

_FORM = "1"
"""Changes where clips are made in another way."""
_QUIET = 300
"""Less than this share of a clip's loudest sample (-50 dB) is silence."""
_MARGIN_MS = 5
_KEPT_S, _KEPT_BYTES = 60 * 86_400, 600_000_000
"""Clips that no build has used for 60 days are dropped, and the oldest ones of too many."""


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
        from tqdm import tqdm

        tqdm.monitor_interval = 0  # its thread would be in the way of `saving.meanwhile`
        missing = [line for line in dict.fromkeys(lines) if not self._path(line).exists()]
        pool = ThreadPoolExecutor(min(os.cpu_count() or 1, 4))
        try:
            said = pool.map(self._said, missing)
            for _ in tqdm(said, self.name, len(missing), unit="", disable=None, leave=False):
                pass
        finally:  # where one fails or she stops it, those that were not begun are not said
            pool.shutdown(cancel_futures=True)

    def take(self, line: Line) -> bytes:
        """The samples of a sentence, without the silence around it."""
        path = self._path(line)
        with suppress(OSError):
            samples = path.read_bytes()
            if samples and len(samples) % 2 == 0:
                os.utime(path)
                return samples
        return self._said(line)

    def _said(self, line: Line) -> bytes:
        samples = trimmed(self.voice.say(line.text, self.language, line.wpm), self.voice.RATE)
        with suppress(OSError):  # a full disk keeps nothing, and what is said is said all the same
            _keep(self._path(line), samples)
        return samples

    def _path(self, line: Line) -> Path:
        spoken = (self.name, self.voice.version(), self.language, str(line.wpm), line.text)
        key = "\0".join((_FORM, str(self.voice.RATE), *spoken))
        return self.folder / f"{sha256(key.encode(errors='replace')).hexdigest()[:40]}.pcm"


def _keep(path: Path, samples: bytes) -> None:
    with NamedTemporaryFile(dir=path.parent, suffix=".part", delete=False) as beside:
        try:
            beside.write(samples)
            beside.close()
            Path(beside.name).replace(path)
        finally:
            Path(beside.name).unlink(missing_ok=True)


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


def prune(folder: Path) -> None:
    """Drops clips that were not used for long, and the oldest ones where there are too many."""
    with suppress(OSError):
        found = sorted(
            ((p.stat(), p) for p in folder.iterdir()), key=lambda each: -each[0].st_mtime
        )
        kept, now = 0, time.time()
        for about, path in found:
            kept += about.st_size
            if now - about.st_mtime > _KEPT_S or kept > _KEPT_BYTES:
                path.unlink(missing_ok=True)
