"""Work spread over processes has the same outcome as work done here, whatever becomes of a process."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from lessonkit.commands import cores
from lessonkit.commands.checking import all_findings, findings_of
from lessonkit.loading.folder import Loaded, load_folder
from lessonkit.source.finding import Code, Finding, Level
from lessonkit.source.location import file_start
from tests.rules.laying import BASE

CODE = Code("LK999", "odd", Level.ADVICE)
needs_fork = pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot split a process")
HERE = os.getpid()


@pytest.fixture(autouse=True)
def two(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let two processes work on anything."""
    monkeypatch.setattr(cores, "WORTH_IT", 1)
    monkeypatch.setattr(cores, "cores", lambda: 2)


def odd(numbers: Sequence[int]) -> list[Finding]:
    """Find the odd numbers."""
    return [Finding(CODE, CODE.level, f"{number} is odd.", file_start("x")) for number in numbers if number % 2]


def failing(numbers: Sequence[int]) -> list[Finding]:
    """Find the odd numbers here, and break in any other process."""
    if os.getpid() != HERE:
        os.close(2)
        raise MemoryError
    return odd(numbers)


@needs_fork
@pytest.mark.parametrize("work", [odd, failing])
def test_every_item_is_worked_on_once(work: object) -> None:
    """Also where the other process fails: its part is done here."""
    found = cores.spread(failing if work is failing else odd, range(11))

    assert ["1 is odd.", "3 is odd.", "5 is odd.", "7 is odd.", "9 is odd."] == sorted(one.says for one in found)


@needs_fork
def test_a_check_finds_the_same_with_two_processes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Findings come back with all that they say, and in the same order."""
    loaded: Loaded = load_folder(BASE, BASE.as_posix())
    library = replace(loaded.library, items={}, skills={}, frameworks={})
    loaded = loaded._replace(library=library)
    both = findings_of(loaded)
    monkeypatch.setattr(cores, "cores", lambda: 1)

    assert findings_of(loaded) == both
    assert len(all_findings(loaded)) > 5


@needs_fork
def test_ctrl_c_ends_all_processes() -> None:
    """Nothing is left running, and nothing is said of where the work was."""
    words = (
        "import os, time; from lessonkit.commands import cores; cores.WORTH_IT = 1; cores.cores = lambda: 2\n"
        "def work(items): os.write(1, b'x'); time.sleep(60); return []\n"
        "try: cores.spread(work, [1, 2])\nexcept KeyboardInterrupt: print('stopped')"
    )
    command = [sys.executable, "-c", words]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, start_new_session=True) as process:
        assert process.stdout is not None
        began = process.stdout.read(2)
        os.killpg(process.pid, signal.SIGINT)
        said = process.stdout.read()

    assert (b"xx", b"stopped\n") == (began, said)
    assert _all_gone(process.pid)


def _all_gone(group: int) -> bool:
    """Whether every process of a group ends within ten seconds."""
    for _ in range(200):
        try:
            os.killpg(group, 0)
        except ProcessLookupError:
            return True
        time.sleep(0.05)
    return False
