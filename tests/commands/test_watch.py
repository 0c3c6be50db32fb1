"""``check --watch``, tried as a real process: it checks again after a change and ends cleanly."""

import signal
import subprocess
import sys
from pathlib import Path

from tests.commands.hop import SKILL


def test_a_change_is_checked_and_ctrl_c_ends(tmp_path: Path) -> None:
    """A family that is not known is said after the file was changed; Ctrl-C ends with what the last check found."""
    file = tmp_path / "hop.yaml"
    file.write_text(SKILL, "utf-8")
    words = [sys.executable, "-m", "lessonkit", "check", "--watch", "--no-advice", str(tmp_path)]
    process = subprocess.Popen(words, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    assert process.stderr is not None
    first = process.stderr.readline()
    file.write_text(SKILL.replace("locomotor", "locomotion"), "utf-8")
    second = process.stderr.readline()
    process.send_signal(signal.SIGINT)
    said, _ = process.communicate(timeout=30)

    assert f"Waiting for a change in {tmp_path.as_posix()}. Ctrl-C ends.\n" == first == second
    assert "nothing to mend" in said.partition("wrong-value")[0]
    assert "hop.yaml:4:9: error (wrong-value)" in said
    assert 1 == process.returncode
