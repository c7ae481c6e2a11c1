"""How long each slide of a recorded deck was shown: the timings that slide programs store.

`advTm` of a slide's transition, in milliseconds (ECMA-376 Part 1, 19.3.1.50). Only the slides are
read: a recorded deck carries its sound and may be large.
"""

from __future__ import annotations

import posixpath
import zipfile
from pathlib import Path
from typing import Any

from lxml import etree

from narrate.errors import WrongUse

_P = "{http://schemas.openxmlformats.org/presentationml/2006/main}"
_R = "{http://schemas.openxmlformats.org/officeDocument/2006/relationships}"
_MOST_BYTES = 20_000_000


def slide_times(path: Path) -> list[int | None]:
    """The time of each slide that is not hidden, in ms, None where none is stored.

    Raises WrongUse where the file is no deck, or holds no timing at all.
    """
    try:
        with zipfile.ZipFile(path) as package:
            found = _times(package)
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        raise WrongUse(f"{path} cannot be opened ({reason}); check its name") from None
    except (zipfile.BadZipFile, KeyError, ValueError, RuntimeError, etree.XMLSyntaxError):
        raise WrongUse(f"{path} is no deck that can be read; give a .pptx file") from None
    if not any(found):
        raise WrongUse(
            f"{path} holds no slide timings; record the slide show with timings kept, and save it"
        )
    return found


def _times(package: zipfile.ZipFile) -> list[int | None]:
    rows = _xml(package, "ppt/_rels/presentation.xml.rels")
    targets = {row.get("Id"): row.get("Target") for row in rows}
    found = []
    for slide in _xml(package, "ppt/presentation.xml").iter(f"{_P}sldId"):
        target = posixpath.join("/ppt", targets[slide.get(f"{_R}id")])
        root = _xml(package, posixpath.normpath(target))
        if root.get("show") not in ("0", "false"):
            found.append(_time(root))
    return found


def _xml(package: zipfile.ZipFile, name: str) -> Any:
    name = name.lstrip("/")
    if package.getinfo(name).file_size > _MOST_BYTES:
        raise ValueError(name)
    return etree.fromstring(package.read(name), etree.XMLParser(resolve_entities=False))


def _time(slide: Any) -> int | None:
    """Programs write a transition twice, for newer and older ones: the first that tells counts."""
    for transition in slide.iter(f"{_P}transition"):
        text = transition.get("advTm", "")
        if text.isascii() and text.isdigit():
            return int(text)
    return None
