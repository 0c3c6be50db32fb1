"""Who takes turns on a court: squads larger than the side that plays, and challengers who wait for a game."""

import argparse
from typing import TYPE_CHECKING

from lessonkit.commands.asked import duration, whole_number
from lessonkit.commands.cannot import CannotRunError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lessonkit.logistics.challenge_courts import ChallengeRule

CHALLENGES: "dict[str, ChallengeRule]" = {"stay-on": "stay-on", "two-out": "two-in-two-out"}
Rows = list[list[str]]
CHALLENGE_HEADER = ("Court", "Sides", "A side plays", "Wins all", "Loses all", "Longest wait")
SPELL_HEADER = ("Spell", "Plays", "Sits out")


def add_turn_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options of squads and of challenge courts."""
    parser.add_argument("--squad", metavar="N", help="children in a team, where more than play at once change in")
    parser.add_argument("--spell", metavar="TIME", help="change in every so long (default: after every score)")
    parser.add_argument(
        "--challenge",
        choices=tuple(CHALLENGES),
        help="no rounds: on each court the winner stays on, or both go out and two come in",
    )
    parser.add_argument("--most-wins", metavar="N", help="with stay-on, both go out after so many wins in a row")


def challenge(args: argparse.Namespace, teams: int, courts: int) -> tuple[tuple[str, ...], Rows]:
    """Return sentences and a row for every court on which teams challenge each other."""
    from lessonkit.logistics.challenge_courts import challenge_court
    from lessonkit.logistics.groups import share_out
    from lessonkit.logistics.words import counted, percent

    if courts > teams // 2:
        raise CannotRunError(f"{teams} teams fill {counted(teams // 2, 'court')}; give --courts {teams // 2} or fewer.")
    most = whole_number(args.most_wins, "--most-wins", "wins in a row", 2, 20) if args.most_wins else None
    if most and args.challenge != "stay-on":
        raise CannotRunError("--most-wins is for --challenge stay-on; otherwise both go out after every game.")
    sides = share_out(teams, courts)
    found = {each: challenge_court(each, CHALLENGES[args.challenge], most) for each in sides}
    rows = [
        [str(court), str(each), *(percent(share) for share in (found[each].mean, found[each].strongest)),
         percent(found[each].weakest), counted(found[each].longest_wait, "game")]
        for court, each in enumerate(sides, 1)
    ]  # fmt: skip
    waiting = max(court.waiting_share for court in found.values())
    idle = (
        (f"A side waits {percent(waiting)} of the games on average: have something ready for it to do.",)
        if waiting
        else ()
    )
    limit = (f"A side that has won {most} games in a row goes out with the other.",) if most else ()
    return (*(court.says for court in found.values()), *limit, *idle), rows


def changing_in(sizes: "Sequence[int]", side: int, game: int, args: argparse.Namespace) -> tuple[tuple[str, ...], Rows]:
    """Return sentences for teams of more children than play, and who plays in each spell of the largest."""
    from lessonkit.logistics.durations import say_duration
    from lessonkit.logistics.substitutes import spells_in, substitutes
    from lessonkit.logistics.words import joined, number

    larger = [size for size in dict.fromkeys(sizes) if size > side]
    if not larger:
        if args.spell:
            raise CannotRunError("--spell is for teams of more children than play at once.")
        return (), []
    spell = duration(args.spell, "--spell") if args.spell else None
    if spell and spell > game:
        raise CannotRunError(f"a spell of {say_duration(spell)} does not fit into a game of {say_duration(game)}.")
    ends = f"is {say_duration(spell)}: {number(spells_in(game, spell))} to a game" if spell else "ends with a score"
    says = [f"A spell {ends}."]
    for size in larger:
        words = substitutes(size, side, 1).says
        says.append(f"In a team of {number(size)}: {words[:1].lower()}{words[1:]}")
    found = substitutes(larger[0], side, substitutes(larger[0], side, 1).equal_after)
    rows = [
        [str(place), joined(sorted(plays)), joined([c for c in range(1, larger[0] + 1) if c not in plays])]
        for place, plays in enumerate(found.spells, 1)
    ]
    return tuple(says), rows


def team_sizes(children: int, side: int, squad: int | None) -> tuple[int, ...]:
    """Return the children in every team of a class: teams of ``squad``, or else of ``side``, and those left over."""
    from lessonkit.logistics.groups import larger_groups, share_out

    return share_out(children, children // side) if squad is None else larger_groups(children, squad)
