"""A review written anew by what was recorded: told as it was built, timed as it was said."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any, BinaryIO

from narrate import built, pipeline, writing
from narrate.errors import FaultsFound, WrongUse
from narrate.fitting import fit as fitting
from narrate.fitting import table, taken
from narrate.fitting.fitted import Fitted
from narrate.items import voice
from narrate.items.loading import Loaded, load
from narrate.lesson.brevity import Brevity
from narrate.lesson.narration import Narration, written_to
from narrate.lesson.timeline import pace
from narrate.lesson.wishes import AS_USUAL, Wishes
from narrate.saving import save
from narrate.voices import NOBODY
from narrate.voices.loudness import level

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
        _check_heard(source, writing.heard(outputs), chosen.spoken_by, progress)
        fitted = fitting.fit(lesson, source, wpm=speed, before=folder / table.FILE)
        told = built.told_fitted(lesson, review, _kept_recording(source, folder, progress))
        _write(told, fitted, source.voice, outputs, chosen, folder, progress)
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


def _check_heard(
    source: fitting.Source, heard: Sequence[str], voice: str, progress: writing.Progress
) -> None:
    """Raises WrongUse where what is heard cannot be made of what was recorded."""
    if source.audio and source.sound:
        raise WrongUse("--audio is your voice already; leave out --sound")
    if not heard or voice == NOBODY:
        return
    files = " and ".join(heard)
    if voice:
        raise WrongUse(
            f"fit keeps your times, and the voice {voice} has its own; leave out --spoken-by, or"
            " build with it"
        )
    if source.voice and source.part:
        raise WrongUse(
            f"{source.voice} holds {source.part} alone, and {files} the whole review; fit a"
            " recording of the whole without --part, or ask for them with --spoken-by nobody"
        )
    if not source.voice:
        progress(f"{files}: silent, captions shown; --sound FILE puts your voice in")


def _write(
    told: built.Told,
    fitted: Fitted,
    voice: Path | None,
    outputs: dict[str, Any],
    options: Options,
    folder: Path,
    progress: writing.Progress,
) -> None:
    """Writes the table and the files, nothing before her `voice` has been read to its end."""
    with TemporaryDirectory(prefix="narrate-") as room:
        heard = voice if writing.heard(outputs) else None
        hers = _in_her_voice(options, heard, fitted, Path(room))
        lesson = told.lesson
        save(folder / table.FILE, partial(table.write, lesson, fitted))
        writing.write_files(lesson, fitted.timeline, outputs, hers, folder, progress, told=told)


def _kept_recording(
    source: fitting.Source, folder: Path, progress: writing.Progress
) -> built.Recording | None:
    """Her recording of the whole, which what is fitted now is on the times of, if there is one.

    A corrected table is of the recording that was fitted before.
    """
    if source.voice and not source.part:
        return built.recording_at(source.voice)
    found = built.find(folder, lambda line: None)
    before = found.recording if found else None
    if before and source.part:
        progress(
            f"{before.path} no longer has these times: catch-up cannot take your voice from it;"
            " fit a recording of the whole for that"
        )
        return None
    if before and not (source.times and source.times.suffix.lower() == ".csv"):
        progress(
            f"{before.path}, your recording, is not known to have these times: catch-up will not"
            f" take your voice from it; if it has them, fit again with --sound {before.path}"
        )
        return None
    return before


def _in_her_voice(options: Options, voice: Path | None, fitted: Fitted, room: Path) -> Options:
    """The options with her recording, levelled, as what is heard; silent where there is none."""
    silent = replace(options, spoken_by=NOBODY)
    if voice is None or options.spoken_by == NOBODY:
        return silent
    path = room / "narration.wav"
    with written_to(path):
        taken.write_wav(voice, path, fitted.timeline.total_ms)
        level(path)
    return replace(silent, narration=Narration(path=path))


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
