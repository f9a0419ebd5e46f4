"""DEVELOPERS.md holds: its hooks, its files, its dependencies, its examples, and the way imports run."""

from __future__ import annotations

import ast
import doctest
import importlib
import inspect
import re
import tomllib
from pathlib import Path
from types import ModuleType

import pytest
import stillroom_bar
from documents import ROOT
from stillroom import Kernel
from stillroom.hooks import Hooks, hookimpl
from stillroom.policy import Policy
from stillroom_bot.conversation import Conversation

TEXT = (ROOT / "DEVELOPERS.md").read_text("utf-8")
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
HOOKS = [name for name in vars(Hooks) if name.startswith("stillroom_")]
PACKAGES = {"stillroom": ROOT / "core", "stillroom_bar": ROOT / "plugins", "stillroom_bot": ROOT / "bot"}


def code(kind: str) -> str:
    """The text of the one block of a kind (the words after its three backticks)."""
    found = re.findall(rf"^```{kind}\n(.*?)^```$", TEXT, re.M | re.S)
    assert len(found) == 1, (kind, len(found))
    return str(found[0])


def run(source: str, name: str, **names: object) -> ModuleType:
    """A module made of some code."""
    module = ModuleType(name)
    module.__dict__.update(names)
    exec(compile(source, f"{name}.py", "exec"), module.__dict__)
    return module


def loaded() -> tuple[Kernel, ModuleType]:
    """A kernel with the smallest plugin, found as its entry point says."""
    points = tomllib.loads(code("toml"))["project"]["entry-points"]["stillroom"]
    (name, target), = points.items()
    module, _, attribute = target.partition(":")
    made = run(code("python plugin"), module)
    kernel = Kernel(discover=False)
    assert not kernel.add(name, getattr(made, attribute)).errors
    return kernel, made


@pytest.mark.parametrize("name", HOOKS)
def test_every_hook_is_told_with_its_signature(name: str) -> None:
    told = inspect.signature(getattr(Hooks, name))
    arguments = ", ".join(f"{p.name}: {p.annotation}" for p in list(told.parameters.values())[1:])
    assert f"| `{name}({arguments}) -> {told.return_annotation}` |" in TEXT


def test_no_hook_is_told_that_is_not_there() -> None:
    assert set(re.findall(r"^\| `(stillroom_\w+)\(", TEXT, re.M)) == set(HOOKS)


def test_the_smallest_plugin_is_small_and_answers() -> None:
    assert len(code("python plugin").splitlines()) <= 12
    assert len(code("toml").splitlines()) <= 6
    kernel, made = loaded()
    (id,) = kernel.models
    assert id == "teabar.extraction"
    question, expected = made.tea.examples[0]
    reply, _ = Conversation(kernel).answer(question)
    first = reply.to_json()["answer"][0]
    assert f"{first['value']:g} {first['unit']}" == expected


def test_its_author_checks_it_so() -> None:
    run(code("python test"), "test_teabar", Kernel=Kernel, tea=loaded()[1].tea)


def test_all_hooks_in_one_module() -> None:
    module = run(code("python module"), "nettlebar")
    kernel = Kernel(discover=False)
    plugin = kernel.add("nettlebar", module)
    assert not plugin.errors
    assert {n for n in HOOKS if hasattr(module, n)} == set(HOOKS)
    assert kernel.units["thimble"].to_base(3) == pytest.approx(6)
    assert kernel.substances["nettle"].state == "dry"
    answer = kernel.answer(kernel.request("nettlebar.cordial", {"cordial": (500, "thimble")}, ["nettles"]))
    assert answer.answer[0].value == pytest.approx(150)
    assert any("gloves" in c for c in answer.cautions)
    talk = Conversation(kernel)
    assert "burns skin" in talk.answer("how much giant hogweed for 1 l of cordial?")[0].text
    assert talk.answer("how much nettle for 2 l of cordial?")[0].to_json()["answer"][0]["value"] == pytest.approx(300)


@pytest.mark.parametrize("name", HOOKS)
def test_every_hook_is_called_with_what_it_is_told_to_take(name: str) -> None:
    """The module of DEVELOPERS.md with one hook that notes its arguments: once at loading, or for every answer."""
    module, seen = run(code("python module"), "nettlebar"), []
    names = list(inspect.signature(getattr(Hooks, name)).parameters)[1:]
    before = getattr(module, name)

    def noted(*arguments: object) -> object:
        seen.append([type(a).__name__ for a in arguments])
        return before(*arguments)

    made = {"noted": noted, "hookimpl": hookimpl}
    exec(f"@hookimpl\ndef {name}({', '.join(names)}):\n    return noted({', '.join(names)})", made)
    setattr(module, name, made[name])
    kernel = Kernel(discover=False)
    assert not kernel.add("nettlebar", module).errors
    for _ in range(2):
        kernel.answer(kernel.request("nettlebar.cordial", {"cordial": (1, "liter")}, ["nettles"]))
    assert seen == ([["Request", "Answer"]] * 2 if names else [[]])


