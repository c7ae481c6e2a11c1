"""The silence at the end of a beat."""

from __future__ import annotations

from dataclasses import replace

from narrate.lesson.shows import Draw
from narrate.lesson.view import Told
from narrate.lesson.wording import SENTENCE_PAUSE

AFTER_BEAT, AFTER_FIGURE, AFTER_PART = 1000, 1500, 1500
"""Silences at the end of a beat in milliseconds: a new step, a figure to look at, a new section."""


def ending(told: Told) -> Told:
    """A beat with a longer silence at its end: time to look, or a new step."""
    least = AFTER_FIGURE if _draws(told) else AFTER_BEAT
    return pausing(told, max(told.beat.sentences[-1].pause_ms, least))


def going_on(told: Told) -> Told:
    """A beat with no more silence at its end than between sentences: no new step follows."""
    if told.beat.sentences[-1].pause_ms != AFTER_BEAT or _draws(told):
        return told
    return pausing(told, SENTENCE_PAUSE)


def _draws(told: Told) -> bool:
    return any(isinstance(show, Draw) for show in told.shows)


def pausing(told: Told, pause_ms: int) -> Told:
    """A beat with this silence at its end, in milliseconds."""
    *before, last = told.beat.sentences
    sentences = (*before, replace(last, pause_ms=pause_ms))
    return replace(told, beat=replace(told.beat, sentences=sentences))
