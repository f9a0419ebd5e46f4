"""A limit in seconds on code that somebody else wrote.

In the main thread a timer's signal interrupts whatever Python does, a sleep or a search in a text included.  In any
other thread the exception is put into it from outside and is raised at its next step of Python.  Neither ends a call
that never comes back to Python: that takes another process.  A limit within a limit holds where it is the shorter one.
"""

from __future__ import annotations

import signal
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from ctypes import c_ulong, py_object, pythonapi
from types import FrameType

AGAIN, SOON = 0.2, 0.001


class TookTooLong(BaseException):
    """More time than was allowed; no ``except Exception`` swallows it, and one that does is interrupted again."""


@contextmanager
def limited(seconds: float | None) -> Iterator[None]:
    """Raise TookTooLong in the block once it has run for ``seconds`` (None: no limit)."""
    if seconds is None:
        yield
    elif threading.current_thread() is threading.main_thread() and hasattr(signal, "setitimer"):
        with _by_signal(seconds):
            yield
    else:
        with _from_outside(seconds):
            yield


@contextmanager
def _by_signal(seconds: float) -> Iterator[None]:
    def interrupt(_: int, __: FrameType | None) -> None:
        raise TookTooLong(f"it took more than {seconds:g} s.")

    outer = signal.getitimer(signal.ITIMER_REAL)[0]
    if 0 < outer <= seconds:
        yield
        return
    started, before = time.monotonic(), signal.signal(signal.SIGALRM, interrupt)
    signal.setitimer(signal.ITIMER_REAL, seconds, AGAIN)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)
        if outer:
            signal.setitimer(signal.ITIMER_REAL, max(outer - (time.monotonic() - started), SOON), AGAIN)


@contextmanager
def _from_outside(seconds: float) -> Iterator[None]:
    ident, done = threading.get_ident(), threading.Event()

    def watch(wait: Callable[[float], bool] = done.wait) -> None:
        left = seconds
        while not wait(left):
            pythonapi.PyThreadState_SetAsyncExc(c_ulong(ident), py_object(TookTooLong))
            left = AGAIN

    watcher = threading.Thread(target=watch, name="time limit", daemon=True)
    watcher.start()
    try:
        yield
    except TookTooLong:
        raise TookTooLong(f"it took more than {seconds:g} s.") from None
    finally:
        done.set()
        watcher.join()
