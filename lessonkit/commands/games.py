"""``games``: everybody plays everybody, on the courts and in the minutes there are."""

import argparse
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from lessonkit.commands.asked import change_time, duration, whole_number
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.court_turns import (
    CHALLENGE_HEADER,
    SPELL_HEADER,
    add_turn_arguments,
    challenge,
    changing_in,
    team_sizes,
)
from lessonkit.commands.grid import grid
from lessonkit.commands.handout import add_handout_arguments, write_handouts, write_page
from lessonkit.commands.terminal import Terminal

if TYPE_CHECKING:
    from lessonkit.document.model import Document
    from lessonkit.logistics.game_plan import GamePlan, GameRound, GameTimes

NAME = "games"
HELP = "Plan games of every team against every other, fair even when time is short."
EXAMPLES = (
    ("lessonkit games --teams 6", "one round robin, as many courts as it takes"),
    ("lessonkit games --teams 7 --courts 2 --minutes 30", "what fits half an hour on two courts"),
    ("lessonkit games --children 25 --side 3 --courts 4 --game 3:30", "teams of three from a class of 25"),
    ("lessonkit games --children 24 --side 3 --squad 6", "teams of six, three at a time on the court"),
    ("lessonkit games --teams 9 --courts 3 --challenge stay-on", "winners stay on; who plays how much"),
    ("lessonkit games --teams 8 --word games.docx --svg courts.svg", "a page and a map for the wall as well"),
)
_MOST_TEAMS = 40
_MOST_ROUNDS = 200
_COLUMNS = 6
"""Courts side by side in the terminal; more are listed in one column."""


@dataclass(frozen=True, slots=True)
class _Sheet:
    """What is shown and printed: a title, sentences, tables (header and rows), and who begins on each court."""

    title: str
    says: tuple[str, ...]
    tables: tuple[tuple[list[str], list[list[str]]], ...]
    begin: tuple[str, ...]


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's options."""
    parser.add_argument("--teams", metavar="N", help=f"how many teams (2 to {_MOST_TEAMS})")
    parser.add_argument("--children", metavar="N", help="how many children, instead of --teams; needs --side")
    parser.add_argument("--side", metavar="N", help="children in a team on the court")
    parser.add_argument("--courts", metavar="N", help="how many courts (default: one for every two teams)")
    parser.add_argument("--minutes", metavar="TIME", help="how long there is, such as 30 (default: until all have met)")
    parser.add_argument("--game", metavar="TIME", default="4", help="how long a game lasts, such as 4:30 (default: 4)")
    parser.add_argument("--change", metavar="TIME", default="1", help="how long changing courts takes (default: 1)")
    add_turn_arguments(parser)
    add_handout_arguments(parser)
    parser.add_argument("--svg", metavar="FILE", help="also draw a map of the courts and who begins there")


def run(args: argparse.Namespace, terminal: Terminal) -> int:
    """Show the rounds, or the shares on challenge courts, and write the pages asked for. Returns 0."""
    sheet = _challenge_sheet(args) if args.challenge else _games_sheet(args)
    for sentence in sheet.says:
        terminal.tell(sentence)
    for header, rows in sheet.tables:
        terminal.line()
        for line in grid(header, rows, terminal.width):
            terminal.line(line)
    write_handouts(args, lambda: _document(sheet), terminal)
    if args.svg:
        write_page(Path(args.svg), ".svg", _map(sheet), terminal)
    return 0


def _games_sheet(args: argparse.Namespace) -> _Sheet:
    from lessonkit.logistics.game_plan import GameTimes, plan_games

    if args.most_wins:
        raise CannotRunError("--most-wins is for --challenge stay-on.")
    teams, sizes, opening = _teams(args)
    courts = whole_number(args.courts, "--courts", "courts", 1, _MOST_TEAMS) if args.courts else teams // 2
    available = duration(args.minutes, "--minutes") if args.minutes else None
    times = GameTimes(duration(args.game, "--game"), change_time(args.change, "--change"), available)
    _refuse(times)
    turns, spells = changing_in(sizes, int(args.side or 1), times.game, args) if sizes else ((), [])
    plan = plan_games(teams, courts, times)
    begin = {game.court: f"{game.first} v {game.second}" for game in plan.rounds[0].games}
    return _Sheet(
        f"Games for {teams} teams",
        (*opening, *turns, *plan.says, "The team named first begins."),
        (_table(plan), *([(list(SPELL_HEADER), spells)] if spells else [])),
        tuple(begin[court] for court in sorted(begin)),
    )


