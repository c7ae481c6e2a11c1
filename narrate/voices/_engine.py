"""Engines of voices, run as processes of their own: text goes in by standard input, WAV comes out.

No shell sees the text, and it is cleaned of what no engine should read as a command.
"""

from __future__ import annotations

import io
import re
import subprocess
import wave
from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path
from tempfile import TemporaryDirectory

from narrate.errors import OutputFailed

_UNSEEN = re.compile(r"[\x00-\x1f\x7f-\x9f\ud800-\udfff\ufeff]+")
_PATIENCE_S, _CHARACTERS_A_SECOND = 60, 50
"""How long a sentence may take: a minute, and more for a long one. An engine says hundreds."""

_LETTER_BEFORE = r"(?<=[\w,;]\s)|(?<=\w\s[“\"(])"
_LETTER_AFTER = (
    r"(?=\s*(?:[,;:.?!)”\"]|$)|\s(?:and|or|but|is|isn['’]t|are|aren['’]t|was|has|says|takes|gives|"
    r"comes|goes|leaves|makes|can|cannot|can['’]t|does|doesn['’]t|would|must|stays|stands)\b)"
)
_LETTER_A = re.compile(rf"(?:{_LETTER_BEFORE})A\b|\bA{_LETTER_AFTER}")


def one_line(text: str) -> str:
    """A text on one line, without control characters and what is no character."""
    return " ".join(_UNSEEN.sub(" ", text).split())


def letter_a_as(spelt: str, text: str) -> str:
    """The letter A of a choice spelt another way, for engines that take it for the article.

    A capital A inside a sentence is the letter; at its start it is where a mark or a word follows
    that follows no article.
    """
    return _LETTER_A.sub(lambda _: f" {spelt} ", text)


def spoken(command: Sequence[str], text: str, rate: int, *, to_file: str = "") -> bytes:
    """What an engine says: one channel of 16 bits. Raises OutputFailed, with the text, else.

    A text without a letter or a digit is silent, and no engine is asked.
    `to_file` is the option of an engine that writes no whole file to its standard output.
    """
    if not any(map(str.isalnum, text)):
        return b""
    name = command[0]
    patience = _PATIENCE_S + len(text) // _CHARACTERS_A_SECOND
    try:
        with TemporaryDirectory(prefix="narrate-") as room:
            file = Path(room) / "said.wav"
            more = (to_file, str(file)) if to_file else ()
            done = subprocess.run(
                [*command, *more],
                input=text.encode(),
                capture_output=True,
                check=True,
                timeout=patience,
            )
            return _samples(file.read_bytes() if to_file else done.stdout, rate)
    except subprocess.TimeoutExpired:
        why = f"it took more than {patience} s"
    except subprocess.CalledProcessError as error:
        why = error.stderr.decode(errors="replace").strip() or f"it ended with {error.returncode}"
    except (OSError, wave.Error, EOFError, ValueError) as error:
        why = str(error) or "it said nothing"
    raise OutputFailed(
        f"the voice {name} could not say {_shortened(text)!r}: {why}; choose another voice with"
        " --spoken-by, or nobody"
    )


def _samples(data: bytes, rate: int) -> bytes:
    with wave.open(io.BytesIO(data)) as sound:
        form = sound.getnchannels(), sound.getsampwidth(), sound.getframerate()
        if form != (1, 2, rate):
            raise ValueError(f"it speaks in another form than was expected: {form}")
        samples: bytes = sound.readframes(sound.getnframes())
    return samples


def _shortened(text: str) -> str:
    return text if len(text) <= 80 else f"{text[:77]}..."


@lru_cache(maxsize=8)
def version(*command: str) -> str:
    """The first line that an engine prints of itself; "" where it prints none."""
    try:
        done = subprocess.run(command, capture_output=True, timeout=_PATIENCE_S, check=False)
    except (OSError, subprocess.TimeoutExpired):
        return ""
    return next(iter(done.stdout.decode(errors="replace").splitlines()), "")
