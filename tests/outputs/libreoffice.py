"""LibreOffice as an independent reader of decks: what it plays, and what it draws.

Its OpenDocument form is ODF 1.3 Part 3, 15 (animation).
"""

from __future__ import annotations

import os
import shutil
import subprocess
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from lxml import etree

ANIM = "{urn:oasis:names:tc:opendocument:xmlns:animation:1.0}"
SHOW = "{urn:oasis:names:tc:opendocument:xmlns:presentation:1.0}"
SMIL = "{urn:oasis:names:tc:opendocument:xmlns:smil-compatible:1.0}"
DRAW = "{urn:oasis:names:tc:opendocument:xmlns:drawing:1.0}"
STYLE = "{urn:oasis:names:tc:opendocument:xmlns:style:1.0}"
XML_ID = "{http://www.w3.org/XML/1998/namespace}id"

EFFECTS = {
    "ooo-entrance-appear": "appear",
    "ooo-entrance-fade-in": "fade",
    "ooo-entrance-wipe": "wipe",
}


@dataclass(frozen=True)
class Played:
    """An effect as LibreOffice read it; `delay` in ms after its trigger."""

    target: str
    effect: str
    trigger: str
    subtype: str | None
    delay: int = 0


Steps = list[list[Played]]


def find_soffice() -> str:
    """LibreOffice; without it the test is skipped, but never on the build server."""
    found = shutil.which("soffice")
    if found is None and not os.environ.get("CI"):
        pytest.skip("LibreOffice (soffice) is not installed")
    assert found, "LibreOffice (soffice) is not installed"
    return found


def convert(folder: Path, kind: str, *files: str) -> None:
    """Convert the files of a folder, all in one call."""
    profile = f"-env:UserInstallation={(folder / 'profile').as_uri()}"
    command = [find_soffice(), profile, "--headless", "--convert-to", kind, *files]
    subprocess.run(command, cwd=folder, check=True, capture_output=True, timeout=900)


def slides(file: Path) -> tuple[Any, list[Any]]:
    """The content of an OpenDocument presentation, and its slides."""
    with zipfile.ZipFile(file) as odp:
        root = etree.fromstring(odp.read("content.xml"))
    return root, list(root.iter(f"{DRAW}page"))


def played(page: Any) -> Steps:
    """The steps of one slide of an OpenDocument file."""
    names = {shape.get(XML_ID): shape.get(f"{DRAW}name") for shape in page.iter()}
    (main,) = [
        seq for seq in page.iter(f"{ANIM}seq") if seq.get(f"{SHOW}node-type") == "main-sequence"
    ] or [etree.Element("none")]
    return [list(_effects(step, names)) for step in main.findall(f"{ANIM}par")]


def _effects(step: Any, names: dict[str | None, str | None]) -> Iterator[Played]:
    for effect in step.iter(f"{ANIM}par"):
        preset = effect.get(f"{SHOW}preset-id")
        if preset is not None:
            (target,) = {e.get(f"{SMIL}targetElement") for e in effect if e.tag != f"{ANIM}par"}
            yield Played(
                target=names[target] or "",
                effect=EFFECTS[preset],
                trigger=effect.get(f"{SHOW}node-type"),
                subtype=effect.get(f"{SHOW}preset-sub-type"),
                delay=_ms(effect.get(f"{SMIL}begin", "0s")),
            )


def _ms(begin: str) -> int:
    return round(float(begin.removesuffix("s")) * 1000)


def turns(root: Any, page: Any) -> tuple[str | None, str | None]:
    """How a slide of `root` goes to the next: its kind, and the time it stays."""
    (style,) = [
        each
        for each in root.iter(f"{STYLE}style")
        if each.get(f"{STYLE}name") == page.get(f"{DRAW}style-name")
    ]
    how = style.find(f"{STYLE}drawing-page-properties")
    return how.get(f"{SHOW}transition-type"), how.get(f"{SHOW}duration")
