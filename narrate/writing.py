"""What is made of a lesson: its files, each written whole or not at all, `lesson.json` last."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import ExitStack
from dataclasses import replace
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any

from narrate import leftover
from narrate.errors import WrongUse
from narrate.lesson.lesson import Lesson, Timeline
from narrate.lesson.timeline import pace
from narrate.lesson.wishes import Wishes
from narrate.report import times
from narrate.saving import meanwhile, save, save_folder

if TYPE_CHECKING:
    from narrate.built import Told
    from narrate.outputs import Options

Progress = Callable[[str], None]


def usual_options() -> Options:
    """The options of outputs where none are given."""
    from narrate.outputs import USUAL

    return USUAL


def chosen_options(options: Options | None, progress: Progress) -> Options:
    """The options given, or the usual; what a teacher should know of her template is told."""
    chosen = options or usual_options()
    for remark in chosen.remarks:
        progress(remark)
    return chosen


def keeping_slides(options: Options) -> Options:
    """The options for several decks with pages in common, which are then written once."""
    from narrate.outputs import keeping_slides as keeping

    return keeping(options)


def wanted_outputs(also: tuple[str, ...]) -> dict[str, Any]:
    """The usual outputs and those asked for, with what comes along with them, by name.

    Raises WrongUse where there is none such, or something has to be installed for one.
    """
    from narrate.outputs import find_outputs

    outputs = find_outputs()
    asked = set(also)
    for name in also:
        if name not in outputs:
            raise WrongUse(f"there is no output {name!r}; there are: {', '.join(outputs)}")
        asked.update(getattr(outputs[name], "WITH", ()))
        if missing := getattr(outputs[name], "missing", str)():
            raise WrongUse(f"{outputs[name].FILE} cannot be made yet: {missing}")
    return {name: out for name, out in outputs.items() if out.DEFAULT or name in asked}


def asking(outputs: dict[str, Any], wishes: Wishes) -> Wishes:
    """The wishes, with that pupils are asked where one of the outputs asks them."""
    return replace(wishes, asks=any(getattr(out, "ASKS", False) for out in outputs.values()))


def heard(outputs: dict[str, Any]) -> list[str]:
    """The files among those of some outputs in which somebody is heard."""
    return [out.FILE for out in outputs.values() if getattr(out, "HEARD", False)]


def write_files(
    lesson: Lesson,
    timeline: Timeline,
    outputs: dict[str, Any],
    options: Options,
    folder: Path,
    progress: Progress,
    *,
    wpm: int | None = None,
    told: Told | None = None,
) -> None:
    """Writes every output to the folder; `lesson.json` last, when all else is there.

    What was `told` is kept beside it, for `catch-up`. What an earlier build left there of another
    lesson is told.
    Where an output is heard and there is no narration yet, a voice speaks at `wpm` words a minute
    (None for the grade's pace), and its real times replace those of `timeline` in all of them.
    """
    from narrate.outputs import find_outputs

    with leftover.told_of(folder, outputs, find_outputs(), progress), ExitStack() as kept:
        if heard(outputs) and not options.narration:
            room = Path(kept.enter_context(TemporaryDirectory(prefix="narrate-")))
            timeline, options = _spoken(lesson, timeline, options, room, progress, wpm)
        for line in times(lesson, timeline):
            progress(line)

        def write(output: Any) -> None:
            into = save_folder if output.FILE.endswith("/") else save
            into(folder / output.FILE, partial(output.write, lesson, timeline, options))

        alone = options.kept is None  # what is kept for the next deck must be made here
        last = _write_all(outputs, folder, write, progress, beside=alone)
        if told:
            progress(f"{told.keep(folder, timeline)}")
        write(last)
        progress(f"{folder / last.FILE}")


def _spoken(
    lesson: Lesson,
    timeline: Timeline,
    options: Options,
    room: Path,
    progress: Progress,
    wpm: int | None,
) -> tuple[Timeline, Options]:
    """The times and the options with a voice, whose sound lies in `room`; as they were without."""
    from narrate.voices import choose
    from narrate.voices.speaking import speak

    found = choose(options.spoken_by, lesson.language)
    if found is None:
        if not options.spoken_by:
            progress("no voice is installed: what would be heard is silent, its captions shown")
        return timeline, options
    speed = wpm or pace(lesson.grade)
    timeline, narration = speak(lesson, *found, speed, room / "narration.wav", options.pieces)
    progress(f"spoken by {narration.voice}, a stand-in for your own voice")
    return timeline, replace(options, narration=narration)


def _write_all(
    outputs: dict[str, Any],
    folder: Path,
    write: Callable[[Any], None],
    progress: Progress,
    *,
    beside: bool,
) -> Any:
    """Each output by `write` but the last, `lesson.json`, which is returned.

    `beside`: those that take long are written while others are.
    """
    *files, last = sorted(outputs.values(), key=lambda o: (o.FILE == "lesson.json", o.FILE))
    long = [output for output in files if beside and getattr(output, "LONG", False)]
    with ExitStack() as running:
        for output in long:
            if output.FILE.endswith("/"):  # many files, which takes a while
                progress(f"{folder / output.FILE} is being written")
            running.enter_context(meanwhile(partial(write, output)))
        for output in files:
            if output not in long:
                write(output)
                progress(f"{folder / output.FILE}")
    for output in long:
        progress(f"{folder / output.FILE}")
    return last
