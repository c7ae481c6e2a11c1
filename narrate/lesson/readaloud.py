"""How any part begins: its label and the item's own words, then the time to try it."""

from __future__ import annotations

from dataclasses import replace

from narrate.exact.caption import caption
from narrate.items.item import Item, Part
from narrate.lesson.hers import plain_sentences
from narrate.lesson.lesson import Sentence
from narrate.lesson.shows import PauseSign
from narrate.lesson.wording import Words
from narrate.reading.words.unfinished import as_question


def part_label(words: Words, item: Item, part: Part) -> str:
    """What a part is called: "Question 2", or "Question 2, part A"."""
    if not item.lettered:
        return item.label
    letter = chr(ord("A") + part.number - 1)
    return caption(words.short("page/part", {"label": item.label, "letter": letter}))


def is_first(item: Item, part: Part) -> bool:
    """Whether a part is the first of its item, which reads what the parts share."""
    return part.number == item.parts[0].number


def read_aloud(words: Words, item: Item, part: Part) -> list[Sentence]:
    """The label and the words of a part; before the first one those that all share."""
    sentences = [*words.tell("label", {"label": part_label(words, item, part)})]
    if is_first(item, part) and item.stimulus:
        sentences.extend(plain_sentences(item.stimulus.text, words.spoken, stem=True))
    is_open = _is_open(part.ask)
    told = part.ask.rstrip(" .…_") if is_open else part.ask  # "what" is said for the blank
    asked = [*plain_sentences(told, words.spoken, stem=True)]
    if is_open:
        asked[-1] = _asking(asked[-1], caption(words.short("page/open-question", {})))
    return [*sentences, *asked]


def _is_open(ask: str) -> bool:
    """Whether a question is a sentence that the choices end: "The product of 36 and 305 is"."""
    return not ask.rstrip().endswith((".", "?", "!", ":")) and as_question(ask) != ask


def _asking(sentence: Sentence, word: str) -> Sentence:
    """An open sentence said as a question, with this word where the choices stand."""
    say, shown = (text.rstrip(" .…_") for text in (sentence.say, sentence.caption))
    return replace(sentence, say=f"{say} {word}", caption=f"{shown} {word}")


def pause_here(words: Words) -> PauseSign:
    """The sign that stands while pupils try."""
    return PauseSign(caption(words.short("page/pause", {})))
