"""A teacher's own template: used where it serves, told where it does not, refused in one line.

Contrast is WCAG 2.2's (1.4.3: 4.5 to 1 for words; 1.4.11: 3 to 1 for lines). What is written is
read by python-pptx and openxml-audit.
"""

from __future__ import annotations

import io
import re
import zipfile
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openxml_audit import validate_pptx
from pptx import Presentation

from narrate.errors import WrongUse
from narrate.lesson.marks import Colour
from narrate.lesson.palette import DARK, LIGHT, LINE_COLOURS, contrast
from narrate.outputs import Options, deck, make_options
from narrate.outputs._school import LARGEST_OPEN, read_template
from narrate.outputs._school_look import serving
from narrate.outputs._shapes import SCHEME
from tests.outputs.samples_deck import sample, times
from tests.outputs.templates_made import (
    BOARD,
    GARDEN,
    A,
    band,
    only_layouts,
    repacked,
    template,
    without_places,
    without_view,
)


def file(folder: Path, data: bytes, name: str = "school.pptx") -> Path:
    path = folder / name
    path.write_bytes(data)
    return path


def options(folder: Path, data: bytes) -> Options:
    return make_options(builds="by-hand", dark=False, theme=file(folder, data), templates=None)


def written(chosen: Options) -> bytes:
    sink = io.BytesIO()
    deck.write(sample(), times(sample()), chosen, sink)
    return sink.getvalue()


def opened(data: bytes) -> Any:
    return Presentation(io.BytesIO(data))


MADE = {
    "light": template(),
    "dark": template(BOARD, ("Arial", "Arial")),
    "band": template(change=band),
    "small": template(size=(10, 5.625), change=band),
    "no number": template(change=without_places("sldNum")),
    "no view": template(change=without_view),
    "content only": template(change=only_layouts("Title and Content")),
}


class TestUsed:
    @pytest.mark.parametrize("data", MADE.values(), ids=MADE.keys())
    def test_the_audit_finds_nothing(self, tmp_path: Path, data: bytes) -> None:
        """PyPI openxml-audit; nor does it find anything in the template."""
        path = file(tmp_path, written(options(tmp_path, data)), "deck.pptx")
        assert [str(error) for error in validate_pptx(str(path)).errors] == []

    @pytest.mark.parametrize("data", MADE.values(), ids=MADE.keys())
    def test_only_our_slides_are_in_it(self, tmp_path: Path, data: bytes) -> None:
        found = opened(written(options(tmp_path, data)))
        titles = [slide.shapes.title.text_frame.text for slide in found.slides]
        assert titles == [page.title for page in sample().pages]
        assert (found.slide_width, found.slide_height) == (12_192_000, 6_858_000)

    def test_its_master_colours_and_fonts_are_kept(self, tmp_path: Path) -> None:
        found = opened(written(options(tmp_path, template(change=band))))
        assert "band" in [shape.name for shape in found.slide_master.shapes]
        (theme,) = [
            rel.target_part.blob
            for rel in found.slide_master.part.rels.values()
            if rel.reltype.endswith("/theme")
        ]
        assert all(value in theme.decode() for value in (*GARDEN.values(), "Georgia", "Verdana"))

    def test_the_layout_is_the_one_with_a_title_alone(self, tmp_path: Path) -> None:
        found = opened(written(options(tmp_path, template())))
        assert {slide.slide_layout.name for slide in found.slides} == {"Title Only"}

    def test_its_colour_is_used_where_it_serves(self, tmp_path: Path) -> None:
        """The ink, 3B1F2B on white, does; the first accent, FF595E, is too faint for words."""
        xml = slide_xml(written(options(tmp_path, template())), 3)
        assert '<a:schemeClr val="tx1"/>' in xml
        assert '<a:schemeClr val="accent1"/>' not in xml

    def test_words_are_in_its_font_where_its_widths_are_known(self, tmp_path: Path) -> None:
        """By its place in the theme, so that a change of the theme's fonts reaches it."""
        chosen = options(tmp_path, template(fonts=("Georgia", "Calibri")))
        rest = slide_xml(written(chosen), 3).split("</p:sp>", 1)[1]
        runs = re.findall(r"<a:rPr [^>]*>.*?</a:rPr><a:t>", rest)
        assert len(runs) > 10
        assert all(run.count('<a:latin typeface="+mn-lt"/>') == 1 for run in runs[:-1])
        assert "Arial" not in rest
        assert not any("Calibri" in remark for remark in chosen.remarks)

    def test_words_are_in_its_font_where_they_are_not(self, tmp_path: Path) -> None:
        """At tab stops, so that they stand where they are measured; and the teacher is told."""
        chosen = options(tmp_path, template(fonts=("Georgia", "Aptos")))
        title, rest = slide_xml(written(chosen), 3).split("</p:sp>", 1)
        assert "<a:latin" not in title
        runs = re.findall(r"<a:rPr [^>]*>.*?</a:rPr><a:t>", rest)
        assert all(run.count('<a:latin typeface="+mn-lt"/>') == 1 for run in runs[:-1])
        assert "Arial" not in rest
        assert "<a:tab " in slide_xml(written(chosen), 2)
        assert any("the widths of Aptos are not known" in remark for remark in chosen.remarks)

    def test_a_theme_without_a_font_is_in_arial(self, tmp_path: Path) -> None:
        chosen = options(tmp_path, template(fonts=("", "")))
        assert slide_xml(written(chosen), 3).count('<a:latin typeface="Arial"/>') > 10
        assert any("names no font for text" in remark for remark in chosen.remarks)

    def test_a_smaller_master_is_made_larger(self, tmp_path: Path) -> None:
        """From 10 to 13.333 inches: a third larger, its type too."""
        found = opened(written(options(tmp_path, template(size=(10, 5.625), change=band))))
        (grown,) = [shape for shape in found.slide_master.shapes if shape.name == "band"]
        assert abs(grown.width - 12_192_000) <= 2

    def test_a_template_file_is_a_template_too(self, tmp_path: Path) -> None:
        """A .potx is a package whose main part has another content type."""
        kind = b"presentationml.presentation.main+xml"
        potx = repacked(
            template(), lambda _, part: part.replace(kind, b"presentationml.template.main+xml")
        )
        path = file(tmp_path, potx, "school.potx")
        assert read_template(path).layout.startswith("ppt/slideLayouts/")

    def test_same_bytes_twice(self, tmp_path: Path) -> None:
        assert written(options(tmp_path, MADE["band"])) == written(options(tmp_path, MADE["band"]))


