"""Ctrl-C while a unit is planned: the best plan so far is kept, and the program says that it is not proven."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest
import yaml

from lessonkit.cli import main

pty = pytest.importorskip("pty", reason="needs a terminal of its own, which this system does not give")


def _long_unit(folder: Path) -> Path:
    """Copy the starter curriculum with one unit of sixteen lessons, which takes far longer to prove than to plan."""
    assert 0 == main(["new", "curriculum", str(folder)])
    others = [path for name in ("units", "plans", "maps") for path in folder.glob(f"{name}/*")]
    for path in (*others, *folder.glob("year*")):
        if path.name != "paddles-grade-3.yaml":
            path.unlink()
    unit = folder / "units/paddles-grade-3.yaml"
    text = unit.read_text("utf-8").replace("lessons: 8\n", "lessons: 16\n").replace("variety: high", "variety: low")
    unit.write_text(text, "utf-8")
    return folder


def test_the_best_plan_is_kept_and_honestly_described(tmp_path: Path) -> None:
    """A real process, stopped as soon as it shows a plan, writes a plan that passes the check, and exits well."""
    folder = _long_unit(tmp_path / "school")
    mine, theirs = pty.openpty()
    words = [sys.executable, "-m", "lessonkit", "sequence", str(folder), "--class", "grade-3-heron"]
    process = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=theirs, text=True)
    os.close(theirs)
    shown = b""
    while b"a plan is found" not in shown:
        shown += os.read(mine, 1000)
    process.send_signal(signal.SIGINT)
    out, _ = process.communicate(timeout=60)
    os.close(mine)

    assert 0 == process.returncode, out + shown.decode()
    assert "You stopped the search. The plan meets every requirement" in " ".join(out.split())
    made = yaml.safe_load((folder / "plans/paddles-grade-3-grade-3-heron.yaml").read_text("utf-8"))["made"]
    assert ("best-found", True) == (made["status"], made["bound"] < made["cost"])
    assert 0 == main(["check", str(folder / "plans"), "--no-cache", "--no-advice"])
