"""In CI a test that is skipped fails: a missing program or font must not go unseen."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
SKIPPED = "import pytest\ndef test_it():\n    pytest.skip('no poppler')\n"


@pytest.mark.parametrize(("ci", "code"), [("true", 1), ("", 0)])
def test_a_skip_fails_in_ci_only(tmp_path: Path, ci: str, code: int) -> None:
    (tmp_path / "conftest.py").write_bytes((ROOT / "tests" / "conftest.py").read_bytes())
    (tmp_path / "test_it.py").write_text(SKIPPED, encoding="utf-8")
    ended = subprocess.run(
        [sys.executable, "-m", "pytest", "-p", "no:cacheprovider", str(tmp_path)],
        capture_output=True,
        check=False,
        text=True,
        cwd=tmp_path,
        env=os.environ | {"CI": ci},
    )
    assert ended.returncode == code, ended.stdout
    assert ("which CI allows to none" in ended.stdout) == bool(code)
