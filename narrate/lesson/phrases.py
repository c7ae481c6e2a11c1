"""The teacher's own wordings for moves, checked against ours and laid before them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path

from jinja2 import Environment, TemplateError, meta

from narrate.errors import Fault, FaultsFound
from narrate.items.messages import nearest
from narrate.items.nodes import Text
from narrate.items.texts import shorten
from narrate.items.voice import Phrase, Voice
from narrate.lesson.templates import ROUTINE, builtin_folder, is_routine

_NOT_SAID = ("page/", "reason/", "define/", "greeting", "closing", "label")
"""What is no move, or has a key of its own."""


def own_templates(voice: Voice, language: str) -> dict[str, str]:
    """Her wordings as templates by name: before ours, or in place of a routine."""
    moves = _moves(language) if voice.phrases else {}
    return {
        f"{named(phrase)}.j2": _joined(phrase, moves[named(phrase)])
        for phrase in voice.phrases
        if named(phrase) in moves
    }


def check(voice: Voice, language: str, environment: Environment) -> None:
    """Raises FaultsFound where a move is not known, or a wording is none for it."""
    moves = _moves(language) if voice.phrases else {}
    faults = [found for phrase in voice.phrases for found in _faults(phrase, moves, environment)]
    if faults:
        raise FaultsFound(tuple(faults))


def named(phrase: Phrase) -> str:
    """The name of a phrase's template, without its ending."""
    return phrase.move.text.strip().replace(" ", "-")


def _joined(phrase: Phrase, ours: str) -> str:
    texts = [text.text.strip() for text in phrase.texts]
    if is_routine(ours):
        return "\n".join((ROUTINE, "\n---\n".join(texts)))
    return "\n---\n".join([*texts, ours])


@lru_cache(maxsize=2)
def _moves(language: str) -> dict[str, str]:
    """The moves that have words, with our template for each."""
    folder = builtin_folder() / language
    names = {path.relative_to(folder).as_posix().removesuffix(".j2"): path for path in _all(folder)}
    said = {name: path for name, path in names.items() if not name.startswith(_NOT_SAID)}
    return {name: path.read_text(encoding="utf-8") for name, path in sorted(said.items())}


def _all(folder: Path) -> Iterator[Path]:
    return folder.rglob("*.j2")


def _faults(phrase: Phrase, moves: dict[str, str], environment: Environment) -> Iterator[Fault]:
    name = named(phrase)
    if name not in moves:
        near = nearest(name, moves)
        right = f'did you mean "{near}"?' if near else "the moves are the files of templates/en"
        wrong = f'there is no move "{shorten(phrase.move.text)}"'
        yield Fault(place=phrase.move.place, wrong=wrong, right=right)
        return
    known = _names(moves[name], environment)
    for text in phrase.texts:
        yield from _flaws(text, known, environment)


def _flaws(text: Text, known: frozenset[str], environment: Environment) -> Iterator[Fault]:
    if found := re.search(r"\d", text.text):
        right = "write words only; names in {{ }} say the numbers of each question"
        yield Fault(place=text.at(found.start()), wrong="this wording holds a number", right=right)
    try:
        used = _names(text.text, environment)
    except TemplateError as error:
        wrong = f"this wording cannot be read ({error.message})"
        yield Fault(place=text.place, wrong=wrong, right="write names as {{ fraction }}")
        return
    for name in sorted(used - known):
        near = nearest(name, known)
        here = ", ".join(f"{{{{ {each} }}}}" for each in sorted(known)) or "none"
        right = f"did you mean {{{{ {near} }}}}?" if near else f"known here are {here}"
        yield Fault(place=text.place, wrong=f"{{{{ {name} }}}} is not known here", right=right)


def _names(source: str, environment: Environment) -> frozenset[str]:
    return frozenset(meta.find_undeclared_variables(environment.parse(source)))
