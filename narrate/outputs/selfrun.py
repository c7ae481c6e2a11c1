"""selfrun.pptx: a deck for whoever was away, which runs by itself and is heard.

Every slide comes, builds and goes at the lesson's times; its sound plays with it. Where nobody is
heard, captions are shown in the lowest fifth. No click moves anything.
"""

from __future__ import annotations

from dataclasses import replace
from typing import BinaryIO

from narrate.lesson.lesson import Lesson, Timeline
from narrate.outputs._options import Options

FILE = "selfrun.pptx"
DEFAULT = False
LONG = True
HEARD = True


def write(lesson: Lesson, timeline: Timeline, options: Options, sink: BinaryIO) -> None:
    """Write the deck to `sink`, after our own lint has found nothing in it.

    Raises OutputFailed, with all that was found, when it has.
    """
    from narrate.outputs import _deck, _running  # loaded beside what the others write

    timed = replace(options, builds="timed", kept=None)
    _deck.write(lesson, timeline, timed, sink, _running.running(lesson, timeline, timed))
