"""What an operator decides about plugins: which are off, which go before others, which version is meant.

    off = ["nettlebar", "bar.milk"]

    [prefer]
    "teabar.extraction" = ["bar.infusion"]
    loaf = "bar"

    [pin]
    teabar = "0.3"
    loaf = "1.2.*"

``off`` names plugins or calculators.  ``prefer`` says which is to answer where both could: a calculator or a whole
plugin, and those that give way to it.  ``pin`` lets a plugin in only at that version.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from .errors import PolicyError

FILE = "stillroom.toml"


@dataclass(frozen=True, slots=True)
class Policy:
    """``off`` are names; ``prefer`` maps a name to those that give way to it; ``pin`` a plugin to its version."""

    off: frozenset[str] = frozenset()
    prefer: Mapping[str, tuple[str, ...]] = field(default_factory=dict, hash=False)
    pin: Mapping[str, str] = field(default_factory=dict, hash=False)

    @classmethod
    def read(cls, path: Path) -> Policy:
        """The policy in a file; an empty one where there is no file.

        Raises PolicyError, which says everything that is wrong with the file, and OSError.
        """
        try:
            text = path.read_text("utf-8")
        except (FileNotFoundError, NotADirectoryError):
            return cls()
        except UnicodeDecodeError:
            raise PolicyError(path, ["it is not UTF-8 text"]) from None
        import tomllib

        try:
            data = tomllib.loads(text)
        except tomllib.TOMLDecodeError as e:
            raise PolicyError(path, [str(e)]) from None
        if wrong := list(_wrong(data)):
            raise PolicyError(path, wrong)
        prefer = {str(k): _names(v) for k, v in data.get("prefer", {}).items()}
        return cls(frozenset(_names(data.get("off", ()))), prefer, dict(data.get("pin", {})))

    def admits(self, plugin: str, version: str) -> bool:
        """May a plugin of this version be loaded?"""
        pin = self.pin.get(plugin)
        if pin is None:
            return True
        return version.startswith(pin[:-1]) or version == pin[:-2] if pin.endswith(".*") else version == pin

    def over(self, one: str, other: str) -> bool:
        """Does the calculator ``one`` go before ``other``, itself or by its plugin?"""
        giving_way = {n for name in _both(one) for n in self.prefer.get(name, ())}
        return bool(giving_way & {*_both(other)}) and one != other

    def unknown(self, names: set[str]) -> Iterator[str]:
        """A sentence for each name that is none of ``names``: a slip, or a plugin that is not installed."""
        told = {"off": self.off, "prefer": {n for k, v in self.prefer.items() for n in (k, *v)}, "pin": {*self.pin}}
        for what, said in told.items():
            for name in sorted(said - names):
                yield f"{what} names {name!r}, which is not installed."


def _both(calculator: str) -> tuple[str, str]:
    return calculator, calculator.partition(".")[0]


def _names(value: Any) -> tuple[str, ...]:
    return (value,) if isinstance(value, str) else tuple(value)


def _are_names(value: Any) -> bool:
    return isinstance(value, str) or (isinstance(value, list) and all(isinstance(x, str) for x in value))


def _wrong(data: Mapping[str, Any]) -> Iterator[str]:
    for key in sorted(data.keys() - {"off", "prefer", "pin"}):
        yield f"{key} means nothing here; off, prefer and pin do"
    if not _are_names(data.get("off", [])):
        yield "off needs a list of names"
    for key, need in (("prefer", "names"), ("pin", "a version")):
        table = data.get(key, {})
        if not isinstance(table, dict):
            yield f"{key} needs to be a table: write [{key}] above its lines"
            continue
        for name, value in table.items():
            if not (_are_names(value) if key == "prefer" else isinstance(value, str)):
                yield f"{key}: {name!r} needs {need} in quotes"
