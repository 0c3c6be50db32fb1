"""A headless Chromium that is told what to do over a pair of pipes, in the browser's own debugging protocol."""

import json
import os
import select
import shutil
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
_OPTIONS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    "--remote-debugging-pipe",
)
_WIRED = """
import fcntl, os, sys
ends = [fcntl.fcntl(int(end), fcntl.F_DUPFD_CLOEXEC, 10) for end in sys.argv[1:3]]
os.dup2(ends[0], 3)
os.dup2(ends[1], 4)
os.execv(sys.argv[3], sys.argv[3:])
"""
"""A program that becomes the browser, with the two pipes where the browser expects them."""
_PATIENCE = 120
"""Seconds after which an answer counts as lost."""


class Browser:
    """One page of a running Chromium."""

    def __init__(self, told: int, heard: int) -> None:
        self._told, self._heard = told, heard
        self._number = 0
        self._session: str | None = None
        self._waiting: list[dict[str, Any]] = []
        self._rest = b""
        target = self.ask("Target.createTarget", url="about:blank")["targetId"]
        self._session = self.ask("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        self.ask("Page.enable")

    def ask(self, method: str, **values: object) -> dict[str, Any]:
        """Call a method of the protocol and return its answer. Raises RuntimeError where the browser refuses."""
        self._number += 1
        message: dict[str, Any] = {"id": self._number, "method": method, "params": values}
        if self._session:
            message["sessionId"] = self._session
        left = json.dumps(message).encode() + b"\0"
        while left:
            left = left[os.write(self._told, left) :]
        while (answer := self._message()).get("id") != self._number:
            self._waiting.append(answer)
        if "error" in answer:
            raise RuntimeError(f"{method}: {answer['error']}")
        return dict(answer["result"])

    def show(self, path: Path) -> None:
        """Open a file and wait until it is loaded."""
        self._waiting.clear()
        self.ask("Page.navigate", url=path.as_uri())
        while not any(event.get("method") == "Page.loadEventFired" for event in self._waiting):
            self._waiting.append(self._message())

    def run(self, script: str) -> Any:
        """Run a script in the page and return its value, once a promise is kept. Raises RuntimeError where it fails."""
        answer = self.ask("Runtime.evaluate", expression=script, awaitPromise=True, returnByValue=True)
        if "exceptionDetails" in answer:
            raise RuntimeError(str(answer["exceptionDetails"]))
        return answer["result"].get("value")

    def _message(self) -> dict[str, Any]:
        ends = time.monotonic() + _PATIENCE
        while b"\0" not in self._rest:
            if not select.select([self._heard], [], [], max(0, ends - time.monotonic()))[0]:
                raise TimeoutError("Chromium does not answer.")
            received = os.read(self._heard, 1 << 16)
            if not received:
                raise RuntimeError("Chromium has ended.")
            self._rest += received
        message, _, self._rest = self._rest.partition(b"\0")
        return dict(json.loads(message))


@contextmanager
def browser(profile: Path) -> Iterator[Browser]:
    """Start Chromium with an empty profile in a folder, and end it."""
    assert CHROMIUM is not None
    told_end, told = os.pipe()
    heard, heard_end = os.pipe()
    words = [CHROMIUM, *_OPTIONS, f"--user-data-dir={profile}", "about:blank"]
    wired = [sys.executable, "-c", _WIRED, str(told_end), str(heard_end), *words]
    with subprocess.Popen(wired, pass_fds=(told_end, heard_end), stderr=subprocess.DEVNULL) as running:
        os.close(told_end)
        os.close(heard_end)
        try:
            yield Browser(told, heard)
        finally:
            running.kill()
            os.close(told)
            os.close(heard)
