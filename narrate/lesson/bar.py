"""How far something is that takes long: a line at the foot of a terminal, and nowhere else."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any, TypeVar

if TYPE_CHECKING:
    from tqdm import tqdm

T = TypeVar("T")


def bar(what: str, total: int, unit: str = "it", over: Iterable[T] | None = None) -> tqdm[T]:
    """A bar of `total` steps, which goes on by itself where it is gone `over`.

    Nothing is printed where stderr is no terminal.
    """
    from tqdm import tqdm

    tqdm.monitor_interval = 0  # its thread would be in the way of `saving.meanwhile`
    about: dict[str, Any] = {"desc": what, "total": total, "unit": unit}
    return tqdm(over, disable=None, leave=False, **about)
