"""The command line: finds the command, hands it its arguments, and turns its answer into an exit code.

Exit codes: 0 nothing to mend, 1 something to mend, 2 the command could not run. Nothing is imported before it is
needed, and only the command that is asked for, so that a short question has its answer at once.
"""

import os
import sys

from lessonkit import __version__

TYPE_CHECKING = False  # Python's own name for this loads more than all of this module.
if TYPE_CHECKING:
    import argparse
    from collections.abc import Sequence
    from types import ModuleType, SimpleNamespace
    from typing import NoReturn

    from lessonkit.commands.terminal import Terminal

COMMANDS = (
    "check",
    "sequence",
    "replan",
    "why",
    "year",
    "export",
    "revise",
    "show",
    "find",
    "new",
    "fit",
    "groups",
    "games",
    "rotation",
    "partners",
)
"""Command modules of ``lessonkit.commands``, in the order that a unit is made."""
STOPPED = "lessonkit: stopped; nothing was written after this point."


def main(arguments: "Sequence[str] | None" = None) -> int:
    """Run the program and return its exit code."""
    words = sys.argv[1:] if arguments is None else list(arguments)
    if words == ["--version"] and sys.stdout:
        sys.stdout.write(f"lessonkit {__version__}\n")
        return 0
    if words[:1] == ["check"]:
        code = _without_collecting(words[1:])
        if code is not None:
            return code
    from lessonkit.commands.terminal import open_terminal

    terminal = open_terminal()
    named = tuple(name for name in COMMANDS if words[:1] == [name])
    args = build_parser(named or COMMANDS).parse_args(words)
    module: ModuleType | None = getattr(args, "module", None)
    if module is None:
        build_parser().print_help(sys.stdout)
        return 2
    return _run(module, args, terminal)


def _without_collecting(words: "Sequence[str]") -> int | None:
    """Check while Python does not search for unused circles of values."""
    from lessonkit.commands.collecting import NoCollecting

    try:
        with NoCollecting():
            return _check(words)
    except KeyboardInterrupt:
        sys.stderr.write(f"{STOPPED}\n")
        return 2


def _check(words: "Sequence[str]") -> int | None:
    """Check without the reader of options where the words are plain; None where they are not."""
    from lessonkit.commands.front_door import answer, plain_arguments, say
    from lessonkit.commands.terminal import open_terminal

    known = answer(words)
    if known is not None:
        say(known[0])
        return known[1]
    args = plain_arguments(words)
    if args is None:
        return None
    from lessonkit.commands import check

    return _run(check, args, open_terminal())


def build_parser(names: "Sequence[str]" = COMMANDS) -> "argparse.ArgumentParser":
    """Return the parser of the command line, with the commands of some names."""
    from lessonkit.commands.words_given import build

    return build(names)


def _run(module: "ModuleType", args: "argparse.Namespace | SimpleNamespace", terminal: "Terminal") -> int:
    from lessonkit.commands.cannot import CannotRunError

    try:
        code: int = module.run(args, terminal)
        sys.stdout.flush()
    except CannotRunError as problem:
        terminal.tell_error(f"lessonkit: {problem}")
        return 2
    except KeyboardInterrupt:
        terminal.error(STOPPED)
        return 2
    except BrokenPipeError:
        sys.stderr.close()
        return 0
    except OSError as problem:
        where = f" {problem.filename}" if problem.filename else ""
        terminal.error(f"lessonkit: the disk refuses{where}: {problem.strerror or problem}.")
        return 2
    return code


def start() -> "NoReturn":
    """Run the program as a process of its own, and end the process.

    A check leaves nothing behind that Python would have to put away, so it ends at once; that alone takes a tenth of
    the time of a short one.
    """
    code = main()
    if sys.argv[1:2] != ["check"]:
        raise SystemExit(code)
    for stream in (sys.stdout, sys.stderr):
        try:
            stream.flush()
        except (OSError, ValueError):
            continue  # Who was to read it has gone.
    os._exit(code)


if __name__ == "__main__":
    start()
