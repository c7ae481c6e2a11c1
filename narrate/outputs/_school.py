"""A teacher's own template: read with care, made ready to carry our slides.

Its master, the layout that has what is needed, its theme and pictures are kept; its slides are not.
What stands on the layout is moved to our page size. Where its colours or font would leave words
hard to read, ours stand in, and a remark says so.
"""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from lxml import etree
from pptx import Presentation
from pptx.exc import PythonPptxError
from pptx.opc.constants import CONTENT_TYPE as CT
from pptx.opc.constants import RELATIONSHIP_TYPE as RT
from pptx.opc.package import Part
from pptx.opc.packuri import PackURI

from narrate.errors import WrongUse
from narrate.lesson.marks import PAGE_HEIGHT, PAGE_WIDTH
from narrate.outputs._making import P, drop, drop_slides, name_of, saved
from narrate.outputs._school_look import look
from narrate.outputs._shapes import EMU
from narrate.outputs._template import Template
from narrate.outputs._theme import VIEW

LARGEST = 100_000_000
"""Bytes of a template's file; a master with photographs has a few million."""

LARGEST_OPEN, MOST_PARTS = 400_000_000, 5_000
"""Bytes of all parts unpacked, and how many there may be."""

_OLE = bytes.fromhex("D0CF11E0A1B11AE1")
_ENCRYPTED = "EncryptedPackage".encode("utf-16-le")
_DECK = "application/vnd.openxmlformats-officedocument.presentationml.presentation.main+xml"
_LIKE_DECKS = (
    "application/vnd.openxmlformats-officedocument.presentationml.template.main+xml",
    "application/vnd.openxmlformats-officedocument.presentationml.slideshow.main+xml",
    "application/vnd.ms-powerpoint.presentation.macroEnabled.main+xml",
    "application/vnd.ms-powerpoint.template.macroEnabled.main+xml",
)
_MACROS = "http://schemas.microsoft.com/office/2006/relationships/vbaProject"
_NOT_SHOWN = ("dt", "ftr", "sldNum")
"""Places that a slide may leave out."""

_SAVE_AGAIN = "open it in your office program, save it as .pptx and try again"


def read_template(path: Path) -> Template:
    """The template in a .pptx or .potx file. Raises WrongUse, with what to do, where it is none."""
    data = _checked(path.name, _read(path))
    try:
        return _made_ready(path.name, data)
    except _BROKEN as error:
        raise WrongUse(f"{path.name} is broken or no .pptx file; {_SAVE_AGAIN}") from error


_BROKEN = (
    PythonPptxError,
    etree.LxmlError,
    AssertionError,
    AttributeError,
    IndexError,
    KeyError,
    TypeError,
    ValueError,
)
"""What reading a damaged package or part raises in the libraries."""


def _made_ready(name: str, data: bytes) -> Template:
    deck = _opened(name, data)
    layout = _layout(name, deck)
    _fit(name, deck)
    seen, place = look(name, layout), _number_place(layout)
    remarks = seen.remarks
    if place is None:
        remarks = (
            *remarks,
            f"{name}: the layout “{layout.name}” has no place for the slide number; "
            "it stands small at the lower right",
        )
    notes = deck.notes_master
    return Template(
        parts=_emptied(deck),
        layout=name_of(layout),
        notes_master=name_of(notes),
        number=place,
        changes=seen.changes,
        in_its_font=seen.in_its_font,
        font=seen.font,
        titles_differ=seen.titles_differ,
        remarks=remarks,
        palette=seen.palette,
    )


def _read(path: Path) -> bytes:
    try:
        size = path.stat().st_size
        if size > LARGEST:
            raise WrongUse(
                f"{path.name} has {size // 1_000_000} MB, a template at most "
                f"{LARGEST // 1_000_000}; save it without its slides and pictures"
            )
        return path.read_bytes()
    except OSError as error:
        raise WrongUse(f"{path} cannot be read ({error.strerror}); check --theme") from error


def _checked(name: str, data: bytes) -> bytes:
    """The package, its main part called a deck; raises WrongUse before anything is unpacked."""
    if data.startswith(_OLE):
        if _ENCRYPTED in data:
            raise WrongUse(f"{name} is locked with a password; save a copy without one")
        raise WrongUse(f"{name} is in the old .ppt format; save it as .pptx")
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as package:
            _not_too_large(name, package)
            return _as_deck(name, package)
    except (zipfile.BadZipFile, NotImplementedError, RuntimeError, EOFError, OSError) as error:
        raise WrongUse(f"{name} is broken or no .pptx file; {_SAVE_AGAIN}") from error
    except zipfile.zlib.error as error:  # type: ignore[attr-defined]  # what damaged data raises
        raise WrongUse(f"{name} is broken; {_SAVE_AGAIN}") from error


def _not_too_large(name: str, package: zipfile.ZipFile) -> None:
    entries = package.infolist()
    size = sum(entry.file_size for entry in entries)
    if size > LARGEST_OPEN or len(entries) > MOST_PARTS:
        raise WrongUse(
            f"{name} unpacks to {size // 1_000_000} MB in {len(entries)} parts, a template to at "
            f"most {LARGEST_OPEN // 1_000_000} MB in {MOST_PARTS}; save it without its slides"
        )


