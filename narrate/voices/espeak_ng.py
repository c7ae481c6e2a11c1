"""espeak-ng: a plain voice, small and fast (GPL, run as a process of its own)."""

from __future__ import annotations

import shutil

from narrate.voices import _engine

RATE = 22_050
LANGUAGES: tuple[str, ...] = ("en",)

_VOICES = {"en": "en-us"}
_PER_MILLE = 878
"""Asked for 1,000 words a minute it speaks 1,139 (100 lines of the demo, at 90 to 220)."""
_SLOWEST, _SLOWEST_MS, _GAP_MS = 85, 668, 27
"""Below a speed of 85 it speaks as fast as at 85. So words are parted by gaps, the first of which
makes a word take 668 ms in the middle, and each more of them 27 ms longer."""
_LETTER_A = "[['eI]]"
"""The letter's name in espeak-ng's phonemes. Where "is" or "and" follows, it says the article."""

_SAID_WRONG = {"lliliter": "lli-liter", "ntiliter": "nti-liter", "simplest": "[[s'ImplIst]]"}
"""What it says otherwise than dictionaries do, and how it says it right."""


def missing() -> str:
    """What would have to be installed."""
    return "" if shutil.which("espeak-ng") else "install espeak-ng (apt install espeak-ng)"


def version() -> str:
    """The engine's own word for it."""
    return _engine.version("espeak-ng", "--version")


def say(text: str, language: str, wpm: int) -> bytes:
    """A sentence as samples; see `Voice.say`."""
    voice = ("-v", _VOICES[language], "-b", "1", "-z")
    return _engine.spoken(
        ("espeak-ng", *voice, *pace(wpm), "--stdout", "--stdin"), respelt(text), RATE
    )


def respelt(text: str) -> str:
    """A text as the engine is given it: its own phonemes in brackets are put in by us alone.

    Markup is no danger: it is only read with the option -m.
    """
    plain = _engine.one_line(text).replace("[", " [ ")
    for wrong, right in _SAID_WRONG.items():
        plain = plain.replace(wrong, right)
    return _engine.letter_a_as(_LETTER_A, plain)


def pace(wpm: int) -> tuple[str, ...]:
    """The engine's options for so many words a minute."""
    speed = wpm * _PER_MILLE // 1000
    if speed >= _SLOWEST:
        return "-s", str(speed)
    gaps = max(round((60_000 / wpm - _SLOWEST_MS) / _GAP_MS), 0)
    return "-s", str(_SLOWEST), "-g", str(gaps)
