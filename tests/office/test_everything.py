"""The job file says what was sealed, by a hash that an altered log no longer agrees with."""

from __future__ import annotations

import json
from pathlib import Path

from fieldbook.cli import main
from fieldbook.office.samples import build_job
from fieldbook.store.shelf.home import Home


def test_the_seal_of_a_closed_job_is_in_its_file_and_breaks_when_the_log_is_altered(
    tmp_path: Path,
) -> None:
    home = Home(tmp_path / "home")
    folder = build_job(home, "26-131-hose", complete=True)
    out = tmp_path / "file"

    assert main(["jobfile", "26-131", "--home", str(home.path), "--out", str(out)]) == 0
    whole = json.loads((out / "everything.json").read_text(encoding="utf-8"))
    (seal,) = whole["seals"]
    assert seal["by"] == "RO"
    assert len(seal["hash"]) == 64
    assert whole["after_seal"] == []
    assert main(["verify", str(folder)]) == 0

    log = next(folder.glob("*.jsonl"))
    lines = log.read_bytes().splitlines(keepends=True)
    log.write_bytes(b"".join(lines[:-3]))
    assert main(["verify", str(folder)]) == 0  # cut before the seal: only paper can tell
    log.write_bytes(b"".join(lines).replace(b'"text":"420 ft"', b'"text":"430 ft"', 1))
    assert main(["verify", str(folder)]) == 1
