"""A PostgreSQL server of the tests' own: the system's programs, a folder that goes away, a socket and no port."""

from __future__ import annotations

import os
import pwd
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

PLACES = ("/usr/lib/postgresql/*/bin", "/usr/local/bin", "/usr/bin", "/opt/homebrew/bin", "/usr/local/pgsql/bin")
ABSENT = "no PostgreSQL on this machine: neither initdb nor pg_ctl in " + ", ".join(PLACES)
SETTINGS = "-c listen_addresses='' -c fsync=off -c max_connections=40 -c shared_buffers=16MB"


def programs() -> Path | None:
    """The folder of initdb and pg_ctl, of the newest version there is; None where there is none."""
    found = [p for place in PLACES for p in Path("/").glob(place.lstrip("/")) if (p / "initdb").exists()]
    found = [p for p in found if (p / "pg_ctl").exists()]
    return max(found, key=lambda p: (p.parent.name.isdigit(), p.parent.name.zfill(4)), default=None)


def _unprivileged() -> dict[str, object]:
    """Whom to run the server as: it refuses to run as root."""
    if os.geteuid() != 0:
        return {}
    for name in ("postgres", "nobody"):
        try:
            who = pwd.getpwnam(name)
        except KeyError:
            continue
        return {"user": who.pw_uid, "group": who.pw_gid, "extra_groups": []}
    raise RuntimeError("there is neither a user postgres nor nobody to run PostgreSQL as")


@contextmanager
def server() -> Iterator[str]:
    """A running server; gives the URL of its databases, with ``{}`` for a database's name."""
    bin = programs()
    assert bin is not None, ABSENT
    folder = Path(tempfile.mkdtemp(prefix="pg-", dir="/tmp"))
    who = _unprivileged()
    if who:
        os.chown(folder, who["user"], who["group"])  # type: ignore[arg-type]
    data = folder / "data"

    def run(program: str, *arguments: str) -> None:
        done = subprocess.run([str(bin / program), *arguments], stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                              stderr=subprocess.STDOUT, text=True, cwd=folder, env={"PATH": f"{bin}:/usr/bin:/bin"},
                              **who)  # type: ignore[call-overload]
        if done.returncode:
            raise RuntimeError(f"{program} failed: {done.stdout}")

    try:
        run("initdb", "--no-sync", "--auth=trust", "--username=stillroom", "--encoding=UTF8", "--locale=C", str(data))
        run("pg_ctl", "start", "-w", "-D", str(data), "-l", str(folder / "log"), "-o", f"-k {folder} {SETTINGS}")
        try:
            yield f"postgresql://stillroom@/{{}}?host={folder}"
        finally:
            run("pg_ctl", "stop", "-w", "-m", "immediate", "-D", str(data))
    finally:
        shutil.rmtree(folder, ignore_errors=True)
