"""``find``: the activities that fit a class, a cupboard, a floor and a few minutes."""

import argparse
import textwrap
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, TypeVar

from lessonkit.commands.asked import sides
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.meant import no_such, quoted
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from lessonkit.choosing.wanted import Match, Wanted
    from lessonkit.records.library import Library
    from lessonkit.records.school import School, Space

NAME = "find"
HELP = "Find activities that fit a class, its equipment, its minutes and its floor."
EXAMPLES = (
    ("lessonkit find rope", "activities about ropes"),
    ("lessonkit find --grade 2 --part warm-up --minutes 5", "warm-ups of five minutes for grade 2"),
    ("lessonkit find --with paddle=12 --children 12 --minutes 10", "with 12 paddles in ten minutes"),
    ('lessonkit find --class grade-3-heron --floor "11 m by 14 m"', "a class of the school in half the gym"),
    ("lessonkit find --only ball --only cone --grade 4", "what needs nothing but balls and cones"),
    ("lessonkit find --outcome S1.E24.3b", "what serves an outcome, checks first"),
    ("lessonkit find --like ladder-of-taps", "activities that are alike"),
    ("lessonkit find --missing --grade 1", "what the library lacks"),
)
_PARTS = ("warm-up", "skill", "practice", "game", "closing")
_FORMS = ("individuals", "pairs", "threes", "fours", "teams", "squads", "whole-class")
_MOST = 10
T = TypeVar("T")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    parser.add_argument("words", nargs="*", metavar="WORD", help="words that the record must hold")
    parser.add_argument("--grade", choices=("K", "1", "2", "3", "4", "5"), help="a grade")
    parser.add_argument("--class", dest="school_class", metavar="ID", help="a class: its grade, children and space")
    parser.add_argument("--part", choices=_PARTS, metavar="PART", help=f"a part of a lesson: {', '.join(_PARTS)}")
    parser.add_argument("--skill", metavar="ID", help="a skill")
    parser.add_argument("--outcome", metavar="CODE", help="an outcome code")
    parser.add_argument("--minutes", type=int, metavar="N", help="minutes that there are, set-up included")
    parser.add_argument("--children", type=int, metavar="N", help="how many children (default: 25)")
    parser.add_argument("--with", dest="at_hand", action="append", metavar="ITEM[=N]", help="use this, at most N of it")
    parser.add_argument("--only", action="append", metavar="ITEM[=N]", help="use nothing but this; may be repeated")
    parser.add_argument("--form", choices=_FORMS, metavar="FORM", help=f"how the class is grouped: {', '.join(_FORMS)}")
    parser.add_argument("--floor", metavar="SIZE", help='the floor that there is, such as "11 m by 14 m"')
    parser.add_argument("--space", metavar="ID", help="a space of the school")
    parser.add_argument("--where", choices=("indoors", "outdoors"), help="where it is to be played")
    parser.add_argument("--station", action="store_true", help="only what can stand as a station")
    parser.add_argument("--measured", action="store_true", help="only what has a count or a time to beat")
    parser.add_argument("--like", metavar="ID", help="the activities most like this one")
    parser.add_argument("--missing", action="store_true", help="what the library lacks, of the grade or of all")
    parser.add_argument("--all", action="store_true", help=f"show all that is found, not the first {_MOST}")
    parser.add_argument("--in", dest="folder", metavar="FOLDER", help="the curriculum to look in")


def run(args: argparse.Namespace, terminal: Terminal) -> int:
    """Show what is found. Returns 0, or 1 when there is nothing."""
    from lessonkit.commands.curriculum import open_curriculum
    from lessonkit.commands.plans import refuse_unread

    loaded = open_curriculum(args.folder, terminal)
    library = loaded.library
    if args.school_class or args.space:
        refuse_unread(None, loaded, "school")
    lines = list(_answer(args, library, terminal.width))
    for line in lines:
        terminal.line(line)
    return 0 if lines else _nothing(args, library, terminal)


def _nothing(args: argparse.Namespace, library: "Library", terminal: Terminal) -> int:
    """Say why nothing was found, and what may help."""
    from lessonkit.choosing.words import near_words, words_nowhere

    nowhere = words_nowhere(tuple(args.words), library)
    for word in nowhere:
        near = near_words(word, library)
        terminal.tell(
            f"No activity has the word {quoted(word)}." + (f" The nearest: {', '.join(near)}." if near else "")
        )
    if not nowhere:
        fewer = " or ask for fewer children" if args.children or args.school_class else ""
        terminal.tell(f"No activity is all of that. Leave out one of the words or conditions{fewer}.")
    return 1


def _answer(args: argparse.Namespace, library: "Library", width: int) -> Iterator[str]:
    if args.missing:
        yield from _missing(args, library, width)
    elif args.like is not None:
        yield from _alike(args, library, width)
    else:
        yield from _found(args, library, width)


def _found(args: argparse.Namespace, library: "Library", width: int) -> Iterator[str]:
    from lessonkit.choosing.wanted import find

    school = next(iter(library.schools.values()), None)
    wanted = _wanted(args, library, school)
    matches = find(wanted, library, school)
    shown = matches if args.all else matches[:_MOST]
    for match in shown:
        yield from _match_lines(match, wanted, library, width)
    if matches:
        count = "1 activity" if len(matches) == 1 else f"{len(matches)} activities"
        more = "" if len(shown) == len(matches) else f"; the first {len(shown)} are shown (--all shows the rest)"
        yield f"{count}{more}."


