"""The reply to a message that wants a plan."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from stillroom import Amount, Kernel
from stillroom.answering import say_number

from .. import phrasing
from ..reply import Reply
from ..when.durations import duration_in
from ..when.moments import exactly, say_day, say_moment, say_span, shifted
from ..when.reading import when_in
from ..when.zones import zone_of
from .expand import users
from .plan import Item, NoPlan, Ordered, Plan, Task, plan_of
from .plan_wish import PlanWish, plan_wish
from .spec import KeptSpec

if TYPE_CHECKING:
    from datetime import datetime

    from ..intents import Heard, Talk

SMALL = {"liter": "milliliter", "kilogram": "gram"}
FURTHEST = 400
"""Days ahead for which a plan is made."""
MOVED = re.compile(
    r"^\W*(?:(?:please|ok|now|can you|could you)\b\W*)*(?:move|change|shift|push|make|set)\s+(?:the|our|that)\s+plan\s+"
    r"(?:(?:back|forward|up)\s+)?(?:to|for|at|on)?\s*(?P<when>.+)$", re.I)
_AHEAD = re.compile(r"^\W*(?:for\s+)?in\s+(?P<span>[^,:;]{1,20}?)\s*[,:;-]\s*(?P<rest>.+)$", re.I | re.S)
LARGE = {"milliliter": ("liter", 1000.0), "centiliter": ("liter", 100.0), "gram": ("kilogram", 1000.0)}


def hear(talk: Talk) -> Heard:
    """The plan, or a question back; None for a message that only begins like one."""
    zone = zone_of(talk.state.settings)
    moved = MOVED.match(talk.text)
    if moved is not None:
        return _moved(talk, moved["when"])
    ahead = _AHEAD.match(talk.text)
    span = duration_in(ahead["span"]) if ahead else None
    if ahead is not None and span is not None:
        at = shifted(talk.now, span[0])
        return hear(replace(talk, text=f"plan {exactly(at)}, {ahead['rest']}"))
    wish = plan_wish(talk.text, talk.now, zone, talk.kernel.units)
    if wish.again and not wish.asked:
        plan = plan_again(talk)
        return (_to_buy(talk, plan) if wish.shop else told(talk.text, plan, talk.now, talk.kernel),
                talk.state) if plan else None
    ordered, strange = _ordered(talk, wish)
    if strange and ordered and talk.text.lstrip().casefold().startswith(wish.items[0][0].said.casefold()):
        return None
    if wish.asked and not wish.items and not strange:
        return _of_what(talk, wish)
    if not ordered:
        if not wish.asked or not wish.items or wish.when is None:
            return None
        why = f"I keep no spec called “{strange[0]}”" if talk.book.specs else "No spec is kept here yet"
        return phrasing.declined(talk.text, f"{why}: keep the specs first, then plan by their names."), talk.state
    if strange:
        known, more = ", ".join(s.name for s in talk.book.specs[:6]), len(talk.book.specs) - 6
        known += f" and {more} more" if more > 0 else ""
        return phrasing.declined(talk.text, f"I keep no spec called “{strange[0]}”. I know {known}."), talk.state
    if wish.when is None and not wish.asked and len(ordered) < 2:
        return None
    if wish.when is None:
        return phrasing.asks(talk.text, None, "For when is the plan?", ["day", "time"],
                             understood=f"say it as “Friday 19:00, {', '.join(_said(o) for o in ordered)}”"), talk.state
    asked = _when(talk, wish, ordered)
    if asked is not None:
        return asked
    service = wish.when.moments[0]
    try:
        plan = _plan(talk, ordered, service.at)
    except NoPlan as e:
        return phrasing.declined(talk.text, str(e)), talk.state
    whole = f"plan {exactly(service.at)}, {', '.join(_said(o) for o in ordered)}"
    return told(talk.text, plan, talk.now, talk.kernel, service.note), talk.state.but(
        board={**(talk.state.board or {}), "plan": whole}, open=None)


def _moved(talk: Talk, said: str) -> Heard:
    """The last plan for another hour or day; None where there is none, or no such time is said."""
    plan, zone = plan_again(talk), zone_of(talk.state.settings)
    when = when_in(said, talk.now, zone)
    if plan is None or when is None or not (when.moments or when.days):
        return None
    day = f"{plan.service:%Y-%m-%d} " if not when.days else ""
    hour = f" {plan.service:%H:%M}" if not when.moments else ""
    what = ", ".join(_said(o) for o in plan.ordered)
    return hear(replace(talk, text=f"plan {day}{said.strip(' .!?')}{hour}, {what}"))


def _of_what(talk: Talk, wish: PlanWish) -> Heard:
    """A plan of nothing: the last one once more, else a question back."""
    if wish.when is None and (plan := plan_again(talk)) is not None:
        return told(talk.text, plan, talk.now, talk.kernel), talk.state
    if not talk.book.specs:
        return phrasing.declined(talk.text, "No spec is kept here yet: keep the specs first, then plan by their names."
                                 ), talk.state
    name = next((s for s in talk.book.specs if not users(talk.book, s)), talk.book.specs[0]).name
    return phrasing.asks(talk.text, None, "How many of which, and when?", ["spec", "day", "time"],
                         understood=f"say it as “Friday 19:00, 40 {name}”"), talk.state


def plan_again(talk: Talk) -> Plan | None:
    """The plan that the chat had last, reckoned anew; None where there was none, it is past, or its specs are gone.

    Raises NoPlan.
    """
    said = str((talk.state.board or {}).get("plan", ""))
    wish = plan_wish(said, talk.now, zone_of(talk.state.settings), talk.kernel.units)
    ordered, strange = _ordered(talk, wish)
    if not ordered or strange or wish.when is None or len(wish.when.moments) != 1:
        return None
    if wish.when.moments[0].at <= talk.now:
        return None
    return _plan(talk, ordered, wish.when.moments[0].at)


def _plan(talk: Talk, ordered: tuple[Ordered, ...], service: datetime) -> Plan:
    return plan_of(talk.kernel, talk.book, ordered, service, scale_of(talk.state.settings),
                   lambda a: say(talk.kernel, a))


def scale_of(settings: object) -> float:
    """The step of the chat's scale in grams."""
    return float(settings.get("scale", phrasing.SCALE)) if isinstance(settings, dict) else phrasing.SCALE


