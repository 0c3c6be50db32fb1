"""``groups``: a class divided into pairs, threes, teams or any groups, and who is in which."""

import argparse
import random
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lessonkit.commands.asked import whole_number
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.grid import grid
from lessonkit.commands.handout import add_handout_arguments, write_handouts
from lessonkit.commands.names import CAUTION, read_names, unbroken
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from lessonkit.document.model import Document
    from lessonkit.logistics.groups import Grouping
    from lessonkit.records.activity import UnevenRule

NAME = "groups"
HELP = "Divide a class into pairs, teams or any groups, with nobody left over."
EXAMPLES = (
    ("lessonkit groups 25", "pairs, one of them a three"),
    ("lessonkit groups 25 --of 4 --over smaller", "fours and threes"),
    ("lessonkit groups 25 --side 3 --over change-in", "games of 3 against 3, one child changing in"),
    ("lessonkit groups 31 --groups 6", "six groups as equal as can be"),
    ("lessonkit groups --names list.txt --of 3 --mix 2", "threes from a list of yours, mixed the second way"),
)
_MOST = 120
_OVER: "dict[str, UnevenRule]" = {
    "larger": "larger-group",
    "smaller": "smaller-group",
    "change-in": "rotate-in",
    "teacher": "teacher-joins",
}
_DEALT = {
    "count-off": "dealt out in turn, as when a line counts off",
    "neighbours": "neighbors in the line together",
    "back-and-forth": "dealt out there and back: alike if the line runs from most to least practiced",
}


@dataclass(frozen=True, slots=True)
class _Lists:
    """Who is in every group, the teacher perhaps among them; those who change in from the side; and sentences."""

    groups: tuple[tuple[str, ...], ...]
    changing_in: tuple[str, ...]
    says: tuple[str, ...]


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    parser.add_argument("children", nargs="?", metavar="CHILDREN", help=f"how many children (1 to {_MOST})")
    parser.add_argument("--names", metavar="FILE", help="a file of names or initials instead, one a line")
    sizes = parser.add_mutually_exclusive_group()
    sizes.add_argument("--of", dest="size", metavar="N", help="children in a group (default: 2)")
    sizes.add_argument("--side", metavar="N", help="games of so many against so many")
    sizes.add_argument("--groups", metavar="N", help="so many groups, as equal as can be")
    parser.add_argument(
        "--over",
        choices=tuple(_OVER),
        help="children left over make groups larger (the default) or smaller, change in, or join the teacher",
    )
    parser.add_argument("--deal", choices=tuple(_DEALT), default="count-off", help="how the line is dealt out")
    parser.add_argument("--mix", metavar="N", help="mix the line first; the same number always mixes it the same way")
    add_handout_arguments(parser)


def run(args: argparse.Namespace, terminal: Terminal) -> int:
    """Show the groups, and write the pages asked for. Returns 0."""
    children = _children(args)
    lists = _lists(args, children)
    for sentence in lists.says:
        terminal.tell(sentence)
    terminal.line()
    rows = _rows(lists)
    for line in grid(("Group", "Size", "Who"), rows, terminal.width, flexible=(2,)):
        terminal.line(line)
    title = f"Groups of {len(children)} children"
    write_handouts(args, lambda: _sheet(title, lists, rows), terminal)
    return 0


def _children(args: argparse.Namespace) -> list[str]:
    """Return the children's names or numbers in the order of the line, mixed where that is asked for."""
    from lessonkit.logistics.lists import numbered

    if args.names is not None:
        if args.children is not None:
            raise CannotRunError("give a number of children or --names, not both.")
        children = list(read_names(args.names, _MOST))
    elif args.children is None:
        raise CannotRunError("say how many children there are, as in: lessonkit groups 25")
    else:
        children = list(numbered(whole_number(args.children, "groups", "children", 1, _MOST)))
    if args.mix is not None:
        random.Random(whole_number(args.mix, "--mix", "the mix", 0, 10**6)).shuffle(children)
    return children


def _lists(args: argparse.Namespace, children: list[str]) -> _Lists:
    from lessonkit.logistics.lists import deal

    found = _grouping(args, len(children))
    placed = len(children) - found.rotating_in
    groups = deal(children[:placed], found.sizes, args.deal)
    if found.teacher_joins:
        groups = (*groups[:-1], (*groups[-1], "the teacher"))
    caution = (CAUTION,) if args.names is not None else ()
    dealt = (f"{_DEALT[args.deal][0].upper()}{_DEALT[args.deal][1:]}.",) if len(groups) > 1 else ()
    return _Lists(groups, tuple(children[placed:]), (found.says, *dealt, *caution))


def _grouping(args: argparse.Namespace, children: int) -> "Grouping":
    from lessonkit.logistics.groups import group, larger_groups
    from lessonkit.records.activity import Organisation, Uneven

    over = args.over or "larger"
    uneven = Uneven(rule=_OVER[over], say="")
    if args.groups is not None:
        if args.over:
            raise CannotRunError("--groups shares everybody out; leave out --over.")
        return _shared(children, whole_number(args.groups, "--groups", "groups", 1, children))
    if args.side is not None:
        side = whole_number(args.side, "--side", "children on a side", 1, 12)
        return group(Organisation(form="teams", side=side, uneven=uneven), children)
    size = whole_number(args.size or "2", "--of", "children in a group", 1, 30)
    if size in (2, 3, 4):
        form = {2: "pairs", 3: "threes", 4: "fours"}[size]
        return group(Organisation(form=form, uneven=uneven), children)  # type: ignore[arg-type]
    if over not in ("larger", "smaller"):
        raise CannotRunError("--over change-in and --over teacher are for groups of two to four and for games.")
    return _shared(children, -(-children // size) if over == "smaller" else len(larger_groups(children, size)))


def _shared(children: int, groups: int) -> "Grouping":
    """Share everybody out over so many groups."""
    from lessonkit.logistics.groups import Grouping, share_out
    from lessonkit.logistics.words import counted, listed, number, opened

    sizes = share_out(children, groups)
    parts = [f"{counted(sizes.count(size), 'group')} of {number(size)}" for size in dict.fromkeys(sizes)]
    return Grouping(sizes, 0, False, f"{opened(listed(parts))}.")


def _rows(lists: _Lists) -> list[tuple[str, str, str]]:
    rows = [
        (str(place), str(len(group)), ", ".join(map(unbroken, group))) for place, group in enumerate(lists.groups, 1)
    ]
    if lists.changing_in:
        rows.append(("changing in", str(len(lists.changing_in)), ", ".join(map(unbroken, lists.changing_in))))
    return rows


def _sheet(title: str, lists: _Lists, rows: list[tuple[str, str, str]]) -> "Document":
    from lessonkit.document.table_sheet import table_sheet

    return table_sheet(title, lists.says, ("Group", "Size", "Who"), rows, shares=(14, 10, 76))
