"""A real PostgreSQL server for the tests, started on a socket of its own and stopped with them."""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

_SERVER_USER = "postgres"  # the server refuses to run as root; its package makes this user


def server_programs() -> Path | None:
    """Where initdb and pg_ctl are."""
    found = shutil.which("initdb")
    if found is not None:
        return Path(found).resolve().parent
    places = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"))
    return places[-1].parent if places else None


@contextmanager
def postgresql(programs: Path) -> Iterator[str]:
    """The address of a new server that listens only in a folder of its own."""
    folder = Path(tempfile.mkdtemp(prefix="fieldbook-pg-"))
    if os.geteuid() == 0:
        shutil.chown(folder, _SERVER_USER)
    data = str(folder / "data")
    make = ["-D", data, "-U", "crew", "--auth=trust", "-E", "UTF8", "--no-sync"]
    options = f"-c listen_addresses='' -c unix_socket_directories={folder} -c fsync=off"
    control = [str(programs / "pg_ctl"), "-D", data, "-w", "-l", str(folder / "log")]
    try:
        _run([str(programs / "initdb"), *make])
        _run([*control, "-o", options, "start"])
        yield f"postgresql://crew:secret@/postgres?host={folder}"
    finally:
        with suppress(subprocess.CalledProcessError):
            _run([*control, "-m", "immediate", "stop"])
        shutil.rmtree(folder, ignore_errors=True)


def _run(words: list[str]) -> None:
    """Run one of the server's programs as its user.

    The server keeps open what it inherits, so nothing of ours is passed on to it.
    """
    user = _SERVER_USER if os.geteuid() == 0 else None
    nothing = subprocess.DEVNULL
    subprocess.run(words, check=True, cwd="/", user=user, stdout=nothing, stderr=nothing)
