"""What is to be checked: an installed plugin by its name, a file, or a project's folder."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from difflib import get_close_matches
from importlib.metadata import EntryPoint
from pathlib import Path

from stillroom.sources import GROUP, Source, from_file, in_folder, installed

from ..places import config_dir


class NoTarget(Exception):
    """Nothing goes by that name; the message is a sentence with what there is."""


def sources(name: str) -> list[Source]:
    """The plugins that a name, a ``.py`` file or a folder with a ``pyproject.toml`` stands for.  Raises NoTarget."""
    path = Path(name)
    if path.suffix == ".py" and path.is_file():
        return [from_file(path.resolve())]
    if path.is_dir() and (path / "pyproject.toml").is_file():
        return _of_project(path.resolve())
    known = everywhere()
    found = [s for s in known if s.name == name]
    if not found:
        near = get_close_matches(name, [s.name for s in known], 3, 0.5)
        hint = f" Did you mean {' or '.join(near)}?" if near else f" There are {', '.join(s.name for s in known)}."
        raise NoTarget(f"{name!r} is no installed plugin, no .py file and no folder with a pyproject.toml.{hint}")
    return found


def everywhere() -> list[Source]:
    """Every plugin that is installed or lies in the operator's folder."""
    return [*installed(), *in_folder(config_dir() / "plugins")]


def _of_project(folder: Path) -> list[Source]:
    import tomllib

    try:
        project = tomllib.loads((folder / "pyproject.toml").read_text("utf-8")).get("project", {})
    except tomllib.TOMLDecodeError as e:
        raise NoTarget(f"{folder / 'pyproject.toml'} cannot be read: {e}.") from None
    points = project.get("entry-points", {}).get(GROUP, {})
    if not points:
        raise NoTarget(f"{folder / 'pyproject.toml'} has no [project.entry-points.{GROUP}].")
    sys.path[:0] = [str(p) for p in (folder / "src", folder) if p.is_dir()]
    return list(_points(points, str(project.get("version", "")), str(folder)))


def _points(points: dict[str, str], version: str, folder: str) -> Iterator[Source]:
    for name, value in points.items():
        yield Source(name, EntryPoint(name, value, GROUP).load, version, f"{folder} ({value})", True)
