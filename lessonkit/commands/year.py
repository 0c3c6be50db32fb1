"""``year``: order the units of all classes into the weeks of the school year."""

import argparse
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from lessonkit.commands.asked import seconds
from lessonkit.commands.calls import call, call_revise
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.meant import day_given, no_such
from lessonkit.commands.plan_words import at_most_better
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from lessonkit.document.detail import CountPages
    from lessonkit.document.model import Document
    from lessonkit.loading.folder import Loaded
    from lessonkit.planning.year.map_year import Mapped
    from lessonkit.planning.year.setup import Again
    from lessonkit.records.year import Year, YearMap

NAME = "year"
HELP = "Order the units of all classes into the weeks of the school year."
EXAMPLES = (
    ("lessonkit year", "the curriculum's year, as the record of the kind year asks for it"),
    ("lessonkit year --since 2027-01-18", "map it again: what has begun by then stays, and few units move"),
    ("lessonkit year --as word", "the yearly overview too: a page a grade, one for the school"),
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's words and options."""
    parser.add_argument("folder", nargs="?", help="the folder of records (default: curriculum, or this folder)")
    parser.add_argument("--year", metavar="ID", help="which year, where there are several")
    parser.add_argument(
        "--since", metavar="DAY", help="keep the units that have begun before this day, move few others"
    )
    parser.add_argument(
        "--seconds", type=seconds, metavar="N", help="search for N seconds at most, instead of the usual effort"
    )
    parser.add_argument(
        "--over", action="store_true", help="replace a map edited by hand (it is kept beside the new one)"
    )
    parser.add_argument(
        "--as", dest="forms", action="append", choices=("word", "html"), help="write the yearly overview as well"
    )
    parser.add_argument("--to", metavar="FOLDER", default="exports", help="where to write it (default: exports)")


def run(args: argparse.Namespace, terminal: Terminal) -> int:
    """Map the year and write the map. Returns 0, or 1 when something stands in the way."""
    from lessonkit.commands.curriculum import open_curriculum
    from lessonkit.commands.refusing import refuse_errors

    loaded = open_curriculum(args.folder, terminal)
    if refuse_errors(loaded, terminal, leave_out=("plan", "year-map")):
        return 1
    year = _wanted(loaded, args.year, args.folder)
    return _map(loaded, year, _map_of(loaded, year), args, terminal)


def _wanted(loaded: "Loaded", wanted: str | None, folder: str | None) -> "Year":
    years = loaded.library.years
    if not years:
        raise CannotRunError(f"this curriculum has no year to map; start one with: {call('new year my-year', folder)}")
    if wanted is None and len(years) == 1:
        return next(iter(years.values()))
    if wanted is None:
        raise CannotRunError(f"choose a year with --year; there are {', '.join(sorted(years))}.")
    if wanted not in years:
        raise no_such("year", wanted, years, folder)
    return years[wanted]


def _map_of(loaded: "Loaded", year: "Year") -> "YearMap | None":
    maps = loaded.library.year_maps
    return next((maps[key] for key in sorted(maps) if maps[key].year == year.id), None)


def _map(loaded: "Loaded", year: "Year", old: "YearMap | None", args: argparse.Namespace, terminal: Terminal) -> int:
    from lessonkit import __version__
    from lessonkit.commands.year_words import show_mapped, show_moves, show_no_map
    from lessonkit.planning.sequence import Options
    from lessonkit.planning.solve import Progress
    from lessonkit.planning.year.map_year import NoMap, map_year

    def watch(progress: Progress) -> None:
        better = f"{at_most_better(progress.gap)} possible"
        terminal.status(f"Searching, {progress.seconds:.0f} s: a map is found, {better}.")

    terminal.status(f"{year.title}: searching ...")
    options = Options(seconds=args.seconds, progress=watch, version=__version__)
    found: Mapped | NoMap | None = map_year(loaded.library, year, options, _again(old, args.since, args.folder))
    terminal.status("")
    if found is None:
        terminal.error("The search ended before it found a map; give it more time.")
        return 1
    if isinstance(found, NoMap):
        show_no_map(found, year, loaded.library, terminal)
        return 1
    path, says = _write(loaded, found, old, year, args.over)
    if path is None:
        terminal.error(says)
        return 1
    show_mapped(found, terminal)
    if old is not None:
        show_moves(old, found, terminal)
    terminal.tell(f"Wrote {path}." + (f" {says}" if says else ""))
    terminal.tell(f"Bring the units' start dates in line with it: {call('check --fix', args.folder)}")
    for line in _export(found, args, terminal):
        terminal.line(line)
    return 0


def _again(old: "YearMap | None", since: str | None, folder: str | None) -> "Again | None":
    from lessonkit.planning.year.setup import Again

    if since is None:
        return None
    day = day_given(since)
    if old is None:
        raise CannotRunError(f"there is no map of this year yet; make one with: {call('year', folder)}")
    return Again(old, day)


def _write(
    loaded: "Loaded", found: "Mapped", old: "YearMap | None", year: "Year", over: bool
) -> tuple[str | None, str]:
    """Write the map's file. An edited map is kept unless ``over``; then the old file stays beside the new one."""
    from lessonkit.planning.year.worth import is_edited
    from lessonkit.planning.year.write_map import map_text
    from lessonkit.source.safe_file import write_whole

    path = Path(old.path) if old else Path(year.path).parent / "maps" / f"{found.year_map.id}.yaml"
    kept = ""
    if path.exists() and (old is None or is_edited(old)):
        if not over:
            return None, (
                f"{path.as_posix()} was edited by hand and stays as it is. "
                "Add --over to replace it; the edited file is then kept beside it."
            )
        spare = path.with_suffix(".yaml.old")
        write_whole(spare, path.read_bytes())
        kept = f"The edited map is kept as {spare.as_posix()}."
    write_whole(path, map_text(found.year_map, loaded.library).encode())
    return path.as_posix(), kept


def _export(found: "Mapped", args: argparse.Namespace, terminal: Terminal) -> Iterator[str]:
    """Write the yearly overview in the forms that were asked for; yield a line for every file."""
    if not args.forms:
        return
    from functools import partial

    from lessonkit.commands.exported import Folder
    from lessonkit.commands.school_look import school_look
    from lessonkit.writers.options import Options
    from lessonkit.writers.table import FORMATS
    from lessonkit.writers.word.writer import safe_pages

    look = school_look(None, found.case.school)
    options = Options(look=look)
    folder = Folder(Path(args.to.replace("\\", "/")) / found.case.year.id, revise=partial(call_revise, args.folder))
    documents = list(_documents(found, partial(safe_pages, look=look)))
    for form in dict.fromkeys(args.forms):
        for name, document in documents:
            terminal.status(f"Writing {name} ...")
            folder.put(f"{name}{FORMATS[form].suffix}", FORMATS[form].write(document, options))
    terminal.status("")
    yield from folder.report()


def _documents(found: "Mapped", pages: "CountPages") -> "Iterator[tuple[str, Document]]":
    """Yield the overviews, and the coverage report of every grade that has plans for units of the year."""
    from lessonkit.document.coverage_report import coverage_report
    from lessonkit.document.lesson_facts import work_out
    from lessonkit.document.year_overview import year_documents

    case = found.case
    yield from year_documents(found.year_map, case.library, pages)
    units = {each.unit for each in found.year_map.units}
    plans = case.library.plans
    facts = [work_out(plans[key], case.library) for key in sorted(plans) if plans[key].unit in units]
    for grade in dict.fromkeys(grade for one in facts for grade in one.school_class.grades):
        report = coverage_report(
            case.library.frameworks[case.year.framework],
            grade,
            case.library,
            facts,
            date=case.school.calendar.first_day,
            author=case.school.title,
            paper=case.school.paper,
        )
        yield f"coverage-grade-{grade.lower()}", report
