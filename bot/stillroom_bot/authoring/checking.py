"""``stillroom plugin check``: the check in a process of its own, with a limit of time, and its report."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import threading
from collections.abc import Iterator
from dataclasses import dataclass, field
from queue import Empty, Queue
from typing import Any

from .finding import Finding, counted, told
from .target import NoTarget, sources

PATIENCE = 30.0


@dataclass(slots=True)
class Checkup:
    """What came of a check: ``heads`` of the plugins, ``findings``."""

    heads: list[dict[str, Any]] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)


def check_plugin(name: str, as_json: bool = False, strict: bool = False, patience: float = PATIENCE) -> tuple[int, str]:
    """Exit status and text: 0 nothing is wrong, 1 something is (``strict``: or gives cause), 2 no such plugin.

    ``patience`` is how many seconds one step may take before the plugin counts as one that does not end.
    """
    path = list(sys.path)
    try:
        sources(name)
    except NoTarget as e:
        return 2, str(e)
    finally:
        sys.path[:] = path
    checkup = run(name, patience)
    count = counted(checkup.findings)
    status = 1 if count["error"] or (strict and count["warning"]) else 0
    if as_json:
        return status, json.dumps({"plugins": checkup.heads, "findings": [f.to_json() for f in checkup.findings],
                                   "ready": not status}, indent=2)
    return status, "\n".join(_report(checkup, count, status))


def run(name: str, patience: float = PATIENCE) -> Checkup:
    """Check in a child process, which is ended when a step takes more than ``patience`` seconds."""
    lines: Queue[dict[str, Any] | None] = Queue()
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(p for p in sys.path if p), "PYTHONUNBUFFERED": "1"}
    child = subprocess.Popen([sys.executable, "-m", "stillroom_bot.authoring.child", name], stdout=subprocess.PIPE,
                             stderr=subprocess.DEVNULL, stdin=subprocess.DEVNULL, env=environment)

    def read() -> None:
        assert child.stdout is not None
        for raw in child.stdout:
            lines.put(json.loads(raw))
        lines.put(None)

    reader = threading.Thread(target=read, daemon=True)
    reader.start()
    try:
        return _gathered(name, lines, patience)
    finally:
        child.kill()
        child.wait()
        reader.join(5)


def _gathered(name: str, lines: Queue[dict[str, Any] | None], patience: float) -> Checkup:
    checkup, doing = Checkup(), "starting"
    while True:
        try:
            line = lines.get(timeout=patience)
        except Empty:
            checkup.findings.append(Finding(
                "error", name, f"it does not end: {doing} took more than {patience:g} s",
                "Look for a loop without an end, or for a Function that is too slow to be called a thousand times."))
            return checkup
        if line is None:
            checkup.findings.append(Finding("error", name, f"it ended the whole process while {doing}",
                                            "Nothing in a plugin may exit, or crash the interpreter."))
            return checkup
        if "done" in line:
            return checkup
        doing = line.get("doing", doing)
        if "finding" in line:
            checkup.findings.append(Finding(**line["finding"]))
        if "head" in line:
            checkup.heads = [h for h in checkup.heads if h["from"] != line["head"]["from"]] + [line["head"]]


def _report(checkup: Checkup, count: dict[str, int], status: int) -> Iterator[str]:
    for head in checkup.heads:
        origin = f", from {head['from']}" if head["from"] else ""
        yield f"{head['name']} {head['version'] or 'without a version'}{origin}: loaded in {head['load_ms']:g} ms"
        for c in head["calculators"]:
            yield (f"  {c['name']}: {c['points']} points solved in {c['directions']} directions, "
                   f"{c['examples']} example{'' if c['examples'] == 1 else 's'}")
        if head["first_answer_ms"] is not None:
            later = f", the next {head['answer_ms']:g} ms" if head["answer_ms"] is not None else ""
            yield f"  the first answer takes {head['first_answer_ms']:g} ms{later}"
    yield from told(checkup.findings)
    many = [f"{n} {level}{'' if n == 1 else 's'}" for level, n in count.items() if n]
    yield f"{', '.join(many) or 'Nothing found'}: {'not ready.' if status else 'ready.'}"
