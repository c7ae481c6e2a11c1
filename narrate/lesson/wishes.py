"""How the teacher wants her reviews told, as one value."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Literal

Detail = Literal["full", "brief", "lines"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wishes:
    """How reviews are to be told.

    The items named first; what pupils answered (a CSV file); how the teacher speaks (a file, else
    `voice.yaml` beside each review); how much is told, and in how many minutes it should be.
    `asks` says that pupils are asked on a page, so that the lesson needs its questions.
    """

    order: tuple[str, ...] = ()
    answers: Path | None = None
    voice: Path | None = None
    detail: Detail = "full"
    minutes: int | None = None
    asks: bool = False


AS_USUAL = Wishes()
"""Nothing wished."""
