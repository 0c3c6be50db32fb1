"""What a mapped or impossible year looks like in the terminal."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lessonkit.commands.grid import grid
from lessonkit.commands.plan_words import at_most_better, how_it_ended, place_of, show_sentence
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from lessonkit.planning.year.map_year import Mapped, NoMap
    from lessonkit.records.library import Library
    from lessonkit.records.unit import Unit
    from lessonkit.records.year import Year, YearMap


def show_mapped(found: "Mapped", terminal: Terminal) -> None:
    """Show the units of every class with their weeks, how good the map is, and what it gives up."""
    terminal.line(found.case.year.title)
    for title, rows in _by_classes(found):
        terminal.line()
        terminal.line(title)
        for line in grid(("Week of", "Last lesson", "Lessons", "Unit"), rows, terminal.width, flexible=(3,)):
            terminal.line(line)
    terminal.line()
    made = found.year_map.made
    if made is not None and made.status == "proven":
        says = f"Proven: no map meets your wishes better (cost {made.cost}). Every requirement was checked again."
    elif made is not None:
        gap = (made.cost - made.bound) / max(1, made.cost)
        says = (
            f"{how_it_ended(found.stopped)} The map meets every requirement; a better one may exist, "
            f"{at_most_better(gap)} (cost {made.cost}, no map below {made.bound})."
        )
    else:
        says = ""
    terminal.tell(says)
    for left_out in found.year_map.left_out:
        terminal.tell(f"Left out: {found.case.library.units[left_out].title}.")
    for said in found.given_up:
        if said.field != ("units",) or "free" in said.says:
            terminal.tell(f"Given up: {said.says}")


def _by_classes(found: "Mapped") -> Iterator[tuple[str, list[tuple[str, str, str, str]]]]:
    """Yield the titles of classes that have the same units, with those units."""
    from lessonkit.document.dates_in_words import short_day

    for row in range(found.case.problem.rows):
        taught = []
        for span, block in found.schedule.placed(found.case.problem.by_row[row]):
            last = found.case.lasts[block][span.first]
            unit = found.case.library.units[found.case.problem.blocks[block].id]
            begins = found.case.mondays[span.first].isoformat()
            taught.append((short_day(begins), short_day(last.isoformat()), _length(unit), unit.title))
        yield found.case.classes(row), taught


def _length(unit: "Unit") -> str:
    return f"{unit.weeks} weeks" if unit.lessons is None else str(unit.lessons)


def show_moves(old: "YearMap", found: "Mapped", terminal: Terminal) -> None:
    """Show which units have moved since an earlier map, before and after."""
    from lessonkit.document.dates_in_words import short_day

    before = {each.unit: each.week_of for each in old.units}
    moved = [
        (found.case.library.units[each.unit].title, short_day(before[each.unit]), short_day(each.week_of))
        for each in found.year_map.units
        if each.unit in before and before[each.unit] != each.week_of
    ]
    if not moved:
        terminal.line("No unit moves.")
        return
    terminal.line("1 unit moves:" if len(moved) == 1 else f"{len(moved)} units move:")
    for line in grid(("Unit", "Before", "Now"), moved, terminal.width, flexible=(0,)):
        terminal.line(line)


def show_no_map(found: "NoMap", year: "Year", library: "Library", terminal: Terminal) -> None:
    """Show why a year cannot be mapped, each reason at its line."""
    terminal.tell(f"{year.title} cannot be mapped as it is asked for; these cannot all hold:")
    for said in found.because:
        show_sentence(f"- {said.says}", place_of(said, library), terminal)
