"""deck.pptx: the slides to record with, one for each page, its builds as entrances in beat order.

Every mark is a native shape that the teacher can edit; what is said stands in the notes.
"""

from __future__ import annotations

from typing import BinaryIO

from narrate.lesson.lesson import Lesson, Timeline
from narrate.outputs._options import Options

FILE = "deck.pptx"
DEFAULT = True
LONG = True


def write(lesson: Lesson, timeline: Timeline, options: Options, sink: BinaryIO) -> None:
    """Write the deck to `sink`, after our own lint has found nothing in it.

    Raises OutputFailed, with all that was found, when it has.
    """
    from narrate.outputs import _deck  # python-pptx is loaded beside what the others write

    _deck.write(lesson, timeline, options, sink)
