"""Plugins as strangers write them, installed into a fresh environment and asked through the bot.

The plugins beside this file use nothing but what DEVELOPERS.md tells.  The environment is a new one: it sees the
libraries and Stillroom of the one that runs the tests, and has the plugins installed by pip as distributions of their
own, five broken ones among them.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import venv
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import molmass
import pytest

HERE = Path(__file__).parent
GOOD = ("loaf", "buffers", "wakeful")
BROKEN = tuple(sorted(p.stem for p in (HERE / "broken").glob("*.py")))


@pytest.fixture(scope="module")
def fresh(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The new environment's Python."""
    folder = tmp_path_factory.mktemp("fresh")
    venv.create(folder / "venv", with_pip=False, symlinks=True)
    site = next((folder / "venv").glob("lib/python3*/site-packages"))
    (site / "ours.pth").write_text("\n".join(p for p in sys.path if p and Path(p).is_dir()))
    copies = [Path(shutil.copytree(HERE / name, folder / "src" / name)) for name in (*GOOD, "broken")]
    subprocess.run(
        [sys.executable, "-m", "pip", "install", "-q", "--no-deps", "--no-build-isolation", "--no-index", "--target",
         site, *copies], check=True, timeout=240, env={**os.environ, "PIP_DISABLE_PIP_VERSION_CHECK": "1"})
    return folder / "venv" / "bin" / "python"


