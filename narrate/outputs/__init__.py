"""One file, one output: a file's name is the output's name, files starting with `_` are helpers.

Adding an output is adding a file here with `FILE`, `DEFAULT` and `write`; nothing is registered.
One that takes long says so (`LONG = True`) and is written beside the others where that can be; one
that is heard (`HEARD = True`) finds the sound in `options.narration`, None where it is silent; one
that asks pupils (`ASKS = True`) finds the lesson's questions, which are made only then. `WITH`
names outputs that come along, and `missing()` says what has to be installed.
An output sees the lesson, its timeline and the options, writes to the sink it is given and lays
nothing out.
"""

from __future__ import annotations

from dataclasses import replace
from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules
from typing import Any, Protocol, cast

from narrate.lesson.lesson import Lesson, Timeline
from narrate.outputs._kept import Kept
from narrate.outputs._options import USUAL, Builds, Options

__all__ = ["USUAL", "Builds", "Options", "Output", "find_outputs", "keeping_slides", "make_options"]


class Output(Protocol):
    """What an output's module holds."""

    FILE: str
    """The name of the file it writes, or, with a slash at its end, of the folder of files."""
    DEFAULT: bool
    """Whether every build writes it; the others are asked for by name."""

    def write(self, lesson: Lesson, timeline: Timeline, options: Options, sink: Any) -> None:
        """Write the lesson to `sink`; raises OutputFailed.

        `sink` is a binary file; for a folder it is an empty `pathlib.Path` to write files into. The
        pipeline puts either in its place when all is written, and only then.
        """


def make_options(
    *,
    builds: str,
    dark: bool,
    theme: Path | None,
    templates: Path | None,
    spoken_by: str = "",
    loop: bool = False,
    pieces: Path | None = None,
    height: int = USUAL.height,
) -> Options:
    """The options as a value; a teacher's template is read. Raises WrongUse where it cannot be."""
    usual = Options(
        builds=cast(Builds, builds),
        dark=dark,
        templates=templates,
        spoken_by=spoken_by,
        loop=loop,
        pieces=pieces,
        height=height,
    )
    if theme is None:
        return usual
    from narrate.outputs._school import read_template

    return replace(usual, theme=read_template(theme))


def keeping_slides(options: Options) -> Options:
    """The options for several decks with pages in common, whose slides are written once."""
    return replace(options, kept=Kept())


def find_outputs() -> dict[str, Output]:
    """Every output by its name, in the order of the names."""
    names = sorted(m.name for m in iter_modules(__path__) if not m.name.startswith("_"))
    return {name: cast(Output, import_module(f"{__name__}.{name}")) for name in names}
