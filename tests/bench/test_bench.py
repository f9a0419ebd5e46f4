"""Each benchmark runs and prints its ratio; how large that is, is for people to read."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

HERE = Path(__file__).parent
SCRIPTS = sorted(p.stem for p in HERE.glob("*.py") if p.stem not in ("timing", "spent", "test_bench"))


@pytest.mark.parametrize("name", SCRIPTS)
def test_it_prints_a_ratio(name: str, tmp_path: Path) -> None:
    command = [sys.executable, str(HERE / f"{name}.py"), "--quick", *(["30"] if name == "scale" else [])]
    run = subprocess.run(command, capture_output=True, text=True, timeout=240, cwd=tmp_path,
                         env={**os.environ, "PYTHONUTF8": "1"})
    assert run.returncode == 0, run.stderr
    found = re.fullmatch(r"ratio ([\d.e+-]+)", run.stdout.splitlines()[-1])
    assert found and float(found[1]) > 0, run.stdout
