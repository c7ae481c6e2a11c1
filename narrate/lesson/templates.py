"""Where templates are found: the teacher's own folder first, then ours.

A template of the teacher's that only adds to ours includes it by the name `builtin/NAME`. In a
wheel our templates lie inside the package; in a checkout they lie beside it, which an editable
install does not serve from inside the package.
"""

from __future__ import annotations

import atexit
import re
from collections.abc import Callable, Mapping
from functools import lru_cache
from pathlib import Path
from typing import Any

import yaml
from jinja2 import (
    BaseLoader,
    ChoiceLoader,
    DictLoader,
    Environment,
    FileSystemLoader,
    PrefixLoader,
    StrictUndefined,
)
from jinja2.bccache import Bucket, BytecodeCache
from jinja2.sandbox import ImmutableSandboxedEnvironment, SandboxedEnvironment

from narrate.errors import WrongUse
from narrate.lesson import stored

PAGES = "pages"
"""The folder of page templates; every other folder holds the sentences of one language."""

COMPILED = "compiled"
MOST_COMPILED = 4_000
"""So many compiled templates are kept at most from earlier runs."""


def builtin_folder() -> Path:
    """The folder of our own templates."""
    package = Path(__file__).resolve().parents[1]
    inside = package / "templates"
    return inside if inside.is_dir() else package.parent / "templates"


def languages(folder: Path | None = None) -> tuple[str, ...]:
    """The languages that sentences can be made in, sorted; `folder` is the teacher's own."""
    found = {
        inner.name
        for root in _roots(folder)
        for inner in root.iterdir()
        if inner.is_dir() and inner.name != PAGES
    }
    return tuple(sorted(found))


def speech_environment(
    language: str, folder: Path | None = None, own: Mapping[str, str] | None = None
) -> SandboxedEnvironment:
    """Templates of spoken sentences in a language; nothing is escaped.

    `own` holds templates by name that come after those of `folder` and before ours.

    Raises WrongUse where `folder` is no folder or there are no templates in that language.
    """
    known = languages(folder)
    if language not in known:
        raise WrongUse(f"no sentences in language {language!r}; there are: {', '.join(known)}")
    return _environment(language, folder, own or {}, escape=False)


def page_environment(folder: Path | None = None) -> SandboxedEnvironment:
    """Templates of pages for the browser; everything put in is escaped.

    Raises WrongUse where `folder` is no folder.
    """
    return _environment(PAGES, folder, {}, escape=True)


def labels(page: str, language: str, folder: Path | None = None) -> dict[str, str]:
    """The fixed words of a page by name, those of the teacher's `folder` first.

    Raises WrongUse where a file of labels is no table of texts.
    """
    found: dict[str, str] = {}
    for root in reversed(_roots(folder)):
        path = root / language / "labels.yaml"
        if path.is_file():
            found |= _labels(path).get(page, {})
    return found


def _labels(path: Path) -> dict[str, dict[str, str]]:
    try:
        read = _parsed(path.read_text(encoding="utf-8"))
    except (yaml.YAMLError, UnicodeDecodeError) as error:
        raise WrongUse(f"{path}: {' '.join(str(error).split())}; correct it") from error
    good = isinstance(read, dict) and all(
        isinstance(page, dict) and all(isinstance(word, str) for word in page.values())
        for page in read.values()
    )
    if not good:
        raise WrongUse(f"{path}: write pages, and below each its labels, as `name: text`")
    pages: dict[str, dict[str, str]] = read
    return pages


@lru_cache(maxsize=8)
def _parsed(text: str) -> Any:
    """A file of labels as read; several pages ask for the same one."""
    return yaml.load(text, Loader=getattr(yaml, "CBaseLoader", yaml.BaseLoader)) or {}


def _environment(
    kind: str, folder: Path | None, own: Mapping[str, str], *, escape: bool
) -> SandboxedEnvironment:
    *hers, ours = (FileSystemLoader(root / kind) for root in _roots(folder))
    loaders = [*hers, DictLoader(own), ours, PrefixLoader({"builtin": ours})]
    return ImmutableSandboxedEnvironment(
        loader=WordingLoader(ChoiceLoader(loaders)),
        bytecode_cache=_compiled(),
        undefined=StrictUndefined,
        autoescape=escape,
        trim_blocks=True,
        lstrip_blocks=True,
    )


class _Compiled(BytecodeCache):
    """Compiled templates kept between runs, all together, as a build asks for hundreds.

    Entries go by name and text, so changed templates are compiled anew; where there are many old
    ones, only those of the last run stay.
    """

    def __init__(self) -> None:
        self._kept: dict[str, bytes] = stored.read(COMPILED) or {}
        self._used: dict[str, bytes] = {}
        self._changed = False
        atexit.register(self._keep)

    def load_bytecode(self, bucket: Bucket) -> None:
        """Fills a bucket with what was compiled in an earlier run."""
        entry = f"{bucket.key} {bucket.checksum}"
        if code := self._kept.get(entry):
            bucket.bytecode_from_string(code)
            self._used[entry] = code

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Takes over what was compiled just now, to be kept when the program ends."""
        self._used[f"{bucket.key} {bucket.checksum}"] = bucket.bytecode_to_string()
        self._changed = True

    def _keep(self) -> None:
        if self._changed:
            old = self._kept if len(self._kept) < MOST_COMPILED else {}
            stored.keep(COMPILED, old | self._used)


@lru_cache(maxsize=1)
def _compiled() -> _Compiled:
    return _Compiled()


class WordingLoader(BaseLoader):
    """Loads templates, and each wording of one by itself: `rewrite.j2#2` is its third.

    A file is read once; what is changed later is seen by the next loader.
    """

    def __init__(self, files: BaseLoader) -> None:
        self.files = files
        self._read: dict[str, tuple[str, list[str]]] = {}

    def get_source(
        self, environment: Environment, template: str
    ) -> tuple[str, str | None, Callable[[], bool] | None]:
        """The text of a template, or of one of its wordings; raises TemplateNotFound."""
        name, _, place = template.partition("#")
        if name not in self._read:
            source, _, _ = self.files.get_source(environment, name)
            self._read[name] = source, wordings(source)
        source, parts = self._read[name]
        return (parts[int(place)] if place else source), None, None

    def list_templates(self) -> list[str]:
        """The names of all templates."""
        return self.files.list_templates()


ROUTINE, SHORT = "{# routine #}", "{# short #}"
"""How a template begins whose words may come back in every part, and a wording for little time."""


def is_routine(text: str) -> bool:
    """Whether a template's words may come back in every part."""
    return text.startswith(ROUTINE)


def is_short(wording: str) -> bool:
    """Whether a wording is one for parts with little time."""
    return wording.lstrip().startswith(SHORT)


def wordings(text: str) -> list[str]:
    """The wordings of a move, which lines of `---` divide."""
    return _DIVIDER.split(text)


_DIVIDER = re.compile(r"^---\s*$", re.MULTILINE)


def _roots(folder: Path | None) -> tuple[Path, ...]:
    """Folders to look in, first one first; ours is the last."""
    if folder is None:
        return (builtin_folder(),)
    if not folder.is_dir():
        raise WrongUse(f"no folder of templates at {folder}; name one, or leave it out")
    return (folder, builtin_folder())
