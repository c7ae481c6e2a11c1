"""How any part begins: its label and the item's own words, then the time to try it."""

from __future__ import annotations

from narrate.exact.caption import caption
from narrate.items.item import Item, Part
from narrate.lesson.hers import plain_sentences
from narrate.lesson.lesson import Sentence
from narrate.lesson.shows import PauseSign
from narrate.lesson.wording import Words


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
    sentences.extend(plain_sentences(part.ask, words.spoken, stem=True))
    return sentences


def pause_here(words: Words) -> PauseSign:
    """The sign that stands while pupils try."""
    return PauseSign(caption(words.short("page/pause", {})))