def _challenge_sheet(args: argparse.Namespace) -> _Sheet:
    from lessonkit.logistics.groups import share_out

    if args.minutes or args.spell:
        raise CannotRunError("challenge courts have no rounds; leave out --minutes and --spell.")
    if args.courts is None:
        raise CannotRunError("challenge courts need to know how many there are; add --courts 2, for instance.")
    teams, _, opening = _teams(args)
    courts = whole_number(args.courts, "--courts", "courts", 1, _MOST_TEAMS)
    says, rows = challenge(args, teams, courts)
    begin, first = [], 1
    for sides in share_out(teams, courts):
        waiting = [str(team) for team in range(first + 2, first + sides)]
        begin.append(f"{first} v {first + 1}" + (f", then {', '.join(waiting)}" if waiting else ""))
        first += sides
    title = f"Challenge courts for {teams} teams"
    return _Sheet(title, (*opening, *says), ((list(CHALLENGE_HEADER), rows),), tuple(begin))


def _refuse(times: "GameTimes") -> None:
    """Refuse a time that holds no game, or more than anybody would play."""
    from lessonkit.logistics.durations import say_duration

    fitting = times.rounds_that_fit()
    if fitting is None or times.available is None or 0 < fitting <= _MOST_ROUNDS:
        return
    game, available = say_duration(times.game), say_duration(times.available)
    if fitting:
        raise CannotRunError(f"games of {game} in {available} make {fitting} rounds, more than can be planned.")
    raise CannotRunError(f"a game of {game} does not fit into {available}.")


def _teams(args: argparse.Namespace) -> tuple[int, tuple[int, ...], tuple[str, ...]]:
    """Return how many teams there are, how many children each has where that is known, and a sentence about it."""
    if args.children is None:
        if args.teams is None:
            raise CannotRunError("say how many teams there are, as in: lessonkit games --teams 6")
        if args.squad is not None or args.spell is not None:
            raise CannotRunError("--squad and --spell need --children and --side.")
        return whole_number(args.teams, "--teams", "teams", 2, _MOST_TEAMS), (), ()
    if args.teams is not None:
        raise CannotRunError("--teams and --children cannot be used together: give one of them.")
    if args.side is None:
        raise CannotRunError("say how many children a team has on the court, as in: --children 24 --side 3")
    side = whole_number(args.side, "--side", "children in a team", 1, 12)
    squad = whole_number(args.squad, "--squad", "children in a team", side, 24) if args.squad else None
    least = squad or side
    children = whole_number(args.children, "--children", "children", 2 * least, _MOST_TEAMS * side + side - 1)
    sizes = team_sizes(children, side, squad)
    return len(sizes), sizes, (_made_of(sizes, side),)


def _made_of(sizes: tuple[int, ...], side: int) -> str:
    """Say the teams that a class makes."""
    from lessonkit.logistics.words import counted, listed, number, opened

    parts = [f"{counted(sizes.count(size), 'team')} of {number(size)}" for size in dict.fromkeys(sizes)]
    return f"{opened(listed(parts))}, {number(side)} against {number(side)}."


def _table(plan: "GamePlan") -> tuple[list[str], list[list[str]]]:
    """Return the header and rows of the rounds: a column for each court, or one for all where they are many."""
    courts = max(len(each.games) for each in plan.rounds)
    rests = any(each.resting for each in plan.rounds)
    apart = courts <= _COLUMNS
    header = ["Round", "Starts", *([f"Court {n}" for n in range(1, courts + 1)] if apart else ["Court: teams"])]
    rows = [_row(number, each, courts, apart) for number, each in enumerate(plan.rounds, 1)]
    if rests:
        header.append("Resting")
        rows = [[*row, ", ".join(map(str, each.resting))] for row, each in zip(rows, plan.rounds, strict=True)]
    return header, rows


def _row(number: int, each: "GameRound", courts: int, apart: bool) -> list[str]:
    from lessonkit.logistics.durations import clock

    games = {game.court: f"{game.first}\u00a0v\u00a0{game.second}" for game in each.games}
    if apart:
        cells = [games.get(court, "") for court in range(1, courts + 1)]
    else:
        cells = ["; ".join(f"{court}:\u00a0{pair}" for court, pair in sorted(games.items()))]
    return [str(number), clock(each.starts), *cells]


def _document(sheet: _Sheet) -> "Document":
    from lessonkit.document.table_sheet import table_sheet

    (header, rows), *further = sheet.tables
    return table_sheet(sheet.title, sheet.says, header, rows, further=further)


def _map(sheet: _Sheet) -> bytes:
    from lessonkit.document.rotation_map import court_map
    from lessonkit.writers.svg import picture_file

    begins = "; ".join(f"court {court}: {words}" for court, words in enumerate(sheet.begin, 1))
    return picture_file(court_map(sheet.begin), f"Map of courts and which teams begin there. {begins}.")
