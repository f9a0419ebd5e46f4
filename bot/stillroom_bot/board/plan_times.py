"""When each batch must start: back from the service, by how long each rests and how long each keeps.

All reckoning is between instants: 48 hours are 48 hours, also over a night in which the clock is changed.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from stillroom import Kernel, Request

from ..paper.keeping import keeping_of_spec
from ..when.moments import clock_changes, shifted
from .book import Book
from .plan import Batch, Task
from .spec import KeptSpec

RESTS = (
    (("oleo saccharum", "oleo", "peel sugar"), "bar.peel_time", "time"),
    (("milk punch", "clarified punch"), "bar.milk_punch", "rest"),
)
"""What a name ends in, and the calculator that says how long such a thing rests."""
STEEPING, SOLID = "bar.steeping", "solid"


def tasks_of(kernel: Kernel, book: Book, batches: Sequence[Batch], service: datetime
             ) -> tuple[tuple[Task, ...], list[str]]:
    """The tasks in the order of their start, and what to beware of."""
    tasks: dict[int, Task] = {}
    cautions: list[str] = []
    for batch in batches:
        ready = min((tasks[u].start for u in batch.used_by), default=service)
        rest, rest_source = rest_of(kernel, batch.spec)
        start = shifted(ready, -rest)
        keeping = keeping_of_spec(kernel, book, batch.spec)
        keeps, keeps_source = (keeping.seconds, keeping.source) if keeping else (None, "")
        earliest = None
        if keeps is not None:
            earliest = shifted(service, -keeps)
            if earliest > start:
                cautions.append(f"{batch.spec.name} would not keep until the service: it is started "
                                f"{_hours(service, start)} before, and keeps {keeps / 3600:g} h.")
                earliest = None
        tasks[batch.spec.id] = Task(batch, start, ready, rest, rest_source, keeps, keeps_source, earliest)
    deep = {b.spec.id: n for n, b in enumerate(batches)}
    ordered = tuple(sorted(tasks.values(), key=lambda t: (t.start, -deep[t.batch.spec.id])))
    if ordered and clock_changes(ordered[0].start, service):
        cautions.append("The clock is changed in between: hours are counted as they pass, not as the clock shows them.")
    return ordered, cautions


def rest_of(kernel: Kernel, spec: KeptSpec) -> tuple[float, str]:
    """Seconds that a spec rests before use: its own, else those of a calculator for such a thing, else none."""
    if spec.rests is not None:
        return spec.rests.base, "its own spec"
    name = spec.name.casefold()
    for words, calculator, wanted in RESTS:
        if any(name == w or name.endswith(" " + w) for w in words) and calculator in kernel.models:
            answer = kernel.answer(Request(calculator, wanted=(wanted,)))
            if answer.status == "answered":
                return answer.answer[0].base, f"{calculator.partition('.')[2].replace('_', ' ')}, common practice"
    model = kernel.models.get(STEEPING)
    if model is not None and ("infus" in name or name.endswith("tincture")):
        rows = {w.casefold(): r.id for r in model.choices[SOLID].rows.values() for w in r.words}
        for line in spec.lines:
            row = rows.get(line.thing.casefold())
            if row is not None:
                answer = kernel.answer(Request(STEEPING, choices={SOLID: row}, wanted=("shortest",)))
                if answer.status == "answered":
                    return answer.answer[0].base, f"steeping {line.thing}, taste as it goes"
    return 0.0, ""


def _hours(service: datetime, start: datetime) -> str:
    return f"{(service - start).total_seconds() / 3600:g} h"