def slide_xml(data: bytes, number: int) -> str:
    with zipfile.ZipFile(io.BytesIO(data)) as package:
        return package.read(f"ppt/slides/slide{number}.xml").decode()


class TestTold:
    """What the teacher should know is one line each."""

    def test_a_plain_good_template_is_not_talked_about(self, tmp_path: Path) -> None:
        ours = {"dk1": "1B1B1B", "lt1": "FFFFFF", "dk2": "555555", "lt2": "F4F1E6"}
        ours |= {"accent1": "0072B2", "accent2": "56B4E9", "accent3": "009E73"}
        ours |= {"accent4": "CC79A7", "accent5": "DDEDF5"}
        assert options(tmp_path, template(ours, ("Arial", "Arial"))).remarks == ()

    def test_drawings_in_the_way_get_paper_over_them(self, tmp_path: Path) -> None:
        chosen = options(tmp_path, template(fonts=("Arial", "Arial"), change=band))
        assert "a sheet of its background colour lies under the pages" in chosen.remarks[0]
        found = opened(written(chosen))
        assert "Paper" in [shape.name for shape in found.slides[0].slide_layout.shapes]

    def test_a_layout_without_a_place_for_the_number_is_named(self, tmp_path: Path) -> None:
        chosen = options(tmp_path, template(change=without_places("sldNum")))
        assert "the layout “Title Only” has no place for the slide number" in chosen.remarks[-1]
        (number,) = [
            s for s in opened(written(chosen)).slides[1].shapes if s.name == "Slide number"
        ]
        assert number.text_frame._txBody.find(f".//{A}fld").get("type") == "slidenum"

    def test_a_gradient_is_no_ground_for_words(self, tmp_path: Path) -> None:
        def gradient(deck: Any) -> None:
            fill = deck.slide_master.background.fill
            fill.gradient()

        chosen = options(tmp_path, template(change=gradient))
        assert any("a sheet of its background colour" in remark for remark in chosen.remarks)


