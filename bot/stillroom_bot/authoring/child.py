"""The process in which a plugin is checked: ``python -m stillroom_bot.authoring.child NAME``.

It writes a JSON object a line: what it is ``doing``, a ``finding``, the ``head`` of a plugin, and ``done`` at the end.
What the plugin itself prints goes to standard error.
"""

from __future__ import annotations

import json
import os
import sys
from statistics import median
from typing import Any

from .finding import Finding
from .stages import Checked
from .target import sources


def main(name: str) -> None:
    """Check the plugins that a name stands for."""
    out = os.fdopen(os.dup(1), "w", encoding="utf-8")
    os.dup2(2, 1)

    def tell(**line: Any) -> None:
        out.write(json.dumps(line) + "\n")
        out.flush()

    for source in sources(name):
        checked = Checked(source, lambda what: tell(doing=what))
        tell(head=head(checked))
        try:
            for finding in checked.stages():
                tell(finding=finding.to_json())
        except Exception as e:  # a stranger's code may raise anything
            tell(finding=Finding("error", source.name, f"it fails with {type(e).__name__}: {e}").to_json())
        tell(head=head(checked))
    tell(done=True)


def head(checked: Checked) -> dict[str, Any]:
    """What is known of the plugin so far; times are in milliseconds."""
    times, plugin = checked.times, checked.plugin
    return {"name": plugin.name, "version": plugin.version, "from": plugin.origin,
            "load_ms": round(plugin.seconds * 1000, 1),
            "first_answer_ms": round(times[0] * 1000, 1) if times else None,
            "answer_ms": round(median(times[1:]) * 1000, 1) if times[1:] else None,
            "calculators": [{"name": id, "points": r.points, "directions": r.asked,
                             "examples": len(checked.alone.model(id).calculator.examples)}
                            for id, r in checked.reports.items()]}


if __name__ == "__main__":
    main(sys.argv[1])
