"""The words of the command line: which there are, and what is said about those that cannot be understood."""

import argparse
import re
import textwrap
from collections.abc import Iterable
from importlib import import_module
from typing import Final, NoReturn

from lessonkit import __version__
from lessonkit.commands.meant import meant, quoted
from lessonkit.commands.terminal import open_terminal

_OPENING = """Keep a PE curriculum as plain records, check it, plan units from it,
and print the binder in Word."""
_CLOSING = """A first tour:
  lessonkit new curriculum my-school   copy the starter curriculum into a folder
  lessonkit check my-school            see whether every record is right
  lessonkit sequence my-school         plan its units
  lessonkit export my-school           write the Word files

"lessonkit COMMAND --help" explains a command and gives examples.
"""
_ABOUT: Final = re.compile(r"argument (?P<name>[^:]+): (?P<says>.*)", re.DOTALL)
_CHOICE: Final = re.compile(r"invalid choice: (?P<written>.*) \(choose from (?P<known>.*)\)", re.DOTALL)
_VALUE: Final = re.compile(r"invalid (?P<type>\w+) value: (?P<written>.*)", re.DOTALL)
_UNKNOWN: Final = re.compile(r"unrecognized arguments: (?P<written>.*)", re.DOTALL)
_SEVERAL: Final = re.compile(r"ambiguous option: (?P<written>.*) could match (?P<known>.*)", re.DOTALL)
_KINDS: Final = {"int": "a whole number", "seconds": "a number above 0"}
_OPTION: Final = re.compile(r"(?<![\w-])--[a-z][a-z-]*")


class _Parser(argparse.ArgumentParser):
    """A reader of words that answers what it cannot understand in a teacher's words."""

    command: argparse.ArgumentParser | None = None
    """The only command there is; the words that no reader has understood are its own."""

    def error(self, message: str) -> NoReturn:
        asked = self.command or self
        says = f"lessonkit: {_plain(message, _OPTION.findall(asked.format_help()))}"
        told = textwrap.fill(says, open_terminal().width, break_on_hyphens=False, break_long_words=False)
        self.exit(2, f"{told}\nTry: {asked.prog} --help\n")


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
    subs = []
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
        subs.append(sub)
    parser.command = subs[0] if len(subs) == 1 else None
    return parser


def _example(command: str, what: str) -> str:
    return f"  {command}\n" + (f"      {what}\n" if what else "")


def _plain(message: str, options: Iterable[str]) -> str:
    """Turn the option reader's own words into a teacher's, with the option that was probably meant."""
    if unknown := _UNKNOWN.fullmatch(message):
        written = unknown["written"]
        first = written.split(maxsplit=1)[0]
        hint = f" {meant(first, options)}" if first.startswith("-") else ""
        return f"{quoted(written)} is not understood here.{hint}"
    if about := _ABOUT.fullmatch(message):
        return _about(about["name"].split(",")[-1].split("/")[-1].strip(), about["says"])
    if several := _SEVERAL.fullmatch(message):
        return f"{several['written']} could mean {' or '.join(several['known'].split(', '))}."
    return message.replace("the following arguments are required:", "something is missing:") + "."


def _about(name: str, says: str) -> str:
    """Say what is wrong with the value of an option or with a word that has a place of its own."""
    option = name if name.startswith("-") else ""
    if choice := _CHOICE.fullmatch(says):
        written, known = choice["written"].strip("'"), [each.strip("' ") for each in choice["known"].split(",")]
        if name == "COMMAND":
            return f"there is no command {quoted(written)}. {meant(written, known) or _there_are(known)}"
        return f"{option or name} cannot be {quoted(written)}. {meant(written, known)}"
    if value := _VALUE.fullmatch(says):
        return f"{option or name} needs {_KINDS.get(value['type'], 'a number')}, not {value['written']}."
    if says.startswith("not allowed with argument "):
        return f"{name} and {says.removeprefix('not allowed with argument ')} do not go together."
    return f"{name} {says.replace('expected', 'needs').replace('argument', 'value')} after it."


def _there_are(known: list[str]) -> str:
    return f"There are: {', '.join(known)}."
