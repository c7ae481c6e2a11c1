"""The colours of the pages by name, and how far apart two of them are.

The accents are those of Okabe & Ito (2002, rev. 2008), told apart by colour-blind readers; which
colour plays which role is our own choice. Printed matter is ink, what the teacher adds is blue.
"""

from __future__ import annotations

from narrate.lesson.marks import Colour

LIGHT: dict[Colour, str] = {
    "ink": "1B1B1B",
    "paper": "FFFDF7",
    "blue": "0072B2",
    "orange": "E69F00",
    "sky": "56B4E9",
    "green": "009E73",
    "purple": "CC79A7",
    "grey": "6B6B6B",
    "pale": "EFEBDD",
}
"""Hex by name for the light theme, without the number sign."""

TEXT_COLOURS: tuple[Colour, ...] = ("ink", "blue", "grey")
"""Colours that carry words on paper."""

LINE_COLOURS: tuple[Colour, ...] = ("ink", "blue", "grey", "green", "purple")
"""Colours that carry lines and hatching on paper; every other colour is a fill with an outline."""


def contrast(first: str, second: str) -> float:
    """The contrast ratio of two hex colours, 1 to 21 (WCAG 2.2, "contrast ratio")."""
    dark, light = sorted((_luminance(first), _luminance(second)))
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    red, green, blue = (_linear(int(colour[at : at + 2], 16) / 255) for at in (0, 2, 4))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else float(((channel + 0.055) / 1.055) ** 2.4)
