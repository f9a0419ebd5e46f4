"""Loading plugins: each on its own, so that a broken one is named and the others go on."""

from __future__ import annotations

import time
import warnings
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pluggy

from .declare import Calculator
from .errors import DeclarationError, StillroomError
from .hooks import Hooks
from .limiting import TookTooLong, limited
from .policy import Policy
from .sources import GROUP, Source, in_folder, installed

LONGEST_LOAD = 20.0


@dataclass
class Plugin:
    """What is known of one plugin.

    ``errors`` are sentences, and a plugin that did not load offers nothing; ``notes`` are what its author should
    change before long; ``origin`` is the distribution or file that it comes from, ``seconds`` what loading took;
    the code of one that is ``foreign`` is stopped where it takes too long.
    """

    name: str
    version: str = ""
    seconds: float = 0.0
    errors: list[str] = field(default_factory=list)
    calculators: list[Calculator] = field(default_factory=list)
    units: list[Mapping[str, str]] = field(default_factory=list)
    substances: list[Mapping[str, Any]] = field(default_factory=list)
    refusals: list[Mapping[str, Any]] = field(default_factory=list)
    accepted: list[str] = field(default_factory=list)
    cautions: Callable[..., Iterable[str]] | None = None
    origin: str = ""
    notes: list[str] = field(default_factory=list)
    foreign: bool = False

    def report(self, error: str) -> None:
        """Keep an error's sentence, once."""
        if error not in self.errors:
            self.errors.append(error)

    def switch_off(self) -> None:
        """Let it offer nothing."""
        for offered in (self.calculators, self.units, self.substances, self.refusals):
            offered.clear()
        self.cautions = None

    def to_json(self) -> dict[str, Any]:
        """Plain data, as ``stillroom plugins --json`` prints it; the time is in milliseconds."""
        return {"name": self.name, "version": self.version, "from": self.origin, "calculators": list(self.accepted),
                "load_ms": round(self.seconds * 1000, 2), "errors": list(self.errors), "notes": list(self.notes)}


