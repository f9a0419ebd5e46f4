"""The worst case: how long a message takes as it grows from 64 to 4096 characters."""

from __future__ import annotations

from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

from stillroom import Kernel
from stillroom_bot.conversation import Conversation
from timing import QUICK, said, seconds

SIZES = (64, 128, 256, 512, 1024, 2048, 4096)


def kinds(kernel: Kernel) -> dict[str, str]:
    """For each kind of message a long text to cut from."""
    draw = Random(20)
    questions = [q for m in kernel.models.values() for q, _ in m.calculator.examples]
    words = sorted({w for m in kernel.models.values() for v in m.variables.values() for w in v.words})
    return {
        "questions": " ".join(draw.choices(questions, k=120)),
        "trade words": " ".join(draw.choices(words, k=900)),
        "no words": " ".join("".join(draw.choices("bcdfghaeiou", k=draw.randint(3, 9))) for _ in range(900)),
        "numbers": " ".join(str(draw.randint(1, 999)) for _ in range(1500)),
        "amounts": " ".join(f"{draw.randint(1, 99)} {draw.choice(('ml', 'g', '%', 'oz'))}" for _ in range(900)),
        "a spec": "scale to 40: " + ", ".join(
            f"{draw.randint(5, 60)} ml {draw.choice(('gin', 'lime juice', 'syrup'))}" for _ in range(400)),
        "one word": "a" * 4096,
        "one number": "9" * 4096,
        "marks": "((" * 2048,
        "commas": "," * 4096,
        "spaces": "5" + " " * 4094 + "l",
        "dates": "9." * 2048,
        "what it is": "a: 5 ml b, " * 380,
        "less": "10 ml less " * 380,
    }


def main() -> None:
    """Print the table, and the ratio of the slowest message of 4096 characters to that of 64."""
    slowest = dict.fromkeys(SIZES, 0.0)
    with TemporaryDirectory() as folder:
        kernel = Kernel(Path(folder))
        talk = Conversation(kernel)
        print(f"{'characters':<12}" + "".join(f"{n:>9}" for n in SIZES))
        for kind, text in kinds(kernel).items():
            row = []
            for n in SIZES:
                message = text[:n]
                talk.answer(message)
                row.append(min(seconds(lambda m=message: talk.answer(m)) for _ in range(1 if QUICK else 5)))
                slowest[n] = max(slowest[n], row[-1])
            print(f"{kind:<12}" + "".join(f"{said(t):>9}" for t in row))
    print(f"{'slowest':<12}" + "".join(f"{said(t):>9}" for t in slowest.values()))
    print(f"ratio {slowest[4096] / slowest[64]:.3g}")


if __name__ == "__main__":
    main()
