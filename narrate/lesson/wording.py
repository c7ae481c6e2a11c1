"""Sentences from templates: chosen once, spoken in words and captioned in symbols from one tree.

A template file holds several wordings of one move, divided by lines of `---`; each wording is a few
sentences. The comment `{# routine #}` on its first line says that it is a frame pupils hold on to:
its words may come back in every part; a second wording of a frame is its short form. All other
sentences come at most once in a part and its neighbours (`choosing`). A wording that begins with
`{# short #}` is for parts with little time. Pauses are named: `<think>` after a
question, `<look>` after something to see, `<try>` where pupils work on their own, `<wait>` longer
than between sentences.

Mathematics goes through templates as one private character, so that the words around it can be
laid out first; then it is spoken for the voice and written for the caption.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import Any

from jinja2 import TemplateError, TemplateNotFound
from jinja2.exceptions import SecurityError

from narrate.errors import Fault, FaultsFound, WrongUse
from narrate.exact import prose
from narrate.exact._languages import words_of
from narrate.exact.caption import write
from narrate.exact.spoken import pieces_name, speak
from narrate.exact.tree import Piece, Whole
from narrate.items.nodes import Text
from narrate.items.voice import NO_VOICE, Voice
from narrate.lesson.choosing import Memory, Wording
from narrate.lesson.hers import plain_sentences
from narrate.lesson.lesson import Sentence
from narrate.lesson.marked import Marks, fixed, plain, wrapped
from narrate.lesson.phrases import check, named, own_templates
from narrate.lesson.templates import is_routine, is_short, speech_environment, wordings
from narrate.lesson.timeline import MODEL_WPM, sentence_ms

PAUSES = {"think": 3000, "look": 1500, "try": 5000, "wait": 1000}
"""Silences in milliseconds (facts of the trade: wait time at least 3 s, Rowe 1974; Stahl 1994)."""

SENTENCE_PAUSE = 500

MOST_WORDS = 25
"""A longer sentence is not said where another wording has none."""

LARGEST_NAMED = 100
"""Larger denominators have no name that is understood: one hundred tenths."""

FULL, SHORT, SHORTER, CLOSE, TIGHT = range(5)
"""How briefly a part is told: in full; with short frames; explained in short words, too; with what
is alike in one breath; with the shortest words of all."""

WORN = 3
"""So much of what speaks against a wording counts before its length."""

EXPLAINING = frozenset({"one size", "rewrite", "improper", "regroup", "rule out", "slip"})
"""Moves that say why; their words are shortened last, in a story with those of the look back."""

DEFINITION = 5_000
"""About how long it takes to explain a term, in milliseconds: what a brief telling avoids."""

_END = re.compile(r"(?<=[.?!])(?:[\"”’])?\s+")


@dataclass(frozen=True, slots=True)
class _Move:
    """The words of a move: whether they are a routine, the names of its wordings, which are short.

    `short` has the places of the wordings that begin with `{# short #}`.
    """

    routine: bool
    wordings: tuple[str, ...]
    short: frozenset[int]


class Words:
    """The wording of one review in one language. `folder` is the teacher's own templates.

    `voice` is how she speaks; her templates come before it. Raises WrongUse where there are no
    templates in that language, FaultsFound where her voice does not go with ours.
    """

    def __init__(self, language: str, folder: Path | None = None, voice: Voice = NO_VOICE) -> None:
        self.language = language
        self.voice = voice
        self._environment = speech_environment(language, folder, own_templates(voice, language))
        hers = folder / language if folder else None
        self._favourites = {
            named(p): len(p.texts) for p in voice.phrases if not _in(hers, named(p))
        }
        texts = {"greeting": voice.greeting, "closing": voice.closing}
        self._plain = {move: text for move, text in texts.items() if text and not _in(hers, move)}
        self._avoided = [(word, _spoken_of(word.text)) for word in voice.avoid]
        self._environment.filters.update(self._filters())
        has_name = words_of(language).reads_as_pieces
        self._environment.tests["one"] = lambda said: plain(said) in (1, Whole(1))
        self._environment.tests["named"] = lambda size: has_name(plain(size))
        check(voice, language, self._environment)
        self._templates: dict[str, _Move] = {}
        self._kept: dict[Any, list[tuple[Sentence, ...]]] = {}
        self._memory = Memory()
        self.brief = FULL
        self.explaining = EXPLAINING
        self.explained: set[str] = set()

    @property
    def spoken(self) -> str:
        """The code of the words that mathematics is spoken in."""
        return f"{self.language}-quarters" if self.voice.quarters else self.language

    @cached_property
    def known(self) -> frozenset[str]:
        """The terms that the class knows. Raises FaultsFound where one has no explanation."""
        faults = [
            Fault(
                place=term.place, wrong=f'"{term.text}" is no term that is explained', right=right
            )
            for term in self.voice.known
            if term.text.strip().lower() not in self.terms
            for right in (f"the terms are {', '.join(sorted(self.terms))}",)
        ]
        if faults:
            raise FaultsFound(tuple(faults))
        return frozenset(term.text.strip().lower() for term in self.voice.known)

    def next_part(self) -> None:
        """From here on another part is told."""
        self._memory.next_part()

    def state(self) -> Memory:
        """What has been said so far, to come back to with `restore`."""
        return self._memory.copied()

    def restore(self, state: Memory) -> None:
        """Forgets what was said since a state, which can be come back to again."""
        self._memory = state.copied()

    def tell(self, move: str, details: Mapping[str, Any]) -> tuple[Sentence, ...]:
        """The sentences of a move, in the wording that repeats least.

        As `brief` grows, frames are said in their short form, then moves that explain, too; where
        it is `TIGHT` the wording is taken that is said soonest, the explanation of terms that are
        not yet `explained` counted in.
        """
        if move in self._plain:
            return tuple(plain_sentences(self._plain[move], self.spoken))
        found = self._find(move)
        if found.routine:
            return self._routine(move, found, details)
        return self._chosen(move, found, details)

    def unsay(self, sentences: Iterable[Sentence]) -> None:
        """Forgets sentences that have been left out."""
        for move, _, k in {sentence.wording.rpartition("#") for sentence in sentences}:
            if not self._find(move).routine:
                self._memory.used[move, int(k)] -= 1

    def is_fresh(self, move: str) -> bool:
        """Whether a move has a wording left that was not said lately, nor as often as it may be."""
        places = range(len(self._find(move).wordings))
        found = ((move, k) for k in places)
        return any(not self._memory.lately(w) and not self._memory.is_used_up(w) for w in found)

    def _chosen(self, move: str, found: _Move, details: Mapping[str, Any]) -> tuple[Sentence, ...]:
        """The first wording in order without a fault, or of the best ones that said soonest."""
        said: list[tuple[tuple[int, ...], Wording, tuple[Sentence, ...]]] = []
        for k in sorted(range(len(found.wordings)), key=lambda k: self._order(move, found, k)):
            for sentences in self._sayable(found.wordings[k], details):
                against: tuple[int, ...] = (self._faults(sentences),)
                if self.brief == TIGHT:
                    worst = self._order(move, found, k)[:WORN]
                    against = (*against, *worst, self._length(sentences))
                elif not any(against):
                    return self._note((move, k), sentences)
                said.append((against, (move, k), sentences))
        if not said:
            raise self._none_left(move, found, details)
        return self._note(*min(said, key=lambda each: each[0])[1:])

    def _routine(self, move: str, found: _Move, details: Mapping[str, Any]) -> tuple[Sentence, ...]:
        """A frame, its short or its shortest form; another where a word of it is avoided."""
        last = len(found.wordings) - 1
        wanted = last if self.brief == TIGHT else min(self.brief, 1, last)
        for k in sorted(range(last + 1), key=lambda k: abs(k - wanted)):
            for sentences in self._sayable(found.wordings[k], details):
                return _worded(move, k, sentences)
        raise self._none_left(move, found, details)

    def _sayable(self, wording: str, details: Mapping[str, Any]) -> list[tuple[Sentence, ...]]:
        """A wording told, unless it says a word that the teacher avoids."""
        told = self._told(wording, details)
        if not self._avoided:
            return told
        return [each for each in told if self._avoids(" ".join(s.say for s in each)) is None]

    def _avoids(self, text: str) -> Text | None:
        """The first word of a text that is avoided."""
        return next((word for word, pattern in self._avoided if pattern.search(text)), None)

    def _none_left(self, move: str, found: _Move, details: Mapping[str, Any]) -> FaultsFound:
        said = (s.say for each in self._told(found.wordings[0], details) for s in each)
        return self._not_avoided(move, " ".join(said))

    def _not_avoided(self, move: str, text: str) -> FaultsFound:
        word = self._avoids(text)
        assert word is not None
        name = move.replace(" ", "-")
        wrong = f"every wording of “{name}” says a word to avoid, such as “{word.text}” in “{text}”"
        right = f"take the word out of avoid:, or write {name}: with words of your own in phrases:"
        return FaultsFound((Fault(place=word.place, wrong=wrong, right=right),))

    def _faults(self, sentences: tuple[Sentence, ...]) -> int:
        """What speaks against sentences: those said lately, and still more those too long."""
        too_long = sum(len(each.say.split()) > MOST_WORDS for each in sentences)
        return self._memory.repeats(sentences) + 10 * too_long

    def _length(self, sentences: tuple[Sentence, ...]) -> int:
        """How long sentences take, in milliseconds, with the terms explained that they need."""
        new = [term for term in self.terms_in(sentences) if term not in self.explained]
        said = sum(sentence_ms(each.say, MODEL_WPM) + each.pause_ms for each in sentences)
        return said + DEFINITION * len(new)

    def terms_in(self, sentences: Iterable[Sentence]) -> tuple[str, ...]:
        """The terms with a definition that sentences use, apart from the item's own words."""
        said = " ".join(each.say for each in sentences if not each.stem).lower()
        return tuple(term for term in self.terms if term in said and _is_word(term, said))

    def _note(self, wording: Wording, sentences: tuple[Sentence, ...]) -> tuple[Sentence, ...]:
        self._memory.note(wording, sentences)
        return _worded(*wording, sentences)

    def short(self, move: str, details: Mapping[str, Any]) -> tuple[Piece, ...]:
        """A few words beside a drawing: words and mathematics as pieces."""
        marks = Marks()
        text = self._rendered(self._find(move).wordings[0], details, marks)[0]
        if self._avoids(text):
            raise self._not_avoided(move, marks.fill(text, write))
        return tuple(marks.pieces(text))

    def has(self, move: str) -> bool:
        """Whether there is a template for a move."""
        try:
            self._find(move)
        except TemplateNotFound:
            return False
        return True

    @cached_property
    def terms(self) -> tuple[str, ...]:
        """The terms that have a definition, longest first."""
        loader = self._environment.loader
        assert loader is not None
        names = {n for n in loader.list_templates() if n.startswith("define/")}
        terms = {n.removeprefix("define/").removesuffix(".j2").replace("-", " ") for n in names}
        return tuple(sorted(terms, key=lambda term: (-len(term), term)))

    def _order(self, move: str, found: _Move, k: int) -> tuple[int, ...]:
        """What speaks against a wording: recent and frequent use, and that it is too long."""
        memory, wording = self._memory, (move, k)
        wants_short = self.brief > (SHORT if move.partition("/")[0] in self.explaining else FULL)
        favourite = k < self._favourites.get(move.replace(" ", "-"), 0)
        other = bool(found.short) and (k in found.short) != wants_short and not favourite
        worn = memory.lately(wording), memory.is_used_up(wording)
        return *worn, other, not favourite, memory.used[wording], k

    def _find(self, move: str) -> _Move:
        """A move's words; raises TemplateNotFound."""
        if move not in self._templates:
            loader = self._environment.loader
            assert loader is not None
            name = f"{move.replace(' ', '-')}.j2"
            source, _, _ = loader.get_source(self._environment, name)
            texts = wordings(source)
            self._templates[move] = _Move(
                routine=is_routine(source),
                wordings=tuple(f"{name}#{k}" for k in range(len(texts))),
                short=frozenset(k for k, text in enumerate(texts) if is_short(text)),
            )
        return self._templates[move]

    def _told(self, wording: str, details: Mapping[str, Any]) -> list[tuple[Sentence, ...]]:
        """A wording told with its details; kept, as a part may be told again in shorter words."""
        told = wording, tuple((name, fixed(detail)) for name, detail in details.items())
        if told not in self._kept:
            marks = Marks()
            texts = self._rendered(wording, details, marks)
            self._kept[told] = [tuple(self._sentences(text, marks)) for text in texts]
        return self._kept[told]

    def _rendered(self, wording: str, details: Mapping[str, Any], marks: Marks) -> list[str]:
        """A wording with its details filled in, white space made single.

        It is several wordings where the teacher's template includes ours, dividers and all.
        """
        try:
            template = self._environment.get_template(wording)
            text = template.render({name: wrapped(d, marks) for name, d in details.items()})
        except (TemplateError, SecurityError) as error:
            name = wording.partition("#")[0]
            raise WrongUse(f"template {name}: {error}; correct it, or take it out") from error
        return [" ".join(each.split()) for each in wordings(text)]

    def _sentences(self, text: str, marks: Marks) -> Iterator[Sentence]:
        for words, pause in _split(text):
            say = marks.fill(words, lambda tree: speak(tree, self.spoken))
            yield Sentence(
                say=capital(say),
                caption=capital(marks.fill(words, write)),
                pause_ms=PAUSES.get(pause, SENTENCE_PAUSE),
            )

    def _filters(self) -> dict[str, Any]:
        return {
            "pieces": lambda size: self._pieces(plain(size), 2),
            "piece": lambda size: self._pieces(plain(size), 1),
            "listed": _listed,
            "in_words": lambda text: prose.say_prose(str(text), self.spoken),
        }

    def _pieces(self, size: int, count: int) -> str:
        """The name of pieces; past a hundred it would be heard as a number of other pieces."""
        if size <= LARGEST_NAMED or words_of(self.language).reads_as_pieces(size):
            return pieces_name(size, count, self.spoken)
        return "".join(map(str, self.short("page/that-size", {"count": count})))


