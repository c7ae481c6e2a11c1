"""How each thing comes on, by what it is: one table for all pages.

What a hand would draw from left to right is wiped on: a strike, a hop, a list that is said number
by number. A mark that says "look here" is there at once. What is worked out, or drawn as a
whole, fades in.
"""

from __future__ import annotations

from collections.abc import Mapping

from narrate.lesson.marks import Effect
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
from narrate.solution import figures

OF_SHOWS: Mapping[type, Effect] = {
    StemMark: "appear",
    PauseSign: "appear",
    Line: "fade",
    Multiples: "wipe",
    Strike: "wipe",
    Choose: "appear",
    FillBoxes: "fade",
    Takeaway: "fade",
}

OF_LAYERS: Mapping[type, Effect] = {
    figures.Strip: "fade",
    figures.Shade: "wipe",
    figures.ShadeEach: "wipe",
    figures.CrossOff: "wipe",
    figures.Cut: "fade",
    figures.Brace: "appear",
    figures.Bars: "fade",
    figures.NumberLine: "fade",
    figures.Stretch: "wipe",
    figures.Point: "appear",
    figures.Jump: "wipe",
}

RING: Effect = "appear"
"""The ring around the number that lists share."""


def effect_of(show: Show) -> Effect:
    """How a show comes on; a number of the stem that is not needed is struck."""
    match show:
        case StemMark(role="extra"):
            return OF_SHOWS[Strike]
        case Draw(layer):
            return OF_LAYERS[type(layer)]
        case _:
            return OF_SHOWS[type(show)]
