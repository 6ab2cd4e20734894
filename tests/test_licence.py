"""The licence goes out with the book: the wheel is made of what stands here."""

from __future__ import annotations

import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[1]


def test_the_licence_is_named_and_lies_in_what_is_shipped() -> None:
    config = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    project, wheel = config["project"], config["tool"]["hatch"]["build"]["targets"]["wheel"]
    files = [ROOT / name for name in project["license-files"]]

    assert project["license"] == "MIT"
    assert files == [ROOT / "fieldbook" / "LICENSE"]
    assert files[0].relative_to(ROOT).parts[0] in wheel["packages"]
    words = files[0].read_text(encoding="utf-8")
    assert words.startswith("MIT License\n\nCopyright (c) 2026 the fieldbook authors\n")
    assert "WITHOUT WARRANTY OF ANY KIND" in words
