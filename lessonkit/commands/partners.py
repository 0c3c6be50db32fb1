"""``partners``: somebody new every round, in pairs, threes or fours."""

import argparse
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lessonkit.commands.asked import whole_number
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.grid import grid
from lessonkit.commands.handout import add_handout_arguments, write_handouts
from lessonkit.commands.names import CAUTION, read_names, unbroken
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from collections.abc import Iterable

    from lessonkit.document.model import Document
    from lessonkit.logistics.partners import OddRule

NAME = "partners"
HELP = "Give everybody new partners every round, in pairs, threes or fours."
EXAMPLES = (
    ("lessonkit partners 24 --rounds 6", "six rounds of pairs, nobody twice with the same partner"),
    ("lessonkit partners 25 --rounds 6 --odd rest", "the odd child rests in turn instead of making a three"),
    ("lessonkit partners 25 --of 4 --rounds 5", "new fours every round, with as few repeats as can be had"),
    ("lessonkit partners 8 --against --rounds 7", "two against two, a new partner every game"),
    ("lessonkit partners --names list.txt --rounds 4", "with names from a file of yours, one a line"),
)
_MOST_CHILDREN = 80
_MOST_ROUNDS = 40
_ODD: "dict[str, OddRule]" = {"three": "larger-group", "rest": "rotate-in", "teacher": "teacher-joins"}


@dataclass(frozen=True, slots=True)
class _Schedule:
    """Rounds of groups in words, who is left over in each, what that column is called, and sentences."""

    groups: tuple[tuple[str, ...], ...]
    left_over: tuple[str, ...]
    left_name: str
    says: tuple[str, ...]


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    parser.add_argument("children", nargs="?", metavar="CHILDREN", help=f"how many children (2 to {_MOST_CHILDREN})")
    parser.add_argument("--names", metavar="FILE", help="a file of names or initials instead, one a line")
    parser.add_argument("--rounds", metavar="N", default="6", help="how many rounds (default: 6)")
    parser.add_argument("--of", dest="size", metavar="N", default="2", help="children in a group (default: 2)")
    parser.add_argument(
        "--odd", choices=tuple(_ODD), help="an odd child makes a three (the default), rests, or joins the teacher"
    )
    parser.add_argument("--against", action="store_true", help="pairs play against pairs, new partners every game")
    add_handout_arguments(parser)


def run(args: argparse.Namespace, terminal: Terminal) -> int:
    """Show the rounds, and write the pages asked for. Returns 0."""
    names = _children(args)
    rounds = whole_number(args.rounds, "--rounds", "rounds", 1, _MOST_ROUNDS)
    size = whole_number(args.size, "--of", "children in a group", 2, 12)
    terminal.status("Looking for rounds without repeats ...")
    schedule = _schedule(args, names, rounds, size)
    for sentence in schedule.says:
        terminal.tell(sentence)
    terminal.line()
    header, rows = _table(schedule)
    for line in grid(header, rows, terminal.width, flexible=(1,)):
        terminal.line(line)
    title = f"Partners for {len(names)} children"
    write_handouts(args, lambda: _sheet(title, schedule), terminal)
    return 0


def _children(args: argparse.Namespace) -> tuple[str, ...]:
    """Return the children's names or numbers."""
    from lessonkit.logistics.lists import numbered

    if args.names is not None:
        if args.children is not None:
            raise CannotRunError("give a number of children or --names, not both.")
        names = read_names(args.names, _MOST_CHILDREN)
        if len(names) < 2:
            raise CannotRunError("one child alone has no partner.")
        return names
    if args.children is None:
        raise CannotRunError("say how many children there are, as in: lessonkit partners 24 --rounds 6")
    return numbered(whole_number(args.children, "partners", "children", 2, _MOST_CHILDREN))


def _schedule(args: argparse.Namespace, names: tuple[str, ...], rounds: int, size: int) -> _Schedule:
    caution = (CAUTION,) if args.names is not None else ()
    if args.against:
        if size != 2 or args.odd:
            raise CannotRunError("--against is for pairs; leave out --of and --odd.")
        return _against(names, rounds, caution)
    if size == 2:
        return _pairs(names, rounds, _ODD[args.odd or "three"], caution)
    if args.odd:
        raise CannotRunError("--odd is for pairs; larger groups differ by one child where they must.")
    return _groups(names, rounds, size, caution)


def _pairs(names: tuple[str, ...], rounds: int, odd: "OddRule", caution: tuple[str, ...]) -> _Schedule:
    from lessonkit.logistics.partners import partners

    found = partners(len(names), rounds, odd)
    alone = tuple(names[child - 1] for child in found.alone)
    called = "With teacher" if odd == "teacher-joins" else "Resting"
    return _Schedule(_named(found.rounds, names), alone, called, (found.says, *caution))


def _groups(names: tuple[str, ...], rounds: int, size: int, caution: tuple[str, ...]) -> _Schedule:
    from lessonkit.logistics.groups import share_out
    from lessonkit.logistics.regroup import regroup
    from lessonkit.logistics.words import counted, listed, number, opened

    sizes = share_out(len(names), -(-len(names) // size))
    found = regroup(sizes, rounds)
    parts = [f"{counted(sizes.count(each), 'group')} of {number(each)}" for each in dict.fromkeys(sizes)]
    return _Schedule(_named(found.rounds, names), (), "", (f"{opened(listed(parts))}.", found.says, *caution))


def _against(names: tuple[str, ...], rounds: int, caution: tuple[str, ...]) -> _Schedule:
    from lessonkit.logistics.doubles import doubles

    if len(names) < 4:
        raise CannotRunError("two against two needs four children at least.")
    found = doubles(len(names), rounds)
    games = tuple(
        tuple(f"{_group(one, names)}\u00a0v\u00a0{_group(two, names)}" for one, two in each) for each in found.rounds
    )
    resting = tuple(", ".join(unbroken(names[child - 1]) for child in each) for each in found.resting)
    return _Schedule(games, resting if any(resting) else (), "Resting", (found.says, *caution))


def _named(rounds: "Iterable[Iterable[tuple[int, ...]]]", names: tuple[str, ...]) -> tuple[tuple[str, ...], ...]:
    return tuple(tuple(_group(group, names) for group in groups) for groups in rounds)


def _group(group: tuple[int, ...], names: tuple[str, ...]) -> str:
    """Return a group as one word that no table breaks: ``1+24``."""
    return "+".join(unbroken(names[child - 1]) for child in group)


def _table(schedule: _Schedule) -> tuple[list[str], list[list[str]]]:
    header = ["Round", "Together"]
    rows = [[str(number), ", ".join(groups)] for number, groups in enumerate(schedule.groups, 1)]
    if schedule.left_over:
        header.append(schedule.left_name)
        rows = [[*row, left] for row, left in zip(rows, schedule.left_over, strict=True)]
    return header, rows


def _sheet(title: str, schedule: _Schedule) -> "Document":
    from lessonkit.document.table_sheet import table_sheet

    header, rows = _table(schedule)
    shares = (8, 80, 12) if schedule.left_over else (8, 92)
    return table_sheet(title, schedule.says, header, rows, shares=shares)
