"""One file, one output: a file's name is the output's name, files starting with `_` are helpers.

Adding an output is adding a file here with `FILE`, `DEFAULT` and `write`; nothing is registered.
An output sees the lesson and its timeline, writes to the sink it is given and lays nothing out.
"""

from __future__ import annotations

from importlib import import_module
from pkgutil import iter_modules
from typing import BinaryIO, Protocol, cast

from narrate.lesson.lesson import Lesson, Timeline


class Output(Protocol):
    """What an output's module holds."""

    FILE: str
    """The name of the file it writes."""
    DEFAULT: bool
    """Whether every build writes it; the others are asked for by name."""

    def write(self, lesson: Lesson, timeline: Timeline, sink: BinaryIO) -> None:
        """Write the lesson to `sink`; raises OutputFailed."""


def find_outputs() -> dict[str, Output]:
    """Every output by its name, in the order of the names."""
    names = sorted(m.name for m in iter_modules(__path__) if not m.name.startswith("_"))
    return {name: cast(Output, import_module(f"{__name__}.{name}")) for name in names}
