"""Work out or check the corpus's expected numbers from their own `calc` expressions.

    python compute.py --check     exit 1 and list the rows whose stored value is off by over 1e-6 (relative)
    python compute.py --write     store the computed values

They are evaluated with the names that `figures.py` beside it exports.
"""

import argparse
import json
import math
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import figures

HERE = Path(__file__).resolve().parent
HALVES = ("*_dev.jsonl", "*_held.jsonl")
BUILTINS = {"abs": abs, "max": max, "min": min, "round": round, "sum": sum}
REL_TOL = 1e-6

Row = dict[str, Any]


def expectations(row: Row) -> Iterator[tuple[str, Row, str | None, bool]]:
    """Each (label, entry that holds the value, calc, needs one) of a row or of a dialogue's turns."""
    for n, part in enumerate(row.get("turns", [row]), 1):
        label = f"{row['id']} turn {n}" if "turns" in row else row["id"]
        expect = part.get("expect", {})
        if "calc" in part or "value" in expect:
            yield label, expect, part.get("calc"), True
        for k, entry in enumerate(expect.get("also", []), 1):
            yield f"{label} also {k}", entry, entry.get("calc"), entry.get("value") is None


def load(path: Path) -> list[Row]:
    return [json.loads(line) for line in path.read_text(encoding="utf-8").splitlines() if line.strip()]


def check(rows: list[Row], scope: dict[str, Any]) -> list[str]:
    """Complaints about values that are not what their calc gives; an `also` without calc is left alone."""
    found = []
    for row in rows:
        for label, entry, calc, needed in expectations(row):
            stored = entry.get("value")
            if calc is None:
                if needed:
                    found.append(f"{label}: no calc")
                continue
            value = float(eval(calc, scope))
            if stored is None or not math.isclose(stored, value, rel_tol=REL_TOL):
                found.append(f"{label}: stored {stored}, {calc} = {value:.10g}")
    return found


def write(path: Path, rows: list[Row], scope: dict[str, Any]) -> None:
    for row in rows:
        for _, entry, calc, _ in expectations(row):
            if calc is not None:
                entry["value"] = float(f"{float(eval(calc, scope)):.10g}")
    lines = [json.dumps(row, ensure_ascii=False) for row in rows]
    path.write_text("\n".join(lines) + "\n", encoding="utf-8")


def main() -> int:
    parser = argparse.ArgumentParser(description="Check or store the corpus's expected numbers.")
    mode = parser.add_mutually_exclusive_group(required=True)
    mode.add_argument("--check", action="store_true", help="list differing rows, exit 1 if any")
    mode.add_argument("--write", action="store_true", help="store the computed values")
    parser.add_argument("--part", help="only this letter, e.g. a")
    args = parser.parse_args()

    scope = {name: getattr(figures, name) for name in figures.__all__} | {"__builtins__": BUILTINS}
    complaints: list[str] = []
    total, seen = 0, set[str]()
    for path in sorted(p for half in HALVES for p in HERE.glob(half)):
        if args.part not in (None, path.name.split("_")[0]):
            continue
        rows = load(path)
        total += len(rows)
        complaints += [f"{path.name}: {row['id']} appears twice" for row in rows if row["id"] in seen]
        seen.update(row["id"] for row in rows)
        if args.write:
            write(path, rows, scope)
        complaints += [f"{path.name}: {line}" for line in check(rows, scope)]
    print("\n".join([*complaints, f"{total} rows, {len(complaints)} complaints"]))
    return 1 if complaints or not total else 0


if __name__ == "__main__":
    sys.exit(main())
