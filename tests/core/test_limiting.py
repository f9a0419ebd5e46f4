"""A stranger's code is stopped in time, in the main thread and in any other."""

from __future__ import annotations

import contextlib
import signal
import threading
import time
from collections.abc import Callable

import pytest
from stillroom.limiting import TookTooLong, limited

SHORT = 0.1


def loop() -> None:
    while True:
        pass


def stubborn() -> None:
    """Swallows whatever it can, once."""
    for _ in range(2):
        try:
            loop()
        except BaseException:
            continue


def sleep() -> None:
    time.sleep(60)


def stopped(work: Callable[[], None]) -> str:
    """What is said when ``work`` is stopped."""
    with pytest.raises(TookTooLong) as told, limited(SHORT):
        work()
        loop()
    return str(told.value)


@pytest.mark.parametrize("work", [loop, stubborn, sleep])
def test_the_main_thread_is_interrupted(work: Callable[[], None]) -> None:
    before = signal.getsignal(signal.SIGALRM)
    assert stopped(work) == "it took more than 0.1 s."
    assert signal.getsignal(signal.SIGALRM) is before and signal.getitimer(signal.ITIMER_REAL)[0] == 0


@pytest.mark.parametrize("work", [loop, stubborn])
def test_another_thread_is_interrupted(work: Callable[[], None]) -> None:
    said: list[str] = []
    thread = threading.Thread(target=lambda: said.append(stopped(work)))
    thread.start()
    thread.join(20)
    assert said == ["it took more than 0.1 s."]


def test_what_is_quick_is_left_alone() -> None:
    done: list[int] = []

    def quick() -> None:
        with limited(5):
            done.append(1)
        with limited(None):
            done.append(2)

    quick()
    thread = threading.Thread(target=quick)
    thread.start()
    thread.join()
    assert done == [1, 2, 1, 2]
    assert not [t for t in threading.enumerate() if t.name == "time limit"]


def test_the_shorter_of_two_limits_holds() -> None:
    """Inside or outside; and what is left of the outer one goes on when the inner one is over."""
    for outer, inner in ((SHORT, 30.0), (30.0, SHORT)):
        with pytest.raises(TookTooLong, match=r"more than 0\.1 s"), limited(outer), limited(inner):
            loop()
    with pytest.raises(TookTooLong, match=r"more than 0\.2 s"), limited(0.2):
        with limited(SHORT / 10), contextlib.suppress(TookTooLong):
            loop()
        loop()
    assert signal.getitimer(signal.ITIMER_REAL)[0] == 0


def test_an_error_passes_through() -> None:
    with pytest.raises(KeyError), limited(5):
        raise KeyError("row")


def test_it_is_not_swallowed_as_an_exception() -> None:
    assert not issubclass(TookTooLong, Exception)
