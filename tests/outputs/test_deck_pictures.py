"""The teacher's own picture in the deck and in SVG: its own bytes, once, with its words."""

from __future__ import annotations

import io
import zipfile
from base64 import b64encode
from pathlib import Path
from xml.etree import ElementTree

import pytest
from openxml_audit import validate_pptx
from PIL import Image
from pptx import Presentation

from narrate.cli import main
from narrate.lesson.marks import Group, Page, Picture, Text
from narrate.outputs._svg import svg

ITEMS = """\
items:
  - id: bed
    stimulus: {image: plan.png, alt: "A bed cut in ten parts, seven of them planted."}
    stem: What is 7/10 + 1/5?
    boxes: [numerator, denominator]
  - id: path
    stimulus: {image: photo.jpg, alt: "A path."}
    stem: What is 1/2 + 1/4?
    boxes: [numerator, denominator]
"""


def saved(kind: str, size: tuple[int, int]) -> bytes:
    memory = io.BytesIO()
    Image.new("RGB", size, "white").save(memory, format=kind)
    return memory.getvalue()


@pytest.fixture(scope="module")
def deck(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("pictures")
    (folder / "plan.png").write_bytes(saved("PNG", (60, 40)))
    (folder / "photo.jpg").write_bytes(saved("JPEG", (90, 30)))
    (folder / "beds.yaml").write_text(ITEMS, encoding="utf-8")
    assert main(["build", str(folder / "beds.yaml"), "--to", str(folder)]) == 0
    return folder / "beds" / "deck.pptx"


def test_each_file_is_there_once_and_unchanged(deck: Path) -> None:
    with zipfile.ZipFile(deck) as package:
        media = {name: package.read(name) for name in package.namelist() if "/media/" in name}
    assert sorted(media.values()) == sorted([saved("PNG", (60, 40)), saved("JPEG", (90, 30))])


def test_python_pptx_finds_every_picture_with_its_words_and_shape(deck: Path) -> None:
    """An independent reader of the package: python-pptx."""
    seen = []
    for slide in Presentation(str(deck)).slides:
        for shape in slide.shapes:
            if shape.shape_type == 13:  # MSO_SHAPE_TYPE.PICTURE
                described = shape._element.nvPicPr.cNvPr.get("descr")
                seen.append((described, shape.image.content_type))
                ratio = shape.image.size[0] / shape.image.size[1]
                assert shape.width / shape.height == pytest.approx(ratio, rel=0.01)
    assert set(seen) == {
        ("A bed cut in ten parts, seven of them planted.", "image/png"),
        ("A path.", "image/jpeg"),
    }
    assert len(seen) >= 4  # on the item's page and over the work


def test_an_audit_of_the_package_finds_nothing(deck: Path) -> None:
    """PyPI openxml-audit."""
    assert list(validate_pptx(str(deck)).errors) == []


def test_svg_holds_the_picture_itself() -> None:
    data = saved("PNG", (60, 40))
    picture = Picture(x=1_000, y=2_000, width=6_000, height=4_000, data=data, kind="png")
    text = Text(x=0, y=0, width=10, height=10, lines=("Q",), size=2_000, leading=2_500)
    group = Group(name="picture", alt="A bed.", marks=(picture,))
    page = Page(title="Q", heading=text, base=(group,), builds=(), beats=())
    root = ElementTree.fromstring(svg(page))
    (image,) = root.iter("{http://www.w3.org/2000/svg}image")
    assert image.get("href") == f"data:image/png;base64,{b64encode(data).decode()}"
    assert [image.get(name) for name in ("x", "y", "width", "height")] == [
        "1000",
        "2000",
        "6000",
        "4000",
    ]
