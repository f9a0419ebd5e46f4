"""The names of days and months, whole and short, with their numbers: Monday is 0, January 1."""

from __future__ import annotations

DAYS = {name[:n]: k for k, name in enumerate(
    "monday tuesday wednesday thursday friday saturday sunday".split()) for n in (3, len(name))} | {
    "tues": 1, "thur": 3, "thurs": 3, "weds": 2}
MONTHS = {name[:n]: k for k, name in enumerate(
    """january february march april may june july august september october november december""".split(), 1)
    for n in (3, len(name))} | {"sept": 9}
