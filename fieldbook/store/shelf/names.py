"""Names of folders, made from what people type by a strict list of what may stand in one."""

from __future__ import annotations

import re

from fieldbook.store.log.line import hash_of

UNFINISHED = ".gathering"
"""Folder in a home in which a gathering puts a job together; what is left there is not read."""
_LONGEST_NAME = 60
_WINDOWS_DEVICES = {"CON", "PRN", "AUX", "NUL"} | {
    f"{port}{number}" for port in ("COM", "LPT") for number in range(10)
}


def folder_name(job_number: str) -> str:
    """The name of a job's folder: letters, digits, dashes and underscores, nothing else.

    Every other character is written as its code, so that no number can name a place outside the
    shelf, and two numbers never share a folder, but for capitals on disks that do not tell them
    apart.

    >>> folder_name("26-114")
    '26-114'
    >>> folder_name("../x")
    '_2e_2e_2fx'
    """
    name = re.sub(r"[^A-Za-z0-9-]", lambda match: f"_{ord(match[0]):02x}", job_number)
    if name.upper() in _WINDOWS_DEVICES:
        name += "_"
    if len(name) > _LONGEST_NAME:
        kept = _LONGEST_NAME - 13
        whole = hash_of(job_number.encode("utf-8", "surrogatepass"))
        name = f"{name[:kept]}-{whole[:12]}"
    return name or "_"


def namesake_name(job_number: str, job_id: str) -> str:
    """The name of a job's folder where another job has the folder of its number.

    >>> namesake_name("26-114", "01890a5d-ac96-774b-bcce-b302099a8057")
    '26-114-9a8057'
    """
    return folder_name(f"{folder_name(job_number)}-{job_id[-6:]}")
