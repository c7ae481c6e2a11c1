"""What is heard of a lesson that is put together: she herself where she recorded it, else a voice.

Her recordings are cut where the lessons were that they are of, and what she did not record, such
as the greeting with the days, is spoken by a voice or, where there is none, silent.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING

from narrate import writing
from narrate.fitting import taken
from narrate.lesson.joining import Heard, Joined, Moment, moments_of
from narrate.lesson.narration import Narration, Stretch, put_together, written_to
from narrate.lesson.timeline import pace
from narrate.shelf import Book
from narrate.voices.loudness import level, level_again

if TYPE_CHECKING:
    from narrate.outputs import Options

_VOICE = "a voice"
"""The name of the voice among the recordings: these are named by reviews, which have no spaces."""


@dataclass(slots=True, kw_only=True)
class Recordings:
    """Her recordings by the names of their reviews.

    `room` is a folder for their sound.
    """

    books: Mapping[str, Book]
    room: Path
    _ready: dict[str, Narration] = field(default_factory=dict)

    def prepare(self) -> None:
        """Makes all of them ready, before anything is written.

        Raises WrongUse where one is no longer there, or is another than that which was fitted, and
        OutputFailed without room.
        """
        recorded = {name: book for name, book in self.books.items() if book.built.recording}
        for book in recorded.values():
            assert book.built.recording
            book.built.recording.check(book.folder)
        for name in recorded:
            self.sound(name)

    def sound(self, name: str) -> Narration:
        """A recording, levelled."""
        if name not in self._ready:
            found = self.books[name].built
            assert found.recording
            path = self.room / f"{name}.wav"
            with written_to(path):
                taken.write_wav(found.recording.path, path, found.timeline.total_ms)
                level(path)
            self._ready[name] = Narration(path=path)
        return self._ready[name]


def is_recorded(joined: Joined) -> bool:
    """Whether she recorded anything of a lesson but its closing."""
    return any(moment.heard for moment in joined.moments[:-1])


def in_her_voice(
    joined: Joined,
    recordings: Recordings,
    options: Options,
    wpm: int | None,
    progress: writing.Progress,
) -> tuple[Joined, Options]:
    """The lesson and the options with her voice; a voice speaks the rest at `wpm` words a minute.

    What the voice speaks takes as long as it does.
    """
    joined, spoken = _spoken(joined, recordings.room, options, wpm, progress)
    sounds = {name: recordings.sound(name) for name in _names(joined) if name != _VOICE}
    if spoken:
        sounds[_VOICE] = spoken
    path = recordings.room / "narration.wav"
    with written_to(path):
        put_together(list(_stretches(joined, sounds)), taken.RATE, path)
        level_again(path)
    return joined, replace(options, narration=Narration(path=path))


def _names(joined: Joined) -> list[str]:
    return list(dict.fromkeys(moment.heard.name for moment in joined.moments if moment.heard))


def _spoken(
    joined: Joined, room: Path, options: Options, wpm: int | None, progress: writing.Progress
) -> tuple[Joined, Narration | None]:
    """The lesson with what she did not record as a voice says it, and the sound of that."""
    from narrate.voices import choose
    from narrate.voices.speaking import speak

    lesson = joined.lesson
    left = replace(lesson, beats=tuple(m.beat for m in joined.moments if not m.heard))
    if not left.beats:
        return joined, None
    found = choose(options.spoken_by, lesson.language)
    if found is None:
        progress("in your own voice; what you have not recorded is silent: no voice is installed")
        return joined, None
    speed = wpm or pace(lesson.grade)
    timeline, own = speak(left, *found, speed, room / "voice.wav", options.pieces)
    path = room / "spoken.wav"
    with written_to(path):
        taken.write_wav(own.path, path, timeline.total_ms)
    progress(f"in your own voice; what you have not recorded is spoken by {own.voice}")
    said = moments_of(left, timeline, _VOICE)
    moments = tuple(said.get(moment.beat.id, moment) for moment in joined.moments)
    return Joined(lesson, moments), Narration(path=path, voice=own.voice)


def _stretches(joined: Joined, sounds: Mapping[str, Narration]) -> Iterator[Stretch]:
    """The moments as stretches of their sounds, those that follow each other there as one."""
    for run in _runs(joined.moments):
        first, last = run[0].heard, run[-1]
        spoken = last.sentences[-1].end if last.sentences else 0
        yield Stretch(
            sound=sounds[first.name] if first else None,
            start=first.span.start if first else 0,
            length=sum(moment.length for moment in run),
            quiet=last.length - spoken,
        )


def _runs(moments: Sequence[Moment]) -> Iterator[list[Moment]]:
    """Moments that follow each other in one recording, or of which none was recorded."""
    run = [moments[0]]
    for before, moment in pairwise(moments):
        if _follows(before.heard, moment.heard):
            run.append(moment)
        else:
            yield run
            run = [moment]
    yield run


def _follows(one: Heard | None, other: Heard | None) -> bool:
    """Whether a moment is heard right after another, or neither is."""
    if one is None or other is None:
        return one is other
    return one.name == other.name and one.span.end == other.span.start
