"""Small JSON files that may vanish at any time: what was worked out once and can be again.

Writing is atomic (a temporary file in the same folder, then a rename), so that two
processes may share a folder; reading returns None for a file that is missing, damaged
or larger than it should be.
"""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
from pathlib import Path
from typing import Any

MAX_BYTES = 4_000_000


def kept(path: Path | None) -> Any:
    """The JSON value of a file, or None if it cannot be had."""
    if path is None:
        return None
    try:
        if path.stat().st_size > MAX_BYTES:
            return None
        return json.loads(path.read_bytes())
    except (OSError, ValueError, RecursionError):
        return None


def stamp(path: Path | None) -> int:
    """When a file was replaced last, 0 for one that is not there: another stamp, and it is worth reading again."""
    try:
        return path.stat().st_mtime_ns if path else 0
    except OSError:
        return 0


def sum_of(data: Any) -> str:
    """A checksum of JSON data: what was damaged on the way is not believed."""
    return hashlib.sha256(json.dumps(data, separators=(",", ":")).encode()).hexdigest()


def keep(path: Path | None, text: str) -> None:
    """Replace a file's content atomically; a folder that cannot be written is no error."""
    if path is None:
        return
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle, temporary = tempfile.mkstemp(dir=path.parent, prefix=path.name, suffix=".part")
        with os.fdopen(handle, "w", encoding="utf-8") as f:
            f.write(text)
        os.replace(temporary, path)
    except OSError:
        pass
