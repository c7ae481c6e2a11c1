"""`lesson.json` is a contract: keys, their order and their meaning."""

from __future__ import annotations

import io
import json
from itertools import pairwise
from typing import Any

from narrate.lesson.timeline import predict
from narrate.outputs import USUAL, lesson_json
from tests.outputs.samples_text import LESSON

TIMES = predict(LESSON)
KEYS = ["id", "item", "part", "slide", "start_ms", "end_ms", "say", "caption", "builds", "waits"]


def text() -> str:
    sink = io.BytesIO()
    lesson_json.write(LESSON, TIMES, USUAL, sink)
    return sink.getvalue().decode()


WHOLE: dict[str, Any] = json.loads(text())


def test_the_keys_of_the_contract_in_order() -> None:
    assert list(WHOLE) == ["review", "total_ms", "slides", "beats"]
    assert (WHOLE["review"], WHOLE["slides"]) == ("garden-week", 4)
    assert all(list(beat) == KEYS for beat in WHOLE["beats"])


def test_times_add_up() -> None:
    """Contiguous from 0; the total is their sum (invariant 8)."""
    beats = WHOLE["beats"]
    assert beats[0]["start_ms"] == 0
    assert all(before["end_ms"] == after["start_ms"] for before, after in pairwise(beats))
    assert sum(beat["end_ms"] - beat["start_ms"] for beat in beats) == WHOLE["total_ms"]
    assert isinstance(WHOLE["total_ms"], int)


def test_slides_count_from_one_in_order() -> None:
    assert [beat["slide"] for beat in WHOLE["beats"]] == [1, 2, 2, 2, 3, 3, 4, 4, 4]


def test_each_build_belongs_to_its_beat() -> None:
    builds = {beat["id"]: beat["builds"] for beat in WHOLE["beats"]}
    assert builds["greeting"] == []
    assert builds["rain-barrel.1.related"] == ["related 1", "related 2", "related 3"]
    assert sum(map(len, builds.values())) == sum(len(page.builds) for page in LESSON.pages)


def test_items_and_parts() -> None:
    first, second, *_, last = WHOLE["beats"]
    assert (first["item"], first["part"], first["waits"]) == (None, None, False)
    assert (second["item"], second["part"]) == ("rain-barrel", 1)
    assert last["item"] is None


def test_said_without_digits_shown_with_symbols() -> None:
    join = next(beat for beat in WHOLE["beats"] if beat["id"].endswith("join"))
    assert not any(map(str.isdigit, join["say"]))
    assert "15/20 + 4/20 = 19/20." in join["caption"]


def test_written_as_plain_utf8() -> None:
    assert text().endswith("}\n")
    assert "×" in text()
    assert text().startswith('{\n "review": "garden-week",\n "total_ms": ')
