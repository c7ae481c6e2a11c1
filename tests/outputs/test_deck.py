"""The deck, as independent readers see it."""

from __future__ import annotations

import io
import re
import zipfile
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lxml import etree
from openxml_audit import validate_pptx
from pptx import Presentation
from pptx.enum.shapes import MSO_SHAPE_TYPE, PP_PLACEHOLDER

from narrate.errors import OutputFailed
from narrate.lesson.lesson import Lesson
from narrate.lesson.marks import Box, Build, Group, Text
from narrate.lesson.palette import LIGHT
from narrate.outputs import USUAL, deck, find_outputs
from narrate.outputs._shapes import _inside
from narrate.outputs._stripes import STRIPE, STRIPE_PERIOD, stripe_polygons
from tests.outputs.samples_deck import group, sample, times, words

A = "{http://schemas.openxmlformats.org/drawingml/2006/main}"
P = "{http://schemas.openxmlformats.org/presentationml/2006/main}"


def written(lesson: Lesson) -> bytes:
    sink = io.BytesIO()
    deck.write(lesson, times(lesson), USUAL, sink)
    return sink.getvalue()


@pytest.fixture(scope="module")
def data() -> bytes:
    return written(sample())


@pytest.fixture(scope="module")
def opened(data: bytes) -> Any:
    return Presentation(io.BytesIO(data))


def part(data: bytes, name: str) -> Any:
    with zipfile.ZipFile(io.BytesIO(data)) as package:
        return etree.fromstring(package.read(name))


def numbered(lesson: Lesson, count: int) -> Lesson:
    """The lesson with its first page `count` times over."""
    page, first = lesson.pages[0], lesson.beats[0]
    beats = tuple(replace(first, id=f"start-{n}") for n in range(count))
    pages = tuple(replace(page, beats=(beat.id,)) for beat in beats)
    return replace(lesson, beats=beats, pages=pages)


class TestOutput:
    """An output is a file with FILE, DEFAULT and write; helpers start with an underscore."""

    def test_deck_is_found_by_its_file_name(self) -> None:
        found = find_outputs()
        assert found["deck"].FILE == "deck.pptx"
        assert found["deck"].DEFAULT
        assert not [name for name in found if name.startswith("_")]


class TestStandard:
    """ECMA-376 and what the office program is known to repair (PyPI openxml-audit)."""

    def test_nothing_is_found(self, data: bytes, tmp_path: Path) -> None:
        file = tmp_path / "deck.pptx"
        file.write_bytes(data)
        assert [str(error) for error in validate_pptx(str(file)).errors] == []

    def test_the_audit_sees_a_fault_planted_in_it(self, data: bytes, tmp_path: Path) -> None:
        file = tmp_path / "broken.pptx"
        with (
            zipfile.ZipFile(io.BytesIO(data)) as clean,
            zipfile.ZipFile(file, "w") as broken,
        ):
            for name in clean.namelist():
                text = clean.read(name).replace(b"<p:clrMapOvr>", b"<p:clrMapOver>")
                text = text.replace(b"</p:clrMapOvr>", b"</p:clrMapOver>")
                broken.writestr(name, text)
        assert validate_pptx(str(file)).errors

    def test_a_lesson_without_pages_is_a_deck_too(self, tmp_path: Path) -> None:
        file = tmp_path / "deck.pptx"
        file.write_bytes(written(replace(sample(), pages=(), beats=())))
        assert not validate_pptx(str(file)).errors
        assert len(Presentation(str(file)).slides) == 0


