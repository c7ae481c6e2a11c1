"""What was made once and may be kept between runs, in the user's own folder for such things.

The folder is Jinja's for compiled templates, which it checks to be that user's. Nothing is lost
where there is none or where a file there is broken: it is made again.
"""

from __future__ import annotations

import marshal
import os
import sys
from contextlib import suppress
from functools import lru_cache
from pathlib import Path
from typing import Any

from jinja2 import FileSystemBytecodeCache


def read(name: str) -> Any:
    """What was kept by a name (plain values: texts, bytes, numbers, tuples, dicts), or None."""
    folder = _folder()
    with suppress(OSError, EOFError, ValueError, TypeError):
        if folder is not None:
            return marshal.loads(_file(folder, name).read_bytes())
    return None


def keep(name: str, value: Any) -> None:
    """Keeps a plain value by a name, if there is where to."""
    folder = _folder()
    with suppress(OSError):
        if folder is not None:
            beside = _file(folder, f"{name}-{os.getpid()}")
            beside.write_bytes(marshal.dumps(value))
            beside.replace(_file(folder, name))


def _file(folder: Path, name: str) -> Path:
    return folder / f"narrate-{name}-{sys.implementation.cache_tag}"


@lru_cache(maxsize=1)
def _folder() -> Path | None:
    try:
        return Path(FileSystemBytecodeCache().directory)
    except (OSError, RuntimeError):
        return None
