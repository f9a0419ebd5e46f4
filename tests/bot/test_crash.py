"""Kill -9 in the middle of a write loses nothing that was acknowledged: a real process is killed a hundred times."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path
from typing import Any

KILLS = 100


def _script() -> Any:
    spec = importlib.util.spec_from_file_location("crash", Path(__file__).with_name("crash.py"))
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    sys.modules["crash"] = module
    spec.loader.exec_module(module)
    return module


def test_nothing_that_was_acknowledged_is_lost(url: str, capsys: Any) -> None:
    tally = _script().crash(url, KILLS if url.startswith("sqlite") else KILLS // 10)
    with capsys.disabled():
        print(f"\nkilled {tally.kills} times, {tally.acknowledged} writes acknowledged, {tally.lost} of them lost "
              f"({url.partition(':')[0]})")
    assert tally.lost == 0
    assert tally.acknowledged > tally.kills / 2, "too little was written to tell"
