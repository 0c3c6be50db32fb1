"""The words of the command line: which there are, and what is said about those that cannot be understood."""

import argparse
import re
from collections.abc import Iterable
from importlib import import_module
from typing import NoReturn

from lessonkit import __version__

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


def build(names: Iterable[str]) -> argparse.ArgumentParser:
    """Return the parser of the command line, with the commands of some names."""
    parser = _Parser(
        prog="lessonkit",
        description=_OPENING,
        epilog=_CLOSING,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("--version", action="version", version=f"lessonkit {__version__}")
    commands = parser.add_subparsers(metavar="COMMAND", title="commands")
    for name in names:
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


def _plain(message: str) -> str:
    """Turn the option reader's own words into a teacher's."""
    words = message.replace("unrecognized arguments:", "these words are not understood:")
    words = words.replace("the following arguments are required:", "something is missing:")
    words = re.sub(
        r"argument COMMAND: invalid choice: ('[^']*') \(choose from", r"there is no command \1 (there are", words
    )
    return words.replace("invalid choice:", "not one of the choices:").replace("expected one argument", "needs a value")
