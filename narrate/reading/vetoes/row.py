"""A veto: whether a story, a question and the work of a reading do not go together, and why."""

from __future__ import annotations

from collections.abc import Callable

from narrate.exact.tree import Expr

Veto = Callable[[str, str, Expr | None], bool]
"""From the story and the question in small letters, and the work."""

Rows = tuple[tuple[Veto, str], ...]
"""Vetoes, each with what is said where it speaks against a reading."""
