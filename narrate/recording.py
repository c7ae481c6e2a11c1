"""A review written anew by what was recorded: told as it was built, timed as it was said."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO

from narrate import pipeline, writing
from narrate.errors import FaultsFound, WrongUse
from narrate.fitting import fit as fitting
from narrate.fitting import table
from narrate.items import voice
from narrate.items.loading import Loaded, load
from narrate.lesson.brevity import Brevity
from narrate.lesson.timeline import pace
from narrate.lesson.wishes import AS_USUAL, Wishes
from narrate.saving import save

if TYPE_CHECKING:
    from narrate.outputs import Options


def fit(
    path: Path,
    source: fitting.Source,
    *,
    to: Path,
    also: tuple[str, ...] = (),
    wishes: Wishes = AS_USUAL,
    options: Options | None = None,
    progress: writing.Progress = lambda line: None,
) -> tuple[pipeline.Outcome, tuple[str, ...]]:
    """Writes a review anew by what was recorded; and the table of its lines, as printed.

    `wishes` are those it was built with. The deck is kept, for she may have recorded in it;
    `also=("deck",)` writes it too. Raises WrongUse or FaultsFound where the source does not fit,
    and then writes nothing.
    """
    chosen = options or writing.usual_options()
    wanted = writing.wanted_outputs(also)
    outputs = {n: out for n, out in wanted.items() if n != "deck" or "deck" in also}
    wishes = writing.asking(outputs, wishes)
    loaded = _one(path)
    outcome = pipeline.Outcome(faults=loaded.faults, declined=())
    for review in pipeline.in_turn(loaded, None, wishes):  # none where all of it is skipped
        words = pipeline.words_for(review, chosen.templates, wishes)
        speed = words.voice.pace
        brevity = Brevity(wishes, speed or pace(review.grade), words.spoken)
        lesson, faults, declined = pipeline.edited_lesson(loaded, review, words, wishes, brevity)
        outcome = replace(outcome, faults=(*loaded.faults, *faults), declined=tuple(declined))
        if not lesson:
            break
        folder = to / review.id
        _keep_recorded(source.deck, folder / "deck.pptx", outputs)
        fitted = fitting.fit(lesson, source, wpm=speed, before=folder / table.FILE)
        save(folder / table.FILE, partial(table.write, lesson, fitted))
        writing.write_files(lesson, fitted.timeline, outputs, chosen, folder, progress)
        kept = wishes.voice or review.file.with_name(voice.FILE)
        notes = (*fitted.notes, *_keep_pace(kept, fitted.wpm, progress))
        return replace(outcome, notes=notes), tuple(table.lines(lesson, fitted))
    return outcome, ()


def _one(path: Path) -> Loaded:
    """The one review of a file. Raises FaultsFound, and WrongUse where there are several."""
    loaded = load([path])
    if len(loaded.reviews) != 1:
        raise FaultsFound(loaded.faults) if loaded.faults else WrongUse(f"{path}: give one review")
    return loaded


def _keep_recorded(recorded: Path | None, deck: Path, outputs: Mapping[str, object]) -> None:
    """Raises WrongUse where the deck to write is the one that was recorded."""
    if recorded and "deck" in outputs and recorded.resolve() == deck.resolve():
        raise WrongUse(f"{recorded} would be written over; copy the recorded deck elsewhere first")


def _keep_pace(path: Path, wpm: int | None, progress: writing.Progress) -> Iterator[str]:
    """Saves her pace in the file of her voice; or says why not."""
    if wpm is None:
        yield "too little is said to learn a pace from; a minute of lines is enough"
    elif not voice.SLOWEST <= wpm <= voice.FASTEST:
        yield f"{wpm} words a minute are no pace to keep; {path.name} stays as it is"
    else:
        data = voice.with_pace(path.read_bytes() if path.exists() else None, wpm, path)
        save(path, partial(_put, data))
        progress(f"{path}: {wpm} words a minute")


def _put(data: bytes, sink: BinaryIO) -> None:
    sink.write(data)
