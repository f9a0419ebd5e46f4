"""Where things are kept: what was worked out (cache), what a person said (data), what an operator decided (config).

Each place follows the system's own habits and yields to an environment variable: ``STILLROOM_CACHE``,
``STILLROOM_DATA`` and ``STILLROOM_CONFIG`` name folders, ``STILLROOM_DATABASE`` an SQLAlchemy URL.
"""

from __future__ import annotations

import os
from pathlib import Path

NAME = "stillroom"


class Unavailable(Exception):
    """Something that a command needs cannot be used; the message is a sentence that says why."""


def cache_dir() -> Path:
    """A folder whose content may vanish at any time.  It need not exist."""
    named = os.environ.get("STILLROOM_CACHE")
    if named:
        return Path(named)
    from platformdirs import user_cache_dir

    return Path(user_cache_dir(NAME, appauthor=False))


def config_dir() -> Path:
    """The folder of ``stillroom.toml`` and of ``plugins``, single files that are loaded.  It need not exist."""
    named = os.environ.get("STILLROOM_CONFIG")
    if named:
        return Path(named)
    from platformdirs import user_config_dir

    return Path(user_config_dir(NAME, appauthor=False))


def data_folder() -> Path:
    """The folder of conversations and history.  It need not exist."""
    named = os.environ.get("STILLROOM_DATA")
    if named:
        return Path(named)
    from platformdirs import user_data_dir

    return Path(user_data_dir(NAME, appauthor=False))


def data_dir() -> Path:
    """``data_folder``, made readable for its owner only.  Raises OSError."""
    folder = data_folder()
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    return folder


def database_file(folder: Path) -> Path:
    """The database in a data folder."""
    return folder / "stillroom.sqlite3"


def database_url() -> str:
    """The database that ``STILLROOM_DATABASE`` names, else a file in the data folder.  Raises OSError."""
    return os.environ.get("STILLROOM_DATABASE") or f"sqlite:///{database_file(data_dir())}"
