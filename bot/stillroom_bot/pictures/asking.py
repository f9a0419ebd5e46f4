"""``draw the plan``; ``plot the strength against added water``; ``draw 40 garden sours against time on ice``."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from stillroom import Amount, Line

from .. import phrasing
from ..board.expand import Unexpandable
from ..board.names import mentions
from ..board.plan import NoPlan
from ..board.plan_asking import plan_again
from ..context import recall
from ..paper.filling import lines_of, strength_of_lines
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
_THAT = frozenset("it that this them the a an our my drink drinks batch mix one last spec".split())
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
    lines = tuple(f"{t.batch.spec.name}: " + (f"start by {say_moment(t.start, talk.now)}" if t.start < plan.service
                                              else "at the service") for t in plan.tasks)
    return Reply("noted", talk.text, title, lines, attachments=(file,)), talk.state


@dataclass(frozen=True, slots=True)
class Drink:
    """``volume`` in ml before any water, and ``abv`` in % by volume; ``weighed`` is what takes up none of it."""

    name: str
    volume: float
    abv: float
    weighed: tuple[str, ...] = ()


class NoCurve(Exception):
    """Why there is nothing to draw, in a sentence."""


def _curve(talk: Talk) -> Heard:
    try:
        drink = _drink(talk)
    except (NoCurve, Unexpandable) as e:
        return phrasing.declined(talk.text, str(e)), talk.state
    said = _UP_TO.search(talk.text)
    most = float(said["n"].replace(",", ".")) * _ML[said["unit"].lower()] if said else None
    title = f"{drink.name}: {_volume(drink.volume)} at {drink.abv:.1f} % vol"
    seconds = _SECONDS.search(talk.text)
    curve = by_ice(talk.kernel, title, drink.volume, drink.abv, float(seconds[1]) if seconds else None) \
        if _ICE.search(talk.text) else by_water(talk.kernel, title, drink.volume, drink.abv, most)
    if curve is None:
        return phrasing.declined(talk.text, "Nothing here can work out that curve."), talk.state
    more = (f"not counted in the volume: {', '.join(drink.weighed)}",) if drink.weighed else ()
    return _told(talk, replace(curve, assumptions=(*curve.assumptions, *more))), talk.state


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


def _drink(talk: Talk) -> Drink:
    """The drink that the message describes, a kept spec, or that of the last answer.  Raises NoCurve, Unexpandable."""
    here = _HERE.search(talk.text)
    if here:
        ml = float(here["n"].replace(",", ".")) * _ML.get(here["unit"].lower(), 1000.0)
        return Drink("The drink", ml, float(here["abv"].replace(",", ".")))
    counted, named = _COUNT.search(talk.text), _OF.search(talk.text)
    said = counted or named
    spec = talk.spec(said["name"].strip()) if said else None
    if spec is None:
        spec = next((m.spec for m in mentions(talk.book, talk.text, lambda word: True)), None)
    if spec is not None:
        serves = spec.makes.value if spec.makes and spec.makes.unit == "count" else 1.0
        lines = lines_of(talk.kernel, talk.book, spec)
        return _poured(talk, spec.name, lines, int(counted["n"]) / serves if counted else 1)
    name = said["name"].strip().casefold() if said else ""
    if talk.book.specs and name and not set(name.split()) <= _THAT:
        raise NoCurve(f"I keep no spec called “{name}”: say “specs” for those I keep.")
    drink = _last(talk)
    if drink is None:
        raise NoCurve("Of which drink? Ask its strength first, or say “plot the strength of 2 l at 30 % against added "
                      "water”.")
    return drink


def _poured(talk: Talk, name: str, lines: Iterable[Line], times: float) -> Drink:
    """So many times some lines poured together; what is weighed takes up no room.  Raises NoCurve."""
    lines = tuple(lines)
    abv, lacking = strength_of_lines(talk.kernel, lines)
    if abv is None:
        raise NoCurve(f"There is no strength of {name} to draw" + (f": {lacking}." if lacking else "."))
    if not abv:
        raise NoCurve(f"{name} holds no alcohol: there is no strength to draw.")
    units = talk.kernel.units
    volume = units["milliliter"].dimension
    ml = sum(x.amount.base for x in lines if x.amount and units[x.amount.unit].dimension == volume)
    if ml <= 0:
        raise NoCurve(f"Nothing in {name} is poured: I cannot tell its volume.")
    weighed = tuple(x.thing for x in lines if x.amount and units[x.amount.unit].dimension != volume)
    return Drink(name, ml * times, abv, weighed)


def _last(talk: Talk) -> Drink | None:
    context = recall(talk.state.last, talk.kernel)
    if context is None:
        return None
    request = context.request
    answer = talk.kernel.answer(request)
    title = talk.kernel.models[request.calculator].calculator.title
    values = {v.name: v.base for v in answer.values}
    if request.spec:
        serves: Amount | None = request.given.get("serves")
        return _poured(talk, "The drink", request.spec, serves.base if serves else 1)
    for volume, strength in UNDILUTED:
        if volume in values and strength in values:
            return Drink(title, values[volume], values[strength] * 100)
    return None


def _volume(ml: float) -> str:
    return f"{ml / 1000:.3g} l" if ml >= 1000 else f"{ml:.3g} ml"
