"""What comes on the page with a beat, in a few words: the left column of the script."""

from __future__ import annotations

from narrate.exact.caption import caption, write
from narrate.lesson import alt
from narrate.lesson.shows import (
    Choose,
    Draw,
    FillBoxes,
    Line,
    Multiples,
    PauseSign,
    Show,
    StemMark,
    Strike,
    Takeaway,
)


def in_words(show: Show, language: str, phrase: str = "") -> str:
    """What a show puts on the page; `phrase` is what a stem mark marks.

    Shapes are described in the plain words of a language, in fourths whatever is spoken.
    """
    language = language.partition("-")[0]
    match show:
        case StemMark():
            return alt.mark(show, phrase, language)[1]
        case PauseSign(words):
            return words
        case Line(tree=tree, note=note):
            return f"{write(tree)}; {note}" if note else write(tree)
        case Multiples(of=of, values=values):
            return f"{of}: {', '.join(map(str, values))}"
        case Draw(layer):
            return alt.layer(layer, language)[1]
        case Strike(letter=letter, reason=reason):
            return f"{alt.strike(letter, reason, language)[0]}: {caption(reason)}"
        case Choose(letter):
            return alt.choose(letter, language)[1]
        case FillBoxes(digits):
            return alt.filled(digits, language)[1]
        case Takeaway(text):
            return text
