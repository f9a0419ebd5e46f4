"""How a message was read: tokens, numbers, what is asked, the readings with their scores, and what lost.

The tool with which a calculator's author finds out why a question went elsewhere.
"""

from __future__ import annotations

from collections.abc import Iterator

from .reading.deciding import Decision, Outcome
from .reading.message import Message
from .reading.quantity import Quantity

MOST = 5


def explain(message: Message, decision: Decision, margin: float) -> str:
    """The reading of a message as text, the reading that won first."""
    return "\n".join(_lines(message, decision, margin))


def _lines(m: Message, decision: Decision, margin: float) -> Iterator[str]:
    yield "words     " + " ".join(t.text.replace("\n", "⏎") for t in m.tokens)
    if m.mended:
        yield "mended    " + ", ".join(f"{a} read as {b}" for a, b in m.mended)
    for k, q in enumerate(m.quantities):
        noun = m.nouns[k]
        cues = ", ".join(f"{role} {w:.1f}" for role, w in sorted(m.cues[k].items(), key=lambda c: -c[1]) if w >= 0.4)
        yield (
            f"number    {m.words(q.first, q.last)!r}: {_quantity(q)}"
            + (f" of {m.words(*noun)!r}" if noun else "")
            + (f"; cues: {cues}" if cues else "")
        )
    zones = [repr(m.words(a, b)) for a, b in m.asked.zones]
    units = [" or ".join(u) for u in m.asked.units]
    yield "asked     " + (", ".join(zones) or "nothing named") + (f"; in {', '.join(units)}" if units else "")
    if not decision.outcomes:
        yield "readings  none: no calculator shares enough words with the message"
    for n, o in enumerate(decision.outcomes[:MOST]):
        yield from _outcome(n, o, m)
    yield "decision  " + _decision(decision, margin)


def _quantity(q: Quantity) -> str:
    if q.noise:
        return f"no part of the job ({q.noise})"
    if q.ratio is not None:
        return f"ratio {q.ratio[0]:g} to {q.ratio[1]:g}"
    unit = " or ".join(q.units) or "no unit"
    if q.per is not None:
        unit += f" per {q.per[1]:g} {q.per[0]}"
    return (
        f"{q.value:g} {unit}"
        + (f" (or {q.other:g})" if q.other is not None else "")
        + (" (rejected)" if q.rejected else "")
    )


def _outcome(n: int, o: Outcome, m: Message) -> Iterator[str]:
    c, r = o.reading.candidate, o.reading.request
    parts = ", ".join(f"{name} {worth:+.1f}" for name, worth in c.parts.items())
    yield f"reading {n + 1} {r.calculator}, score {o.score:.2f} ({parts})"
    for u in c.uses:
        if u.quantity < len(m.quantities):
            q = m.quantities[u.quantity]
            yield f"            {u.variable} = {m.words(q.first, q.last)} ({u.score:+.2f}, words {u.evidence:.1f})"
    if c.rows:
        yield "            " + ", ".join(f"{k} is {v}" for k, v in c.rows.items())
    left = [m.words(m.quantities[k].first, m.quantities[k].last) for k in c.unused if k < len(m.quantities)]
    if left:
        yield "            left over: " + ", ".join(left)
    said = o.answer.reason or ", ".join(f"{v.name} {v.value:.6g} {v.unit}" for v in o.answer.answer)
    yield f"            wanted {', '.join(r.wanted) or 'the lines'}: {o.answer.status}: {said}"


def _decision(d: Decision, margin: float) -> str:
    if d.best is None:
        return "declined: no reading scores enough"
    if d.doubts:
        return "asks: " + "; ".join(x or "a number goes against the words around it" for x in d.doubts)
    if d.rivals and d.best.answer.status == "answered":
        return f"asks: {len(d.rivals)} other reading(s) with another answer within {margin} of the first"
    return f"gives the first reading: {d.best.answer.status}"
