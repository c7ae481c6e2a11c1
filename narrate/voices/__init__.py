"""Voices: one file, one voice, found where it is installed; none is required.

A voice stands in for a teacher who has not recorded yet. A file's name is the voice's name (`_` for
`-`); files starting with `_`, `speaking` and `loudness` are none. Engines run as processes of their
own.
"""

from __future__ import annotations

from importlib import import_module
from pkgutil import iter_modules
from typing import Protocol, cast

from narrate.errors import WrongUse

NOBODY = "nobody"
"""The name by which no voice is wanted."""

_NO_VOICES = {"loudness", "speaking"}


class Voice(Protocol):
    """What a voice's module holds."""

    RATE: int
    """Samples a second of what it says."""
    LANGUAGES: tuple[str, ...]
    """The languages of lessons that it speaks."""

    def missing(self) -> str:
        """What would have to be installed for it to speak; "" where it can."""

    def version(self) -> str:
        """The engine's version, in its own words: what was said by another is said again."""

    def say(self, text: str, language: str, wpm: int) -> bytes:
        """A sentence at so many words a minute: one channel of 16 bits, little-endian.

        Raises OutputFailed where the engine fails.
        """


def find_voices() -> dict[str, Voice]:
    """Every voice by its name, in the order of the names."""
    names = sorted(m.name for m in iter_modules(__path__) if not m.name.startswith("_"))
    return {
        name.replace("_", "-"): cast(Voice, import_module(f"{__name__}.{name}"))
        for name in names
        if name not in _NO_VOICES
    }


def choose(name: str, language: str) -> tuple[str, Voice] | None:
    """The voice of that name, or with "" the first that is installed; None where nobody speaks.

    Raises WrongUse where the named one is not known, not installed, or speaks no such language.
    """
    voices = find_voices()
    if name == NOBODY:
        return None
    if not name:
        able = (n for n, v in voices.items() if language in v.LANGUAGES and not v.missing())
        return next(((found, voices[found]) for found in able), None)
    if name not in voices:
        raise WrongUse(f"there is no voice {name!r}; there are: {', '.join([*voices, NOBODY])}")
    if missing := voices[name].missing():
        raise WrongUse(f"the voice {name} cannot speak yet: {missing}")
    if language not in voices[name].LANGUAGES:
        spoken = ", ".join(voices[name].LANGUAGES)
        raise WrongUse(f"the voice {name} does not speak {language!r}; it speaks: {spoken}")
    return name, voices[name]
