"""Pages of whole numbers and decimals: nothing overlaps, long lines of work keep their room."""

from __future__ import annotations

import pytest

from narrate.exact.parser import parse
from narrate.lesson.arrange import Content, arrange
from narrate.lesson.block import Area, bounds
from narrate.lesson.checking import overlaps
from narrate.lesson.shows import Draw, Line
from narrate.lesson.workzone import work_line
from narrate.solution.figures import NumberLine
from tests.lesson.told import market, numbers


@pytest.mark.parametrize("review", [market, numbers], ids=["market", "numbers"])
def test_nothing_overlaps_or_leaves_its_room(review: object) -> None:
    assert callable(review)
    assert [fault for page in review().lesson.pages for fault in overlaps(page)] == []


@pytest.mark.parametrize("width", range(34_000, 60_000, 2_000))
def test_no_side_of_a_broken_line_stands_alone_where_another_can_join_it(width: int) -> None:
    """24 × 3 = 20 × 3 + 4 × 3 = 60 + 12 = 72 in two rows has two equals signs in the second."""
    tree = parse("24 × 3 = 20 × 3 + 4 × 3 = 60 + 12 = 72")
    rows = [row for _, row in work_line(Line(tree=tree), 4_000, 0, width).rows]
    signs = [sum(atom.relation for _, atom in row.atoms) for row in rows]
    assert sum(signs) == 3
    assert signs in ([3], [1, 2], [1, 1, 1]) or len(rows) > 3


@pytest.mark.parametrize("wide", [30_000, 50_000, 80_000])
def test_a_figure_with_little_room_beside_the_work_stands_over_it(wide: int) -> None:
    """Under two thirds of the width it could have; the line then begins at the zone's edge."""
    line = Line(tree=parse("4 15/12 − 2 10/12 = 2 5/12"))
    content = Content()
    content.add(None, Draw(NumberLine(of="line", low=0, high=6)))
    content.add((0, 0), line)
    zone = Area(3_600, 10_000, wide, 30_000)
    done = arrange(content, zone, 0, "en", size=4_000, force=True)
    assert done is not None
    ((work, _, _),) = done.builds[0, 0]
    (figure,) = done.base
    beside = bounds(figure.marks).x >= bounds(work.marks).right
    assert beside == (wide == 80_000)
    assert not bounds(figure.marks).meets(bounds(work.marks))
