"""SVG to PNG without an office program, many at a time.

Words are set in the font that pages are measured with, which comes with the project.
"""

from __future__ import annotations

import os
from collections.abc import Iterator, Sequence

from narrate.lesson.measure import font_path

MANY = 24
"""From so many pictures on, all processors draw: starting them takes as long as a few pictures."""


def rasters(svgs: Sequence[tuple[str, int]]) -> Iterator[bytes]:
    """Each SVG as a PNG file as many pixels wide as it says, in order."""
    jobs = [(svg, width, str(font_path())) for svg, width in svgs]
    workers = min(os.cpu_count() or 1, 8)
    if len(jobs) < MANY or workers == 1:
        yield from map(draw, jobs)
        return
    from concurrent.futures import ProcessPoolExecutor  # both are slow to import
    from multiprocessing import get_context

    with ProcessPoolExecutor(workers, mp_context=get_context("spawn")) as pool:
        yield from pool.map(draw, jobs, chunksize=4)


def draw(job: tuple[str, int, str]) -> bytes:
    """One picture: the SVG, the width in pixels, the font's file."""
    from resvg_py import svg_to_bytes

    svg, width, font = job
    return bytes(
        svg_to_bytes(svg_string=svg, width=width, font_files=[font], skip_system_fonts=True, dpi=96)
    )
