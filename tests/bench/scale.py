"""A thousand synthetic calculators, their vocabularies overlapping with ours, beside the project's own.

    python tests/bench/scale.py [COUNT]
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from random import Random
from statistics import median
from tempfile import TemporaryDirectory
from types import SimpleNamespace

from stillroom import Calculator, Kernel, hookimpl, var
from stillroom_bot.conversation import Conversation
from timing import QUICK, against, arguments, said, seconds

SHAPES = (
    ("gram", "milliliter", "gram / milliliter", "a = b * c"),
    ("milliliter", "milliliter", "dimensionless", "a = b * c"),
    ("milliliter", "milliliter", "count", "a = b * c"),
    ("gram", "gram", "percent_ww", "a = b * c"),
    ("currency", "count", "currency", "a = b * c"),
    ("gram", "gram", "gram", "a = b + c"),
)


def invented(draw: Random) -> str:
    """A word that nobody uses."""
    return "".join(draw.choice("bdfklmnprstvz") + draw.choice("aeiou") for _ in range(draw.randint(2, 4)))


def synthetic(count: int, borrowed: list[str]) -> list[Calculator]:
    """Calculators of three variables; about a third of their words are borrowed, the rest invented and shared."""
    draw = Random(1000)
    pool = [invented(draw) for _ in range(2 * count)]

    def words(n: int) -> str:
        return ", ".join(dict.fromkeys(draw.choice(borrowed if draw.random() < 0.35 else pool) for _ in range(n)))

    made = []
    for i in range(count):
        a, b, c, equation = draw.choice(SHAPES)
        parts = [var(n, u, words(draw.randint(2, 5))) for n, u in zip("abc", (a, b, c), strict=True)]
        made.append(Calculator(f"job{i}", f"Synthetic job {i}", *parts, equations=[equation], words=words(4),
                               source="none: made up for timing"))
    return made


def plugin(calculators: list[Calculator]) -> SimpleNamespace:
    """A plugin that offers them."""
    @hookimpl
    def stillroom_calculators() -> Iterable[Calculator]:
        return calculators

    return SimpleNamespace(stillroom_calculators=stillroom_calculators)


def main() -> None:
    """Print start-up and warm answers of both, and the ratio of the warm answers."""
    count = int((arguments() or ["1000"])[0])
    with TemporaryDirectory() as folder:
        cache = Path(folder)

        def own() -> Conversation:
            return Conversation(Kernel(cache))

        alone = own()
        models = alone.kernel.models.values()
        questions = [q for m in models for q, _ in m.calculator.examples][:12 if QUICK else None]
        borrowed = sorted({w for m in models for v in m.variables.values() for w in v.words})
        extra = plugin(synthetic(count, borrowed))

        def both() -> Conversation:
            kernel = Kernel(cache)
            added = kernel.add("synthetic", extra)
            if added.errors:
                raise SystemExit("\n".join(added.errors[:5]))
            return Conversation(kernel)

        first = seconds(both)
        crowded = both()
        start = [(seconds(own), seconds(both)) for _ in range(2 if QUICK else 5)]
        told = [[t.answer(q)[0].to_json()["answer"] for q in questions] for t in (alone, crowded)]
        ours, theirs, ratio = against(
            lambda: [crowded.answer(q) for q in questions], lambda: [alone.answer(q) for q in questions], 5)
        same = sum(a == b for a, b in zip(*told, strict=True))
        print(f"{len(models)} calculators of our own, {len(crowded.kernel.models) - len(models)} synthetic; "
              f"{len(questions)} questions, {same} answered alike")
        print(f"start-up {said(median(a for a, _ in start))} alone, {said(median(b for _, b in start))} with them, "
              f"{said(first)} the first time")
        print(f"warm answer {said(theirs / len(questions))} alone, {said(ours / len(questions))} with them")
        print(f"start-up ratio {median(b / a for a, b in start):.3g}")
        print(f"ratio {ratio:.3g}")


if __name__ == "__main__":
    main()
