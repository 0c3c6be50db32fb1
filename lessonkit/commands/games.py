"""``games``: everybody plays everybody, on the courts and in the minutes there are."""

import argparse
from typing import TYPE_CHECKING

from lessonkit.commands.asked import change_time, duration, whole_number
from lessonkit.commands.cannot import CannotRunError
from lessonkit.commands.grid import grid
from lessonkit.commands.handout import add_handout_arguments, write_handouts
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
    ("lessonkit games --teams 8 --word games.docx", "a page for the wall as well"),
)
_MOST_TEAMS = 40
_MOST_ROUNDS = 200
_COLUMNS = 6
"""Courts side by side in the terminal; more are listed in one column."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's options."""
    parser.add_argument("--teams", metavar="N", help=f"how many teams (2 to {_MOST_TEAMS})")
    parser.add_argument("--children", metavar="N", help="how many children, instead of --teams; needs --side")
    parser.add_argument("--side", metavar="N", help="children in a team on the court")
    parser.add_argument("--courts", metavar="N", help="how many courts (default: one for every two teams)")
    parser.add_argument("--minutes", metavar="TIME", help="how long there is, such as 30 (default: until all have met)")
    parser.add_argument("--game", metavar="TIME", default="4", help="how long a game lasts, such as 4:30 (default: 4)")
    parser.add_argument("--change", metavar="TIME", default="1", help="how long changing courts takes (default: 1)")
    add_handout_arguments(parser)


def run(args: argparse.Namespace, terminal: Terminal) -> int:
    """Show the rounds, and write the pages asked for. Returns 0."""
    from lessonkit.logistics.game_plan import GameTimes, plan_games

    teams, opening = _teams(args)
    courts = whole_number(args.courts, "--courts", "courts", 1, _MOST_TEAMS) if args.courts else teams // 2
    available = duration(args.minutes, "--minutes") if args.minutes else None
    times = GameTimes(duration(args.game, "--game"), change_time(args.change, "--change"), available)
    _refuse(times)
    plan = plan_games(teams, courts, times)
    says = (*opening, *plan.says, "The team named first begins.")
    for sentence in says:
        for line in _fold(sentence, terminal.width):
            terminal.line(line)
    terminal.line()
    header, rows = _table(plan)
    for line in grid(header, rows, terminal.width):
        terminal.line(line)
    write_handouts(args, lambda: _sheet(plan, teams, says), terminal)
    return 0


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


def _teams(args: argparse.Namespace) -> tuple[int, tuple[str, ...]]:
    """Return how many teams there are, and how a class makes them up."""
    if args.children is None:
        if args.teams is None:
            raise CannotRunError("say how many teams there are, as in: lessonkit games --teams 6")
        return whole_number(args.teams, "--teams", "teams", 2, _MOST_TEAMS), ()
    if args.teams is not None:
        raise CannotRunError("--teams and --children cannot be used together: give one of them.")
    if args.side is None:
        raise CannotRunError("say how many children a team has on the court, as in: --children 24 --side 3")
    side = whole_number(args.side, "--side", "children in a team", 1, 12)
    children = whole_number(args.children, "--children", "children", 2 * side, _MOST_TEAMS * side + side - 1)
    return children // side, (_made_of(children, side),)


def _made_of(children: int, side: int) -> str:
    """Say the teams that a class makes; those with more than play at once change in."""
    from lessonkit.logistics.groups import share_out
    from lessonkit.logistics.words import counted, listed, number, opened

    sizes = share_out(children, children // side)
    parts = [f"{counted(sizes.count(size), 'team')} of {number(size)}" for size in dict.fromkeys(sizes)]
    more = "; a team of more than play at once changes a child in after every score" if sizes[0] > side else ""
    return f"{opened(listed(parts))}, {number(side)} against {number(side)}{more}."


def _fold(sentence: str, width: int) -> list[str]:
    import textwrap

    return textwrap.wrap(sentence, width, subsequent_indent="  ")


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


def _sheet(plan: "GamePlan", teams: int, says: tuple[str, ...]) -> "Document":
    from lessonkit.document.table_sheet import table_sheet

    header, rows = _table(plan)
    return table_sheet(f"Games for {teams} teams", says, header, rows)
