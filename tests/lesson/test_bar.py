"""How far something is: seen in a terminal, and nowhere else."""

from __future__ import annotations

import io
import sys

import pytest

from narrate.lesson.bar import bar


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.mark.parametrize("stream", [io.StringIO, Terminal])
def test_it_is_seen_in_a_terminal_alone(
    stream: type[io.StringIO], monkeypatch: pytest.MonkeyPatch
) -> None:
    shown = stream()
    monkeypatch.setattr(sys, "stderr", shown)
    assert list(bar("voice", 3, over="abc")) == ["a", "b", "c"]
    assert ("voice" in shown.getvalue()) is shown.isatty()
