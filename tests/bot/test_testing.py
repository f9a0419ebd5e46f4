"""What Stillroom gives to whoever tests a calculator: fixtures, a chat, the Telegram bot."""

from __future__ import annotations

import subprocess
import sys
import textwrap
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest
from stillroom import Calculator, Kernel, choice, var
from stillroom.testing import assert_says
from stillroom_bot.testing import FakeChat, FakeTelegram

WAX = Calculator(
    "candle", "Wax for a candle",
    choice("wax", [{"id": "bees", "words": "beeswax", "density": 0.96, "source": "made up"},
                   {"id": "soy", "words": "soy wax", "density": 0.9, "source": "made up"}],
           fills={"density": "density"}, words="which wax"),
    var("mass", "gram", "wax, weight of wax", state="dry"), var("mould", "milliliter", "mould, candle"),
    var("density", "gram / milliliter", "density", shy=True), equations=["mass = density * mould"],
    words="candle, mould", only="candle, mould", asked="mass, mould")


@pytest.fixture(scope="session")
def plugins() -> Mapping[str, Any]:
    return {"waxworks": WAX}


def test_the_kernel_has_just_the_plugin(kernel: Kernel) -> None:
    assert set(kernel.models) == {"waxworks.candle"}


def test_one_question(ask: Callable[[str], dict[str, Any]]) -> None:
    assert_says(ask("how much beeswax for a 250 ml mould?"), "240 gram")
    assert ask("and for 300 ml?")["status"] == "declined", "each is asked for itself"


def test_a_chat_goes_on(chat: FakeChat) -> None:
    assert chat.say("how much wax for a 250 ml mould?").status == "asks"
    assert_says(chat.say("soy wax").to_json(), "225 gram")
    assert_says(chat.say("and for 100 ml?").to_json(), "90 gram")
    assert [r.status for r in chat.replies] == ["asks", "answered", "answered"]


def test_telegram_with_a_server_of_its_own(telegram: FakeTelegram) -> None:
    told = telegram.say("how much wax for a 250 ml mould?")
    assert list(told.buttons) == ["beeswax", "soy wax"]
    assert telegram.press(told, "beeswax").text.startswith("mass: 240 g")
    assert telegram.say("and for 100 ml?").text.startswith("mass: 96 g")
    with pytest.raises(KeyError):
        telegram.press(told, "tallow")


PROJECT = """
[project]
name = "waxworks"
version = "1"
[project.entry-points.stillroom]
waxworks = "waxworks"
"""
MODULE = """
from stillroom import Calculator, var
candle = Calculator("candle", "Wax for a candle", var("wax", "gram"), var("mould", "milliliter"),
    var("density", "gram / milliliter", default=0.9), equations=["wax = density * mould"],
    example=("how much wax for a 100 ml mould?", "90 gram"), source="made up")
"""
TESTS = """
import pytest
from stillroom.testing import assert_case, cases, check

def test_it(kernel):
    assert not check(kernel, "waxworks.candle").problems

@pytest.mark.parametrize("case", cases("cases.csv"), ids=str)
def test_cases(case, kernel, ask):
    assert_case(case, kernel, ask)
"""


def test_an_author_needs_no_set_up(tmp_path: Path) -> None:
    """A project of its own, in a process of its own: the fixtures find the plugin by its pyproject.toml."""
    for name, text in (("pyproject.toml", PROJECT), ("waxworks.py", MODULE), ("test_waxworks.py", TESTS),
                       ("cases.csv", "question,answer,source\nhow much wax for a 200 ml mould?,180 gram,0.9 x 200\n"
                                     "how much wax for a 200 ml mould?,181 gram,a wrong row\n")):
        (tmp_path / name).write_text(textwrap.dedent(text))
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-p", "stillroom_bot.testing.fixtures", "-p", "no:cacheprovider"],
        cwd=tmp_path, capture_output=True, text=True, check=False)
    assert "1 failed, 2 passed" in done.stdout, done.stdout + done.stderr
    assert "cases.csv, line 3: how much wax for a 200 ml mould?: wax: 180 gram is not 181 gram" in done.stdout


def test_the_pytest_plugin_is_announced_and_light() -> None:
    import tomllib

    project = tomllib.loads((Path(__file__).parents[2] / "pyproject.toml").read_text("utf-8"))["project"]
    assert project["entry-points"]["pytest11"] == {"stillroom_bot.testing.fixtures": "stillroom_bot.testing.fixtures"}
    code = ("import sys, stillroom_bot.testing.fixtures; print(sorted({'sympy', 'pint', 'telegram', 'hypothesis', "
            "'sqlalchemy'} & set(sys.modules)))")
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
