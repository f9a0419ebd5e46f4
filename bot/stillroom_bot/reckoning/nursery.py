"""A process that has everything loaded and forks: a new child is there in milliseconds, with the memory shared.

It is forked itself before the parent has threads or an event loop, never sees the token, and ends with
the parent.
"""

from __future__ import annotations

import gc
import importlib
import os
import signal
import socket
import sys
from collections.abc import Callable
from contextlib import suppress

from ..talker import Talker
from .child import receive, send, serve

SECRETS = ("STILLROOM_TELEGRAM_TOKEN", "STILLROOM_TELEGRAM_SECRET", "STILLROOM_DATABASE")


def begin(make: Callable[[], Talker], limit: float) -> socket.socket:
    """Fork the nursery; ``make`` makes the conversation in it.  Returns the line by which children are asked for."""
    ours, theirs = socket.socketpair()
    sys.stdout.flush()
    sys.stderr.flush()
    if os.fork():
        theirs.close()
        return ours
    ours.close()
    status = 1
    try:
        status = _run(make, limit, theirs)
    except BaseException as e:
        with suppress(OSError):
            send(theirs, {"error": f"{type(e).__name__}: {e}"})
    finally:
        os._exit(status)


def _run(make: Callable[[], Talker], limit: float, line: socket.socket) -> int:
    for name in SECRETS:
        os.environ.pop(name, None)
    for sign in (signal.SIGINT, signal.SIGTERM):
        signal.signal(sign, signal.SIG_IGN)
    signal.signal(signal.SIGCHLD, signal.SIG_IGN)
    talker = make()
    importlib.import_module("stillroom.derive")  # finds new plans: large, shared now, and nobody waits for it
    gc.collect()
    gc.freeze()
    send(line, {"ready": True})
    while True:
        _, handed, _, _ = socket.recv_fds(line, 1, 1)
        if not handed:
            return 0
        if os.fork() == 0:
            line.close()
            with socket.socket(fileno=handed[0]) as own:
                serve(talker, own, limit)
            os._exit(0)
        os.close(handed[0])


def ready(line: socket.socket) -> str:
    """Wait until everything is loaded; a sentence where that failed, else nothing."""
    told = receive(line)
    return "" if told and told.get("ready") else str((told or {}).get("error", "it ended"))
