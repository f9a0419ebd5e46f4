"""Where plugins come from: installed distributions, by their entry points, and files in a folder."""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from .errors import DeclarationError

GROUP = "stillroom"
NAME = re.compile(r"[a-z][a-z0-9_]{0,39}\Z")


@dataclass(frozen=True, slots=True)
class Source:
    """A plugin before it is loaded: ``origin`` says where it comes from, so that a person can find it.

    ``foreign`` is one that neither came with Stillroom nor was handed over in Python: its code works within limits of
    time.
    """

    name: str
    load: Callable[[], Any]
    version: str = ""
    origin: str = ""
    foreign: bool = False


def installed() -> Iterator[Source]:
    """Every entry point of the group, by name; of two with one name, ours comes first, then by distribution."""
    from importlib.metadata import entry_points

    found = [(p.name, (p.dist.name if p.dist else "").lower(), p) for p in entry_points(group=GROUP)]
    for name, dist, point in sorted(found, key=lambda x: (x[0], x[1] != GROUP, x[1], x[2].value)):
        version = point.dist.version if point.dist else ""
        yield Source(name, point.load, version, f"{dist} {version} ({point.value})".strip(), dist != GROUP)


def in_folder(folder: Path) -> Iterator[Source]:
    """Every ``name.py`` of a folder, by name; one whose name starts with ``_`` is left out.  No folder, no plugins."""
    try:
        files = sorted(p for p in folder.iterdir() if p.suffix == ".py" and not p.name.startswith("_"))
    except (FileNotFoundError, NotADirectoryError):
        return
    for path in files:
        yield from_file(path)


def from_file(path: Path) -> Source:
    """A plugin that is one file, called by the file's name."""
    def load() -> Any:
        from importlib.util import module_from_spec, spec_from_file_location

        if not NAME.match(path.stem):
            raise DeclarationError(f"{path.name} cannot name a plugin: use lower case letters, digits and _.")
        name = f"stillroom_plugin_{path.stem}"
        spec = spec_from_file_location(name, path)
        assert spec is not None and spec.loader is not None
        module = sys.modules[name] = module_from_spec(spec)
        try:
            spec.loader.exec_module(module)
        except BaseException:
            del sys.modules[name]
            raise
        return module

    return Source(path.stem, load, "", str(path), True)
