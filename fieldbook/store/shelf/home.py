"""The book's home: where it is, which device this is, and what the device prefers."""

from __future__ import annotations

import os
import re
import secrets
import socket
from dataclasses import dataclass, fields, replace
from pathlib import Path

import platformdirs

from fieldbook.small_file import BadToml, read_small, read_toml
from fieldbook.store.job.owner import SHELF
from fieldbook.store.log.disk import DISK, make_folders, write_whole
from fieldbook.store.shelf.pointer import chosen_folder, remember

VARIABLE = "FIELDBOOK_HOME"
UNITS = ("us", "metric")
_MOST_LINES, _LONGEST_LINE = 6, 80  # of a letterhead
_DEVICE = re.compile(r"d-[0-9a-f]{8}")
_LONGEST_FILE = 64 * 1024  # bytes of each file that is the device's own


@dataclass(frozen=True, slots=True)
class Settings:
    """What this device prefers.

    Attributes:
        initials: Who records, until somebody else says so.
        units: "us" or "metric": the unit of a number typed without one.
        theme: Name of the screen's theme.
        safety_seen: Whether the safety words were shown and acknowledged.
        shared: Whether the owner's group may read and write what the book makes (POSIX); else
            nobody but the owner may.
    """

    initials: str = ""
    units: str = "us"
    theme: str = ""
    safety_seen: bool = False
    shared: bool = False


@dataclass(frozen=True, slots=True)
class Home:
    """A folder that holds the jobs and what is this device's own."""

    path: Path

    @classmethod
    def find(cls, given: Path | None) -> Home:
        """The home given, else the one FIELDBOOK_HOME names, else the chosen, else the platform's.

        Raises:
            HomeGone: The folder that was chosen at the first start is not there.
        """
        if given is not None:
            return cls(given)
        if named := os.environ.get(VARIABLE):
            return cls(Path(named))
        if (chosen := chosen_folder()) is not None:
            return cls(chosen)
        return cls(Path(platformdirs.user_data_dir("fieldbook", appauthor=False)))

    @staticmethod
    def may_be_chosen(given: Path | None) -> bool:
        """Whether the first start may ask for the folder: nothing else names one."""
        return given is None and not os.environ.get(VARIABLE)

    def choose(self) -> None:
        """Use this home from now on wherever none is named.

        Raises:
            OSError: The folder cannot be made or written, or the choice is not remembered.
        """
        self.let_in()
        self.device_id()  # a folder that does not take it would not take a job either
        if self != Home.find(None):
            remember(self.path)

    def let_in(self) -> None:
        """Open what is made from now on to the owner alone, or to the group where it is shared."""
        DISK.shared = self.settings.shared

    @property
    def jobs_folder(self) -> Path:
        """Where the jobs' folders are."""
        return self.path / SHELF

    @property
    def company_steps(self) -> Path | None:
        """The folder of a company's own step files, if there is one."""
        folder = self.path / "steps"
        return folder if folder.is_dir() else None

    @property
    def gear_folder(self) -> Path:
        """Where the company's library of gear is."""
        return self.path / "gear"

    @property
    def emergency_file(self) -> Path:
        """Where the numbers are that the company wants called on every job."""
        return self.path / "emergency.toml"

    @property
    def localities_folder(self) -> Path:
        """Where the company's own lists of what a place asks for are."""
        return self.path / "localities"

    @property
    def place(self) -> str:
        """The place whose rules the company files by, as `locality.txt` names it; else empty.

        Raises:
            OSError: The file is there and cannot be read.
            UnicodeDecodeError: It is not UTF-8 text.
        """
        try:
            return _text(self.path / "locality.txt").strip()
        except FileNotFoundError:
            return ""

    @property
    def letterhead(self) -> tuple[str, ...]:
        """What is at the head of every sheet: name, address, telephone; empty without one.

        Raises:
            OSError: The file is there and cannot be read.
            UnicodeDecodeError: It is not UTF-8 text.
        """
        path = self.path / "letterhead.txt"
        try:
            lines = _text(path).splitlines()
        except FileNotFoundError:
            return ()
        return tuple(line.strip()[:_LONGEST_LINE] for line in lines if line.strip())[:_MOST_LINES]

    def device_id(self) -> str:
        """The id of this device, made once and kept in the home, never in a job's folder.

        A home that was copied to another machine gets an id of its own there, so that two machines
        never write one log.

        Raises:
            OSError: It could not be kept.
        """
        path = self.path / "device"
        here = re.sub(r"[^a-z0-9-]", "", socket.gethostname().lower().partition(".")[0]) or "here"
        try:
            raw = read_small(path, _LONGEST_FILE)
            kept, _, made_on = raw.decode("ascii", errors="replace").partition(" ")
        except FileNotFoundError:
            kept, made_on = "", ""
        if _DEVICE.fullmatch(kept) and made_on.strip() == here:
            return kept
        made = f"d-{secrets.token_hex(4)}"
        make_folders(self.path)
        write_whole(path, f"{made} {here}\n".encode("ascii"))
        return made

    @property
    def settings(self) -> Settings:
        """What is kept, and the usual where nothing is or it cannot be read."""
        return self._settings()[0]

    @property
    def settings_trouble(self) -> str:
        """What of the settings is not taken, and why; empty where all is."""
        return self._settings()[1]

    def _settings(self) -> tuple[Settings, str]:
        path, usual = self.path / "settings.toml", Settings()
        try:
            kept = read_toml(read_small(path, _LONGEST_FILE, links=True))
        except FileNotFoundError:
            return usual, ""
        except (OSError, BadToml) as error:
            why = error.strerror or error if isinstance(error, OSError) else error
            return usual, f"{path.name} is not taken, so all is as usual: {why}"
        names = [field.name for field in fields(Settings) if field.name in kept]
        known = {
            name: kept[name] for name in names if type(kept[name]) is type(getattr(usual, name))
        }
        if known.get("units", usual.units) not in UNITS:
            del known["units"]
        wrong = ", ".join(name for name in names if name not in known)
        words = f"{path.name}: {wrong}: not a value it can have, so it is as usual"
        return replace(usual, **known), words if wrong else ""

    def keep(self, settings: Settings) -> None:
        """Keep what the device prefers.

        Raises:
            OSError: It could not be kept.
        """
        make_folders(self.path)
        lines = [f"{f.name} = {_toml(getattr(settings, f.name))}" for f in fields(Settings)]
        write_whole(self.path / "settings.toml", ("\n".join(lines) + "\n").encode("utf-8"))


def _text(path: Path) -> str:
    return read_small(path, _LONGEST_FILE, links=True).decode("utf-8-sig")


def _toml(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    text = str(value).replace("\\", "\\\\").replace('"', '\\"')
    return '"' + "".join(c if c.isprintable() else "?" for c in text) + '"'
