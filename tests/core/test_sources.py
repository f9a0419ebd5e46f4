"""Plugins that are single files in a folder, modules of bare calculators, clashes, and what is deprecated."""

from __future__ import annotations

import textwrap
import warnings
from pathlib import Path
from types import SimpleNamespace

import pluggy
import pytest
from stillroom import Kernel, hookimpl
from stillroom.hooks import Hooks
from stillroom.plugins import PluginManager
from stillroom.sources import from_file, in_folder

from .samples import INK, TEA

TEABAR = textwrap.dedent('''
    from stillroom import Calculator, var

    __version__ = "0.2"
    tea = Calculator("tea", "t", var("leaf", "gram"), var("water", "gram"), equations=["leaf = water / 50"])
    again = tea
    _hidden = Calculator("hidden", "t", var("leaf", "gram"))
''')


def test_files_of_a_folder_are_plugins(tmp_path: Path) -> None:
    (tmp_path / "teabar.py").write_text(TEABAR)
    (tmp_path / "broken.py").write_text("1 / 0")
    (tmp_path / "Not-a-name.py").write_text("")
    (tmp_path / "_helper.py").write_text("1 / 0")
    (tmp_path / "notes.txt").write_text("1 / 0")
    kernel = Kernel(discover=False, folder=tmp_path)
    assert set(kernel.plugins) == {"teabar", "broken", "Not-a-name"} and set(kernel.models) == {"teabar.tea"}
    assert (kernel.plugins["teabar"].version, kernel.plugins["teabar"].origin) == ("0.2", str(tmp_path / "teabar.py"))
    assert kernel.plugins["broken"].errors == ["broken could not be loaded: ZeroDivisionError: division by zero"]
    assert kernel.plugins["Not-a-name"].errors[0].endswith(
        "Not-a-name.py cannot name a plugin: use lower case letters, digits and _.")


def test_a_file_may_be_off(tmp_path: Path) -> None:
    (tmp_path / "teabar.py").write_text("raise AssertionError('it is off')")
    kernel = Kernel(discover=False, folder=tmp_path, off=["teabar"])
    assert not kernel.plugins and kernel.manager.left_out == {"teabar"} and not kernel.remarks


def test_no_folder_holds_no_plugins(tmp_path: Path) -> None:
    assert list(in_folder(tmp_path / "nowhere")) == []
    (tmp_path / "file").write_text("")
    assert list(in_folder(tmp_path / "file")) == []


@pytest.mark.parametrize("code", ["while True: pass", "import time; time.sleep(60)", """
from stillroom import hookimpl
@hookimpl
def stillroom_calculators():
    while True: pass
"""])
def test_one_that_does_not_end_is_named_and_the_others_go_on(code: str, tmp_path: Path) -> None:
    (tmp_path / "endless.py").write_text(code)
    (tmp_path / "teabar.py").write_text(TEABAR)
    manager = PluginManager(patience=0.2)
    manager.discover(tmp_path, everything=False)
    assert manager.plugins["endless"].errors == ["endless could not be loaded: it took more than 0.2 s."]
    assert [c.name for c in manager.plugins["teabar"].calculators] == ["tea"]


def test_two_of_one_name_are_both_named(tmp_path: Path) -> None:
    for folder in ("one", "other"):
        (tmp_path / folder).mkdir()
        (tmp_path / folder / "teabar.py").write_text(TEABAR)
    manager = PluginManager()
    for folder in ("one", "other", "other"):
        manager.add_source(from_file(tmp_path / folder / "teabar.py"))
    second = manager.plugins["teabar (2)"]
    assert second.errors == [f"Two plugins are called 'teabar': {tmp_path / 'one' / 'teabar.py'}, and "
                             f"{tmp_path / 'other' / 'teabar.py'}; the second is switched off."]
    assert not second.calculators and manager.plugins["teabar"].calculators and "teabar (3)" in manager.plugins


def test_bare_calculators_count_only_where_there_is_no_hook() -> None:
    kernel = Kernel(discover=False)
    kernel.add("hooked", SimpleNamespace(tea=TEA, stillroom_calculators=hookimpl(lambda: [INK])))
    kernel.add("bare", SimpleNamespace(tea=TEA, ink=INK))
    assert set(kernel.models) == {"hooked.ink", "bare.tea", "bare.ink"}


class Later:
    """The hooks as they might be specified in a later version: one is on its way out, one argument too."""

    spec = pluggy.HookspecMarker("stillroom")

    stillroom_calculators = Hooks.stillroom_calculators

    @spec(warn_on_impl=DeprecationWarning("stillroom_units goes in 2.0: use stillroom_measures"))
    def stillroom_units(self) -> list[dict[str, str]]:  # type: ignore[empty-body]
        """Going."""

    @spec(warn_on_impl_args={"answer": DeprecationWarning("answer goes in 2.0: use result")})
    def stillroom_cautions(self, request: object, answer: object, result: object) -> list[str]:  # type: ignore[empty-body]
        """Its argument is going."""


def test_a_deprecated_hook_works_and_is_told_to_its_author() -> None:
    def stillroom_cautions(request: object, answer: object) -> list[str]:
        return []

    thing = SimpleNamespace(
        stillroom_calculators=hookimpl(lambda: [TEA]),
        stillroom_units=hookimpl(lambda: [{"name": "mug", "definition": "2 * milliliter"}]),
        stillroom_cautions=hookimpl(stillroom_cautions))
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        plugin = PluginManager(hooks=Later).add("old", lambda: thing)
    assert plugin.errors == [] and plugin.units and plugin.calculators == [TEA]
    assert sorted(plugin.notes) == ["answer goes in 2.0: use result",
                                    "stillroom_units goes in 2.0: use stillroom_measures"]


def test_no_hook_of_today_is_deprecated() -> None:
    thing = SimpleNamespace(stillroom_calculators=hookimpl(lambda: [TEA]))
    assert PluginManager().add("tea", lambda: thing).notes == []
