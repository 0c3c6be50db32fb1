"""The command line: finds the command, hands it its arguments, and turns its answer into an exit code.

Exit codes: 0 nothing to mend, 1 something to mend, 2 the command could not run.
"""

import argparse
import re
import sys
import textwrap
from collections.abc import Sequence
from importlib import import_module
from types import ModuleType
from typing import NoReturn

from lessonkit import __version__
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.terminal import Terminal, open_terminal

COMMANDS = (
    "check",
    "sequence",
    "replan",
    "year",
    "export",
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

_OPENING = """Keep a PE curriculum as plain records, check it, plan units from it,
and print the binder in Word."""
_CLOSING = """A first tour:
  lessonkit new curriculum my-school   copy the starter curriculum into a folder
  lessonkit check my-school            see whether every record is right
  lessonkit sequence my-school         plan its units
  lessonkit export my-school           write the Word files

"lessonkit COMMAND --help" explains a command and gives examples.
"""


class _Parser(argparse.ArgumentParser):
    def error(self, message: str) -> NoReturn:
        self.exit(2, f"lessonkit: {_plain(message)}\nTry: {self.prog} --help\n")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the program and return its exit code."""
    terminal = open_terminal()
    args = build_parser().parse_args(arguments)
    module: ModuleType | None = getattr(args, "module", None)
    if module is None:
        build_parser().print_help(sys.stdout)
        return 2
    return _run(module, args, terminal)


def build_parser() -> argparse.ArgumentParser:
    """Return the parser of the whole command line."""
    parser = _Parser(
        prog="lessonkit",
        description=_OPENING,
        epilog=_CLOSING,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="version", version=f"lessonkit {__version__}")
    commands = parser.add_subparsers(metavar="COMMAND", title="commands")
    for name in COMMANDS:
        module = import_module(f"lessonkit.commands.{name}")
        sub = commands.add_parser(
            module.NAME,
            help=module.HELP,
            description=module.HELP,
            epilog="Examples:\n" + "".join(_example(*example) for example in module.EXAMPLES),
            formatter_class=argparse.RawDescriptionHelpFormatter,
        )
        module.add_arguments(sub)
        sub.set_defaults(module=module)
    return parser


def _example(command: str, what: str) -> str:
    return f"  {command}\n" + (f"      {what}\n" if what else "")


def _run(module: ModuleType, args: argparse.Namespace, terminal: Terminal) -> int:
    try:
        code: int = module.run(args, terminal)
        sys.stdout.flush()
    except CannotRunError as problem:
        for line in textwrap.wrap(f"lessonkit: {problem}", terminal.width, break_on_hyphens=False):
            terminal.error(line)
        return 2
    except KeyboardInterrupt:
        terminal.error("lessonkit: stopped; nothing was written after this point.")
        return 2
    except BrokenPipeError:
        sys.stderr.close()
        return 0
    except OSError as problem:
        where = f" {problem.filename}" if problem.filename else ""
        terminal.error(f"lessonkit: the disk refuses{where}: {problem.strerror or problem}.")
        return 2
    return code


def _plain(message: str) -> str:
    """Turn the option reader's own words into a teacher's."""
    words = message.replace("unrecognized arguments:", "these words are not understood:")
    words = words.replace("the following arguments are required:", "something is missing:")
    words = re.sub(
        r"argument COMMAND: invalid choice: ('[^']*') \(choose from", r"there is no command \1 (there are", words
    )
    return words.replace("invalid choice:", "not one of the choices:").replace("expected one argument", "needs a value")


if __name__ == "__main__":
    raise SystemExit(main())
