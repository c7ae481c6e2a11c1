"""Festival with the voice slt: a woman's voice of the United States (both free, BSD-like)."""

from __future__ import annotations

import shutil
from pathlib import Path

from narrate.voices import _engine

RATE = 32_000
LANGUAGES: tuple[str, ...] = ("en",)

_VOICE = "cmu_us_slt_arctic_hts"
_FOLDERS = (Path("/usr/share/festival/voices/us"), Path("/usr/lib/festival/voices/us"))
_USUAL_WPM = 183
"""Words a minute that it speaks by itself (40 lines of the demo)."""
_LETTER_A = "ay"
"""What its lexicon says as the name of the letter. Where "is" follows an A it says the article."""


def missing() -> str:
    """What would have to be installed."""
    if shutil.which("text2wave") and any((folder / _VOICE).is_dir() for folder in _FOLDERS):
        return ""
    return "install Festival and its voice slt (apt install festival festvox-us-slt-hts)"


def version() -> str:
    """The engine's own word for it."""
    return _engine.version("festival", "--version")


def say(text: str, language: str, wpm: int) -> bytes:
    """A sentence as samples; see `Voice.say`."""
    per_mille = wpm * 1000 // _USUAL_WPM
    pace = f'(("-r" {per_mille // 1000}.{per_mille % 1000:03}))'
    command = (
        "text2wave",
        "-eval",
        f"(voice_{_VOICE})",
        "-eval",
        f"(set! hts_engine_params (append hts_engine_params '{pace}))",
    )
    return _engine.spoken(command, respelt(text), RATE, to_file="-o")


def respelt(text: str) -> str:
    """A text as the engine is given it; it is read as plain text, never as commands."""
    return _engine.letter_a_as(_LETTER_A, _engine.one_line(text))
