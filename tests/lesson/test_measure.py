"""Widths against the advance tables of a second, independent, metric-compatible font."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from narrate.lesson import measure

LIBERATION = Path("/usr/share/fonts/truetype/liberation")
SENTENCE = "A rain barrel is 3/4 full: 19/20 − 4/20 = 15/20?"

# Advances of Arial at 2,048 units to the em, as published in Adobe's Core 14 AFM file of the
# metric-compatible Helvetica (thousandths of an em): "0" 556, "A" 667, "i" 222, "=" 584, " " 278.
HELVETICA = {"0": 556, "A": 667, "i": 222, "=": 584, " ": 278, "m": 833, "(": 333, "×": 584}
HELVETICA_BOLD = {"0": 556, "A": 722, "i": 278, "=": 584, " ": 278, "m": 889, "(": 333}


@pytest.mark.parametrize(("character", "thousandths"), HELVETICA.items())
def test_regular_advances_are_those_of_the_published_metrics(
    character: str, thousandths: int
) -> None:
    assert measure.text_width(character, 100_000) == pytest.approx(thousandths * 100, abs=60)


@pytest.mark.parametrize(("character", "thousandths"), HELVETICA_BOLD.items())
def test_bold_advances_are_those_of_the_published_metrics(character: str, thousandths: int) -> None:
    width = measure.text_width(character, 100_000, bold=True)
    assert width == pytest.approx(thousandths * 100, abs=60)


@pytest.mark.parametrize(("name", "bold"), [("Regular", False), ("Bold", True)])
def test_a_sentence_is_as_wide_as_in_liberation_sans(name: str, bold: bool) -> None:
    """Liberation Sans is metric-compatible with Arial (its own README)."""
    path = LIBERATION / f"LiberationSans-{name}.ttf"
    if not path.exists():
        pytest.skip("fonts-liberation is not installed")
    with TTFont(path, lazy=True) as font:
        names, metrics = font.getBestCmap(), font["hmtx"].metrics
        expected = sum(metrics[names[ord(character)]][0] for character in SENTENCE)
    assert measure.text_width(SENTENCE, 2_048, bold=bold) == expected


def test_lines_are_no_wider_than_asked_and_lose_no_word() -> None:
    text = "Three pupils weed the long bed behind the school kitchen before lunch " * 4
    lines = measure.wrap(text, 2_800, 40_000)
    assert all(measure.box_width(line, 2_800) <= 40_000 for line in lines)
    assert " ".join(lines).split() == text.split()


def test_a_line_takes_every_word_that_fits() -> None:
    lines = measure.wrap("one two three four five six seven eight nine ten " * 3, 2_000, 25_000)
    for line, following in pairwise(lines):
        longer = f"{line} {following.split()[0]}"
        assert measure.box_width(longer, 2_000) > 25_000


def test_a_word_wider_than_the_line_is_cut_and_stays_whole() -> None:
    word = "1" * 300
    lines = measure.wrap(word, 2_000, 10_000)
    assert "".join(lines) == word
    assert all(measure.box_width(line, 2_000) <= 10_000 for line in lines)
