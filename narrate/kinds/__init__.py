"""One file, one kind of problem: a file's name is its name; files starting with _ are not."""

from __future__ import annotations

import pkgutil
from functools import cache
from importlib import import_module
from types import NoneType
from typing import cast

from narrate.solution.kind import Kind
from narrate.solution.task import Task


@cache
def find_kinds() -> dict[str, Kind]:
    """The kinds by name, in the order of their names."""
    names = sorted(m.name for m in pkgutil.iter_modules(__path__) if not m.name.startswith("_"))
    return {name: cast(Kind, import_module(f"{__name__}.{name}")) for name in names}


def kind_of(task: Task) -> Kind | None:
    """The kind that solves a task, None if none recognises it.

    A task that demands more than a value is shown only to the kinds that take it (`TAKES`).
    """
    kinds = find_kinds().values()
    taking = (k for k in kinds if isinstance(task.demand, getattr(k, "TAKES", NoneType)))
    return next((kind for kind in taking if kind.recognise(task)), None)