def test_a_front_end(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("STILLROOM_CACHE", str(tmp_path))
    rows: dict[str, object] = {}
    serve = run(code("python frontend"), "frontend").serve
    asked = [("a", "180 g of lemon peel, how much sugar for the oleo?"), ("b", "hello"), ("a", "and for 200 g?")]
    told = list(serve(asked, rows))
    assert [chat for chat, _, _ in told] == ["a", "b", "a"]
    assert "180 g" in told[0][1] and "200 g" in told[2][1]
    assert set(rows) == {"a", "b"}


def test_the_worked_example() -> None:
    source = "".join(re.findall(r"^```python doctest\n(.*?)^```$", TEXT, re.M | re.S))
    test = doctest.DocTestParser().get_doctest(source, {}, "DEVELOPERS.md", "DEVELOPERS.md", 0)
    told: list[str] = []
    result = doctest.DocTestRunner().run(test, out=told.append)
    assert result.attempted > 5 and not result.failed, "".join(told)


def test_the_operators_file_can_be_read(tmp_path: Path) -> None:
    (tmp_path / "stillroom.toml").write_text(code("toml policy"))
    policy = Policy.read(tmp_path / "stillroom.toml")
    assert policy.off == {"nettlebar", "bar.milk_punch"} and policy.over("teabar.extraction", "bar.brew")
    assert policy.admits("teabar", "0.1.4") and not policy.admits("teabar", "0.2")
    assert {n for n in (*policy.off, *policy.prefer["teabar.extraction"]) if n.startswith("bar.")} <= {
        f"bar.{c.name}" for c in stillroom_bar.stillroom_calculators()}


def test_a_file_in_a_folder_is_the_same_plugin(tmp_path: Path) -> None:
    (tmp_path / "teabar.py").write_text(code("python plugin"))
    kernel = Kernel(discover=False, folder=tmp_path)
    assert set(kernel.models) == {"teabar.extraction"}


@pytest.mark.parametrize("module", ["stillroom", "stillroom.testing", "stillroom_bot.testing"])
def test_what_is_exported_is_all_that_is_public(module: str) -> None:
    """Nothing stands at the top of a package under a public name but what is promised there, and its modules."""
    made = importlib.import_module(module)
    public = {n for n, x in vars(made).items() if not n.startswith("_") and not inspect.ismodule(x)}
    assert public - {"annotations"} == set(made.__all__)


def test_fixtures_are_told() -> None:
    told = set(re.findall(r"^\| `(\w+)` \|", TEXT.partition("| fixture |")[2].partition("\n\n")[0], re.M))
    source = (ROOT / "bot/stillroom_bot/testing/fixtures.py").read_text("utf-8")
    made = {n.name for n in ast.parse(source).body
            if isinstance(n, ast.FunctionDef) and "pytest.fixture" in "".join(map(ast.unparse, n.decorator_list))}
    assert told == made - {"plugins", "conversation"}


def test_files_that_are_named_exist() -> None:
    named = re.findall(r"`((?:core|plugins|bot|tests)/[\w/.]*)`", TEXT)
    assert len(named) > 40
    assert not [n for n in named if not (ROOT / n).exists()]
    reading = re.findall(r"`(\w+\.py)`", TEXT.partition("## How a question is read")[2].partition("\n## ")[0])
    assert len(reading) > 10
    assert not [n for n in reading if not (ROOT / "bot/stillroom_bot/reading" / n).exists()]


def test_dependencies_are_those_of_the_project() -> None:
    def names(requirements: list[str]) -> set[str]:
        return {re.split(r"[\[><=~! ]", r)[0] for r in requirements}

    section = TEXT.partition("## Dependencies")[2].partition("\n## ")[0]
    ours, tests = (set(re.findall(r"^\| (\w[\w-]+) \|", t, re.M)) - {"name"} for t in section.split("For tests only"))
    assert ours == names(PROJECT["dependencies"])
    extras = PROJECT["optional-dependencies"]
    assert tests == names(extras["test"]) - {"stillroom"}
    for extra in extras.keys() - {"test"}:
        assert f"extra `{extra}`" in section and names(extras[extra]) <= set(re.findall(r"[\w-]+", section)), extra


def imported(path: Path) -> set[str]:
    """The first names of what a file imports absolutely."""
    tree = ast.parse(path.read_text("utf-8"))
    found = {a.name for n in ast.walk(tree) if isinstance(n, ast.Import) for a in n.names}
    found |= {n.module for n in ast.walk(tree) if isinstance(n, ast.ImportFrom) and n.module and not n.level}
    return {name.partition(".")[0] for name in found}


@pytest.mark.parametrize("package", PACKAGES)
def test_imports_run_one_way(package: str) -> None:
    files = list((PACKAGES[package] / package).rglob("*.py"))
    assert files
    others = set(PACKAGES) - {package, *(["stillroom"] if package != "stillroom" else [])}
    assert not {str(f): wrong for f in files if (wrong := imported(f) & others)}


HOMES = {
    "pint": {"units.py"},
    "sympy": {"derive.py", "pretty.py"},
    "pluggy": {"hooks.py", "plugins.py"},
    "rapidfuzz": {"spelling.py", "names.py"},
}


@pytest.mark.parametrize(("library", "homes"), HOMES.items())
def test_each_library_has_one_home(library: str, homes: set[str]) -> None:
    files = [f for p, where in PACKAGES.items() for f in (where / p).rglob("*.py")]
    assert {f.name for f in files if library in imported(f)} <= homes
