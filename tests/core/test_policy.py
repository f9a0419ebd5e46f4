"""What an operator decides about plugins, and how a slip in it is told."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace

import pytest
from stillroom import Calculator, Kernel, hookimpl
from stillroom.errors import PolicyError
from stillroom.policy import Policy

from .samples import BRINE, INK, TEA

WHOLE = """
off = ["nettlebar", "first.ink"]

[prefer]
"teabar.extraction" = ["bar.infusion"]
loaf = "bar"

[pin]
teabar = "0.3"
loaf = "1.2.*"
"""


def read(tmp_path: Path, text: str) -> Policy:
    (tmp_path / "stillroom.toml").write_text(text)
    return Policy.read(tmp_path / "stillroom.toml")


def test_a_file_says_all_three(tmp_path: Path) -> None:
    policy = read(tmp_path, WHOLE)
    assert policy.off == {"nettlebar", "first.ink"}
    assert policy.prefer == {"teabar.extraction": ("bar.infusion",), "loaf": ("bar",)}
    assert policy.pin == {"teabar": "0.3", "loaf": "1.2.*"}


def test_no_file_decides_nothing(tmp_path: Path) -> None:
    assert Policy.read(tmp_path / "nowhere.toml") == Policy() == read(tmp_path, "")


@pytest.mark.parametrize(("text", "sentences"), [
    ("of = ['x']", ["of means nothing here; off, prefer and pin do"]),
    ("off = 5", ["off needs a list of names"]),
    ("off = [5]\nprefer = 'x'", ["off needs a list of names",
                                 "prefer needs to be a table: write [prefer] above its lines"]),
    ("[pin]\nteabar = 0.3", ["pin: 'teabar' needs a version in quotes"]),
    ("[prefer]\nteabar = [1]", ["prefer: 'teabar' needs names in quotes"]),
    ("off = [", ["Invalid value"]),
])
def test_everything_that_is_wrong_is_told_at_once(text: str, sentences: list[str], tmp_path: Path) -> None:
    with pytest.raises(PolicyError) as told:
        read(tmp_path, text)
    assert len(told.value.wrong) == len(sentences)
    assert all(w.startswith(s) for w, s in zip(told.value.wrong, sentences, strict=True)), told.value.wrong
    assert str(told.value).startswith(f"{tmp_path / 'stillroom.toml'} cannot be used: ")


@pytest.mark.parametrize(("pin", "version", "admitted"), [
    ("0.3", "0.3", True), ("0.3", "0.3.1", False), ("0.3.*", "0.3.1", True), ("0.3.*", "0.3", True),
    ("0.3.*", "0.30", False), ("0.3", "", False),
])
def test_a_pin(pin: str, version: str, admitted: bool) -> None:
    assert Policy(pin={"teabar": pin}).admits("teabar", version) is admitted
    assert Policy(pin={"teabar": pin}).admits("loaf", version)


def test_a_plugin_of_another_version_than_its_pin_is_off_and_says_so() -> None:
    kernel = Kernel(discover=False, policy=Policy(pin={"tea": "0.3", "ink": "2.*"}))
    loaded: list[str] = []
    late = kernel.manager.add("tea", lambda: loaded.append("tea") or TEA, "0.4")
    assert late.errors == ["tea could not be loaded: it is pinned to version 0.3, and this is 0.4."]
    assert not loaded, "its code has not even run"
    assert kernel.add("ink", SimpleNamespace(ink=INK, __version__="2.1")).errors == []
    assert kernel.plugins["ink"].version == "2.1" and set(kernel.models) == {"ink.ink"}


def test_a_file_without_a_version_is_not_the_pinned_one() -> None:
    kernel = Kernel(discover=False, policy=Policy(pin={"ink": "2"}))
    assert kernel.add("ink", SimpleNamespace(ink=INK)).errors == [
        "ink could not be loaded: it is pinned to version 2, and this is one without a version."]


def test_who_goes_before_whom() -> None:
    policy = Policy(prefer={"teabar.extraction": ("bar.infusion",), "loaf": ("bar",)})
    assert policy.over("teabar.extraction", "bar.infusion") and policy.over("loaf.dough", "bar.syrup")
    assert not policy.over("bar.infusion", "teabar.extraction") and not policy.over("teabar.other", "bar.infusion")
    assert not Policy(prefer={"bar": ("bar",)}).over("bar.syrup", "bar.syrup")


def test_names_that_nobody_has_are_remarked_upon() -> None:
    class Two:
        @hookimpl
        def stillroom_calculators(self) -> list[Calculator]:
            return [TEA, BRINE]

    policy = Policy(frozenset({"two.tea", "nobody"}), {"two": ("bar.syrup",)}, {"teabar": "1"})
    kernel = Kernel(discover=False, policy=policy)
    kernel.add("two", Two())
    assert kernel.remarks == ("off names 'nobody', which is not installed.",
                              "prefer names 'bar.syrup', which is not installed.",
                              "pin names 'teabar', which is not installed.")
