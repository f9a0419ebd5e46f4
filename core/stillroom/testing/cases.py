"""Cases that stand in a table: what is asked, what must come of it, and where that is published.

A table is a CSV file with a header.  Its columns, of which a row fills what it needs:

    question     asked in plain words of a conversation, or
    calculator   ``plugin.calculator``, with
    given        ``water = 1.5 liter; tea = sencha`` (quantities with their units, choices with their row), and
    wanted       ``leaf`` (what it is usually asked, if empty)
    answer       ``12 gram``, or ``leaf: 12 gram; water: 1.5 liter``, or ``asks``, or ``declined``
    rel          how far off a number may be (half a step of its last digit, if empty)
    source       where the answer is published; no row goes without one
"""

from __future__ import annotations

import csv
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from ..kernel import Kernel
from ..messages import Answer
from .asserting import SAID, assert_says, spelled

Ask = Callable[[str], Mapping[str, Any]]
COLUMNS = ("question", "calculator", "given", "wanted", "answer", "rel", "source")


@dataclass(frozen=True, slots=True)
class Case:
    """One row.  ``place`` says where it stands; ``str`` of it is a name for a test."""

    answer: str
    source: str
    question: str = ""
    calculator: str = ""
    given: str = ""
    wanted: str = ""
    rel: float | None = None
    place: str = ""

    def __str__(self) -> str:
        return self.question or f"{self.calculator} {self.wanted} from {self.given}".strip()


def cases(path: str | Path) -> list[Case]:
    """The cases of a table.  Raises ValueError, with the line, for a row that says too little; OSError."""
    path = Path(path)
    with path.open(encoding="utf-8", newline="") as f:
        reader = csv.DictReader(f)
        strange = sorted({*(reader.fieldnames or ())} - {*COLUMNS})
        if strange:
            raise ValueError(f"{path.name}: no column is called {', '.join(strange)}; there are {', '.join(COLUMNS)}.")
        return [_case(row, f"{path.name}, line {reader.line_num}") for row in reader]


def _case(row: Mapping[str, str | None], place: str) -> Case:
    cells = {k: (row.get(k) or "").strip() for k in COLUMNS}
    for need in ("answer", "source"):
        if not cells[need]:
            raise ValueError(f"{place}: the {need} is missing.")
    if bool(cells["question"]) == bool(cells["calculator"]):
        raise ValueError(f"{place}: say either a question or a calculator.")
    rel = float(cells.pop("rel") or "nan")
    return Case(**cells, rel=None if rel != rel else rel, place=place)


def examples(kernel: Kernel, plugin: str = "") -> list[Case]:
    """The examples that the calculators (of one plugin) declare, as cases to be asked in plain words."""
    return [Case(answer, "the calculator's own example", question, place=f"{id}, example {n + 1}")
            for id, m in kernel.models.items() if not plugin or id.partition(".")[0] == plugin
            for n, (question, answer) in enumerate(m.calculator.examples)]


def assert_case(case: Case, kernel: Kernel, ask: Ask | None = None) -> None:
    """Assert that a case comes out; ``ask`` puts a question to a conversation and gives its JSON answer.

    Raises AssertionError, with the row's place; ValueError for a row that cannot be read.
    """
    answer: Answer | Mapping[str, Any]
    if case.question:
        if ask is None:
            raise ValueError(f"{case.place}: a question needs somebody to ask.")
        told = ask(case.question)
        answer, status = told, str(told["status"])
    else:
        found = solved(case, kernel)
        answer, status = found, found.status
    try:
        if case.answer in ("asks", "declined", "noted"):
            assert status == case.answer, f"its status is {status}, not {case.answer}"
        else:
            assert_says(answer, case.answer, kernel.units, case.rel)
    except AssertionError as e:
        raise AssertionError(f"{case.place}: {case}: {e}") from None


def solved(case: Case, kernel: Kernel) -> Answer:
    """The answer to a case that names its calculator.  Raises ValueError for what cannot be read."""
    given, choices = {}, {}
    for part in filter(None, (p.strip() for p in case.given.split(";"))):
        name, sign, value = (x.strip() for x in part.partition("="))
        said = SAID.match(value)
        if not sign or not value:
            raise ValueError(f"{case.place}: {part!r} is no 'name = value'.")
        if said:
            given[name] = (float(said["number"]), spelled(said["unit"], kernel.units))
        else:
            choices[name] = value
    wanted = tuple(w.strip() for w in case.wanted.split(",") if w.strip())
    return kernel.answer(kernel.request(case.calculator, given, wanted, choices=choices))
