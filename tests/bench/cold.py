"""A process that answers one question, caches warm, against a process that imports pint and converts once.

Both have run once before, and both keep their bytecode, as Python does unless it is told not to.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from timing import against, said

QUESTION = "how much salt for 250 ml of 20 % saline?"
PINT = "import pint; ureg = pint.UnitRegistry(); print((250 * ureg.milliliter).to('fluid_ounce'))"


def main() -> None:
    """Print the ratio."""
    script = Path(sys.executable).with_name("stillroom")
    ask = [str(script)] if script.exists() else [sys.executable, "-m", "stillroom_bot.cli"]
    with TemporaryDirectory() as folder:
        where = {**os.environ, "STILLROOM_CACHE": folder, "STILLROOM_DATA": folder, "PYTHONPYCACHEPREFIX": folder}
        where.pop("PYTHONDONTWRITEBYTECODE", None)

        def run(command: list[str]) -> None:
            subprocess.run(command, env=where, check=True, stdout=subprocess.DEVNULL)

        mine, pint = [*ask, "ask", QUESTION], [sys.executable, "-c", PINT]
        run(mine), run(pint)
        ours, theirs, ratio = against(lambda: run(mine), lambda: run(pint), 11)
    print(f"stillroom ask {said(ours)}, pint's default registry and one conversion {said(theirs)} a process")
    print(f"ratio {ratio:.3g}")


if __name__ == "__main__":
    main()