def _match_lines(match: "Match", wanted: "Wanted", library: "Library", width: int) -> Iterator[str]:
    activity = match.activity
    minutes = f"{activity.minutes.least} to {activity.minutes.most} min"
    yield f"{activity.title}  ({activity.id})"
    facts = f"grade {activity.grades}, {', '.join(activity.parts)}, {minutes}, {activity.organisation.form}"
    yield from _fold(f"{facts}. {activity.summary}", width)
    needs = ", ".join(_count(item, count, library) for item, count in match.needs.items())
    floor = f" {match.floor.says}" if match.floor is not None else ""
    yield from _fold(f"For {wanted.children}: {needs or 'no equipment'}.{floor}", width)


def _count(item: str, count: int, library: "Library") -> str:
    known = library.items.get(item)
    return f"{count} {item if known is None else known.title if count == 1 else known.plural}"


def _fold(words: str, width: int) -> list[str]:
    return textwrap.wrap(words, width, initial_indent="    ", subsequent_indent="    ")


def _wanted(args: argparse.Namespace, library: "Library", school: "School | None") -> "Wanted":
    from lessonkit.choosing.wanted import Wanted

    grade, children, space = args.grade, args.children, None
    if args.school_class is not None:
        one = _named(args.school_class, {c.id: c for c in school.classes} if school else {}, "class", args.folder)
        grade, children = grade or one.grade, children or one.children
        space = school.space(one.space) if school else None
    if args.space is not None:
        space = _named(args.space, {s.id: s for s in school.spaces} if school else {}, "space", args.folder)
    if children is not None and children < 1:
        raise CannotRunError("--children must be 1 or more.")
    if args.skill is not None:
        _named(args.skill, library.skills, "skill", args.folder)
    asked = [*(args.at_hand or ()), *(args.only or ())]
    return Wanted(
        words=tuple(args.words),
        grade=grade,
        part=args.part,
        skill=args.skill,
        outcome=_outcome(args.outcome, library),
        minutes=args.minutes,
        children=children or 25,
        form=args.form,
        where=args.where,
        space=_floor(args.floor, space) if args.floor else space,
        at_hand=tuple(pair for each in asked for pair in _items(each, library)),
        nothing_else=bool(args.only),
        station=args.station,
        measured=args.measured,
    )


def _named(name: str, known: Mapping[str, T], what: str, folder: str | None) -> T:
    """Return what has a name. Raises CannotRunError, with the name that was probably meant, for an unknown one."""
    if name in known:
        return known[name]
    raise no_such(what, name, known, folder)


def _outcome(written: str | None, library: "Library") -> str | None:
    """Return a code as the frameworks spell it."""
    from lessonkit.outcomes.look_up import Known, Repairable, look_up

    if written is None:
        return None
    for framework in library.frameworks.values():
        match look_up(framework, written):
            case Known(outcome=outcome) | Repairable(outcome=outcome):
                return outcome.code
            case _:
                continue
    raise CannotRunError(f"no framework of this curriculum has the outcome code {quoted(written)}.")


def _floor(written: str, space: "Space | None") -> "Space":
    """Return a space of the size written, with the walls of the space that it is a part of, where there is one."""
    from lessonkit.records.measures import Length
    from lessonkit.records.school import Space

    long, wide = sides(written)
    return Space(
        id="floor",
        title="Floor",
        length=Length(long, written),
        width=Length(wide, written),
        where=space.where if space else "indoors",
        surface="",
        walls=space.walls if space else ("left", "near"),
    )


def _items(written: str, library: "Library") -> "list[tuple[str, int | None]]":
    """Return the items that ``paddle=12`` means with the number: one of that id, else all that end in the word."""
    name, _, number = written.partition("=")
    if number and not number.isdigit():
        raise CannotRunError(f"{quoted(written)}: write an item and how many there are of it, such as paddle=12.")
    word = name.strip().lower().replace(" ", "-")
    for known in (word, word.removesuffix("s"), word.removesuffix("es")):
        found = [known] if known in library.items else [item for item in library.items if item.endswith(f"-{known}")]
        if found:
            return [(item, int(number) if number else None) for item in found]
    endings = {item.rpartition("-")[2]: item for item in library.items}
    _named(word, {**endings, **{item: item for item in library.items}}, "item of equipment", None)
    return []


def _alike(args: argparse.Namespace, library: "Library", width: int) -> Iterator[str]:
    from lessonkit.choosing.alike import alike

    pattern = _named(args.like, library.activities, "activity", args.folder)
    pairs = alike(pattern, library)
    for pair in pairs if args.all else pairs[:_MOST]:
        other = library.activities[pair.other]
        yield f"{other.title}  ({other.id}), {pair.likeness:.0%} alike"
        yield from _fold(other.summary, width)


def _missing(args: argparse.Namespace, library: "Library", width: int) -> Iterator[str]:
    from lessonkit.choosing.missing import missing

    if not library.frameworks:
        raise CannotRunError("this curriculum has no framework of outcomes to hold its activities against.")
    for framework in library.frameworks.values():
        lacks = missing(library, framework, args.grade) if framework.complete else ()
        grade = ""
        for lack in lacks:
            if lack.grade != grade:
                grade = lack.grade
                yield f"Grade {grade}, {framework.title}"
            yield from textwrap.wrap(lack.says, width, initial_indent="  ", subsequent_indent="    ")
        if framework.complete and not lacks:
            grades = "the grade" if args.grade else "every grade"
            yield f"Nothing is missing for {grades}: {framework.title}."
