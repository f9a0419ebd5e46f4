"""The files of a reply, written to the folder that the person is in."""

from __future__ import annotations

import os
from collections.abc import Iterator
from itertools import count
from pathlib import Path

from ..reply import Attachment, Reply


def saved(reply: Reply, folder: Path | None = None) -> Iterator[str]:
    """Write the files of a reply, and say of each where it is.

    They go to ``folder``, to the working folder without one, and to the data folder where that may not be written
    to.  What is there already is never written over.
    """
    for attachment in reply.attachments:
        try:
            yield f"Saved: {_write(attachment, folder or Path.cwd())}"
        except OSError as e:
            try:
                from ..places import data_dir

                yield f"Saved: {_write(attachment, data_dir())}"
            except OSError:
                yield f"{attachment.name} cannot be saved: {e.strerror or e}."


def _write(attachment: Attachment, folder: Path) -> Path:
    name = Path(Path(attachment.name).name)
    for n in count(1):
        path = folder / (name if n == 1 else f"{name.stem}-{n}{name.suffix}")
        try:
            opened = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o644)
        except FileExistsError:
            continue
        with os.fdopen(opened, "wb") as f:
            f.write(attachment.content)
        return path
    raise AssertionError("unreachable")
