"""What is public says its units and its errors: a rough net, cast over the promised names."""

from __future__ import annotations

import ast
import inspect
import re
import textwrap
from collections.abc import Callable, Iterator
from typing import Any

import pytest
import stillroom
import stillroom.testing
from stillroom import errors
from stillroom.plugins import PluginManager
from stillroom.policy import Policy
from stillroom.units import Unit, Units

CLASSES: tuple[type, ...] = (stillroom.Kernel, Units, Unit, Policy, PluginManager, stillroom.Request, stillroom.Amount)
OURS = {n for n, e in vars(errors).items() if isinstance(e, type)} | {"ValueError", "AssertionError"}
KEEPS = {"add_source"}
"""What is raised in these is kept in the plugin's ``errors`` and reaches nobody."""
UNITS = re.compile(r"base|unit|gram|second|\brel\b|ratio|points|percent|number|examples|amount", re.I)


def functions() -> Iterator[Any]:
    for module in (stillroom, stillroom.testing):
        for name in module.__all__:
            thing = getattr(module, name)
            if inspect.isfunction(thing):
                yield pytest.param(thing, id=name)
    for kind in CLASSES:
        for name, thing in vars(kind).items():
            thing = getattr(thing, "__func__", thing)
            if inspect.isfunction(thing) and not name.startswith("_"):
                yield pytest.param(thing, id=f"{kind.__name__}.{name}")


PUBLIC = list(functions())


def raised(function: Callable[..., Any]) -> set[str]:
    """The errors of ours that stand in ``raise`` in a function."""
    function = inspect.unwrap(function)
    try:
        tree = ast.parse(textwrap.dedent(inspect.getsource(function)))
    except OSError:  # a strategy, which hypothesis wraps in code of its own
        return set()
    made = (n.exc for n in ast.walk(tree) if isinstance(n, ast.Raise) and n.exc is not None)
    return {ast.unparse(e.func if isinstance(e, ast.Call) else e) for e in made} & OURS


@pytest.mark.parametrize("function", PUBLIC)
def test_it_says_what_it_raises(function: Callable[..., Any]) -> None:
    text = inspect.getdoc(function) or ""
    assert text
    missing = {e for e in raised(function) if e not in text} if function.__name__ not in KEEPS else set()
    assert not missing


@pytest.mark.parametrize("function", PUBLIC)
def test_a_number_has_a_unit(function: Callable[..., Any]) -> None:
    told = {n: str(a) for n, a in inspect.get_annotations(function).items()}
    if any(re.search(r"\bfloat\b", a) for a in told.values()):
        assert UNITS.search(inspect.getdoc(function) or ""), told


def test_the_net_is_cast_wide() -> None:
    assert len(PUBLIC) > 30 and sum(bool(raised(p.values[0])) for p in PUBLIC) > 5