class TestSlides:
    """python-pptx, which wrote none of the slides, reads them back."""

    def test_every_page_is_a_slide_with_its_title(self, opened: Any) -> None:
        titles = [slide.shapes.title.text_frame.text for slide in opened.slides]
        assert titles == [page.title for page in sample().pages]

    def test_size_is_widescreen(self, opened: Any) -> None:
        """13.333 × 7.5 inches, the widescreen size of office programs."""
        assert (opened.slide_width, opened.slide_height) == (12_192_000, 6_858_000)

    def test_groups_come_in_reading_order_with_names_and_descriptions(self, opened: Any) -> None:
        for slide, page in zip(opened.slides, sample().pages, strict=True):
            groups = [*page.base, *(build.group for build in page.builds)]
            shapes = list(slide.shapes)
            assert [shape.name for shape in shapes[1:-1]] == [g.name for g in groups]
            described = [s._element.xpath(".//p:cNvPr/@descr")[:1] for s in shapes[1:-1]]
            assert described == [[g.alt] for g in groups]
            assert shapes[0].placeholder_format.type == PP_PLACEHOLDER.TITLE
            assert shapes[-1].placeholder_format.type == PP_PLACEHOLDER.SLIDE_NUMBER

    def test_all_words_of_the_marks_are_text(self, opened: Any) -> None:
        for slide, page in zip(opened.slides, sample().pages, strict=True):
            shown = "\n".join(run.text for run in slide._element.iter(f"{A}t"))
            for one in (*page.base, *(build.group for build in page.builds)):
                for mark in one.marks:
                    for line in mark.lines if isinstance(mark, Text) else ():
                        assert line in shown

    def test_a_stacked_fraction_is_a_group_of_numerator_rule_and_denominator(
        self, opened: Any
    ) -> None:
        (answer,) = [s for s in opened.slides[2].shapes if s.name == "answer"]
        assert answer.shape_type == MSO_SHAPE_TYPE.GROUP
        top, rule, bottom = answer.shapes
        assert (top.text_frame.text, bottom.text_frame.text) == ("19", "20")
        middles = [shape.top + shape.height / 2 for shape in (top, rule, bottom)]
        assert middles == sorted(middles)

    def test_places_are_127_emu_to_a_hundredth_of_a_point(self, opened: Any) -> None:
        """12,700 EMU to a point (ECMA-376 Part 1, 20.1: ST_Coordinate)."""
        (dot,) = [s for s in opened.slides[2].shapes if s.name == "dot"]
        assert (dot.left.pt, dot.top.pt, dot.width.pt) == (875, 135, 10)

    def test_a_rule_drawn_backwards_keeps_its_ends(self, opened: Any) -> None:
        (slant,) = [s for s in opened.slides[2].shapes if s.name == "backwards"]
        ends = (slant.begin_x.pt, slant.begin_y.pt, slant.end_x.pt, slant.end_y.pt)
        assert ends == (520, 280, 440, 220)

    def test_every_run_has_its_language(self, data: bytes) -> None:
        with zipfile.ZipFile(io.BytesIO(data)) as package:
            names = [n for n in package.namelist() if re.match(r"ppt/(notesS|s)lides/\w+\.xml", n)]
            runs = [
                run.get("lang")
                for name in names
                for run in etree.fromstring(package.read(name)).iter(f"{A}rPr")
            ]
        assert set(runs) == {"en-US"}

    def test_colours_and_font_are_the_themes(self, data: bytes) -> None:
        theme = part(data, "ppt/theme/theme1.xml")
        assert theme.find(f".//{A}lt1/{A}srgbClr").get("val") == LIGHT["paper"]
        assert {f.get("typeface") for f in theme.iter(f"{A}latin")} == {"Arial"}
        slide = part(data, "ppt/slides/slide3.xml")
        assert not list(slide.iter(f"{A}srgbClr", f"{A}latin"))

    def test_the_only_layout_is_the_page(self, opened: Any) -> None:
        assert [layout.name for layout in opened.slide_layouts] == ["Page"]


BOXES = st.builds(
    Box,
    x=st.integers(0, 90_000),
    y=st.integers(0, 50_000),
    width=st.integers(0, 40_000),
    height=st.integers(0, 9000),
    weight=st.integers(0, 400),
    fill=st.just("second"),
    hatched=st.just(True),
)


