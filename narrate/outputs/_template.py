"""What a deck starts from: the parts of a deck without slides, ours or a teacher's own.

python-pptx makes or reads the package; what is written on slides later asks only this value. Ours
is made once and kept for later builds, which then need not load python-pptx.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from hashlib import sha256
from importlib.metadata import version
from pathlib import Path

from narrate.lesson import stored
from narrate.lesson.palette import DARK, LIGHT, Palette
from narrate.outputs._lettering import Face, lettered
from narrate.outputs._slides import OWN_PLACE


@dataclass(frozen=True, slots=True, kw_only=True)
class Template:
    """The parts of a deck without slides, by their names in the package.

    `layout` and `notes_master` are the parts that slides and notes rest on, `number` the idx of the
    layout's place for the slide number, None where it has none. `changes` are (old, new) pieces of
    a slide's XML where the template's own colours would not do. Where `in_its_font`, words below
    the title, which comes first, are set in the template's; `font` is that font, None where its
    widths are not known.
    `titles_differ` where titles are in a font that may be wider than the one measured. `remarks`
    say so. `palette` has the colours that are seen, for what is drawn without an office program.
    """

    parts: Mapping[str, bytes]
    layout: str
    notes_master: str
    number: str | None = OWN_PLACE
    changes: tuple[tuple[str, str], ...] = ()
    in_its_font: bool = False
    font: Face | None = None
    titles_differ: bool = False
    remarks: tuple[str, ...] = ()
    palette: Palette = field(default_factory=lambda: LIGHT)

    def painted(self, slide: str) -> str:
        """A slide's XML as this template wants it."""
        for old, new in self.changes:
            slide = slide.replace(old, new)
        if not self.in_its_font:
            return slide
        title, end, rest = slide.partition("</p:sp>")
        return f"{title}{end}{lettered(rest, self.font)}"


@lru_cache(maxsize=2)
def own_template(*, dark: bool = False) -> Template:
    """An empty deck of our own look."""
    palette = DARK if dark else LIGHT
    name = f"template-{_made_of(palette)}"
    made = stored.read(name)
    if made is None:
        from narrate.outputs._making import own_parts

        made = own_parts(palette)
        stored.keep(name, made)
    parts, layout, notes_master = made
    return Template(parts=parts, layout=layout, notes_master=notes_master, palette=palette)


def _made_of(palette: Palette) -> str:
    """What our template is made of, in short: it is made anew when any of that has changed."""
    sources = (
        Path(__file__).with_name(f"{name}.py").read_bytes() for name in ("_making", "_theme")
    )
    libraries = (version(library).encode() for library in ("python-pptx", "lxml"))
    colours = (f"{role} {colour}".encode() for role, colour in sorted(palette.items()))
    return sha256(b"\0".join((*sources, *libraries, *colours))).hexdigest()[:16]