@pytest.fixture(scope="module")
def places(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """Folders of its own for whatever the command keeps."""
    folder = tmp_path_factory.mktemp("places")
    return {f"STILLROOM_{name}": str(folder / name.lower()) for name in ("CACHE", "DATA", "CONFIG")}


def stillroom(python: Path, places: dict[str, str], *arguments: str, text: str = "", limit: float = 240) -> Any:
    """The command, run by the fresh environment."""
    return subprocess.run([python, "-m", "stillroom_bot.cli", *arguments], input=text, capture_output=True, text=True,
                          timeout=limit, env={**os.environ, **places}, check=False)


def asked(python: Path, places: dict[str, str], questions: Sequence[str]) -> list[dict[str, Any]]:
    """The answers to questions that have nothing to do with one another."""
    done = stillroom(python, places, "ask", "--jsonl", text="\n".join(questions) + "\n")
    assert done.returncode == 0, done.stderr
    return [json.loads(line) for line in done.stdout.splitlines()]


def test_the_good_ones_are_small() -> None:
    for name in GOOD:
        (code,) = [p for p in (HERE / name).rglob("*.py") if "build" not in p.parts]
        assert len(code.read_text("utf-8").splitlines()) < 60, name


def test_all_are_loaded_and_the_broken_ones_are_named(fresh: Path, places: dict[str, str]) -> None:
    done = stillroom(fresh, places, "plugins", "--json")
    rows = {row["name"]: row for row in json.loads(done.stdout)}
    assert done.returncode == 1 and {*GOOD, *BROKEN, "bar"} <= rows.keys()
    assert {name: rows[name]["errors"] for name in (*GOOD, "bar")} == {name: [] for name in (*GOOD, "bar")}
    assert rows["loaf"]["from"] == "stillroom-loaf 1.2 (loaf:dough)" and rows["loaf"]["calculators"] == ["loaf.dough"]
    told = {name: " ".join(rows[name]["errors"]) for name in BROKEN}
    assert "No module named 'a_module_that_nobody_has'" in told["missing_import"]
    assert "measures mass, the right volume" in told["wrong_dimensions"]
    assert "equates a percent by mass with one by volume" in told["wrong_dimensions"]
    assert "did you mean 'stillroom_calculators'?" in told["misspelled_hook"]
    assert not told["raising"] and not told["endless"], "these load well"


def test_they_are_asked_like_any_other(fresh: Path, places: dict[str, str]) -> None:
    """By hand: 1670 / 1.67; 500 x 0.7; 121.135 x 0.05 x 0.5; 0.04 x 2.1; and one of the bar's own."""
    cases = [
        ("how much flour for 1670 g of bread dough?", "loaf.dough", 1000, "gram"),
        ("500 g of flour at 70 % hydration, how much water for the dough?", "loaf.dough", 350, "gram"),
        ("how much tris for 500 ml of a 50 millimolar buffer?", "buffers.buffer", 3.028375, "gram"),
        ("how much caffeine in 40 ml ristretto and 160 ml oat drink?", "wakeful.caffeine", 84, "milligram"),
        ("180 g of lemon peel, how much sugar for the oleo?", "bar.peel_sugar", 180, "gram"),
    ]
    rows = asked(fresh, places, [c[0] for c in cases])
    for row, (question, calculator, value, unit) in zip(rows, cases, strict=True):
        first = row["answer"][0]
        assert (row["calculator"], first["unit"]) == (calculator, unit), (question, row["text"])
        assert first["value"] == pytest.approx(value), question


def test_one_that_raises_is_contained(fresh: Path, places: dict[str, str]) -> None:
    rows = asked(fresh, places, ["how much alum for 100 g of wool?", "how much flour for 1670 g of bread dough?"])
    assert rows[0]["status"] == "declined" and rows[0]["calculator"] == "raising.mordant"
    assert "KeyError" in rows[0]["text"] and "Traceback" not in rows[0]["text"]
    assert rows[1]["answer"][0]["value"] == pytest.approx(1000)


@pytest.mark.parametrize("arguments", [("ask", "--jsonl"), ("chat", "--jsonl")])
def test_an_endless_one_is_ended_and_the_next_is_answered(
        arguments: tuple[str, ...], fresh: Path, places: dict[str, str]) -> None:
    questions = ["how much felt from 100 g of wool?", "how much flour for 1670 g of bread dough?"]
    text = "".join((json.dumps({"chat": "a", "text": q}) if "chat" in arguments else q) + "\n" for q in questions)
    done = stillroom(fresh, places, *arguments, text=text, limit=120)
    one, other = [json.loads(line) for line in done.stdout.splitlines()]
    assert one["status"] == "declined" and "endless.felt took more than 8 s and was stopped" in one["text"]
    assert other["status"] == "answered" and other["calculator"] == "loaf.dough"


def test_an_operator_decides(fresh: Path, places: dict[str, str], tmp_path: Path) -> None:
    (tmp_path / "stillroom.toml").write_text('off = ["loaf", "buffers.buffer"]\n[pin]\nwakeful = "0.2"\n')
    here = {**places, "STILLROOM_CONFIG": str(tmp_path)}
    rows = {r["name"]: r for r in json.loads(stillroom(fresh, here, "plugins", "--json").stdout)}
    assert "loaf" not in rows and rows["buffers"]["calculators"] == []
    assert rows["wakeful"]["errors"] == [
        "wakeful could not be loaded: it is pinned to version 0.2, and this is 0.1."]


@pytest.mark.parametrize("name", GOOD)
def test_the_check_finds_nothing_in_a_good_one(name: str, fresh: Path, places: dict[str, str]) -> None:
    done = stillroom(fresh, places, "plugin", "check", name, "--strict")
    assert done.returncode == 0 and done.stdout.endswith(": ready.\n"), done.stdout + done.stderr


WORDS = {
    "missing_import": ("No module named", "> Install what it imports"),
    "wrong_dimensions": ("the left side measures mass, the right volume", "> Bring in what is missing"),
    "misspelled_hook": ("did you mean 'stillroom_calculators'?", "> The hooks are"),
    "raising": ("failed with KeyError", "stillroom_cautions failed with RuntimeError"),
    "endless": ("it does not end: solving endless.felt in every direction", "> Look for a loop without an end"),
}


@pytest.mark.parametrize("name", BROKEN)
def test_the_check_says_what_is_wrong_and_what_to_do(name: str, fresh: Path, places: dict[str, str]) -> None:
    done = stillroom(fresh, places, "plugin", "check", name, "--seconds", "10")
    assert done.returncode == 1 and done.stdout.endswith(": not ready.\n")
    assert all(part in done.stdout for part in WORDS[name]), done.stdout
    assert "Traceback" not in done.stdout + done.stderr


def test_nobody_by_that_name(fresh: Path, places: dict[str, str]) -> None:
    done = stillroom(fresh, places, "plugin", "check", "loav")
    assert (done.returncode, done.stdout) == (2, "") and "Did you mean loaf?" in done.stderr


@pytest.mark.parametrize("row", (HERE / "buffers/buffers/powders.csv").read_text("utf-8").splitlines()[1:])
def test_molar_masses(row: str) -> None:
    """Against molmass, which takes the IUPAC standard atomic weights."""
    import csv

    _, _, mass, formula, _ = next(csv.reader([row]))
    assert float(mass) == pytest.approx(molmass.Formula(formula).mass, rel=1e-5)