def _worded(move: str, k: int, sentences: tuple[Sentence, ...]) -> tuple[Sentence, ...]:
    """Sentences with the wording that they are said in."""
    return tuple(replace(sentence, wording=f"{move}#{k}") for sentence in sentences)


def _in(folder: Path | None, move: str) -> bool:
    """Whether a folder of templates has words for a move."""
    return folder is not None and (folder / f"{move}.j2").is_file()


def _spoken_of(word: str) -> re.Pattern[str]:
    """Finds a word or phrase in a text, one or many, small or capital."""
    inner = r"\s+".join(map(re.escape, word.split()))
    return re.compile(rf"(?<![\w-]){inner}(?:s|es)?(?![\w-])", re.IGNORECASE)


def _listed(things: Iterable[object], last: str = "and") -> str:
    """ "A", "A and B", "A, B and C"."""
    names = [str(thing) for thing in things]
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} {last} {names[-1]}"


def _split(text: str) -> Iterator[tuple[str, str]]:
    """Sentences with the name of the pause after each, "" where none is named."""
    for chunk in re.split(r"(?<=>)\s+", text):
        words, _, pause = (
            chunk.rstrip(">").partition(" <") if chunk.endswith(">") else (chunk, "", "")
        )
        sentences = [s for s in _END.split(words.strip()) if s]
        for place, sentence in enumerate(sentences):
            yield sentence, pause if place == len(sentences) - 1 else ""


def capital(sentence: str) -> str:
    """A sentence with its first letter large."""
    return sentence[:1].upper() + sentence[1:]


def _is_word(term: str, text: str) -> bool:
    """Whether a text says a term as a word of its own, one or several."""
    return re.search(rf"\b{term}s?\b", text) is not None