def _ordered(talk: Talk, wish: PlanWish) -> tuple[tuple[Ordered, ...], list[str]]:
    ordered, strange = [], list(wish.odd)
    for amount, name in wish.items:
        spec = talk.spec(name)
        if spec is None:
            strange.append(name)
        else:
            ordered.append(Ordered(spec, _batches(talk, spec, amount) if amount.said.endswith("batches") else amount))
    return tuple(ordered), strange


def _batches(talk: Talk, spec: KeptSpec, amount: Amount) -> Amount:
    """So many batches, as what the spec makes of that."""
    one = spec.makes or Amount(1.0, "count", 1.0)
    whole = Amount(one.value * amount.value, one.unit, one.base * amount.value)
    return replace(whole, said=say(talk.kernel, whole))


def _to_buy(talk: Talk, plan: Plan) -> Reply:
    """The shopping list of the last plan."""
    what = ", ".join(_said(o) for o in plan.ordered)
    return Reply("noted", talk.text, f"To buy for {say_moment(plan.service, talk.now)}: {what}.",
                 tuple(map(_bought, plan.shopping)))


def _said(o: Ordered) -> str:
    return f"{o.amount.said or f'{o.amount.value:g}'} {o.spec.name}"


def _when(talk: Talk, wish: PlanWish, ordered: tuple[Ordered, ...]) -> Heard:
    """A question back about the day or the hour; a sentence where it is past; None where it is plain."""
    when = wish.when
    assert when is not None
    what = ", ".join(_said(o) for o in ordered)
    if when.contradicts:
        return talk.asking("Those are different days: which is meant?", "day", {
            say_day(d, talk.now.date()): f"plan {d:%Y-%m-%d}{_hour(when.moments, d)}, {what}" for d in when.days or
            dict.fromkeys(m.at.date() for m in when.moments)})
    if not when.moments:
        if len(when.days) > 1:
            return talk.asking("Which day is meant?", "day", {
                say_day(d, talk.now.date()): f"plan {d:%Y-%m-%d}, {what}" for d in when.days})
        return talk.asking(f"At what time on {say_day(when.days[0], talk.now.date())} is it served?", "time", {
            h: f"plan {when.days[0]:%Y-%m-%d} {h}, {what}" for h in ("18:00", "19:00", "20:00")})
    if len(when.moments) > 1:
        return talk.asking("Which is meant?", "time", {
            say_moment(m.at, talk.now): f"plan {exactly(m.at)}, {what}" for m in when.moments})
    if when.moments[0].at <= talk.now:
        return phrasing.declined(talk.text, f"{say_moment(when.moments[0].at, talk.now)} is past: "
                                 "a plan needs a time ahead."), talk.state
    if (when.moments[0].at - talk.now).days > FURTHEST:
        return phrasing.declined(talk.text, "That is more than a year away: nothing would keep until then."), talk.state
    return None


