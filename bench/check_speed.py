"""Measure the goals that ``lessonkit check`` has for its speed, as ratios of processor time within one run.

Run ``python bench/check_speed.py``. Every goal is a ratio of two processes that run in turn, five rounds, of which the
median counts; so the machine's own speed and most of what else it does cancel out. Processor time is that of a process
and of every process it started and waited for, in user and system mode, so a second core makes nothing look cheaper.
Python keeps its compiled modules, as it does for an installed program, in a folder of the measurement's own. A process
that ends with another exit code than the one expected (0, and 1 where every file is faulty) ends the measurement, and
what it said is shown. The program is copied first, so that a change of it meanwhile does not count.
``--checker PROGRAM`` names a general-purpose checker of JSON Schemas that takes ``--schemafile SCHEMA FILES``, such as
check-jsonschema (``pip install check-jsonschema``); without one that goal is left out.
``--only WORD`` measures the goals whose names have the word.
"""

import argparse
import os
import re
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import cycle
from pathlib import Path
from statistics import median

from make_records import STARTER, make_records

ROUNDS = 5
PYTHON = sys.executable
PARSE = """
import sys, yaml
for path in open(sys.argv[1]).read().split("\\n"):
    with open(path, "rb") as stream:
        yaml.load(stream.read(), Loader=yaml.CSafeLoader)
"""
"""What PyYAML's fast loader alone takes to parse the same files."""
HOLD = """
import gc, resource, sys
from pathlib import Path
gc.disable()
from lessonkit.loading.folder import load_folder
loaded = load_folder(Path(sys.argv[1]), sys.argv[1])
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / (1 << 20 if sys.platform == "darwin" else 1 << 10))
"""
"""Load a curriculum, keep it, and say how many megabytes the process has taken."""

Command = list[str]


@dataclass(frozen=True)
class Goal:
    """A ratio to be measured: ours over theirs, which may be at most ``limit``; ``before`` runs before each of ours.

    ``code`` is the exit code that ours must have; theirs must have 0.
    """

    name: str
    limit: float
    ours: Command
    theirs: Command
    before: Callable[[], None] = lambda: None
    upside_down: bool = False
    code: int = 0


