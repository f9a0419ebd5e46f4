"""One bad plugin is named and switched off; the others go on."""

from __future__ import annotations

import textwrap
import time
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from stillroom import Calculator, Function, Kernel, Request, hookimpl, var
from stillroom.errors import RequestError
from stillroom.limiting import limited

from .samples import INK, TEA, ask, number


def plugin(**hooks: Callable[..., Any]) -> SimpleNamespace:
    """An object with these hooks, ``calculators`` for ``stillroom_calculators``."""
    made = {}
    for name, function in hooks.items():

        def hook(function: Callable[..., Any] = function) -> Any:
            return function()

        hook.__name__ = f"stillroom_{name}"
        made[hook.__name__] = hookimpl(function if name == "cautions" else _plain(function))
    return SimpleNamespace(**made)


def _plain(function: Callable[[], Any]) -> Callable[[], Any]:
    return lambda: function()


def explode() -> Any:
    raise KeyError("no such file")


def half() -> Any:
    yield TEA
    raise RuntimeError("half way")


class Misspelled:
    @hookimpl
    def stillroom_calculator(self) -> list[Calculator]:
        return [TEA]


class Extra:
    @hookimpl
    def stillroom_calculators(self, wrong: int) -> list[Calculator]:
        return [TEA]


BROKEN: dict[str, tuple[Any, str]] = {
    "raises": (plugin(calculators=explode), "odd could not be loaded: KeyError: 'no such file'"),
    "raises half way": (plugin(calculators=half), "odd could not be loaded: RuntimeError: half way"),
    "misspelled": (
        Misspelled(),
        "odd could not be loaded: unknown hook 'stillroom_calculator'; did you mean 'stillroom_calculators'?",
    ),
    "an argument too many": (Extra(), "odd could not be loaded: "),
    "no hooks": (
        SimpleNamespace(),
        "odd could not be loaded: it has no function marked with @stillroom.hookimpl and no Calculator.",
    ),
    "a number": (
        5,
        "odd could not be loaded: it has no function marked with @stillroom.hookimpl and no Calculator.",
    ),
    "a wrong type": (plugin(calculators=lambda: ["tea"]), "odd: 'tea' is no Calculator."),
    "nothing to iterate": (plugin(calculators=lambda: None), "odd could not be loaded: TypeError: "),
    "units that are no rows": (plugin(units=lambda: ["sip"]), "odd: stillroom_units gives 'sip', which is no row."),
    "a unit without a definition": (
        plugin(units=lambda: [{"name": "sip"}]),
        "A unit of odd lacks a name or a definition: ",
    ),
    "a unit that is taken": (
        plugin(units=lambda: [{"name": "gram", "definition": "2"}]),
        "The unit 'gram' is defined twice, by the kernel and by odd.",
    ),
    "a unit that cannot be": (
        plugin(units=lambda: [{"name": "sip", "definition": "2 * gulp"}]),
        "The unit 'sip' cannot be defined as",
    ),
    "a substance without source": (
        plugin(substances=lambda: [{"id": "ink"}]),
        "A substance of odd lacks an id or a source: ",
    ),
    "two of a name": (plugin(calculators=lambda: [TEA, TEA]), "odd offers two calculators named 'tea'."),
    "a declaration of nonsense": (
        plugin(calculators=lambda: [Calculator("c", "t", var("a", 5))]),  # type: ignore[arg-type]
        "odd.c is declared in a way that cannot work: ",
    ),
    "an inconsistent equation": (
        plugin(calculators=lambda: [Calculator("c", "t", var("a", "gram"), var("b", "liter"), equations=["a = b"])]),
        "odd.c: in 'a = b' the left side measures mass, the right volume.",
    ),
    "a formula that is none": (
        plugin(calculators=lambda: [Calculator("c", "t", var("a", "gram"), equations=["a = a.b"])]),
        "'a.b': only numbers",
    ),
}


@pytest.mark.parametrize(("thing", "sentence"), BROKEN.values(), ids=BROKEN.keys())
def test_a_broken_plugin_is_named_and_the_others_go_on(thing: Any, sentence: str) -> None:
    kernel = Kernel(discover=False)
    kernel.add("first", INK)
    odd = kernel.add("odd", thing)
    kernel.add("last", TEA)
    assert len(odd.errors) == 1 and odd.errors[0].startswith(sentence), odd.errors
    assert {"first.ink", "last.tea"} <= kernel.models.keys()
    assert not [e for name in ("first", "last") for e in kernel.plugins[name].errors]
    answer = kernel.answer(kernel.request("last.tea", {"water": (1, "liter")}, ["leaf"]))
    assert number(answer) == pytest.approx(8)


