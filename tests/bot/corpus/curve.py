"""How often a question is answered right, answered wrong or asked back about, by the margin between two readings.

Run it from the repository, on the questions that were set aside and never tuned on:

    python tests/bot/corpus/curve.py            every set-aside question
    python tests/bot/corpus/curve.py a_dev      other parts, by name

Each row is one margin: the wider it is, the more often two readings that differ are asked apart.
"""

from __future__ import annotations

import json
import sys
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

import pint
from stillroom import Kernel
from stillroom_bot.conversation import Conversation
from stillroom_bot.reading.deciding import Outcome, choose, outcomes_of

HERE = Path(__file__).parent
MARGINS = (0.0, 0.2, 0.35, 0.42, 0.5, 0.8, 1.2, 2.0)
PLAIN = frozenset({"", "count", "dimensionless"})


def questions(names: list[str]) -> Iterator[dict[str, Any]]:
    """The single questions of the named parts of the corpus."""
    for name in names:
        for line in (HERE / f"{name}.jsonl").read_text(encoding="utf-8").splitlines():
            row = json.loads(line)
            if "q" in row:
                yield row


class Judge:
    """Compares numbers in any units with a registry that is not the project's own."""

    def __init__(self) -> None:
        self.units = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
        for line in (
            "count = []",
            "drop = 0.05 milliliter",
            "dash = 0.8 milliliter",
            "barspoon = 5 milliliter",
            "currency = [currency]",
            "brix = percent",
            "proof = 0.5 percent",
        ):
            self.units.define(line)

    def same(self, value: float, unit: str, want: float, want_unit: str, within: float) -> bool:
        """Are the two one quantity, but for a share ``within``?"""
        if unit != want_unit and not (unit in PLAIN and want_unit in PLAIN):
            try:
                value = self.units.Quantity(value, unit or "dimensionless").to(want_unit or "dimensionless").magnitude
            except (pint.errors.PintError, AttributeError, ValueError):
                return False
        return abs(value - want) <= max(within * abs(want), 1e-9)

    def verdict(self, expect: Mapping[str, Any], outcome: Outcome | None, asked: bool) -> str:
        """``right``, ``wrong`` or ``asked``; what should not be answered is right in any other way."""
        answer = outcome.answer if outcome is not None else None
        given = answer is not None and answer.status == "answered" and not asked
        if expect["status"] != "answered":
            return "wrong" if given and expect["status"] != "any" else "right"
        if not given or answer is None:
            return "asked"
        wanted = [w for w in (expect, *expect.get("also", ())) if "value" in w]
        said = [(a.value, a.unit) for a in answer.answer]
        fits = all(
            any(self.same(v, u, w["value"], w.get("unit", ""), expect.get("tol", 0.01)) for v, u in said)
            for w in wanted
        )
        return "right" if fits else "wrong"


def curve(names: list[str]) -> dict[float, Counter[str]]:
    """The verdicts for each margin."""
    kernel = Kernel()
    conversation, judge = Conversation(kernel), Judge()
    reader = conversation.reader
    counts: dict[float, Counter[str]] = {m: Counter() for m in MARGINS}
    for row in questions(names):
        message = reader.take_apart(row["q"][:4096])
        refused = conversation.refusals.reason(message.tokens) is not None
        found = (
            [] if refused else outcomes_of(kernel, reader, message, reader.candidates(message), kernel.units, {}, {})
        )
        for margin in MARGINS:
            decision = choose([replace(o) for o in found], margin, message, reader)
            asks = decision.best is not None and bool(decision.rivals or decision.doubts or decision.best.reading.asks)
            counts[margin][judge.verdict(row["expect"], decision.best, asks)] += 1
    return counts


def main() -> None:
    """Print the curve."""
    names = sys.argv[1:] or sorted(p.stem for p in HERE.glob("*_held.jsonl"))
    print(f"{'margin':>7} {'right':>7} {'wrong':>7} {'asked':>7}")
    for margin, c in curve(names).items():
        n = max(c.total(), 1)
        print(f"{margin:7.2f} {c['right'] / n:7.1%} {c['wrong'] / n:7.1%} {c['asked'] / n:7.1%}")


if __name__ == "__main__":
    main()
