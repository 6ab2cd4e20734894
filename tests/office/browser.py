"""One Chromium for all pages that a test process prints and measures: to start it takes longest.

It is spoken to over two pipes by the Chrome DevTools Protocol, of which five calls are enough.
"""

from __future__ import annotations

import atexit
import base64
import json
import os
import select
import shutil
import subprocess
import sys
import tempfile
from functools import cache
from pathlib import Path
from typing import Any

CHROMIUM = next(
    (found for name in ("chromium", "chromium-browser") if (found := shutil.which(name))), None
)
_PATIENCE = 120.0  # seconds without a word before it is called stuck; nothing waits them otherwise
_HEIGHT = 900
# Chromium reads what is asked from descriptor 3 and answers on 4.
_STARTS = """
import fcntl, os, sys
ours = [fcntl.fcntl(int(number), fcntl.F_DUPFD, 10) for number in sys.argv[1:3]]
for number, descriptor in enumerate(ours, 3):
    os.dup2(descriptor, number)
os.execv(sys.argv[3], sys.argv[3:])
"""


class Browser:
    """A Chromium without a window."""

    def __init__(self) -> None:
        assert CHROMIUM is not None
        self._profile = tempfile.mkdtemp(prefix="browser-")
        asked, self._to = os.pipe()
        self._from, answered = os.pipe()
        command = [CHROMIUM, "--headless", "--no-sandbox", "--disable-gpu", "--disable-extensions"]
        command += [f"--user-data-dir={self._profile}", "--remote-debugging-pipe"]
        self._process = subprocess.Popen(
            [sys.executable, "-c", _STARTS, str(asked), str(answered), *command],
            pass_fds=(asked, answered),
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        os.close(asked)
        os.close(answered)
        self._calls, self._read, self._session = 0, b"", ""
        target = self._call("Target.createTarget", url="about:blank")["targetId"]
        attached = self._call("Target.attachToTarget", targetId=target, flatten=True)
        self._session = str(attached["sessionId"])
        self._call("Page.enable")

    def close(self) -> None:
        """End it, and remove what it kept."""
        self._call("Browser.close")
        self._process.wait()
        os.close(self._to)
        os.close(self._from)
        shutil.rmtree(self._profile, ignore_errors=True)

    def pdf(self, page: Path) -> bytes:
        """The page as it comes out of the printer, on the paper that its style asks for."""
        self._open(page)
        printed = self._call("Page.printToPDF", preferCSSPageSize=True, printBackground=True)
        return base64.b64decode(printed["data"])

    def title(self, page: Path, width: int) -> str:
        """The title of a page, once its script has run in a window that many CSS pixels wide."""
        self._call(
            "Emulation.setDeviceMetricsOverride",
            width=width, height=_HEIGHT, deviceScaleFactor=1, mobile=False,
        )  # fmt: skip
        self._open(page)
        title = self._call("Runtime.evaluate", expression="document.title")
        self._call("Emulation.clearDeviceMetricsOverride")
        return str(title["result"]["value"])

    def _open(self, page: Path) -> None:
        self._call("Page.navigate", url=page.as_uri())
        while self._hear().get("method") != "Page.loadEventFired":
            pass

    def _call(self, method: str, **parameters: object) -> Any:
        self._calls += 1
        said: dict[str, object] = {"id": self._calls, "method": method, "params": parameters}
        if self._session:
            said["sessionId"] = self._session
        raw = json.dumps(said).encode() + b"\0"
        while raw:
            raw = raw[os.write(self._to, raw) :]
        while (answer := self._hear()).get("id") != self._calls:
            pass
        assert "error" not in answer, answer
        return answer["result"]

    def _hear(self) -> dict[str, Any]:
        while b"\0" not in self._read:
            ready, _, _ = select.select([self._from], [], [], _PATIENCE)
            more = os.read(self._from, 2**20) if ready else b""
            assert more, "Chromium says nothing"
            self._read += more
        raw, _, self._read = self._read.partition(b"\0")
        message: dict[str, Any] = json.loads(raw)
        return message


@cache
def browser() -> Browser:
    """The Chromium of this process, which ends with it."""
    started = Browser()
    atexit.register(started.close)
    return started
