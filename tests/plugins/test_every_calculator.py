"""Every calculator of the bar, checked from its declaration alone: no case is written for any of them.

Each is drawn a few consistent points; every visible variable hides in turn and is found again to 1e-9,
amounts are said in other units, limits hold, and nothing that a declaration needs is missing.
"""

from functools import cache

import pytest
import stillroom_bar
from stillroom import Kernel
from stillroom.testing import check, solve_directions


@cache
def kernel() -> Kernel:
    made = Kernel(discover=False)
    assert made.add("bar", stillroom_bar).errors == []
    return made


@pytest.mark.parametrize("calculator", sorted(kernel().models))
def test_it_answers_in_every_direction(calculator: str) -> None:
    report = check(kernel(), calculator, examples=2, most=3)
    assert not report.problems, str(report)
    assert report.points == 2
    assert report.asked or not list(solve_directions(kernel(), calculator))
