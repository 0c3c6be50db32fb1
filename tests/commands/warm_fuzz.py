"""Change a curriculum at random, and hold what a check keeps for next time against a check from the start.

Run ``python -m tests.commands.warm_fuzz FOLDER TURNS SEED...`` for a long trial: a copy of FOLDER (such as
``curriculum``) is made for every seed, changed as often as TURNS says, and checked after each change as it is with and
without what was kept. It ends at the first difference, or says after how many turns there was none.
"""

import contextlib
import io
import os
import re
import shutil
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from random import Random

from lessonkit.cli import main
from lessonkit.commands import kept_check
from lessonkit.commands.lines import forget_lines

SETTINGS = (
    "kind: settings\nid: rules\ntitle: Rules\nrules:\n"
    "  inclusion-missing: {level: off, reason: We have a page for it.}\n"
    "  cue-too-long: {level: error, reason: Small children.}\n"
)
REMARK = "# lessonkit: allow {} because we see to it\n"
SILENCED = ("cue-too-long", "equipment-short", "plan-outdated", "aim-unserved", "nowhere")
FORMS = ("json", "text", "github", "junit", "sarif")
_WORD = re.compile(r"[A-Za-z0-9.-]+")
_TICK = 0.02
"""Seconds in which a file system's clock is sure to go on."""


def change(folder: Path, whole: Path, random: Random) -> str:
    """Change one to three things and return what was done."""
    return "; ".join(_change(folder, whole, random) for _ in range(random.choice((1, 1, 1, 2, 3))))


def _change(folder: Path, whole: Path, random: Random) -> str:
    files = sorted(folder.rglob("*.yaml"))
    path = _one_of(files, random)
    what = random.choice(
        ("block",) * 14 + ("edit",) * 8 + ("mend",) * 3 + ("rename", "touch", "delete", "copy", "settings", "quiet")
    )
    match what:
        case "rename":
            path.rename(path.with_name(f"{path.stem}-{random.randrange(3)}.yaml"))
        case "touch":
            path.touch()
        case "delete" if len(files) > 3:
            path.unlink()
        case "copy":
            shutil.copy2(path, path.with_name(f"copy-{random.randrange(4)}.yaml"))
        case "mend":
            shutil.copytree(whole, folder, dirs_exist_ok=True, ignore=shutil.ignore_patterns(".*"))
        case "settings":
            settings = folder / "lessonkit.yaml"
            settings.unlink() if settings.exists() else settings.write_text(SETTINGS, "utf-8")
        case "block":
            path.write_text(with_a_block_of(path, _one_of(files, random, path.parent), random), "utf-8")
        case "quiet":
            status = path.stat()
            path.write_text(path.read_text("utf-8").replace("3", "4", 1), "utf-8")
            os.utime(path, ns=(status.st_atime_ns, status.st_mtime_ns))
        case _:
            path.write_text(edited(path.read_text("utf-8"), random), "utf-8")
    return f"{what} {path.name}"


def _one_of(files: list[Path], random: Random, folder: Path | None = None) -> Path:
    """Return a file; every folder is as likely as the others, so that the few units and skills have their turn."""
    folder = folder or random.choice(sorted({path.parent for path in files}))
    return random.choice([path for path in files if path.parent == folder])


def with_a_block_of(path: Path, other: Path, random: Random) -> str:
    """Return the text of a file with a field that another file has, if there is one.

    So most records stay whole, and what other records read in them is another.
    """
    ours, theirs = _blocks(path), _blocks(other)
    shared = sorted(ours.keys() & theirs.keys() - {"kind", "id"}) or ["title"]
    name = random.choice(shared)
    return "".join({**ours, name: theirs.get(name, "")}.values())


def _blocks(path: Path) -> dict[str, str]:
    return {block.partition(":")[0]: block for block in re.split(r"(?m)^(?=[a-z_]+:)", path.read_text("utf-8"))}


def edited(text: str, random: Random) -> str:
    """Return a text with a word, a number, a line or a remark that is another."""
    lines = text.splitlines(keepends=True) or [text]
    place = random.randrange(len(lines))
    words = _WORD.findall(text) or ["x"]
    match random.randrange(8):
        case 0:
            del lines[place]
        case 1:
            lines.insert(place, lines[random.randrange(len(lines))])
        case 2:
            lines.insert(place, REMARK.format(random.choice(SILENCED)))
        case 3:
            numbers = [number for number, line in enumerate(lines) if re.search(r"\d", line)] or [place]
            place = random.choice(numbers)
            lines[place] = re.sub(r"\d", str(random.randrange(10)), lines[place], count=1)
        case 4:
            lines[place] = lines[place].rstrip("\n") + random.choice((" ", ".", " too", "\t", ": x", " #", ",")) + "\n"
        case _:
            found = list(_WORD.finditer(lines[place]))
            if found:
                old, line = random.choice(found), lines[place]
                lines[place] = line[: old.start()] + random.choice(words) + line[old.end() :]
    return "".join(lines)


def answers(folder: str, *words: str) -> tuple[int, str, str]:
    """Check and return the exit code with all that is printed."""
    out, err = io.StringIO(), io.StringIO()
    forget_lines()
    with contextlib.redirect_stdout(out), contextlib.redirect_stderr(err):
        try:
            code = main(["check", folder, *words])
        except Exception as problem:
            raise AssertionError(f"check {folder} {words} ended in {problem!r}") from problem
    return code, out.getvalue(), err.getvalue()


def trial(whole: Path, seed: int, turns: int) -> Iterator[tuple[str, bool, bool]]:
    """Give for every turn what was done, whether all answers were the same, and whether not all was checked for them.

    The present folder is where the copy of ``whole`` is made.
    """
    random, folder = Random(seed), Path(f"trial-{seed}")
    shutil.copytree(whole, folder, ignore=shutil.ignore_patterns(".*"))
    answers(folder.as_posix())
    for _ in range(turns):
        time.sleep(_TICK)
        done = change(folder, whole, random)
        form = ("--form", random.choice(FORMS), *random.choice(((), (), ("--no-advice",))))
        first = answers(folder.as_posix(), *form)
        kept = kept_check.read_dates(folder.as_posix(), folder.as_posix(), kept_check.program())
        same = first == answers(folder.as_posix(), "--no-cache", *form) == answers(folder.as_posix(), *form)
        yield done, same, kept is not None and kept["news"] is not None


def run(whole: Path, turns: int, seeds: list[int]) -> int:
    """Make a trial of every seed and return an exit code."""
    kept_check.YOUNG, kept_check.LEAST = int(_TICK * 500_000_000), 1
    with tempfile.TemporaryDirectory() as place:
        os.chdir(place)
        for seed in seeds:
            partly = 0
            for turn, (done, same, known) in enumerate(trial(whole, seed, turns), 1):
                partly += known
                if not same:
                    sys.stdout.write(f"seed {seed}, turn {turn}: the answers differ after: {done}\n")
                    return 1
            sys.stdout.write(f"seed {seed}: {turns} turns, {partly} of them checked in part, no difference\n")
            sys.stdout.flush()
    return 0


if __name__ == "__main__":
    raise SystemExit(run(Path(sys.argv[1]).resolve(), int(sys.argv[2]), [int(each) for each in sys.argv[3:]]))