@pytest.mark.parametrize(
    "how",
    [
        "raise ImportError('no module named ink')",
        "import nowhere_to_be_found",
        "1 / 0",
        "raise SystemExit(3)",
        "def broken(:",
    ],
)
def test_a_plugin_that_cannot_be_imported(how: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "odd_plugin.py").write_text(how)
    monkeypatch.syspath_prepend(tmp_path)
    kernel = Kernel(discover=False)
    odd = kernel.manager.add("odd", lambda: __import__("odd_plugin"), "1.0")
    kernel.add("last", TEA)
    assert len(odd.errors) == 1 and odd.errors[0].startswith("odd could not be loaded: ")
    assert set(kernel.models) == {"last.tea"}


def test_discovery_by_entry_point(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Two installed distributions: one names a bare calculator, the other a module that does not load."""
    (tmp_path / "tea_plugin.py").write_text(
        textwrap.dedent("""
        from stillroom import Calculator, var
        tea = Calculator("tea", "t", var("leaf", "gram"), var("water", "gram"), equations=["leaf = water / 50"])
    """)
    )
    (tmp_path / "bad_plugin.py").write_text("1 / 0")
    for name, target in (("tea-plugin", "teabar = tea_plugin:tea"), ("bad-plugin", "bad = bad_plugin")):
        folder = tmp_path / f"{name.replace('-', '_')}-2.5.dist-info"
        folder.mkdir()
        (folder / "METADATA").write_text(f"Metadata-Version: 2.1\nName: {name}\nVersion: 2.5\n")
        (folder / "entry_points.txt").write_text(f"[stillroom]\n{target}\n")
    monkeypatch.syspath_prepend(tmp_path)
    kernel = Kernel(off=["bar"])
    assert (kernel.plugins["teabar"].version, kernel.plugins["teabar"].accepted) == ("2.5", ["teabar.tea"])
    assert kernel.plugins["bad"].errors == ["bad could not be loaded: ZeroDivisionError: division by zero"]
    assert "teabar" not in Kernel(off=["bar", "teabar"]).plugins


def test_a_plugin_or_a_calculator_may_be_off() -> None:
    kernel = Kernel(discover=False, off=["first.tea"])
    kernel.add("first", plugin(calculators=lambda: [TEA, INK]))
    assert set(kernel.models) == {"first.ink"} and kernel.plugins["first"].errors == []
    with pytest.raises(RequestError, match=r"^There is no calculator .first\.tea."):
        kernel.model("first.tea")


def test_a_name_that_is_taken_keeps_its_first_owner() -> None:
    kernel = Kernel(discover=False)
    kernel.add("tea", TEA, "1.0")
    second = kernel.add("tea", INK, "2.0")
    assert second.errors == [
        "Two plugins are called 'tea': version 1.0, and version 2.0; the second is switched off."
    ]
    assert set(kernel.models) == {"tea.tea"}


def test_nothing_is_told_twice() -> None:
    kernel = Kernel(discover=False)
    odd = kernel.add(
        "odd", plugin(units=lambda: [{"name": "gram", "definition": "2"}], substances=lambda: [{"id": "x"}])
    )
    for name in "abc":
        kernel.add(name, TEA)
    assert len(odd.errors) == 2


def test_a_substance_has_one_owner() -> None:
    kernel = Kernel(discover=False)
    rows = [{"id": "ink", "density": density, "source": "s"} for density in ("1.1", "1.2")]
    kernel.add("one", plugin(substances=lambda: rows[:1]))
    two = kernel.add("two", plugin(substances=lambda: rows[1:]))
    assert two.errors == ["The substance 'ink' is described twice, by one and by two."]
    assert kernel.substances["ink"].number("density") == 1.1


def test_units_of_a_plugin_serve_every_calculator() -> None:
    kernel = Kernel(discover=False)
    kernel.add("cups", plugin(units=lambda: [{"name": "mug", "definition": "300 * milliliter"}]))
    kernel.add("tea", TEA)
    assert number(ask(kernel, "tea", {"water": (2, "mug")}, "leaf")) == pytest.approx(4.8)


def test_the_report_says_who_offers_what() -> None:
    kernel = Kernel(discover=False)
    kernel.add("tea", TEA, "0.3")
    data = kernel.plugins["tea"].to_json()
    assert data.pop("load_ms") >= 0
    assert data == {
        "name": "tea",
        "version": "0.3",
        "from": "",
        "calculators": ["tea.tea"],
        "errors": [],
        "notes": [],
    }


def test_kernels_do_not_share_plugins() -> None:
    one, two = Kernel(discover=False), Kernel(discover=False)
    one.add("tea", TEA)
    assert not two.models and not two.plugins


@pytest.mark.parametrize("error", [KeyError("row"), AttributeError("x"), RuntimeError("odd"), AssertionError()])
def test_a_function_that_fails_declines_and_is_attributed(error: Exception) -> None:
    def fails(x: float) -> float:
        raise error

    broken = Calculator(
        "c",
        "t",
        var("a", "gram"),
        var("b", "gram"),
        equations=["a = f(b)"],
        functions=[Function("f", fails, ("gram",), "gram", (0, 9))],
    )
    kernel = Kernel(discover=False)
    kernel.add("odd", broken)
    kernel.add("tea", TEA)
    for _ in range(2):
        answer = kernel.answer(kernel.request("odd.c", {"b": (1, "gram")}, ["a"]))
        assert answer.status == "declined" and type(error).__name__ in answer.reason and not answer.answer
    assert len(kernel.plugins["odd"].errors) == 1 and kernel.plugins["tea"].errors == []


def test_a_functions_own_sentence_is_the_reason() -> None:
    def ends(x: float) -> float:
        raise ValueError("The table ends at 40 °C.")

    kernel = Kernel(discover=False)
    kernel.add(
        "odd",
        Calculator(
            "c",
            "t",
            var("a", "gram"),
            var("b", "gram"),
            equations=["a = f(b)"],
            functions=[Function("f", ends, ("gram",), "gram", (0, 9))],
        ),
    )
    answer = kernel.answer(kernel.request("odd.c", {"b": (1, "gram")}, ["a"]))
    assert (answer.status, answer.reason) == ("declined", "The table ends at 40 °C.")


def test_cautions_are_given_what_was_asked_and_found() -> None:
    seen: list[Any] = []

    def stillroom_cautions(request: Request, answer: Any) -> list[str]:
        seen.append((request.calculator, answer.status))
        return ["Hot water scalds."]

    kernel = Kernel(discover=False)
    kernel.add("tea", TEA)
    kernel.add("care", SimpleNamespace(stillroom_cautions=hookimpl(stillroom_cautions)))
    assert ask(kernel, "tea", {"water": (1, "liter")}, "leaf").cautions == ("Hot water scalds.",)
    assert seen == [("tea.tea", "answered")]


ENDLESS = '''
from stillroom import Calculator, Function, hookimpl, var

def felted(wool):
    while wool > 50:
        wool += 0.0
    return wool

@hookimpl
def stillroom_calculators():
    return [Calculator("felt", "Felt", var("sheet", "gram"), var("wool", "gram"), equations=["sheet = felted(wool)"],
                       functions=[Function("felted", felted, ("gram",), "gram", (0, 1000))])]

@hookimpl
def stillroom_cautions(request, answer):
    while request.calculator == "tea.tea":
        pass
    return []
'''


def test_a_strangers_answer_ends(tmp_path: Path) -> None:
    """In a function and in a caution; what it answers in time it goes on to answer, after a rest."""
    (tmp_path / "wool.py").write_text(ENDLESS)
    kernel = Kernel(discover=False, folder=tmp_path)
    kernel.add("tea", TEA)
    kernel.patience = 0.2
    sentence = "wool.felt took more than 0.2 s and was stopped"

    def felt(grams: float) -> Any:
        return kernel.answer(kernel.request("wool.felt", {"wool": (grams, "gram")}, ["sheet"]))

    assert felt(20).answer[0].value == pytest.approx(20)
    assert felt(100).reason == f"That cannot be worked out: {sentence}."
    kernel.patience = 1000
    started = time.monotonic()
    assert felt(100).status == "declined" and time.monotonic() - started < 500, "it is not asked again at once"
    kernel._resting.clear()
    assert felt(20).status == "answered"
    kernel.patience = 0.2
    assert ask(kernel, "tea", {"water": (1, "liter")}, "leaf").status == "answered"
    assert {e.partition(" took")[0] for e in kernel.plugins["wool"].errors} == {"wool.felt", "wool: stillroom_cautions"}
    assert kernel.plugins["wool"].cautions is None


def test_ours_are_not_timed(monkeypatch: pytest.MonkeyPatch) -> None:
    """What was handed over in Python, and what came with Stillroom, works without a limit."""
    limits: list[float | None] = []
    monkeypatch.setattr("stillroom.kernel.limited", lambda seconds: limits.append(seconds) or limited(seconds))
    kernel = Kernel(off=[])
    kernel.add("tea", TEA)
    ask(kernel, "tea", {"water": (1, "liter")}, "leaf")
    kernel.answer(Request("bar.peel_sugar", wanted=("sugar",)))
    assert limits and {x for x in limits if x is not None} == set()
