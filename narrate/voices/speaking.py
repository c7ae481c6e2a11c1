"""A lesson spoken by a voice: its real times, and its sound on them."""

from __future__ import annotations

import wave
from pathlib import Path

from narrate.lesson.lesson import Lesson, Span, Timeline
from narrate.lesson.narration import Narration
from narrate.voices import Voice


def speak(
    lesson: Lesson, name: str, voice: Voice, wpm: int, path: Path
) -> tuple[Timeline, Narration]:
    """Writes what is said to a WAV file at `path`; the lesson's times become those of the voice.

    Pauses are as the lesson has them. A stem is read a tenth slower.
    """
    beats: dict[str, Span] = {}
    sentences: dict[str, tuple[Span, ...]] = {}
    now = written = 0
    with wave.open(str(path), "wb") as sound:
        sound.setnchannels(1)
        sound.setsampwidth(2)
        sound.setframerate(voice.RATE)
        for beat in lesson.beats:
            begin, spans = now, []
            for sentence in beat.sentences:
                speed = wpm * 9 // 10 if sentence.stem else wpm
                samples = voice.say(sentence.say, lesson.language, speed)
                end = now - (-len(samples) // 2 * 1000 // voice.RATE)
                spans.append(Span(now, end))
                now = end + sentence.pause_ms
                until = 2 * (now * voice.RATE // 1000)
                sound.writeframesraw(samples.ljust(until - written, b"\0"))
                written = until
            beats[beat.id], sentences[beat.id] = Span(begin, now), tuple(spans)
    return Timeline(beats=beats, sentences=sentences), Narration(path=path, voice=name)