def _as_deck(name: str, package: zipfile.ZipFile) -> bytes:
    """The package again, a .potx or .pptm as a plain deck. Every part is read, so checked."""
    names = package.namelist()
    if "[Content_Types].xml" not in names or "ppt/presentation.xml" not in names:
        raise WrongUse(f"{name} is no .pptx file; {_SAVE_AGAIN}")
    memory = io.BytesIO()
    with zipfile.ZipFile(memory, "w", zipfile.ZIP_STORED) as plain:
        for entry in dict.fromkeys(names):
            part = package.read(entry)
            if entry == "[Content_Types].xml":
                for kind in _LIKE_DECKS:
                    part = part.replace(kind.encode(), _DECK.encode())
            plain.writestr(entry, part)
    return memory.getvalue()


def _opened(name: str, data: bytes) -> Any:
    deck: Any = Presentation(io.BytesIO(data))
    if not deck.slide_masters:
        raise WrongUse(f"{name} has no slide master; {_SAVE_AGAIN}")
    assert deck.core_properties is not None  # made where there are none
    return deck


# -- what is kept


def _layout(name: str, deck: Any) -> Any:
    """The layout with a title and least else. Raises WrongUse, naming what each one lacks."""
    layouts = [layout for master in deck.slide_masters for layout in master.slide_layouts]
    fit = [layout for layout in layouts if "title" in _places(layout)]
    if not fit:
        lacking = "; ".join(f"“{each.name}” has no title" for each in layouts) or "none is there"
        raise WrongUse(
            f"{name}: slides need a layout with a place for a title: {lacking}; "
            "add one in the master view (Title Only)"
        )
    return min(fit, key=lambda layout: len(set(_places(layout)) - {"title", *_NOT_SHOWN}))


def _places(layout: Any) -> list[str]:
    """The kinds of the layout's places; one for content has none written."""
    return [ph.get("type", f"content {n}") for n, ph in enumerate(_marked(layout))]


def _marked(layout: Any) -> Iterator[Any]:
    yield from layout.element.iter(f"{{{P}}}ph")


def _number_place(layout: Any) -> str | None:
    found = [ph.get("idx", "0") for ph in _marked(layout) if ph.get("type") == "sldNum"]
    return found[0] if found else None


def _emptied(deck: Any) -> dict[str, bytes]:
    """The parts of the deck without slides, sections, macros and lists of what is gone."""
    drop_slides(deck)
    root = deck.element
    for extension in root.findall(f"{{{P}}}extLst"):
        root.remove(extension)
    root.attrib.pop("firstSlideNum", None)
    drop(deck.part, RT.PRINTER_SETTINGS, _MACROS, RT.COMMENT_AUTHORS)
    drop(deck.part.package, RT.THUMBNAIL, RT.CUSTOM_PROPERTIES)
    _with_view(deck.part)
    return saved(deck)


def _with_view(main: Any) -> None:
    """Adds the part that says how a deck opens: PyPI openxml-audit asks for one, some lack it."""
    if not any(rel.reltype == RT.VIEW_PROPS for rel in main.rels.values()):
        place = PackURI("/ppt/viewProps.xml")
        main.relate_to(Part(place, CT.PML_VIEW_PROPS, main.package, VIEW), RT.VIEW_PROPS)


# -- the size


def _fit(name: str, deck: Any) -> None:
    """Scale masters and layouts to our page, 13.333 × 7.5 inches; another shape is refused."""
    width, height = deck.slide_width, deck.slide_height
    if not width or not height or abs(width / height - 16 / 9) > 0.01:
        inches = " × ".join(f"{(side or 0) / 914_400:.4g}" for side in (width, height))
        raise WrongUse(
            f"{name} has slides of {inches} inches, pages are 16 to 9; "
            "set the slide size to Widescreen and save it again"
        )
    scale = PAGE_WIDTH * EMU / width
    deck.slide_width, deck.slide_height = PAGE_WIDTH * EMU, PAGE_HEIGHT * EMU
    deck.element.find(f"{{{P}}}sldSz").attrib.pop("type", None)
    if abs(scale - 1) < 0.001:
        return
    for master in deck.slide_masters:
        for page in (master, *master.slide_layouts):
            _scale(page.element, scale)


def _scale(page: Any, scale: float) -> None:
    for frame in page.iter("{*}xfrm"):
        inner = frame.getparent().getparent().getparent()
        if etree.QName(inner).localname == "grpSp":
            continue  # inside a group its own measures hold
        for end in frame.iterchildren("{*}off", "{*}ext"):
            for key in ("x", "y", "cx", "cy"):
                if key in end.attrib:
                    end.set(key, str(round(int(end.get(key)) * scale)))
    for words in page.iter("{*}defRPr", "{*}rPr", "{*}endParaRPr"):
        if words.get("sz"):
            words.set("sz", str(round(int(words.get("sz")) * scale)))
    for line in page.iter("{*}ln"):
        if line.get("w"):
            line.set("w", str(round(int(line.get("w")) * scale)))
