"""Words in a template's font are as wide as they were measured in Arial."""

from __future__ import annotations

import json
import re
import subprocess
from collections.abc import Iterator
from html import escape, unescape
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageFont

from narrate.lesson import measure
from narrate.lesson.lesson import Lesson
from narrate.lesson.marks import Text
from narrate.lesson.timeline import predict
from narrate.outputs import Options, deck, make_options
from narrate.outputs import _lettering as lettering
from narrate.outputs._lettering import SPARE, face, lettered, widest
from narrate.outputs._shapes import EMU
from narrate.outputs._sheets import sheets
from tests.outputs.libreoffice import convert
from tests.outputs.templates_made import template
from tests.outputs.test_pictures import Drawn, drawn, lesson, texts

TABLE = json.loads(Path(lettering.__file__).with_name("_fonts.json").read_text("utf-8"))
NAMES = sorted(set(TABLE) - {"characters"})
WORDS = st.text(st.sampled_from(TABLE["characters"]), min_size=1, max_size=40)


def liberation(name: str, units: int) -> ImageFont.FreeTypeFont:
    path = Path("/usr/share/fonts/truetype/liberation") / name
    if not path.exists():
        pytest.skip("the Liberation fonts are not installed")
    return ImageFont.truetype(path, units, layout_engine=ImageFont.Layout.BASIC)


@pytest.mark.parametrize("kind", ["Regular", "Bold"])
def test_widths_of_times_are_those_of_liberation_serif(kind: str) -> None:
    """An open font drawn to the widths of Times New Roman; its file is the source outside."""
    font = liberation(f"LiberationSerif-{kind}.ttf", 2048)
    for character, width in zip(
        TABLE["characters"], TABLE["Times New Roman"][kind.lower()], strict=True
    ):
        if width:
            assert abs(font.getlength(character) * 1000 / 2048 - width) <= 1, character


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("bold", [False, True])
@given(text=WORDS, size=st.sampled_from([1800, 2200, 2800, 3600, 4000]))
def test_a_piece_is_as_wide_as_in_arial(name: str, bold: bool, text: str, size: int) -> None:
    """Within a hundredth of a point for each character, by the advances that are known."""
    font = face(name)
    assert font is not None
    known = [c for c in text if font.advances[bold].get(c)]
    own = size * font.size // 1000
    apart = font.spacing(text, size, own, bold=bold)
    wide = sum(font.advances[bold][c] for c in known) * own / 1000
    asked = measure.text_width("".join(known), size, bold=bold)
    assert abs(wide + apart * len(text) - asked) <= len(text) + 1 or not known


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_set_smaller(name: str) -> None:
    font = face(name)
    assert font is not None
    assert 1000 <= font.size <= 1150


def test_an_unknown_font_has_no_face() -> None:
    assert face("Aptos") is None
    assert face("characters") is None


@given(WORDS)
def test_the_words_stay(text: str) -> None:
    font = face("Calibri")
    assert font is not None
    run = (
        '<a:r><a:rPr lang="en-US" sz="2800" dirty="0"><a:solidFill/></a:rPr>'
        f"<a:t>{escape(text, quote=False)}</a:t></a:r>"
    ).replace("<a:solidFill/>", "<a:solidFill><a:schemeClr val='tx1'/></a:solidFill>")
    done = lettered(run, font)
    assert re.sub("<[^>]*>", "", done) == escape(text, quote=False)
    assert 'sz="3032"' in done


PARAGRAPH = (
    '<a:p><a:pPr algn="l"><a:lnSpc><a:spcPts val="3000"/></a:lnSpc></a:pPr><a:r>{}<a:t>{}</a:t>'
    "</a:r><a:endParaRPr/></a:p>"
)
RUN = (
    '<a:rPr lang="en-US" sz="{}"{} dirty="0"><a:solidFill><a:schemeClr val="tx1"/>'
    "</a:solidFill></a:rPr>"
)
PROSE = st.lists(
    st.text(st.sampled_from([c for c in TABLE["characters"] if c != " "]), min_size=1, max_size=12),
    min_size=1,
    max_size=8,
).map(" ".join)


