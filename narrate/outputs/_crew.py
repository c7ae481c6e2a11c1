"""Pieces made in several processes, with a bar that shows how far they are.

Each process finishes the piece it is at, whatever becomes of the build that asked for it, and then
ends: nothing is left half made and nobody stays behind.
"""

from __future__ import annotations

import os
import signal
import threading
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import (
    BrokenExecutor,
    Executor,
    Future,
    ProcessPoolExecutor,
    as_completed,
)
from contextlib import contextmanager, suppress
from multiprocessing import get_context, parent_process
from pathlib import Path
from typing import Any, NamedTuple

from narrate.lesson import pieces
from narrate.lesson.bar import bar

WORKERS = 2
FEW = 3
"""Up to so many pieces are made without other processes, which take a while to start."""


class Job(NamedTuple):
    """A piece to make: its key, how to write it to a path, how many ms of the video it is for.

    `write` is a function with its arguments, so that another process can be given it.
    """

    key: str
    write: Callable[[Path], None]
    length: int


def make_all(jobs: Sequence[Job], folder: Path, label: str) -> list[Path]:
    """The pieces of all jobs, in order; those that are there are not made. Raises OSError."""
    found = {job.key: pieces.find(folder, job.key) for job in jobs}
    to_make = {job.key: job for job in jobs if not found[job.key]}
    total = sum(job.length for job in jobs) // 1_000
    with bar(label, total, "s") as done:
        done.update(sum(job.length for job in jobs if found[job.key]) // 1_000)
        for key, made in _made(to_make, folder):
            found[key] = made
            done.update(to_make[key].length // 1_000)
    return [path for job in jobs if (path := found[job.key])]


def _made(jobs: dict[str, Job], folder: Path) -> Iterator[tuple[str, Path]]:
    """Each piece when it is made, by its key; what another process could not make is made here."""
    left = dict(jobs)
    if len(jobs) > FEW and (os.cpu_count() or 1) > 1:
        with suppress(BrokenExecutor), _crew() as crew:
            asked: dict[Future[Path], str] = {
                crew.submit(_make, folder, key, job.write): key for key, job in jobs.items()
            }
            for done in as_completed(asked):
                path = done.result()
                del left[asked[done]]
                yield asked[done], path
    for key, job in left.items():
        yield key, pieces.make(folder, key, job.write)


@contextmanager
def _crew() -> Iterator[Executor]:
    """Processes that stop after the pieces they are at if this one breaks off."""
    crew = ProcessPoolExecutor(WORKERS, mp_context=get_context("spawn"), initializer=_hire)
    try:
        yield crew
    finally:
        crew.shutdown(cancel_futures=True)


# -- in the other processes

_AT_WORK = threading.Lock()


def _make(folder: Path, key: str, write: Callable[[Path], None]) -> Path:
    with _AT_WORK:
        return pieces.make(folder, key, write)


def _hire() -> None:
    """An interruption is for the first process; when that is gone, so is this one."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_go_with, args=(parent_process(),), daemon=True).start()


def _go_with(parent: Any) -> None:
    parent.join()
    with _AT_WORK:
        os._exit(1)
