"""Every calculator's examples, asked in plain words, give the answers that stand beside them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

import pytest
import stillroom_bar
from stillroom import Kernel
from stillroom.testing import Case, assert_case, examples

BAR = Kernel(discover=False)
BAR.add("bar", stillroom_bar)


@pytest.fixture(scope="session")
def plugins() -> Mapping[str, Any]:
    """The bar's calculators, and no others."""
    return {"bar": stillroom_bar}


def cases() -> list[object]:
    """The examples of every calculator, each by its place."""
    return [pytest.param(case, id=case.place) for case in examples(BAR)]


def test_every_calculator_has_an_example() -> None:
    assert not [c.name for c in stillroom_bar.stillroom_calculators() if not c.examples]


@pytest.mark.parametrize("case", cases())
def test_the_answer_is_the_one_that_stands_beside_it(
    case: Case, kernel: Kernel, ask: Callable[[str], Mapping[str, Any]]
) -> None:
    assert_case(case, kernel, ask)
