"""The questions that calculators give as examples."""

from __future__ import annotations

from typing import Any

from ..talker import Talker


def examples_of(talker: Talker) -> tuple[tuple[str, str], ...]:
    """(calculator, first example) of each, where the conversation has a kernel."""
    models: Any = getattr(getattr(talker, "kernel", None), "models", {})
    return tuple((id, m.calculator.examples[0][0]) for id, m in models.items() if m.calculator.examples)
