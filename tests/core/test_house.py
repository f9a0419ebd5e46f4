"""How the house is built: who may import whom, how long a module may be, what an import may cost."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

HOUSE = Path(__file__).parents[2]
PACKAGES = {"core": "stillroom", "plugins": "stillroom_bar", "bot": "stillroom_bot"}
MAY_IMPORT = {"stillroom": set(), "stillroom_bar": {"stillroom"}, "stillroom_bot": {"stillroom"}}
ONLY_IN = {"pint": ("units.py",), "sympy": ("derive.py", "pretty.py"), "hypothesis": ("testing/",)}
MOST_LINES = 400
SOURCES = sorted(p for folder in PACKAGES for p in (HOUSE / folder).rglob("*.py"))
IDS = [str(p.relative_to(HOUSE)) for p in SOURCES]
CORE = [p for p in SOURCES if p.is_relative_to(HOUSE / "core")]


def imported(path: Path) -> Iterator[str]:
    """The top names of whatever a module imports, at the top or inside a function, by name or by text."""
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (a.name.partition(".")[0] for a in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            yield node.module.partition(".")[0]
        elif isinstance(node, ast.Call) and ast.unparse(node.func).endswith("import_module"):
            yield from (str(a.value).partition(".")[0] for a in node.args[:1] if isinstance(a, ast.Constant))


def package_of(path: Path) -> str:
    return path.relative_to(HOUSE).parts[1]


def test_there_is_a_house() -> None:
    assert {package_of(p) for p in SOURCES} == set(PACKAGES.values()) and len(CORE) > 15


@pytest.mark.parametrize("path", SOURCES, ids=IDS)
def test_imports_run_one_way(path: Path) -> None:
    package = package_of(path)
    strangers = (set(imported(path)) & set(PACKAGES.values())) - {package} - MAY_IMPORT[package]
    assert not strangers, f"{path.name} imports {', '.join(sorted(strangers))}"


@pytest.mark.parametrize("path", CORE, ids=[str(p.relative_to(HOUSE)) for p in CORE])
def test_each_heavy_library_has_one_door(path: Path) -> None:
    found = set(imported(path))
    for library, where in ONLY_IN.items():
        place = path.relative_to(HOUSE / "core" / "stillroom").as_posix()
        assert library not in found or any(w in place for w in where)


@pytest.mark.parametrize("path", SOURCES, ids=IDS)
def test_a_module_stays_readable(path: Path) -> None:
    assert len(path.read_text("utf-8").splitlines()) <= MOST_LINES


@pytest.mark.parametrize("path", CORE, ids=[str(p.relative_to(HOUSE)) for p in CORE])
def test_no_text_is_ever_evaluated(path: Path) -> None:
    """``exec`` stands once, on a tree of checked nodes; nothing else turns text into code or into a formula."""
    calls = [ast.unparse(n.func) for n in ast.walk(ast.parse(path.read_text("utf-8"))) if isinstance(n, ast.Call)]
    banned = {
        "eval",
        "exec",
        "sympify",
        "sympy.sympify",
        "parse_expr",
        "sympy.parse_expr",
        "lambdify",
        "sympy.lambdify",
        "__import__",
        "pickle.loads",
        "pickle.load",
    }
    assert [c for c in calls if c in banned] == (["exec"] if path.name == "plan.py" else [])


@pytest.mark.parametrize("path", CORE, ids=[str(p.relative_to(HOUSE)) for p in CORE])
def test_whatever_is_public_says_what_it_is(path: Path) -> None:
    tree = ast.parse(path.read_text("utf-8"))
    assert ast.get_docstring(tree)
    for node in tree.body:
        if isinstance(node, (ast.FunctionDef, ast.ClassDef)) and not node.name.startswith("_"):
            assert ast.get_docstring(node), node.name
        if isinstance(node, ast.FunctionDef):
            assert node.returns is not None, node.name


@pytest.mark.parametrize("module", ["stillroom", "stillroom.kernel", "stillroom.solver", "stillroom.plugins"])
def test_an_import_costs_little(module: str) -> None:
    """Nothing heavy is loaded before it is needed (the kernel asks pint and sympy only for what is not kept)."""
    heavy = ("sympy", "pint", "telegram", "sqlalchemy", "numpy", "hypothesis", "stillroom_bar", "stillroom_bot")
    code = f"import sys, {module}; print(sorted(set(sys.modules) & set({heavy!r})))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_what_is_exported_is_exported_on_purpose() -> None:
    import stillroom

    assert all(hasattr(stillroom, name) for name in stillroom.__all__)
    assert stillroom.__all__ == sorted(stillroom.__all__, key=lambda n: (n[0].islower(), n))


def test_every_hook_is_documented_and_used() -> None:
    from stillroom import hooks

    names = [n for n in dir(hooks.Hooks) if n.startswith("stillroom_")]
    loader = "".join((HOUSE / "core" / "stillroom" / f).read_text("utf-8") for f in ("plugins.py", "kernel.py"))
    assert len(names) == 5
    for name in names:
        text = getattr(hooks.Hooks, name).__doc__ or ""
        assert "Since" in text and "Returns" in text, name
        assert name in loader, name
