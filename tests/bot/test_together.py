"""Work that is done together: all of it, each with its own outcome, and nothing is left lying."""

from __future__ import annotations

import asyncio
from collections.abc import Sequence

import pytest
from stillroom_bot.store.together import Together


class Ledger:
    """Doubles numbers, and remembers which it was handed together."""

    def __init__(self) -> None:
        self.handed: list[list[int]] = []

    async def __call__(self, items: Sequence[int]) -> Sequence[int | BaseException]:
        self.handed.append(list(items))
        await asyncio.sleep(0.001)
        return [2 * n if n >= 0 else ValueError(n) for n in items]


async def test_who_comes_while_some_is_done_is_served_together() -> None:
    ledger = Ledger()
    together: Together[int, int] = Together(ledger, most=3)
    assert await asyncio.gather(*(together(n) for n in range(6))) == [0, 2, 4, 6, 8, 10]
    assert ledger.handed == [[0, 1, 2], [3, 4, 5]]


async def test_who_comes_at_the_very_end_of_the_work_before_is_served_too() -> None:
    together: Together[int, int] = Together(Ledger())

    async def one_after_another() -> list[int]:
        return [await together(n) for n in range(5)]

    assert await asyncio.wait_for(one_after_another(), 5) == [0, 2, 4, 6, 8]


async def test_several_at_work_are_never_handed_nothing() -> None:
    ledger = Ledger()
    together: Together[int, int] = Together(ledger, at_once=4, pause=0.005)
    for _ in range(3):
        assert await asyncio.gather(*(together(n) for n in range(6))) == [0, 2, 4, 6, 8, 10]
    await asyncio.sleep(0.1)
    assert all(ledger.handed) and sum(map(len, ledger.handed)) == 18


async def test_one_that_fails_fails_alone() -> None:
    together: Together[int, int] = Together(Ledger(), at_once=2)
    found = await asyncio.gather(together(1), together(-1), together(2), return_exceptions=True)
    assert [found[0], found[2]] == [2, 4] and isinstance(found[1], ValueError)
    with pytest.raises(ValueError):
        await together(-7)
