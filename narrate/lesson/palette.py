"""The looks of the pages: which colour each role has, on light paper and on a dark board.

Pages name roles; a palette is chosen when they are written. The accents on paper are those of
Okabe & Ito (2002, rev. 2008), told apart by colour-blind readers; those on the board are of the
same hues, so dark that cuts of ink stand out from them and so light that they stand out from the
ground. Meaning never hangs on a colour alone: amounts differ by hatching and outline, too.
"""

from __future__ import annotations

from collections.abc import Mapping

from narrate.lesson.marks import Colour

Palette = Mapping[Colour, str]
"""Hex by role, without the number sign."""

LIGHT: Palette = {
    "paper": "FFFDF7",
    "ink": "1B1B1B",
    "quiet": "6B6B6B",
    "pen": "0072B2",
    "panel": "F4F1E6",
    "first": "56B4E9",
    "second": "009E73",
    "third": "CC79A7",
    "taken": "DDEDF5",
}
"""Paper with a blue pen."""

DARK: Palette = {
    "paper": "182E29",
    "ink": "FBF3DD",
    "quiet": "A9B8AE",
    "pen": "F2DC5D",
    "panel": "0F231F",
    "first": "3C8EC4",
    "second": "009E73",
    "third": "C0719E",
    "taken": "2F5560",
}
"""Slate green with cream and yellow chalk, like a classroom board."""

LOOKS: Mapping[str, Palette] = {"light": LIGHT, "dark": DARK}
"""The looks by name."""

TEXT_COLOURS: tuple[Colour, ...] = ("ink", "pen", "quiet")
"""Roles that carry words."""

LINE_COLOURS: tuple[Colour, ...] = ("ink", "pen", "quiet", "second", "third")
"""Roles that carry lines and hatching; every other role is a fill with an outline of ink."""


def contrast(first: str, second: str) -> float:
    """The contrast ratio of two hex colours, 1 to 21 (WCAG 2.2, "contrast ratio")."""
    dark, light = sorted((_luminance(first), _luminance(second)))
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    red, green, blue = (_linear(int(colour[at : at + 2], 16) / 255) for at in (0, 2, 4))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(channel: float) -> float:
    return channel / 12.92 if channel <= 0.04045 else float(((channel + 0.055) / 1.055) ** 2.4)
