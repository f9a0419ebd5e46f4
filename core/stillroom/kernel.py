"""The kernel: plugins, units and solvers under one roof, answering requests."""

from __future__ import annotations

import time
from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from .answering import Answering
from .errors import NameClash, RequestError, StillroomError
from .limiting import TookTooLong, limited
from .messages import Answer, Request
from .model import Model
from .plugins import Plugin, PluginManager
from .policy import Policy
from .solver import Solver
from .sources import Source
from .substances import Substance, substances_of
from .units import Units, own_rows

LONGEST_ANSWER, REST = 8.0, 60.0


class Kernel:
    """Loads plugins and answers requests.

    ``cache`` is a folder for what was worked out before (None: nothing is kept on disk);
    ``discover=False`` makes a kernel without the installed plugins; ``folder`` holds more of them, a file each;
    ``policy`` is what the operator decided about them, and ``off`` names further plugins or ``plugin.calculator``
    that are switched off.

        >>> from stillroom import Calculator, Kernel, var
        >>> kernel = Kernel(discover=False)
        >>> tea = Calculator("tea", "Leaf for tea", var("leaf", "gram"), var("water", "liter"),
        ...                  var("dose", "gram / liter", default=8), equations=["leaf = dose * water"])
        >>> kernel.add("teabar", tea).errors
        []
        >>> answer = kernel.answer(kernel.request("teabar.tea", {"water": (1.5, "liter")}, ["leaf"]))
        >>> answer.answer[0].value, answer.answer[0].unit
        (12.0, 'gram')
    """

    def __init__(self, cache: Path | None = None, discover: bool = True, off: Iterable[str] = (),
                 policy: Policy | None = None, folder: Path | None = None):
        self.cache = cache
        policy = policy or Policy()
        self.policy = replace(policy, off=policy.off | frozenset(off))
        self.manager = PluginManager(self.policy)
        self.manager.discover(folder, discover)
        self.units = Units(own_rows(), cache)
        self.models: dict[str, Model] = {}
        self.substances: dict[str, Substance] = {}
        self.refusals: list[Mapping[str, Any]] = []
        self._solvers: dict[str, Solver] = {}
        self.patience = LONGEST_ANSWER
        self._resting: dict[str, float] = {}
        self._settle()

    def add(self, name: str, thing: Any, version: str = "") -> Plugin:
        """Load one more plugin: a module with hooks, or a Calculator.  Look at its ``errors``."""
        plugin = self.manager.add(name, lambda: thing, version)
        self._settle()
        return plugin

    def load(self, source: Source) -> Plugin:
        """Load one more plugin from where it is: a distribution or a file.  Look at its ``errors``."""
        plugin = self.manager.add_source(source)
        self._settle()
        return plugin

    def _settle(self) -> None:
        rows = [dict(r, owner="the kernel") for r in own_rows()]
        for plugin in self.manager.plugins.values():
            more = [dict(r, owner=plugin.name) for r in plugin.units]
            if not more:
                continue
            try:
                Units([*rows, *more], self.cache)
                rows += more
            except StillroomError as e:
                plugin.report(str(e))
                plugin.units.clear()
        self.units = Units(rows, self.cache)
        self.models, self.substances, self.refusals, self._solvers = {}, {}, [], {}
        owner: dict[str, str] = {}
        for plugin in self.manager.plugins.values():
            plugin.accepted.clear()
            for s in substances_of(plugin):
                if s.id in owner:
                    plugin.report(f"The substance {s.id!r} is described twice, by {owner[s.id]} and by {plugin.name}.")
                    continue
                self.substances[s.id], owner[s.id] = s, plugin.name
            self.refusals += plugin.refusals
            for c in plugin.calculators:
                self._register(plugin, c)

    def _register(self, plugin: Plugin, calculator: Any) -> None:
        id = f"{plugin.name}.{calculator.name}"
        if id in self.policy.off:
            return
        try:
            if id in self.models:
                raise NameClash(f"{plugin.name} offers two calculators named {calculator.name!r}.")
            model = Model(id, calculator, self.units)
            model.check()
        except StillroomError as e:
            plugin.report(str(e))
        except Exception as e:  # a declaration that is no declaration at all
            plugin.report(f"{id} is declared in a way that cannot work: {type(e).__name__}: {e}")
        else:
            self.models[id] = model
            plugin.accepted.append(id)

    def solver(self, calculator: str) -> Solver:
        """The solver of a calculator.  Raises RequestError for one that is not there."""
        solver = self._solvers.get(calculator)
        if solver is None:
            solver = self._solvers[calculator] = Solver(self.model(calculator), self.cache)
        return solver

    def model(self, calculator: str) -> Model:
        """A registered calculator by ``plugin.name``.  Raises RequestError, with the nearest names."""
        try:
            return self.models[calculator]
        except KeyError:
            from difflib import get_close_matches
            near = get_close_matches(calculator, self.models, 3, 0.4)
            hint = f" Did you mean {' or '.join(near)}?" if near else ""
            raise RequestError(f"There is no calculator {calculator!r}.{hint}") from None

    def request(self, calculator: str, given: Mapping[str, tuple[float, str]] | None = None,
                wanted: Iterable[str] = (), **more: Any) -> Request:
        """A request from plain numbers: ``given`` maps a variable to (number, unit)."""
        from .messages import Amount

        amounts = {n: Amount(v, u, self.units[u].to_base(v)) for n, (v, u) in (given or {}).items()}
        return Request(calculator, amounts, wanted=tuple(wanted), **more)

    def request_from(self, data: Mapping[str, Any]) -> Request:
        """A request from plain data, as ``schema`` describes it: amounts may leave out ``base``.

        Raises RequestError for data that is no request, UnitError for an unknown unit.
        """
        if not isinstance(data, Mapping):
            raise RequestError("A request is an object that names its calculator.")
        return Request.from_json(self._with_base(data))

    def _with_base(self, data: Any) -> Any:
        if isinstance(data, Mapping):
            made = {k: self._with_base(v) for k, v in data.items()}
            if {"value", "unit"} <= made.keys() and "base" not in made:
                if not isinstance(made["value"], (int, float)):
                    raise RequestError(f"{dict(data)!r} is no amount.")
                made["base"] = self.units[str(made["unit"])].to_base(float(made["value"]))
            return made
        return [self._with_base(x) for x in data] if isinstance(data, list) else data

    def answer(self, request: Request) -> Answer:
        """Answer a request.

        Never raises for what a person may have asked; RequestError for a wrong name, UnitError for an unknown
        unit.  A calculator whose own function fails is named in its plugin's errors, and the answer is declined; so is
        a stranger's that takes more than ``patience`` seconds, which is then left alone for a minute.
        """
        owner = self.plugins.get(request.calculator.partition(".")[0])
        try:
            with limited(self._patience(owner, request.calculator)):
                answer = Answering(self, request).answer()
        except StillroomError:
            raise
        except (Exception, TookTooLong) as e:  # a stranger's table may raise anything
            error = f"{request.calculator} {_failed(e)}"
            if owner:
                owner.report(error)
            if isinstance(e, TookTooLong) and not self._rests(request.calculator):
                self._resting[request.calculator] = time.monotonic() + REST
            answer = Answer("declined", request.calculator, reason=f"That cannot be worked out: {error}.")
        return self._cautioned(request, answer)

    def _patience(self, owner: Plugin | None, calculator: str) -> float | None:
        """Seconds that an answer may take.  Raises TookTooLong for a calculator that lately took more."""
        if owner is None or not owner.foreign:
            return None
        if self._rests(calculator):
            raise TookTooLong(f"it took more than {self.patience:g} s.")
        return self.patience

    def _rests(self, calculator: str) -> bool:
        return self._resting.get(calculator, 0.0) > time.monotonic()

    def _cautioned(self, request: Request, answer: Answer) -> Answer:
        """The answer with the cautions of every plugin; one that raises or takes too long is asked no more."""
        told = dict.fromkeys(answer.cautions)
        for plugin in self.manager.plugins.values():
            if plugin.cautions is None:
                continue
            try:
                with limited(self.patience if plugin.foreign else None):
                    told.update(dict.fromkeys(plugin.cautions(request=request, answer=answer)))
            except (Exception, TookTooLong) as e:
                plugin.report(f"{plugin.name}: stillroom_cautions {_failed(e)}")
                plugin.cautions = None
        return answer if len(told) == len(answer.cautions) else replace(answer, cautions=tuple(told))

    @property
    def remarks(self) -> tuple[str, ...]:
        """What the operator's policy names and nobody offers, a sentence each."""
        offered = {f"{p.name}.{c.name}" for p in self.manager.plugins.values() for c in p.calculators}
        return tuple(self.policy.unknown({*self.manager.plugins, *self.manager.left_out, *offered}))

    @property
    def plugins(self) -> dict[str, Plugin]:
        """What was loaded, by name, the broken ones too."""
        return self.manager.plugins


def _failed(e: BaseException) -> str:
    if isinstance(e, TookTooLong):
        return str(e).removeprefix("it ").rstrip(".") + " and was stopped"
    return f"failed with {type(e).__name__}: {e}"
