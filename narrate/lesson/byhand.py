"""A part that the teacher tells herself: her moments as beats, after the item is read and tried."""

from __future__ import annotations

from collections.abc import Iterator

from narrate.items.item import Choice
from narrate.lesson.appearing import in_words
from narrate.lesson.hers import line_or_words, plain_sentences
from narrate.lesson.lesson import Beat, Sentence
from narrate.lesson.readaloud import pause_here, read_aloud
from narrate.lesson.shows import Choose, Show
from narrate.lesson.silences import AFTER_BEAT, pausing
from narrate.lesson.solved import HandTold
from narrate.lesson.view import Told
from narrate.lesson.wording import Words

MOVE = "told by hand"


def tell_by_hand(words: Words, hand: HandTold) -> tuple[Told, ...]:
    """The beats of a part told by hand. What is only shown is said as well, for listeners."""
    words.next_part()
    told = [
        _told(words, hand, "read", "read", read_aloud(words, hand.item, hand.part), ()),
        _told(words, hand, "try", "try", words.tell("try", {}), (pause_here(words),)),
    ]
    count = 0
    for moment in hand.part.told:
        if not moment.say and not moment.show:
            assert moment.wait_ms is not None
            told[-1] = pausing(told[-1], moment.wait_ms)
            continue
        count += 1
        shows = tuple(_shows(moment.show, hand.part.choices))
        name = "told" if count == 1 else f"told-{count}"
        sentences = list(plain_sentences(moment.say or moment.show, words.spoken))
        wait = AFTER_BEAT if moment.wait_ms is None else moment.wait_ms
        told.append(pausing(_told(words, hand, name, MOVE, sentences, shows), wait))
    return tuple(told)


def _told(
    words: Words,
    hand: HandTold,
    name: str,
    move: str,
    sentences: list[Sentence] | tuple[Sentence, ...],
    shows: tuple[Show, ...],
) -> Told:
    beat = Beat(
        id=f"{hand.item.id}.{hand.part.number}.{name}",
        item=hand.item.id,
        part=hand.part.number,
        move=move,
        sentences=tuple(sentences),
        appears=tuple(in_words(show, words.language) for show in shows),
        waits=bool(shows),
    )
    return pausing(Told(beat=beat, shows=shows), max(sentences[-1].pause_ms, AFTER_BEAT))


def _shows(text: str, choices: tuple[Choice, ...]) -> Iterator[Show]:
    """The ring around a choice that is named by its letter, a line of work, or words."""
    if text in (choice.letter for choice in choices):
        yield Choose(text)
    elif text:
        yield line_or_words(text)