class TestHatching:
    """Stripes are drawn shapes, so they look the same in every program."""

    @given(BOXES)
    def test_stripes_lie_inside_the_outline_each_in_its_band(self, box: Box) -> None:
        for polygon in stripe_polygons(*_inside(box)):
            sums = [x + y for x, y in polygon]
            assert max(sums) - min(sums) <= STRIPE
            for x, y in polygon:
                assert box.x <= x <= box.x + box.width
                assert box.y <= y <= box.y + box.height

    @given(BOXES)
    def test_two_fifths_of_the_room_inside_is_striped(self, box: Box) -> None:
        """By the shoelace formula; the first and last stripe may be whole or missing."""
        room = max(0, box.width - 2 * (box.weight // 2)), max(0, box.height - 2 * (box.weight // 2))
        striped = sum(map(area, stripe_polygons(*_inside(box))))
        ends = 2 * STRIPE * min(room)
        assert abs(striped - room[0] * room[1] * STRIPE / STRIPE_PERIOD) <= ends

    @pytest.mark.parametrize("width", [0, 1, 149, 150, 151, 153])
    def test_a_sliver_is_a_box_too(self, width: int) -> None:
        sliver = Box(x=0, y=0, width=width, height=4800, fill="second", hatched=True)
        lesson = numbered(sample(), 1)
        pages = (replace(lesson.pages[0], base=(group("sliver", "a sliver", sliver),)),)
        opened: Any = Presentation(io.BytesIO(written(replace(lesson, pages=pages))))
        assert opened.slides[0].shapes[1].name == "sliver"


def area(polygon: list[tuple[int, int]]) -> float:
    """The area of a polygon."""
    turns = zip(polygon, polygon[1:] + polygon[:1], strict=True)
    return abs(sum(x * v - u * y for (x, y), (u, v) in turns)) / 2


class TestNotes:
    """What is said stands word for word in the notes, each beat under its start time."""

    def test_each_beat_is_its_time_and_one_paragraph(self, opened: Any) -> None:
        said = {beat.id: beat.say for beat in sample().beats}
        notes = [p.text for p in opened.slides[1].notes_slide.notes_text_frame.paragraphs]
        assert notes == [
            "0:07",
            said["rain-barrel.1.read"],
            "0:14",
            said["rain-barrel.1.asked"],
        ]

    def test_the_notes_master_is_listed(self, data: bytes) -> None:
        listed = part(data, "ppt/presentation.xml").find(f"{P}notesMasterIdLst")
        assert listed.getprevious().tag == f"{P}sldMasterIdLst"

    def test_minutes_and_seconds(self) -> None:
        from narrate.outputs._slides import minutes

        assert [minutes(ms) for ms in (0, 999, 1000, 59_999, 60_000, 3_605_000)] == [
            "0:00",
            "0:00",
            "0:01",
            "0:59",
            "1:00",
            "60:05",
        ]


class TestSections:
    """[MS-PPTX], element sectionLst: every slide in one section."""

    def test_sections_follow_the_items(self, data: bytes) -> None:
        root = part(data, "ppt/presentation.xml")
        sections = [e for e in root.iter() if etree.QName(e).localname == "section"]
        assert [s.get("name") for s in sections] == ["Start", "rain-barrel", "Close"]
        assert [len(s[0]) for s in sections] == [1, 2, 1]


class TestProperties:
    """Nothing of the template's maker is left."""

    def test_core_properties(self, opened: Any) -> None:
        core = opened.core_properties
        found = (core.title, core.author, core.language, core.last_modified_by, core.keywords)
        assert found == ("Garden week", "narrate", "en-US", "narrate", "")
        assert core.created.year == core.modified.year == 2000

    @pytest.mark.parametrize(
        "leftover",
        [b"Canny", b"2013", b"4:3", b"thumbnail", b"printerSettings", b"Calibri", b"/16<"],
    )
    def test_no_leftovers(self, data: bytes, leftover: bytes) -> None:
        with zipfile.ZipFile(io.BytesIO(data)) as package:
            assert [n for n in package.namelist() if leftover in package.read(n)] == []
            assert not [n for n in package.namelist() if leftover in n.encode()]


class TestBytes:
    """The same lesson gives the same bytes, whatever the clock says."""

    def test_same_twice(self, data: bytes, monkeypatch: pytest.MonkeyPatch) -> None:
        monkeypatch.setattr("time.time", lambda: 2_000_000_000.0)
        assert written(sample()) == data

    def test_zip_dates_are_fixed(self, data: bytes) -> None:
        with zipfile.ZipFile(io.BytesIO(data)) as package:
            assert {entry.date_time for entry in package.infolist()} == {(2000, 1, 1, 0, 0, 0)}

    def test_no_part_stands_twice(self, data: bytes) -> None:
        with zipfile.ZipFile(io.BytesIO(data)) as package:
            assert len(set(package.namelist())) == len(package.namelist())


class TestHarmless:
    """Words that XML has no place for leave the deck readable."""

    @pytest.mark.parametrize(
        "line", ["a\x00b", "a\x0bb", "a￾b", "a\ud800b", "</a:t>", "&amp;", '"quoted"', "½ × 3 − □"]
    )
    def test_text_and_names(self, line: str) -> None:
        lesson = numbered(sample(), 1)
        page = lesson.pages[0]
        odd = group(f"name {line}", f"alt {line}", words(3600, 9000, line))
        lesson = replace(lesson, title=line, pages=(replace(page, base=(odd,)),))
        opened: Any = Presentation(io.BytesIO(written(lesson)))
        expected = re.sub("[\x00\x0b￾\ud800]", "", line)
        shape = opened.slides[0].shapes[1]
        assert shape.text_frame.text == expected
        assert shape.name == f"name {expected}"

    def test_an_empty_group_is_refused_by_name(self) -> None:
        lesson = sample()
        empty = Build(beat="start", group=Group(name="nothing", alt="nothing", marks=()))
        pages = (replace(lesson.pages[0], builds=(empty,)), *lesson.pages[1:])
        with pytest.raises(OutputFailed, match="“nothing” has no marks"):
            written(replace(lesson, pages=pages))

    def test_two_groups_of_one_name_are_refused(self) -> None:
        lesson = sample()
        page = lesson.pages[0]
        pages = (replace(page, base=page.base * 2), *lesson.pages[1:])
        with pytest.raises(OutputFailed, match=r"slide 1: shape name 'subtitle' stands twice"):
            written(replace(lesson, pages=pages))