def main() -> None:
    """Measure and print a table."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--checker", help="a general-purpose checker of JSON Schemas")
    parser.add_argument("--only", default="", help="measure only the goals with this word in their names")
    parser.add_argument("--rounds", type=int, default=ROUNDS)
    args = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        os.environ["PYTHONPATH"] = str(_copied(Path(folder).resolve() / "program"))
        os.environ["PYTHONPYCACHEPREFIX"] = str(Path(folder, "compiled").resolve())
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
        print(f"{'goal':58} {'limit':>7} {'measured':>9}")
        for goal in _goals(args.checker):
            if args.only in goal.name:
                _say(goal.name, goal.limit, _measure(goal, args.rounds), goal.upside_down)
        if args.only in "memory":
            _say("memory: megabytes per 1 000 records held", 6.0, _memory())


def _say(name: str, limit: float, measured: float, upside_down: bool = False) -> None:
    met = measured >= limit if upside_down else measured <= limit
    print(f"{name:58} {limit:7.2f} {measured:9.2f}  {'met' if met else 'NOT MET'}", flush=True)


def _goals(checker: str | None) -> Iterator[Goal]:
    nothing, version = [PYTHON, "-c", "pass"], [PYTHON, "-m", "lessonkit", "--version"]
    yield Goal("version: over python -c pass", 2.5, version, nothing)
    for number, limit in ((2_000, 0.9), (20_000, 0.75)):
        folder = _made(number)
        name = f"cold: {number} records, over PyYAML's CSafeLoader alone"
        yield Goal(name, limit, _check(folder, "--no-cache"), _parse(folder))
    name = "faulty: 2000 records, over CSafeLoader alone"
    yield Goal(name, 1.0, _check(_faulty(), "--no-cache"), _parse("faulty"), code=1)
    if checker:
        activities = sorted(str(path) for path in Path(_made(2_000), "activities").rglob("*.yaml"))
        schema = str(STARTER.parent / "schema" / "activity.schema.json")
        theirs = [checker, "--schemafile", schema, *activities]
        yield Goal("schema checker: over ours, 2000 records", 9.0, _check("2000", "--no-cache"), theirs, _none, True)
    for number, cold, changed, unchanged in ((200, 10.0, 7.0, 3.0), (20_000, None, 20.0, 15.0)):
        folder = _made(number)
        if cold:
            yield Goal(f"cold: {number} records, over python -c pass", cold, _check(folder, "--no-cache"), nothing)
        for name, limit, before in (("unchanged", unchanged, _none), ("one changed", changed, _change(folder))):
            _settle(folder)
            yield Goal(f"{name}: {number} records, over python -c pass", limit, _check(folder), nothing, before)


def _copied(folder: Path) -> Path:
    """Copy the program as it is now, and return the folder of the copy."""
    for part in ("lessonkit", "schema", "curriculum"):
        shutil.copytree(STARTER.parent / part, folder / part, ignore=shutil.ignore_patterns("__pycache__", ".*"))
    return folder


def _none() -> None:
    """Do nothing beforehand."""


def _check(folder: str, *words: str) -> Command:
    return [PYTHON, "-m", "lessonkit", "check", folder, *words]


def _parse(folder: str) -> Command:
    """Return the command that parses the files of a folder, with their names in a list, so that it finds no files."""
    names = Path(f"{folder}.txt")
    names.write_text("\n".join(sorted(str(path) for path in Path(folder).rglob("*.yaml"))), "utf-8")
    return [PYTHON, "-c", PARSE, str(names)]


def _made(number: int) -> str:
    if not Path(str(number)).exists():
        make_records(Path(str(number)), number)
    return str(number)


def _faulty() -> str:
    """Put a fault into every file of 2000: a misspelt word where there is an effort, elsewhere a field too many."""
    if not Path("faulty").exists():
        shutil.copytree(_made(2_000), "faulty", ignore=shutil.ignore_patterns(".*"))
        for path in Path("faulty").rglob("*.yaml"):
            text = path.read_text("utf-8")
            wrong = re.sub(r"^effort: \w+", "effort: moderat", text, flags=re.MULTILINE)
            path.write_text(wrong if wrong != text else text + "colour: red\n", "utf-8")
    return "faulty"


def _settle(folder: str) -> None:
    """Check, so that the answer is kept, when the files are old enough for their dates to be trusted."""
    for path in Path(folder).rglob("*.yaml"):
        os.utime(path, (1_700_000_000, 1_700_000_000))
    time.sleep(2.5)
    _seconds(_check(folder), 0)
    time.sleep(2.5)
    _seconds(_check(folder), 0)


def _change(folder: str) -> Callable[[], None]:
    """Return what changes the summary of one activity after another, to one of the same length."""
    paths = iter(sorted(Path(folder, "activities").rglob("*.yaml"))[::7] * 3)

    def change() -> None:
        path = next(paths)
        text = path.read_text("utf-8")
        changed = re.sub(r"^(summary: .*)[a-z]", lambda found: found[1] + next(letters), text, count=1, flags=8)
        path.write_text(changed, "utf-8")

    letters = cycle("qzjxw")
    return change


def _measure(goal: Goal, rounds: int) -> float:
    """Return the median of the ratios; both run once before that, so that neither has to compile its modules."""
    ratios = []
    for counted in range(rounds + 1):
        goal.before()
        ours, theirs = _seconds(goal.ours, goal.code), _seconds(goal.theirs, 0)
        if counted:
            ratios.append(theirs / ours if goal.upside_down else ours / theirs)
    return median(ratios)


def _seconds(command: Command, code: int) -> float:
    """Return the processor time that a command takes; of the shortest ones the least of five counts."""
    times = []
    for _ in range(5):
        process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode != code:
            said = subprocess.run(command, capture_output=True, text=True, check=False)
            print(f"Exit code {process.returncode} instead of {code}: {' '.join(command)[:300]}")
            sys.exit(f"The same again ends with {said.returncode}: {(said.stdout + said.stderr)[-1500:]}")
        times.append(used.ru_utime + used.ru_stime)
        if command[1:] != ["-c", "pass"]:
            break
    return min(times)


def _memory() -> float:
    """Return how much more a process takes for 20 000 records than for 2000, per thousand of them."""
    few, many = (
        float(subprocess.run([PYTHON, "-c", HOLD, _made(number)], capture_output=True, check=True).stdout)
        for number in (2_000, 20_000)
    )
    return (many - few) / 18


if __name__ == "__main__":
    main()
