"""Loading plugins: each on its own, so that a broken one is named and the others go on."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

import pluggy

from .declare import Calculator
from .errors import DeclarationError, StillroomError
from .hooks import Hooks

GROUP = "stillroom"


@dataclass
class Plugin:
    """What is known of one plugin: ``errors`` are sentences; a plugin that did not load offers nothing."""

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
        """Plain data, as ``stillroom plugins --json`` prints it."""
        return {"name": self.name, "version": self.version, "calculators": list(self.accepted),
                "load_ms": round(self.seconds * 1000, 2), "errors": list(self.errors)}


class PluginManager:
    """Owns the plugins of one kernel.  There is no global one."""

    def __init__(self) -> None:
        self._pluggy = pluggy.PluginManager(GROUP)
        self._pluggy.add_hookspecs(Hooks)
        self.plugins: dict[str, Plugin] = {}

    def discover(self, off: Iterable[str] = ()) -> None:
        """Load every installed entry point of the group, those named in ``off`` left out."""
        from importlib.metadata import entry_points

        for point in sorted(entry_points(group=GROUP), key=lambda p: p.name):
            if point.name not in off:
                version = point.dist.version if point.dist else ""
                self.add(point.name, point.load, version)

    def add(self, name: str, load: Callable[[], Any], version: str = "") -> Plugin:
        """Load one plugin by a function that returns it; whatever goes wrong is kept in its ``errors``."""
        plugin = Plugin(name, version)
        started = time.perf_counter()
        if name in self.plugins:
            plugin.errors.append(f"The plugin name {name!r} is taken by version {self.plugins[name].version or '?'}; "
                                 f"the second one, version {version or '?'}, is switched off.")
            self.plugins[f"{name} (2)"] = plugin
            return plugin
        self.plugins[name] = plugin
        try:
            self._fill(plugin, load())
        except (Exception, SystemExit) as e:  # a stranger's code may raise anything
            plugin.report(f"{name} could not be loaded: {_sentence(e)}")
            plugin.switch_off()
        plugin.seconds = time.perf_counter() - started
        return plugin

    def _fill(self, plugin: Plugin, thing: Any) -> None:
        if isinstance(thing, Calculator):
            plugin.calculators.append(thing)
            return
        self._pluggy.register(thing, plugin.name)
        try:
            self._pluggy.check_pending()
        except pluggy.PluginValidationError as e:
            self._pluggy.unregister(thing)
            raise DeclarationError(str(e)) from None
        found: dict[str, Callable[..., Any]] = {
            caller.name: i.function for caller in self._pluggy.get_hookcallers(thing) or []
            for i in caller.get_hookimpls() if i.plugin is thing}
        if not found and not any(hasattr(thing, n) for n in dir(Hooks) if n.startswith("stillroom_")):
            raise DeclarationError("it has no function marked with @stillroom.hookimpl and is no Calculator.")
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


def _sentence(e: BaseException) -> str:
    return str(e) if isinstance(e, StillroomError) else f"{type(e).__name__}: {e}"
