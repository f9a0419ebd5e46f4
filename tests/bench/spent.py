"""Processor time of a process and of those that it started: less a matter of the neighbours than the clock is."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path

PROC = Path("/proc")


@dataclass(frozen=True)
class Spent:
    """Seconds of a process's own, and of all that came of it."""

    own: float = 0.0
    others: float = 0.0

    def since(self, before: Spent, messages: int) -> str:
        """Milliseconds a message since then, for people; nothing on a system that does not tell."""
        own, others = ((a - b) * 1e3 / messages for a, b in ((self.own, before.own), (self.others, before.others)))
        return f"{own:.2f}" + (f" + {others:.2f}" if others else "")


def spent(pid: int) -> Spent:
    """What a process and its descendants, those of them that still live, have used (Linux; elsewhere nothing)."""
    if not PROC.is_dir():
        return Spent()
    parents, used = {}, {}
    for entry in PROC.iterdir():
        if entry.name.isdecimal():
            try:
                fields = (entry / "stat").read_text().rpartition(")")[2].split()
            except OSError:
                continue
            parents[int(entry.name)] = int(fields[1])
            used[int(entry.name)] = (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")

    def comes_of(child: int) -> bool:
        while child in parents and child != pid:
            child = parents[child]
        return child == pid

    return Spent(used.get(pid, 0.0), sum(used[c] for c in used if c != pid and comes_of(c)))
