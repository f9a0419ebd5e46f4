"""What is asked twice is answered the same, in whatever order a process keeps its sets."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

ASKED = """
from stillroom import Kernel
from stillroom_bot.conversation import Conversation
from pathlib import Path
import sys
kernel = Kernel(Path(sys.argv[1]))
talk = Conversation(kernel)
questions = [q for m in kernel.models.values() for q, _ in m.calculator.examples][::6]
for q in (*questions, "1 L bottle costs $20.50. What's one fluid ounce running me?"):
    reply, _ = talk.answer(q)
    print(ascii((q, reply.status, reply.text)))
"""


def test_the_order_of_sets_decides_nothing(tmp_path: Path) -> None:
    told = []
    for seed in ("0", "1", "77"):
        done = subprocess.run([sys.executable, "-c", ASKED, str(tmp_path)], capture_output=True, text=True, check=True,
                              env={**os.environ, "PYTHONHASHSEED": seed}, timeout=300)
        told.append(done.stdout.splitlines())
    assert len(told[0]) > 20
    assert told[0] == told[1] == told[2]
