"""A lesson spoken by a voice: its real times, and its sound on them."""

from __future__ import annotations

import wave
from contextlib import suppress
from pathlib import Path

from narrate.lesson.lesson import Lesson, Sentence, Span, Timeline
from narrate.lesson.narration import Narration, written_to
from narrate.lesson.pieces import prune
from narrate.voices import Voice
from narrate.voices._clips import Clips, Line
from narrate.voices.loudness import can_level, level

_KEPT = "voice"
"""The folder of what was said, among the pieces that builds keep."""


def speak(
    lesson: Lesson, name: str, voice: Voice, wpm: int, path: Path, pieces: Path | None = None
) -> tuple[Timeline, Narration]:
    """Writes what is said to a WAV file at `path`; the lesson's times become those of the voice.

    Pauses are as the lesson has them. A stem is read a tenth slower. Sentences are kept in `pieces`
    where that can be. It is levelled where PyAV is installed. Raises OutputFailed.
    """
    folder = _folder(pieces) or _folder(path.parent)
    clips = Clips(name=name, voice=voice, language=lesson.language, folder=folder or path.parent)
    clips.prepare([_line(one, wpm) for beat in lesson.beats for one in beat.sentences])
    with written_to(path):
        timeline = _write(lesson, clips, wpm, path)
        if folder:
            prune(folder)
        if can_level():
            level(path)
    return timeline, Narration(path=path, voice=name)


def _folder(among: Path | None) -> Path | None:
    """A folder for clips, None where none can be made."""
    with suppress(OSError):
        if among is not None:
            (among / _KEPT).mkdir(parents=True, exist_ok=True)
            return among / _KEPT
    return None


def _line(sentence: Sentence, wpm: int) -> Line:
    return Line(sentence.say, wpm * 9 // 10 if sentence.stem else wpm)


def _write(lesson: Lesson, clips: Clips, wpm: int, path: Path) -> Timeline:
    beats: dict[str, Span] = {}
    sentences: dict[str, tuple[Span, ...]] = {}
    now = written = 0
    rate = clips.voice.RATE
    with wave.open(str(path), "wb") as sound:
        sound.setnchannels(1)
        sound.setsampwidth(2)
        sound.setframerate(rate)
        for beat in lesson.beats:
            begin, spans = now, []
            for sentence in beat.sentences:
                samples = clips.take(_line(sentence, wpm))
                end = now - (-len(samples) // 2 * 1000 // rate)
                spans.append(Span(now, end))
                now = end + sentence.pause_ms
                until = 2 * (now * rate // 1000)
                sound.writeframesraw(samples.ljust(until - written, b"\0"))
                written = until
            beats[beat.id], sentences[beat.id] = Span(begin, now), tuple(spans)
    return Timeline(beats=beats, sentences=sentences)