def _hour(moments: tuple[object, ...], day: object) -> str:
    at = next((m.at for m in moments if m.at.date() == day), None)  # type: ignore[attr-defined]
    return f" {at:%H:%M}" if at is not None else ""


def told(question: str, plan: Plan, now: datetime, kernel: Kernel, note: str = "") -> Reply:
    """A plan as a person reads it: what first, when, of what; then the shopping; then what to beware of."""
    first = plan.tasks[0]
    what = ", ".join(_said(o) for o in plan.ordered)
    head = f"Plan for {say_moment(plan.service, now)}: {what}. "
    if first.start < plan.service:
        head += f"First: {first.batch.spec.name}, by {say_moment(first.start, now)}"
    else:
        head += "Nothing has to stand before"
    steps = [line for n, t in enumerate(plan.tasks, 1) for line in _task(n, t, plan, now, kernel)]
    shopping = [_bought(i) for i in plan.shopping]
    late = [f"{t.batch.spec.name} should have been started {say_span((now - t.start).total_seconds())} ago."
            for t in plan.tasks if t.start < now]
    cautions = [*late, *plan.cautions]
    if plan.short:
        cautions.append(f"Too little for the scale, less than ten of its steps: {'; '.join(plan.short)}. "
                        "Make more of it, or a stock solution.")
    body = [*steps, "To buy:", *shopping, *(f"Beware: {c}" for c in cautions)]
    body.append("Taken for granted: hours of rest only, no time for handwork; yields and keeping times are the tables'"
                + (f"; {note}" if note else "") + ".")
    body.append("Say “draw the plan” for a picture, “remind me of the plan” to be told at each start.")
    return Reply("noted", question, head + ".", tuple(body), data={"steps": steps, "cautions": cautions})


def _bought(item: Item) -> str:
    why = "; ".join(filter(None, (f"for {item.need}", item.note)))
    return f"• {item.thing}: {item.buy}" + ("" if item.need == item.buy else f" ({why})")


def _task(n: int, task: Task, plan: Plan, now: datetime, kernel: Kernel) -> Iterator[str]:
    batch = task.batch
    amount = f"{batch.amount.value:g}" if kernel.units[batch.amount.unit].kind == "count" else say(kernel, batch.amount)
    when = "at the service" if task.start == plan.service else f"start by {say_moment(task.start, now)}"
    if task.rest:
        when += f", stands {say_span(task.rest)}"
    if task.earliest is not None and task.start < plan.service:
        when += f", not before {say_moment(task.earliest, now)}"
    parts = ", ".join(f"{say(kernel, x.amount)} {x.thing}".strip() if x.amount else x.thing for x in batch.lines)
    yield f"{n}. {batch.spec.name}, {amount}: {when}. {parts}."


def say(kernel: Kernel, amount: Amount) -> str:
    """An amount as one measures it: litres and kilograms from a thousand on, millilitres and grams below."""
    unit = kernel.units[amount.unit]
    value = amount.value
    if unit.name in SMALL and value < 1:
        unit, value = kernel.units[SMALL[unit.name]], value * 1000
    if unit.name in LARGE and value >= LARGE[unit.name][1]:
        larger, step = LARGE[unit.name]
        unit, value = kernel.units[larger], value / step
    if unit.kind == "count":
        return f"{value:g}" if value == round(value) else say_number(value)
    return f"{say_number(value)} {unit.symbol or unit.name.replace('_', ' ')}"
