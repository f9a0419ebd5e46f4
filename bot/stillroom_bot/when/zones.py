"""The chat's time zone: said in plain words, kept with its settings, taken from the machine until then."""

from __future__ import annotations

import os
import re
from collections.abc import Mapping
from datetime import UTC, datetime
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError, available_timezones

from .. import phrasing

if TYPE_CHECKING:
    from ..intents import Heard, Talk

KEY = "zone"
_NOISE = re.compile(
    r"^\W*(?:(?:please|ok|okay|now|set|change|use|our|my|the|what'?s|time ?zone|is|are|to|in|it|as|=|:)\b\W*)+", re.I)
_AGAIN = re.compile(r"\b(?:forget|reset|back|default|usual)\b", re.I)


def zone_of(settings: Mapping[str, Any]) -> ZoneInfo:
    """The zone that a chat has set, else the machine's own."""
    return _known(settings.get(KEY)) or own_zone()


def now_in(settings: Mapping[str, Any], now: datetime | None = None) -> datetime:
    """The time (of now) as the chat's clock shows it."""
    return (now or datetime.now(UTC)).astimezone(zone_of(settings))


@cache
def own_zone() -> ZoneInfo:
    """The machine's zone by its IANA name: ``TZ``, the system's own link, else UTC."""
    link = Path("/etc/localtime")
    linked = str(link.resolve()).partition("zoneinfo/")[2] if link.is_symlink() else ""
    return _known(os.environ.get("TZ", "").lstrip(":")) or _known(linked.removeprefix("Etc/")) or ZoneInfo("UTC")


def _known(name: Any) -> ZoneInfo | None:
    """The zone of an IANA name, or None; ``zoneinfo`` keeps those that were asked for."""
    try:
        return ZoneInfo(name) if isinstance(name, str) and name else None
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return None


@cache
def _by_place() -> Mapping[str, tuple[str, ...]]:
    """Full names by themselves and by their last part: ``europe/rome`` and ``rome``."""
    found: dict[str, tuple[str, ...]] = {}
    for name in sorted(available_timezones()):
        if name.startswith(("Etc/", "posix", "right", "SystemV")):
            continue
        for key in {name.lower(), name.rpartition("/")[2].lower()}:
            found[key.replace("_", " ")] = (*found.get(key.replace("_", " "), ()), name)
    return found


def named(text: str) -> tuple[str, ...]:
    """The zones that a name may mean: an IANA name, or its city."""
    said = text.strip(" .!?\"'").lower().replace("_", " ")
    return _by_place().get(said, ())


def hear(talk: Talk) -> Heard:
    """``our time zone is Europe/Rome``: keep it; ``time zone?``: say which it is."""
    said = _NOISE.sub("", talk.text).strip(" .!?")
    settings = dict(talk.state.settings)
    if _AGAIN.search(talk.text):
        settings.pop(KEY, None)
        return phrasing.noted(talk.text, f"Noted: times are in {zone_of(settings).key} again."), \
            talk.state.but(settings=settings)
    if not said:
        return phrasing.noted(talk.text, f"Times here are in {zone_of(settings).key}: it is now "
                              f"{talk.now:%A %H:%M}. Say, for instance, “time zone Europe/Rome”."), talk.state
    found = named(said)
    if len(found) == 1 or (found and said.count("/")):
        settings[KEY] = found[0]
        now = talk.now.astimezone(ZoneInfo(found[0]))
        return phrasing.noted(talk.text, f"Noted: times are in {found[0]}, where it is now {now:%A %H:%M}."), \
            talk.state.but(settings=settings)
    if found:
        return phrasing.asks(talk.text, None, f"Which {said.title()} is meant?", ["time zone"],
                             [f"time zone {n}" for n in found[:4]]), talk.state
    if len(said.split()) > 4:
        return None
    return phrasing.declined(talk.text, f"I know no time zone “{said}”: give it as Europe/Rome or "
                             "America/Chicago, or by the name of such a city."), talk.state