class TestUnknownWidths:
    """Words in a font whose widths are not known stand where they would in Arial."""

    @pytest.mark.parametrize("bold", [False, True])
    @given(text=PROSE, size=st.sampled_from([1800, 2000, 2800, 4000]))
    def test_no_word_reaches_the_next_in_any_known_font(
        self, bold: bool, text: str, size: int
    ) -> None:
        run = RUN.format(size, ' b="1"' if bold else "")
        done = lettered(PARAGRAPH.format(run, escape(text, quote=False)), None)
        stops = [int(stop) // EMU for stop in re.findall(r'<a:tab pos="(\d+)"', done)]
        spaced = re.findall(r"<a:rPr ([^>]*)>.*?<a:t>(\t?)([^<]*)</a:t>", done)
        words = text.split(" ")
        assert [unescape(word) for _, _, word in spaced] == words
        assert [bool(tab) for _, tab, _ in spaced] == [False] + [True] * (len(words) - 1)
        for start, end, (how, _, _), word in zip(
            [0, *stops], [*stops, 10**9], spaced, words, strict=True
        ):
            assert f'sz="{size}"' in how
            found = re.search(r'spc="(-\d+)"', how)
            for name in NAMES:
                advances = TABLE[name]["bold" if bold else "regular"]
                known = dict(zip(TABLE["characters"], advances, strict=True))
                wide = sum(known[c] for c in word) * size / 1000
                wide += int(found[1]) * len(word) if found else 0
                assert start + wide < end, (name, word)

    def test_the_widest_has_something_to_spare(self) -> None:
        """`SPARE` per cent of Verdana's, the widest for this word by its row."""
        verdana = dict(zip(TABLE["characters"], TABLE["Verdana"]["regular"], strict=True))
        assert widest("barrel", bold=False) >= sum(verdana[c] for c in "barrel") * SPARE // 100

    def test_each_word_begins_where_it_did_in_libreoffice(self, tmp_path: Path) -> None:
        """Liberation Serif, by that name not in the table; a kerned pair moves a word a little."""
        liberation("LiberationSerif-Regular.ttf", 10)
        seen, told = pictured(tmp_path, "Liberation Serif")
        checked = 0
        for page, picture in zip(sheets(told, Options()), seen, strict=True):
            for mark in list(texts(page))[1:]:
                for number, line in enumerate(mark.lines):
                    if mark.align == "left" and len(line.split()) > 2:
                        top = mark.y + number * mark.leading
                        near = [w for w in picture.words if abs(w[2] - top) < mark.size // 2]
                        for word, start in starts(mark, line):
                            places = [round(w[1] - start) for w in near if w[0] == word]
                            assert any(abs(off) <= mark.size // 8 for off in places), (line, word)
                            checked += 1
        assert checked > 60


def starts(mark: Text, line: str) -> Iterator[tuple[str, int]]:
    """The words of a line with the places at which they begin in Arial."""
    for found in re.finditer(r"\S+", line):
        ahead = line[: found.start()]
        yield found.group(), mark.x + measure.text_width(ahead, mark.size, bold=mark.bold)


def pictured(folder: Path, font: str) -> tuple[list[Drawn], Lesson]:
    """The slides of a lesson on a template in a font, as LibreOffice draws them."""
    school, told = folder / "school.pptx", lesson()
    school.write_bytes(template(fonts=(font, font)))
    chosen = make_options(builds="by-hand", dark=False, theme=school, templates=None)
    with (folder / "deck.pptx").open("wb") as sink:
        deck.write(told, predict(told), chosen, sink)
    convert(folder, "pdf", "deck.pptx")
    fonts = subprocess.run(
        ["pdffonts", "deck.pdf"], cwd=folder, check=True, capture_output=True, timeout=60
    ).stdout.decode()
    assert "LiberationSerif" in fonts
    assert "LiberationSans" not in fonts
    return list(drawn(folder, "deck")), told


def test_words_end_where_the_next_begins_in_libreoffice(tmp_path: Path) -> None:
    """Prose ends within a sixth of an em of its place; LibreOffice kerns, “ A ” by 0.12 em."""
    liberation("LiberationSerif-Regular.ttf", 10)
    seen, told = pictured(tmp_path, "Times New Roman")
    checked = 0
    for page, picture in zip(sheets(told, Options()), seen, strict=True):
        for mark in list(texts(page))[1:]:
            for number, line in enumerate(mark.lines):
                words = line.split()
                if mark.align != "left" or len(words) < 3:
                    continue
                top = mark.y + number * mark.leading
                near = [w for w in picture.words if abs(w[2] - top) < mark.size // 2]
                last = [w for w in near if w[0] == words[-1]]
                right = mark.x + measure.text_width(line, mark.size, bold=mark.bold)
                ends = [round(word[3] - right) for word in last]
                assert any(abs(off) <= mark.size // 6 for off in ends), (line, ends)
                checked += 1
    assert checked > 20
