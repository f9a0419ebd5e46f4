"""``draw the plan``; ``plot the strength against added water``; ``draw 40 garden sours against time on ice``."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from stillroom import Amount

from .. import phrasing
from ..board import KeptSpec
from ..board.plan import NoPlan
from ..board.plan_asking import plan_again
from ..board.plan_parts import serve_of
from ..context import recall
from ..paper.filling import strength_of, strength_of_lines
from ..places import Unavailable
from ..reply import Attachment, Reply
from ..when.moments import say_moment
from .curve import Curve, by_ice, by_water
from .drawing import draw_curve, draw_plan

if TYPE_CHECKING:
    from ..intents import Heard, Talk

_PLAN = re.compile(r"\b(?:plan|timeline)\b", re.I)
_WATER = re.compile(r"\b(?:strength|dilution|abv|water|ice)\b", re.I)
_ICE = re.compile(r"\b(?:ice|time|seconds|stirring|shaking)\b", re.I)
_SECONDS = re.compile(r"\bup to\s+(\d{1,3})\s*(?:s|sec|seconds)\b", re.I)
_END = r"\s*(?:\b(?:against|over|by|as|with|up to|when)\b.*)?$"
_OF = re.compile(rf"\bof\s+(?:the\s+|our\s+)?(?P<name>[^\d,;]+?){_END}", re.I)
_COUNT = re.compile(rf"\b(?P<n>\d{{1,4}})\s+(?P<name>[^\d,;]+?){_END}", re.I)
_UP_TO = re.compile(r"\bup to\s+(?P<n>\d+(?:[.,]\d+)?)\s*(?P<unit>ml|cl|l)\b", re.I)
_HERE = re.compile(r"(?P<n>\d+(?:[.,]\d+)?)\s*(?P<unit>ml|cl|l|litres?|liters?)\b.*?(?P<abv>\d+(?:[.,]\d+)?)\s*%", re.I)
_ML = {"ml": 1.0, "cl": 10.0, "l": 1000.0}
UNDILUTED = (("volume", "abv"), ("volume", "abv_from"), ("total", "strength"))
"""Names of a volume and of its strength, in an answer that has both."""


def hear(talk: Talk) -> Heard:
    """The reply with its picture; None for a message that wants something else drawn."""
    try:
        if _PLAN.search(talk.text):
            return _plan(talk)
        if _WATER.search(talk.text):
            return _curve(talk)
    except Unavailable as e:
        return phrasing.declined(talk.text, str(e)), talk.state
    except NoPlan as e:
        return phrasing.declined(talk.text, str(e)), talk.state
    return None


def _plan(talk: Talk) -> Heard:
    plan = plan_again(talk)
    if plan is None:
        return phrasing.declined(talk.text, "There is no plan to draw yet: say, for instance, “Friday 19:00, 40 …”, "
                                 "with the names of your specs."), talk.state
    title = f"{say_moment(plan.service, talk.now)}: " + ", ".join(
        f"{o.amount.said or f'{o.amount.value:g}'} {o.spec.name}" for o in plan.ordered)
    file = Attachment("plan.png", "image/png", draw_plan(plan, title if len(title) < 180 else title[:179] + "…"), title)
    lines = tuple(f"{t.batch.spec.name}: start by {say_moment(t.start, talk.now)}" for t in plan.tasks)
    return Reply("noted", talk.text, title, lines, attachments=(file,)), talk.state


def _curve(talk: Talk) -> Heard:
    drink = _drink(talk)
    if drink is None:
        return phrasing.declined(talk.text, "Of which drink? Ask its strength first, or say “plot the strength of "
                                 "2 l at 30 % against added water”."), talk.state
    name, volume, abv = drink
    said = _UP_TO.search(talk.text)
    most = float(said["n"].replace(",", ".")) * _ML[said["unit"].lower()] if said else None
    title = f"{name}: {_volume(volume)} at {abv:.1f} % vol"
    seconds = _SECONDS.search(talk.text)
    curve = by_ice(talk.kernel, title, volume, abv, float(seconds[1]) if seconds else None) if _ICE.search(talk.text) \
        else by_water(talk.kernel, title, volume, abv, most)
    if curve is None:
        return phrasing.declined(talk.text, "Nothing here can work out that curve."), talk.state
    return _told(talk, curve), talk.state


def _told(talk: Talk, curve: Curve) -> Reply:
    name = re.sub(r"[^a-z0-9]+", "-", curve.title.lower()).strip("-")[:40]
    file = Attachment(f"{name or 'curve'}.png", "image/png", draw_curve(curve), curve.title)
    unit = curve.axis.rpartition(" ")[2]
    lines = tuple(f"{m.name}: {m.strength:.1f} % vol, {m.dilution:.1f} % dilution at {m.x:.3g} {unit}"
                  for m in curve.marks)
    lines += tuple(f"{x.name}, {x.x[n]:.3g} {unit}: {x.strength[n]:.1f} % vol, {x.dilution[n]:.1f} % dilution"
                   for x in curve.series if x.name for n in (len(x.x) // 3, -1))
    return Reply("noted", talk.text, f"{curve.title}, against {curve.axis}", (
        *lines, f"Taken for granted: {'; '.join(curve.assumptions)}."), attachments=(file,))


def _drink(talk: Talk) -> tuple[str, float, float] | None:
    """A name, ml before any water, and % by volume: as the message says, of a kept spec, or of the last answer."""
    here = _HERE.search(talk.text)
    if here:
        ml = float(here["n"].replace(",", ".")) * _ML.get(here["unit"].lower(), 1000.0)
        return "The drink", ml, float(here["abv"].replace(",", "."))
    counted, named = _COUNT.search(talk.text), _OF.search(talk.text)
    said = counted or named
    spec = talk.spec(said["name"].strip()) if said else None
    if spec is not None:
        one, (strength, _) = serve_of(talk.kernel, spec), strength_of(talk.kernel, talk.book, spec)
        n = int(counted["n"]) if counted else 1
        return (spec.name, n * one, strength) if one and strength else None
    return _last(talk)


def _last(talk: Talk) -> tuple[str, float, float] | None:
    context = recall(talk.state.last, talk.kernel)
    if context is None:
        return None
    request = context.request
    answer = talk.kernel.answer(request)
    title = talk.kernel.models[request.calculator].calculator.title
    values = {v.name: v.base for v in answer.values}
    if request.spec:
        abv = strength_of_lines(talk.kernel, request.spec)[0]
        ml = serve_of(talk.kernel, KeptSpec(0, title, request.spec))
        serves: Amount | None = request.given.get("serves")
        return ("The drink", ml * (serves.base if serves else 1), abv) if abv and ml else None
    for volume, strength in UNDILUTED:
        if volume in values and strength in values:
            return title, values[volume], values[strength] * 100
    return None


def _volume(ml: float) -> str:
    return f"{ml / 1000:.3g} l" if ml >= 1000 else f"{ml:.3g} ml"
