"""The lesson: what is said and what appears, moment by moment.

A lesson is made once, from an item's reading and solution; every output prints it. Times are not in
it: a `Timeline` lies beside it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from narrate.lesson.marks import Page

if TYPE_CHECKING:
    from narrate.lesson.question import Question


@dataclass(frozen=True, slots=True, kw_only=True)
class Sentence:
    """One sentence: `say` as spoken (no digits), `caption` with mathematics in symbols.

    `pause_ms` is the silence after it; `stem` says that it is the item's own wording. `wording` is
    the template and place that its words came from: `rewrite#2`, "" where they are no template's.
    """

    say: str
    caption: str
    pause_ms: int = 500
    stem: bool = False
    wording: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beat:
    """One moment: what is said, what appears, how long to wait.

    `id` is stable between builds: `rain-barrel.1.read`. `item` is None outside items (greeting,
    closing). `move` names the template the words came from, `appears` is what comes on the page, in
    words, for the script. `optional` beats (definitions) can be left out.
    """

    id: str
    item: str | None
    part: int | None
    move: str
    sentences: tuple[Sentence, ...]
    appears: tuple[str, ...] = ()
    waits: bool = False
    optional: bool = False

    @property
    def say(self) -> str:
        """All that is said, as spoken."""
        return " ".join(sentence.say for sentence in self.sentences)

    @property
    def caption(self) -> str:
        """All that is said, mathematics in symbols."""
        return " ".join(sentence.caption for sentence in self.sentences)


@dataclass(frozen=True, slots=True, kw_only=True)
class Chapter:
    """A stretch of the video with a title: one for each part, and the greeting."""

    title: str
    first_beat: str
    standard: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """A whole review told: beats in order and the pages they are told on.

    Every beat is told on exactly one page; `pages[i].beats` in order make up `beats`. `questions`
    are what pupils are asked where it waits for them, where an output asks them.
    """

    review: str
    title: str
    grade: int
    language: str
    beats: tuple[Beat, ...]
    pages: tuple[Page, ...]
    chapters: tuple[Chapter, ...]
    questions: tuple[Question, ...] = ()


@dataclass(frozen=True, slots=True)
class Span:
    """From `start` to `end`, in milliseconds from the start of the review."""

    start: int
    end: int

    @property
    def length(self) -> int:
        """Its length in milliseconds."""
        return self.end - self.start


@dataclass(frozen=True, slots=True, kw_only=True)
class Timeline:
    """When each beat is told, and each of its sentences (speech only, without the pause after).

    `beats` are contiguous from 0; the spans of a beat's sentences lie inside it, in order.
    """

    beats: dict[str, Span]
    sentences: dict[str, tuple[Span, ...]]

    @property
    def total_ms(self) -> int:
        """The length of the review in milliseconds."""
        return max((span.end for span in self.beats.values()), default=0)
