"""The package around the slides: content types, relationships, sections, properties.

The template is made once (`_template.py`); slides and notes are added as parts of bytes, so that
the cost of a slide does not grow with the deck. All dates are fixed: the same lesson gives the same
bytes.
"""

from __future__ import annotations

import zipfile
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, BinaryIO
from uuid import NAMESPACE_URL, uuid5

from lxml import etree

from narrate.outputs._media import TYPES, called
from narrate.outputs._shapes import attribute, text
from narrate.outputs._slides import DECLARATION
from narrate.outputs._template import Template

P = "http://schemas.openxmlformats.org/presentationml/2006/main"
R = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
P14 = "http://schemas.microsoft.com/office/powerpoint/2010/main"
_IS = f"{R}/"
"""How the kind of a relationship begins."""

SECTIONS_URI = "{521415D9-36F7-43E2-AB2F-B90AF26B5E84}"
FIRST_SLIDE_ID = 256

_RELS = f'{DECLARATION}<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">'
_CONTENT = "application/vnd.openxmlformats-officedocument.presentationml"
_MADE = "2000-01-01T00:00:00Z"
_ZIP_DATE = (2000, 1, 1, 0, 0, 0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A named run of `slides` slides."""

    name: str
    slides: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Contents:
    """All that is of one deck: slide parts, their notes, sections and properties."""

    slides: Sequence[str]
    notes: Sequence[bytes]
    sections: Sequence[Section]
    title: str
    language: str
    template: Template
    media: Mapping[str, bytes] = field(default_factory=dict)
    show: Show | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Show:
    """How a deck that runs by itself is shown; `loops` where it starts again at its end."""

    loops: bool


def save(contents: Contents, listed: bytes, sink: BinaryIO) -> None:
    """Write the whole package to `sink`, part by part; `listed` is its presentation part."""
    with zipfile.ZipFile(sink, "w", zipfile.ZIP_DEFLATED) as package:
        for name, data in parts(contents, listed):
            entry = zipfile.ZipInfo(name, _ZIP_DATE)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.external_attr = 0o644 << 16
            package.writestr(entry, data)


def parts(contents: Contents, listed: bytes) -> Iterator[tuple[str, bytes]]:
    """Every part by its name in the package; the content types come first, as readers expect."""
    template, count = contents.template.parts, len(contents.slides)
    joined = {
        "[Content_Types].xml": _content_types(
            template["[Content_Types].xml"], count, contents.media
        ),
        "ppt/presentation.xml": listed,
        "ppt/_rels/presentation.xml.rels": _deck_rels(
            template["ppt/_rels/presentation.xml.rels"], count
        ),
        "docProps/core.xml": _core(contents),
        "docProps/app.xml": _app(count),
    }
    if contents.show:
        joined |= _shown(template, contents.show)
    yield from {**template, **{n: part for n, part in joined.items() if n in template}}.items()
    yield from ((f"ppt/media/{file}", data) for file, data in contents.media.items())
    for number, (slide, notes) in enumerate(
        zip(contents.slides, contents.notes, strict=True), start=1
    ):
        written = slide.encode()
        files = called(written, contents.media) if contents.media else []
        yield f"ppt/slides/slide{number}.xml", written
        yield (
            f"ppt/slides/_rels/slide{number}.xml.rels",
            _slide_rels(number, contents.template, files),
        )
        yield f"ppt/notesSlides/notesSlide{number}.xml", notes
        yield (
            f"ppt/notesSlides/_rels/notesSlide{number}.xml.rels",
            _notes_rels(number, contents.template),
        )


def deck_part(contents: Contents) -> bytes:
    """The presentation part with its slides listed, in sections, and its notes master named."""
    root: Any = etree.fromstring(contents.template.parts["ppt/presentation.xml"])
    sections = contents.sections
    masters = root.find(f"{{{P}}}sldMasterIdLst")
    numbers = range(1, sum(section.slides for section in sections) + 1)
    lists = _elements(
        # python-pptx leaves this list out, and other programs then find no notes master.
        f'<p:notesMasterIdLst><p:notesMasterId r:id="{_NOTES_MASTER}"/></p:notesMasterIdLst>',
        "<p:sldIdLst>"
        + "".join(f'<p:sldId id="{_slide_id(n)}" r:id="{_slide_rid(n)}"/>' for n in numbers)
        + "</p:sldIdLst>",
    )
    for position, element in enumerate(lists, start=root.index(masters) + 1):
        root.insert(position, element)
    if sections:
        _add_extension(root, _section_list(sections))
    return etree.tostring(root, xml_declaration=True, encoding="UTF-8", standalone=True)


def _add_extension(root: Any, extension: str) -> None:
    found = root.find(f"{{{P}}}extLst")
    if found is None:
        root.extend(_elements(f"<p:extLst>{extension}</p:extLst>"))
    else:
        found.extend(_elements(extension))


def _elements(*pieces: str) -> list[Any]:
    return list(etree.fromstring(f'<x xmlns:p="{P}" xmlns:r="{R}">{"".join(pieces)}</x>'))


def _section_list(sections: Sequence[Section]) -> str:
    start, listed = 1, []
    for place, section in enumerate(sections):
        numbers = range(start, start + section.slides)
        start += section.slides
        slides = "".join(f'<p14:sldId id="{_slide_id(n)}"/>' for n in numbers)
        own = str(uuid5(NAMESPACE_URL, f"narrate:{place}:{section.name}")).upper()
        listed.append(
            f'<p14:section name="{attribute(section.name)}" id="{{{own}}}">'
            f"<p14:sldIdLst>{slides}</p14:sldIdLst></p14:section>"
        )
    return (
        f'<p:ext uri="{SECTIONS_URI}"><p14:sectionLst xmlns:p14="{P14}">'
        f"{''.join(listed)}</p14:sectionLst></p:ext>"
    )


_NOTES_MASTER = "rIdNotes"


def _slide_id(number: int) -> int:
    return FIRST_SLIDE_ID + number - 1


def _slide_rid(number: int) -> str:
    return f"rIdSlide{number}"


def _deck_rels(template: bytes, count: int) -> bytes:
    root = etree.fromstring(template)
    for rel in root:
        if rel.get("Type") == _IS + "notesMaster":
            rel.set("Id", _NOTES_MASTER)
    for number in range(1, count + 1):
        target = f"slides/slide{number}.xml"
        etree.SubElement(
            root,
            f"{{{root.nsmap[None]}}}Relationship",
            Id=_slide_rid(number),
            Type=_IS + "slide",
            Target=target,
        )
    return etree.tostring(root, xml_declaration=True, encoding="UTF-8", standalone=True)


def _shown(template: Mapping[str, bytes], show: Show) -> dict[str, bytes]:
    """The properties of the show, where the template has a part for them (19.2.1.30: showPr).

    Every slide is shown, at its own time and with its sound; p:present leaves the keys to her.
    """
    rels = etree.fromstring(template["ppt/_rels/presentation.xml.rels"])
    names = [rel.get("Target", "") for rel in rels if rel.get("Type") == _IS + "presProps"]
    found: dict[str, bytes] = {}
    for part in (f"ppt/{name}" for name in names if f"ppt/{name}" in template):
        root: Any = etree.fromstring(template[part])
        for old in root.findall(f"{{{P}}}showPr"):
            root.remove(old)
        loop = ' loop="1"' if show.loops else ""
        (wanted,) = _elements(
            f'<p:showPr{loop} showNarration="1" useTimings="1"><p:present/><p:sldAll/></p:showPr>'
        )
        before = (f"{{{P}}}htmlPubPr", f"{{{P}}}webPr", f"{{{P}}}prnPr")
        root.insert(sum(child.tag in before for child in root), wanted)
        found[part] = etree.tostring(root, xml_declaration=True, encoding="UTF-8", standalone=True)
    return found


def _rels(*targets: tuple[str, str], files: Sequence[tuple[str, str, str]] = ()) -> bytes:
    lines = "".join(
        f'<Relationship Id="rId{n}" Type="{kind}" Target="{target}"/>'
        for n, (kind, target) in enumerate(targets, start=1)
    )
    lines += "".join(
        f'<Relationship Id="{call}" Type="{kind}" Target="../media/{file}"/>'
        for call, kind, file in files
    )
    return f"{_RELS}{lines}</Relationships>".encode()


def _slide_rels(number: int, template: Template, files: Sequence[tuple[str, str, str]]) -> bytes:
    return _rels(
        (_IS + "slideLayout", f"/{template.layout}"),
        (_IS + "notesSlide", f"../notesSlides/notesSlide{number}.xml"),
        files=files,
    )


def _notes_rels(number: int, template: Template) -> bytes:
    return _rels(
        (_IS + "notesMaster", f"/{template.notes_master}"),
        (_IS + "slide", f"../slides/slide{number}.xml"),
    )


def _content_types(template: bytes, count: int, media: Iterable[str]) -> bytes:
    root = etree.fromstring(template)
    default = f"{{{root.nsmap[None]}}}Default"
    known = {each.get("Extension") for each in root.findall(default)}
    for kind in sorted({file.rpartition(".")[2] for file in media} - known):
        root.insert(0, etree.Element(default, Extension=kind, ContentType=TYPES[kind]))
    override = f"{{{root.nsmap[None]}}}Override"
    for folder, name, kind in _ADDED:
        for number in range(1, count + 1):
            part = f"/ppt/{folder}/{name}{number}.xml"
            etree.SubElement(root, override, PartName=part, ContentType=f"{_CONTENT}.{kind}+xml")
    return etree.tostring(root, xml_declaration=True, encoding="UTF-8", standalone=True)


_ADDED: Iterable[tuple[str, str, str]] = (
    ("slides", "slide", "slide"),
    ("notesSlides", "notesSlide", "notesSlide"),
)


def _core(contents: Contents) -> bytes:
    return (
        f"{DECLARATION}<cp:coreProperties"
        ' xmlns:cp="http://schemas.openxmlformats.org/package/2006/metadata/core-properties"'
        ' xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:dcterms="http://purl.org/dc/terms/"'
        ' xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">'
        f"<dc:title>{text(contents.title)}</dc:title><dc:creator>narrate</dc:creator>"
        f"<cp:lastModifiedBy>narrate</cp:lastModifiedBy><cp:revision>1</cp:revision>"
        f'<dcterms:created xsi:type="dcterms:W3CDTF">{_MADE}</dcterms:created>'
        f'<dcterms:modified xsi:type="dcterms:W3CDTF">{_MADE}</dcterms:modified>'
        f"<dc:language>{contents.language}</dc:language></cp:coreProperties>"
    ).encode()


def _app(count: int) -> bytes:
    return (
        f"{DECLARATION}<Properties"
        ' xmlns="http://schemas.openxmlformats.org/officeDocument/2006/extended-properties">'
        f"<Application>narrate</Application><PresentationFormat>Widescreen</PresentationFormat>"
        f"<Slides>{count}</Slides><Notes>{count}</Notes><HiddenSlides>0</HiddenSlides></Properties>"
    ).encode()