class TestRefused:
    """A file that cannot be used is one clear message, before anything is written."""

    @pytest.mark.parametrize(
        ("data", "says"),
        [
            (b"", "is broken or no .pptx file"),
            (b"PK\x03\x04 and no more", "is broken or no .pptx file"),
            (b"%PDF-1.7", "is broken or no .pptx file"),
            (MADE["light"][:-2000], "is broken or no .pptx file"),
            (bytes.fromhex("D0CF11E0A1B11AE1") + b"\x00" * 512, "is in the old .ppt format"),
            (
                bytes.fromhex("D0CF11E0A1B11AE1") + "EncryptedPackage".encode("utf-16-le"),
                "is locked with a password; save a copy without one",
            ),
            (template(size=(10, 7.5)), "has slides of 10 × 7.5 inches, pages are 16 to 9"),
            (template(change=only_layouts("Blank")), "“Blank” has no title; add one"),
            (template(change=without_places("title", "ctrTitle")), "“Title Only” has no title"),
        ],
    )
    def test_it_is_told(self, tmp_path: Path, data: bytes, says: str) -> None:
        with pytest.raises(WrongUse, match=re.escape(says)):
            read_template(file(tmp_path, data))

    def test_a_file_that_is_not_there(self, tmp_path: Path) -> None:
        with pytest.raises(WrongUse, match="cannot be read"):
            read_template(tmp_path / "none.pptx")

    def test_a_spreadsheet(self, tmp_path: Path) -> None:
        memory = io.BytesIO()
        with zipfile.ZipFile(memory, "w") as package:
            package.writestr("[Content_Types].xml", "<Types/>")
            package.writestr("xl/workbook.xml", "<workbook/>")
        with pytest.raises(WrongUse, match=r"is no \.pptx file"):
            read_template(file(tmp_path, memory.getvalue()))

    def test_a_small_file_that_unpacks_to_a_huge_one(self, tmp_path: Path) -> None:
        """A zip bomb: refused by what its list of contents says, before it is unpacked."""
        path = tmp_path / "bomb.pptx"
        with (
            zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as package,
            package.open("ppt/media/huge.bin", "w", force_zip64=True) as huge,
        ):
            for _ in range(LARGEST_OPEN // 1_000_000 + 1):
                huge.write(bytes(1_000_000))
        assert path.stat().st_size < 2_000_000
        with pytest.raises(WrongUse, match="unpacks to 401 MB"):
            read_template(path)

    def test_a_bomb_of_entities(self, tmp_path: Path) -> None:
        """XML whose entities grow: refused, not expanded."""
        lines = "".join(f'<!ENTITY e{n + 1} "{f"&e{n};" * 10}">' for n in range(9))
        laughs = f'<!DOCTYPE x [<!ENTITY e0 "{"ha" * 50}">{lines}]>'

        def bomb(name: str, part: bytes) -> bytes:
            if name != "ppt/slideMasters/slideMaster1.xml":
                return part
            start = part.index(b"<p:sldMaster")
            body = part[start:].replace(b"Click to edit Master title style", b"&e9;")
            return part[:start] + laughs.encode() + body

        with pytest.raises(WrongUse, match="is broken"):
            read_template(file(tmp_path, repacked(template(), bomb)))

    @pytest.mark.parametrize("part", ["ppt/theme/theme1.xml", "ppt/slideMasters/slideMaster1.xml"])
    @pytest.mark.parametrize("new", [b"", b"<not closed", b"<other/>", None])
    def test_a_damaged_part(self, tmp_path: Path, part: str, new: bytes | None) -> None:
        damaged = repacked(template(), lambda name, old: new if name == part else old)
        with pytest.raises(WrongUse, match="broken"):
            read_template(file(tmp_path, damaged))


HEX = st.integers(0, 0xFFFFFF).map(lambda number: f"{number:06X}")
THEMES = st.fixed_dictionaries(dict.fromkeys(SCHEME, HEX))


class TestContrast:
    """Whatever her colours are, what is written can be read."""

    @given(THEMES, HEX)
    def test_words_and_lines_stand_out(self, hers: dict[Colour, str], paper: str) -> None:
        done = serving(hers, paper)
        for words in ("ink", "pen", "quiet"):
            assert contrast(done[words], paper) >= 4.5
            assert contrast(done[words], done["panel"]) >= 4.5
        for line in LINE_COLOURS:
            assert contrast(done[line], paper) >= 3
        for fill in ("first", "taken"):
            assert contrast(done["ink"], done[fill]) >= 3
        assert contrast(done["pen"], done["taken"]) >= 3  # the crosses

    @pytest.mark.parametrize("look", [LIGHT, DARK])
    def test_what_serves_is_not_changed(self, look: dict[Colour, str]) -> None:
        """Our own two looks are as good as they can be."""
        changed = {
            role for role, value in serving(look, look["paper"]).items() if value != look[role]
        }
        assert changed == set()
