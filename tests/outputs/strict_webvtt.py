"""The strict WebVTT parser of npm (webvtt-parser, CC0) as an outside judge."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest

NODE = Path(__file__).resolve().parents[1] / "node"


def parse_strictly(text: str, kind: str = "captions") -> list[dict[str, Any]]:
    """The cues of a WebVTT text; fails on any error that the parser reports."""
    return parse_all_strictly([text], kind)[0]


def parse_all_strictly(texts: list[str], kind: str = "captions") -> list[list[dict[str, Any]]]:
    """The cues of WebVTT texts, read by one process; fails on any error that the parser reports.

    Skips where node or the parser is not installed, but never in CI.
    """
    if shutil.which("node") is None or not (NODE / "node_modules" / "webvtt-parser").is_dir():
        missing = "node with webvtt-parser is not installed: run npm ci in tests/node"
        assert not os.environ.get("CI"), missing
        pytest.skip(missing)
    command = ["node", str(NODE / "webvtt_errors.js"), kind]
    given = json.dumps(texts).encode()
    done = subprocess.run(command, input=given, capture_output=True, check=True)
    found = json.loads(done.stdout)
    assert [one["errors"] for one in found] == [[]] * len(texts)
    return [one["cues"] for one in found]
