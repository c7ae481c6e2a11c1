"""What a teacher may choose for the outputs, as one value."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Literal

from narrate.lesson.narration import Narration
from narrate.lesson.palette import DARK, LIGHT, Palette
from narrate.outputs._kept import Kept

if TYPE_CHECKING:
    from narrate.outputs._template import Template

Builds = Literal["by-hand", "timed", "flat"]

HEIGHTS = (1_080, 720)
"""How high a video may be, in pixels: the usual first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Options:
    """How outputs are to be written; each output takes what concerns it.

    `builds` is how a page's builds come on: by the teacher's clicks, by themselves at the
    timeline's times, or each on a slide of its own without animation. `dark` is the look of a
    board. `theme` is a template that is not ours; its colours then come before `dark`. `templates`
    is the teacher's own folder of wordings, labels and pages. `kept` holds slides from one deck to
    the next where several have pages in common.

    `spoken_by` names the voice of what is heard ("" for the first that is installed); `narration`
    is its sound, or the teacher's own, None where it stays silent. What runs by itself starts again
    at its end where it is to `loop`. `pieces` is a folder in which
    outputs may keep what takes long from one build to the next; it may be deleted at any time.
    `height` is that of the video in pixels.
    """

    builds: Builds = "by-hand"
    dark: bool = False
    theme: Template | None = None
    templates: Path | None = None
    spoken_by: str = ""
    loop: bool = False
    narration: Narration | None = field(default=None, compare=False)
    pieces: Path | None = field(default=None, compare=False)
    height: int = HEIGHTS[0]
    kept: Kept | None = field(default=None, compare=False, repr=False)

    @property
    def palette(self) -> Palette:
        """The colours of what is drawn without an office program: the template's, or our own."""
        if self.theme:
            return self.theme.palette
        return DARK if self.dark else LIGHT

    @property
    def remarks(self) -> tuple[str, ...]:
        """What a teacher should know of her template, a line each."""
        return self.theme.remarks if self.theme else ()


USUAL = Options()
"""Nothing chosen."""
