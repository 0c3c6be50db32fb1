"""``fit``: does it fit, for any number of groups or courts, without a curriculum."""

import argparse
import re
from pathlib import Path
from typing import TYPE_CHECKING

from lessonkit.commands.asked import length as read_side
from lessonkit.commands.asked import sides
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.grid import grid
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from lessonkit.logistics.floor import FloorAnswer
    from lessonkit.logistics.lengths import Lengths
    from lessonkit.writers.options import SchoolLook

NAME = "fit"
HELP = "Say whether groups or courts fit a room, and where they stand."
EXAMPLES = (
    ('lessonkit fit 12 "6 m by 2 m" --room "22 m by 14 m" --apart "1 m"', "twelve lanes in a gym"),
    ('lessonkit fit 6 "20 ft by 15 ft" --room "70 ft by 45 ft"', "in feet"),
    ('lessonkit fit 7 "2 m by 4 m" --room "22 m by 14 m" --wall far', "against a wall"),
    ('lessonkit fit 12 "6 m by 2 m" --room "22 m by 14 m" --draw plan.svg', "with a drawing"),
)
_SIDES = ("left", "right", "near", "far")
_ENDINGS = (".svg", ".docx", ".png")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    parser.add_argument("groups", type=int, help="how many groups, courts or children need a space of their own")
    parser.add_argument("size", help='the space of one of them, such as "6 m by 2 m"')
    parser.add_argument("--room", required=True, metavar="SIZE", help='the room, such as "22 m by 14 m"')
    parser.add_argument(
        "--apart", metavar="LENGTH", default="0 m", help="clear floor around each space (default: none)"
    )
    parser.add_argument(
        "--wall",
        action="append",
        choices=_SIDES,
        default=[],
        help="each space must touch this wall; repeat it for more walls to choose from",
    )
    parser.add_argument("--children", type=int, metavar="N", help="say how much floor each of N children has")
    parser.add_argument("--draw", metavar="FILE", help="write the plan as .svg, .docx or .png")
    parser.add_argument(
        "--look", metavar="FILE", help="with --draw and .docx: take your school's look from this Word file"
    )


def run(args: argparse.Namespace, terminal: Terminal) -> int:
    """Answer. Returns 0 where everything fits, 1 where it does not."""
    from lessonkit.logistics.floor import does_it_fit
    from lessonkit.logistics.layout import Need, Room

    if args.groups < 1 or (args.children is not None and args.children < 1):
        raise CannotRunError("at least one group and one child are needed.")
    length, width = sides(args.size)
    room = Room(*sides(args.room), tuple(sorted(set(args.wall))))
    need = Need(length, width, read_side(args.apart), bool(args.wall))
    target = _target(args.draw)
    look = _look(args.look, target)
    lengths: Lengths = "feet" if re.search(r"ft|in", args.room) else "metres"
    answer = does_it_fit(need, args.groups, room, lengths)
    terminal.tell(answer.says)
    terminal.line()
    for line in _table(answer, lengths, terminal.width):
        terminal.line(line)
    if args.children:
        from lessonkit.logistics.crowding import floor_per_child

        terminal.tell(floor_per_child(room, args.children).says)
    if target:
        _draw(answer, lengths, target, look)
        terminal.tell(f"Wrote {target.as_posix()}")
    return 0 if answer.fits else 1


def _target(name: str | None) -> Path | None:
    if name is None:
        return None
    path = Path(name.replace("\\", "/"))
    if path.suffix.lower() not in _ENDINGS:
        raise CannotRunError(f"a drawing can be a file that ends in .svg, .docx or .png, not {path.name}.")
    if path.exists():
        raise CannotRunError(f"{path.as_posix()} is already there; give the drawing another name.")
    return path


def _table(answer: "FloorAnswer", lengths: "Lengths", width: int) -> list[str]:
    """List where the near left corner of every space is, for a tape measure."""
    from lessonkit.logistics.lengths import in_feet, in_metres

    say = in_feet if lengths == "feet" else in_metres
    rows = [
        (placed.name, say(placed.box.x), say(placed.box.y), f"{say(placed.box.length)} by {say(placed.box.width)}")
        for placed in answer.layout.placed
    ]
    return grid(("Space", "From the left", "From the near side", "Size"), rows, width) if rows else []


def _look(given: str | None, target: Path | None) -> "SchoolLook | None":
    if given is None:
        return None
    if target is None or target.suffix.lower() != ".docx":
        raise CannotRunError("--look is the look of a Word page; add --draw and a file that ends in .docx.")
    from lessonkit.commands.school_look import school_look

    return school_look(given, None)


def _draw(answer: "FloorAnswer", lengths: "Lengths", target: Path, look: "SchoolLook | None") -> None:
    from lessonkit.document.floor_plan import areas_scene, describe
    from lessonkit.source.safe_file import write_whole

    scene = areas_scene(answer.layout, lengths)
    match target.suffix.lower():
        case ".svg":
            from lessonkit.writers.svg import picture_file

            write_whole(target, picture_file(scene, describe(scene)))
        case ".png":
            from lessonkit.writers.png import NoPicturesError, write_png

            try:
                write_whole(target, write_png(scene))
            except NoPicturesError as error:
                raise CannotRunError(str(error)) from error
        case _:
            write_whole(target, _word(answer, lengths, look))


def _word(answer: "FloorAnswer", lengths: "Lengths", look: "SchoolLook | None") -> bytes:
    from lessonkit.document.floor_plan import areas_scene, describe
    from lessonkit.document.model import Document, Drawing, Heading, Paragraph, text
    from lessonkit.writers.options import Options
    from lessonkit.writers.table import FORMATS

    scene = areas_scene(answer.layout, lengths)
    title = "Floor plan"
    blocks = (Heading(1, text(title)), Paragraph(text(answer.says)), Drawing(scene, describe(scene)))
    return FORMATS["word"].write(Document(title, title, "", title, "", blocks), Options(look=look))
