"""A whole answer (read, solve, phrase), warm, against quantulum3 that only extracts the quantities.

    python tests/bench/answer.py [FILE]     a sentence a line; without a file, every calculator's examples
"""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

from quantulum3 import parser
from stillroom import Kernel
from stillroom_bot.conversation import Conversation
from timing import QUICK, against, arguments, said


def sentences(kernel: Kernel) -> list[str]:
    """The sentences of the file named, else the examples."""
    if names := arguments():
        return [x.strip() for x in Path(names[0]).read_text("utf-8").splitlines() if x.strip()]
    return [q for m in kernel.models.values() for q, _ in m.calculator.examples]


def readable(text: str) -> bool:
    """Whether quantulum3 gets through a sentence."""
    try:
        parser.parse(text)
    except Exception:
        return False
    return True


def main() -> None:
    """Print the ratio."""
    with TemporaryDirectory() as folder:
        kernel = Kernel(Path(folder))
        talk = Conversation(kernel)
        every = sentences(kernel)[:12 if QUICK else None]
        texts = [t for t in every if readable(t)]
        status = [talk.answer(t)[0].status for t in every]
        ours, theirs, ratio = against(
            lambda: [talk.answer(t) for t in texts], lambda: [parser.parse(t) for t in texts], 7)
    print(f"{len(texts)} sentences ({len(every) - len(texts)} more broke quantulum3), "
          f"{status.count('answered')} of {len(every)} answered")
    print(f"whole answer {said(ours / len(texts))}, quantulum3's extraction {said(theirs / len(texts))} a sentence")
    print(f"ratio {ratio:.3g}")


if __name__ == "__main__":
    main()