class PluginManager:
    """Owns the plugins of one kernel.  There is no global one.

    ``policy`` is what the operator decided, ``hooks`` the class that specifies them, ``patience`` how many seconds one
    plugin may take to load.
    """

    def __init__(self, policy: Policy | None = None, hooks: type = Hooks, patience: float = LONGEST_LOAD) -> None:
        self._pluggy = pluggy.PluginManager(GROUP)
        self._pluggy.add_hookspecs(hooks)
        self._hooks = hooks
        self.policy, self.patience = policy or Policy(), patience
        self.plugins: dict[str, Plugin] = {}
        self.left_out: set[str] = set()

    def discover(self, folder: Path | None = None, everything: bool = True) -> None:
        """Load every installed entry point of the group (unless told not to) and every file of a folder.

        Those that are off are only remembered in ``left_out``.
        """
        for source in (*(installed() if everything else ()), *(in_folder(folder) if folder else ())):
            if source.name in self.policy.off:
                self.left_out.add(source.name)
            else:
                self.add_source(source)

    def add(self, name: str, load: Callable[[], Any], version: str = "", origin: str = "") -> Plugin:
        """Load one plugin by a function that returns it; whatever goes wrong is kept in its ``errors``."""
        return self.add_source(Source(name, load, version, origin))

    def add_source(self, source: Source) -> Plugin:
        """Load one plugin from where it is."""
        name, version = source.name, source.version
        plugin = Plugin(name, version, origin=source.origin, foreign=source.foreign)
        if name in self.plugins:
            return self._second(plugin)
        self.plugins[name] = plugin
        started = time.perf_counter()
        try:
            if version and not self.policy.admits(name, version):
                raise DeclarationError(self._pinned(name, version))
            with limited(self.patience):
                thing = source.load()
                plugin.version = version = version or str(getattr(thing, "__version__", ""))
                if not self.policy.admits(name, version):
                    raise DeclarationError(self._pinned(name, version))
                self._fill(plugin, thing)
        except (Exception, SystemExit, TookTooLong) as e:  # a stranger's code may raise anything
            plugin.report(f"{name} could not be loaded: {_sentence(e)}")
            plugin.switch_off()
        plugin.seconds = time.perf_counter() - started
        return plugin

    def _pinned(self, name: str, version: str) -> str:
        return f"it is pinned to version {self.policy.pin[name]}, and this is {version or 'one without a version'}."

    def _second(self, plugin: Plugin) -> Plugin:
        one, other = (p.origin or f"version {p.version or '?'}" for p in (self.plugins[plugin.name], plugin))
        plugin.errors.append(f"Two plugins are called {plugin.name!r}: {one}, and {other}; the second is switched off.")
        number = 2
        while f"{plugin.name} ({number})" in self.plugins:
            number += 1
        self.plugins[f"{plugin.name} ({number})"] = plugin
        return plugin

    def _fill(self, plugin: Plugin, thing: Any) -> None:
        if isinstance(thing, Calculator):
            plugin.calculators.append(thing)
            return
        found = self._hooks_of(plugin, thing)
        if not found and not any(hasattr(thing, n) for n in dir(self._hooks) if n.startswith("stillroom_")):
            plugin.calculators += _bare(thing)
            if not plugin.calculators:
                raise DeclarationError("it has no function marked with @stillroom.hookimpl and no Calculator.")
        rows: tuple[tuple[str, list[Any]], ...] = (
            ("stillroom_units", plugin.units), ("stillroom_substances", plugin.substances),
            ("stillroom_refusals", plugin.refusals))
        for hook, target in rows:
            for row in found[hook]() if hook in found else ():
                if isinstance(row, Mapping):
                    target.append(row)
                else:
                    plugin.report(f"{plugin.name}: {hook} gives {row!r}, which is no row.")
        if "stillroom_calculators" in found:
            for c in found["stillroom_calculators"]():
                if isinstance(c, Calculator):
                    plugin.calculators.append(c)
                else:
                    plugin.report(f"{plugin.name}: {c!r} is no Calculator.")
        plugin.cautions = found.get("stillroom_cautions")

    def _hooks_of(self, plugin: Plugin, thing: Any) -> dict[str, Callable[..., Any]]:
        """The hooks that a thing implements; what is deprecated of them is kept in the plugin's ``notes``."""
        with warnings.catch_warnings(record=True) as told:
            warnings.simplefilter("always")
            self._pluggy.register(thing, plugin.name)
        plugin.notes += [str(w.message) for w in told if issubclass(w.category, DeprecationWarning)]
        try:
            self._pluggy.check_pending()
        except pluggy.PluginValidationError as e:
            self._pluggy.unregister(thing)
            raise DeclarationError(_spelling(e, self._hooks)) from None
        return {caller.name: i.function for caller in self._pluggy.get_hookcallers(thing) or []
                for i in caller.get_hookimpls() if i.plugin is thing}


def _bare(thing: Any) -> list[Calculator]:
    """The calculators that stand in a module under public names, each once."""
    everything = getattr(thing, "__dict__", {}).items()
    named = [v for n, v in everything if not n.startswith("_") and isinstance(v, Calculator)]
    return [c for i, c in enumerate(named) if not any(c is other for other in named[:i])]


def _spelling(e: pluggy.PluginValidationError, hooks: type) -> str:
    from difflib import get_close_matches

    text = str(e)
    wrong = text.partition("unknown hook ")[2].split("'")[1] if "unknown hook " in text else ""
    near = get_close_matches(wrong, [n for n in dir(hooks) if n.startswith("stillroom_")], 1) if wrong else []
    return f"unknown hook {wrong!r}; did you mean {near[0]!r}?" if near else text


def _sentence(e: BaseException) -> str:
    return str(e) if isinstance(e, (StillroomError, TookTooLong)) else f"{type(e).__name__}: {e}"
