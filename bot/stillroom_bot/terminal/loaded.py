"""Which plugins were loaded, how long each took, and what is wrong with them."""

from __future__ import annotations

import json

from stillroom import Kernel


def loaded(kernel: Kernel, as_json: bool = False) -> tuple[int, str]:
    """Exit status (1 if any plugin has errors, or the operator's policy names what is not there) and text."""
    rows = [p.to_json() for p in kernel.plugins.values()]
    status = 1 if kernel.remarks or any(r["errors"] for r in rows) else 0
    if as_json:
        return status, json.dumps(rows, indent=2)
    lines = [] if rows else ["No plugin is installed."]
    for r in rows:
        count = len(r["calculators"])
        lines.append(f"{r['name']} {r['version'] or '-'}: {count} calculator{'' if count == 1 else 's'}, "
                     f"loaded in {r['load_ms']:g} ms{', from ' + r['from'] if r['from'] else ''}")
        lines += [f"  wrong: {e}" for e in r["errors"]]
        lines += [f"  soon wrong: {n}" for n in r["notes"]]
    lines += [f"{name}: off" for name in sorted({*kernel.policy.off} & {*kernel.manager.left_out})]
    lines += [f"wrong in the policy: {text}" for text in kernel.remarks]
    return status, "\n".join(lines)
