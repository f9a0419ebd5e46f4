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


class Server:
    """A server in a folder of its own; ``url`` names its databases, with ``{}`` for a database's name."""

    def __init__(self, folder: Path):
        found = programs()
        assert found is not None, ABSENT
        self.programs, self.folder, self.data, self.who = found, folder, folder / "data", _unprivileged()
        self.url = f"postgresql://stillroom@/{{}}?host={folder}"
        if self.who:
            os.chown(folder, self.who["user"], self.who["group"])  # type: ignore[arg-type]

    def make(self) -> None:
        """Make its files."""
        self._run("initdb", "--no-sync", "--auth=trust", "--username=stillroom", "--encoding=UTF8", "--locale=C",
                  str(self.data))

    def start(self) -> None:
        """Start it, and wait until it can be used."""
        self._run("pg_ctl", "start", "-w", "-D", str(self.data), "-l", str(self.folder / "log"),
                  "-o", f"-k {self.folder} {SETTINGS}")

    def stop(self, how: str = "immediate") -> None:
        """Stop it: ``fast`` breaks every connection in order, ``immediate`` as a crash does."""
        self._run("pg_ctl", "stop", "-w", "-m", how, "-D", str(self.data))

    def _run(self, program: str, *arguments: str) -> None:
        done = subprocess.run([str(self.programs / program), *arguments], stdin=subprocess.DEVNULL,
                              stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True, cwd=self.folder,
                              env={"PATH": f"{self.programs}:/usr/bin:/bin"}, **self.who)  # type: ignore[call-overload]
        if done.returncode:
            raise RuntimeError(f"{program} failed: {done.stdout}")


@contextmanager
def running() -> Iterator[Server]:
    """A running server."""
    folder = Path(tempfile.mkdtemp(prefix="pg-", dir="/tmp"))
    try:
        made = Server(folder)
        made.make()
        made.start()
        try:
            yield made
        finally:
            made.stop()
    finally:
        shutil.rmtree(folder, ignore_errors=True)


@contextmanager
def server() -> Iterator[str]:
    """A running server; gives the URL of its databases, with ``{}`` for a database's name."""
    with running() as made:
        yield made.url
