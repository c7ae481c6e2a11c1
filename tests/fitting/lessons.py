"""Lessons to be fitted: the demo's first items as once told, and beats made by hand.

The words stand in `talk.json`, so that a wording that changes does not change the recordings.
"""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

from narrate.cli import main
from narrate.lesson.lesson import Beat, Chapter, Lesson, Sentence

DEMO = Path(__file__).resolve().parents[2] / "problems" / "garden-week.yaml"
TALK = Path(__file__).with_name("talk.json")


def fit(place: Path, *words: object) -> int:
    """`narrate fit` for the review `week.yaml` of a folder, into its folder `out`."""
    named = [str(word) for word in words]
    return main(["fit", str(place / "week.yaml"), "--to", str(place / "out"), *named])


@cache
def demo(items: int) -> Lesson:
    """The demo's lesson, told of its first items only; without pages."""
    talk: dict[str, Any] = json.loads(TALK.read_text(encoding="utf-8"))
    names = [*dict.fromkeys(beat["item"] for beat in talk["beats"] if beat["item"])][:items]
    beats = tuple(_beat(beat) for beat in talk["beats"] if beat["item"] in {None, *names})
    there = {beat.id for beat in beats}
    chapters = [
        Chapter(title=t, first_beat=first) for t, first in talk["chapters"] if first in there
    ]
    head = {key: talk[key] for key in ("review", "title", "grade", "language")}
    return Lesson(**head, beats=beats, pages=(), chapters=tuple(chapters))


def _beat(beat: dict[str, Any]) -> Beat:
    sentences = tuple(
        Sentence(say=say, caption=caption, pause_ms=pause, stem=stem)
        for say, caption, pause, stem in beat["sentences"]
    )
    own = {key: beat[key] for key in ("id", "item", "part", "move", "waits")}
    return Beat(**own, sentences=sentences)


def said(say: str, pause: int = 500) -> Sentence:
    return Sentence(say=say, caption=say, pause_ms=pause)


def made(*beats: tuple[Sentence, ...]) -> Lesson:
    told = tuple(
        Beat(id=f"b{number}", item=None, part=None, move="say", sentences=sentences)
        for number, sentences in enumerate(beats)
    )
    return Lesson(review="r", title="R", grade=5, language="en", beats=told, pages=(), chapters=())
