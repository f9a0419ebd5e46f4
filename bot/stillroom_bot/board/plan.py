"""A plan: what is to be made for a service, in which order, when each must start, and what to buy for it.

A plan is reckoned anew whenever it is asked for; it is immutable, and knows nothing of words.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime

from stillroom import Amount, Kernel, Line

from .book import Book
from .spec import KeptSpec


class NoPlan(Exception):
    """What was asked cannot be planned; the message is a sentence that says why, and what to do about it."""


@dataclass(frozen=True, slots=True)
class Ordered:
    """So many serves (a count), or so much (a volume or a mass), of a spec."""

    spec: KeptSpec
    amount: Amount


@dataclass(frozen=True, slots=True)
class Batch:
    """One component of a plan, all of it that is needed: its lines are scaled.

    ``used_by`` are the batches that it goes into.
    """

    spec: KeptSpec
    amount: Amount
    lines: tuple[Line, ...]
    used_by: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Task:
    """When a batch starts at the latest, when it is ready, and from when it still keeps until the end.

    ``rest`` and ``keeps`` are in seconds, with who says so; ``keeps`` is None where nobody does.
    """

    batch: Batch
    start: datetime
    ready: datetime
    rest: float
    rest_source: str = ""
    keeps: float | None = None
    keeps_source: str = ""
    earliest: datetime | None = None


@dataclass(frozen=True, slots=True)
class Item:
    """One thing to buy: ``need`` of it, as ``buy`` says (bottles, fruit, grams); ``note`` is what that rests on."""

    thing: str
    need: str
    buy: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Plan:
    """``tasks`` in the order in which they start; ``short`` are lines that a scale cannot show."""

    ordered: tuple[Ordered, ...]
    service: datetime
    tasks: tuple[Task, ...]
    shopping: tuple[Item, ...]
    short: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


def plan_of(kernel: Kernel, book: Book, ordered: tuple[Ordered, ...], service: datetime, scale: float,
            say: Callable[[Amount], str]) -> Plan:
    """The plan for a service.  ``scale`` is the least step of the scale in grams.  Raises NoPlan."""
    from .plan_parts import batches_of, cautions_of
    from .plan_shopping import shopping_of, short_of
    from .plan_times import tasks_of

    batches = batches_of(kernel, book, ordered)
    tasks, cautions = tasks_of(kernel, book, batches, service)
    shopping, more = shopping_of(kernel, book, batches, say)
    return Plan(ordered, service, tasks, shopping, short_of(kernel, batches, scale, say),
                tuple(dict.fromkeys((*cautions, *more, *cautions_of(kernel, book, batches)))))
