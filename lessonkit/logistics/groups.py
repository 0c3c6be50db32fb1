"""Dividing a class into the groups of an activity, with the record's rule for the children left over."""

from dataclasses import dataclass

from lessonkit.records.activity import Organisation

_NAMES = {2: "pair", 3: "three", 4: "four"}
_SIZES = {"pairs": 2, "threes": 3, "fours": 4}
_NUMBER_WORDS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


class CannotGroupError(Exception):
    """No group can be formed at all; the message is a sentence for the teacher."""


@dataclass(frozen=True, slots=True)
class Grouping:
    """How a class divides.

    ``sizes`` are the children in each group, largest first; ``rotating_in`` children change in from the side; with
    ``teacher_joins`` the teacher makes up the last group. ``says`` is the whole in a sentence. The sizes and
    ``rotating_in`` add up to the class.
    """

    sizes: tuple[int, ...]
    rotating_in: int
    teacher_joins: bool
    says: str


def group(organisation: Organisation, children: int) -> Grouping:
    """Divide ``children`` (1 or more) as an activity asks.

    Raises CannotGroupError when there are too few children for a single group under the record's rule.
    """
    if children < 1:
        raise CannotGroupError("A class needs at least one child.")
    match organisation.form:
        case "whole-class":
            return Grouping((children,), 0, False, f"The whole class together, {_children(children)}.")
        case "individuals":
            return Grouping((1,) * children, 0, False, f"{_children(children).capitalize()}, each alone.")
        case "squads":
            return _squads(organisation, children)
        case "teams":
            return _equal(2 * (organisation.side or 1), organisation, children)
        case _:
            return _equal(_SIZES[organisation.form], organisation, children)


def _squads(organisation: Organisation, children: int) -> Grouping:
    """Make as many squads as the least size allows, of sizes that differ by one at most, none over the most."""
    least, most = (organisation.squad.least, organisation.squad.most) if organisation.squad else (4, 6)
    count = max(1, children // most + (children % most > 0))
    if children < least:
        return Grouping(
            (children,), 0, False, f"One squad of {_word(children)}: too few children for a squad of {least}."
        )
    sizes = share_out(children, count)
    if sizes[-1] < least:
        sizes = share_out(children, children // least)
    note = "" if sizes[0] <= most else f" (more than {most} in a squad cannot be avoided with {children})"
    return Grouping(sizes, 0, False, f"{_listed(sizes, 'squad')}{note}.")


def share_out(children: int, groups: int) -> tuple[int, ...]:
    """Share children over groups so that sizes differ by one at most, larger groups first."""
    each, over = divmod(children, groups)
    return (each + 1,) * over + (each,) * (groups - over)


def _equal(size: int, organisation: Organisation, children: int) -> Grouping:
    full, over = divmod(children, size)
    name = _team_name(organisation) if organisation.form == "teams" else _NAMES[size]
    if not over:
        return Grouping((size,) * full, 0, False, f"{_count(full, name)}.")
    rule = organisation.uneven.rule if organisation.uneven else "smaller-group"
    if full == 0 and rule in ("larger-group", "rotate-in"):
        rule = "smaller-group"
    if rule == "teacher-joins" and over != size - 1:
        rule = "larger-group" if full >= over else "smaller-group"
    return _uneven(rule, size, full, over, name)


def _uneven(rule: str, size: int, full: int, over: int, name: str) -> Grouping:
    match rule:
        case "rotate-in":
            return Grouping(
                (size,) * full, over, False, f"{_count(full, name)}, and {_children(over)} changing in from the side."
            )
        case "teacher-joins":
            says = (
                f"{_count(full, name)}, and the teacher joins {_children(over)}."
                if full
                else (f"The teacher joins {_children(over)}.")
            )
            return Grouping((*(size,) * full, over), 0, True, says)
        case "larger-group":
            return _larger(size, full, over, name)
        case _:
            return _smaller(size, full + 1, full * size + over, name)


def _smaller(size: int, groups: int, children: int, name: str) -> Grouping:
    """Make one more group and share the class out, so that some groups are one child short."""
    sizes = share_out(children, groups)
    if min(sizes) == 1 and size == 2:
        return Grouping(sizes, 0, False, _sentence(sizes, size, name).replace("one group of one", "one child alone"))
    return Grouping(sizes, 0, False, _sentence(sizes, size, name))


def _larger(size: int, full: int, over: int, name: str) -> Grouping:
    """Spread the children left over, one more to a group as long as there are groups."""
    extra = share_out(over, full)
    sizes = tuple(size + more for more in extra)
    return Grouping(tuple(sorted(sizes, reverse=True)), 0, False, _sentence(sizes, size, name))


def _sentence(sizes: tuple[int, ...], size: int, name: str) -> str:
    """Say groups of the usual size by their name, the others by their number."""
    parts = [_count(sizes.count(size), name)] if size in sizes else []
    for other in sorted(set(sizes) - {size}):
        count = sizes.count(other)
        parts.append(f"{_word(count)} group{'s' if count > 1 else ''} of {_word(other)}")
    words = " and ".join(parts)
    return f"{words[0].upper()}{words[1:]}."


def _team_name(organisation: Organisation) -> str:
    side = organisation.side or 1
    return f"game of {side} against {side}"


def _listed(sizes: tuple[int, ...], name: str) -> str:
    parts = [f"{_count(sizes.count(size), name)} of {_word(size)}" for size in dict.fromkeys(sizes)]
    return " and ".join(parts)


def _count(number: int, name: str) -> str:
    plural = f"games{name[4:]}" if name.startswith("game") else f"{name}s"
    return f"{number} {name if number == 1 else plural}"


def _word(number: int) -> str:
    return _NUMBER_WORDS[number] if number < len(_NUMBER_WORDS) else str(number)


def _children(number: int) -> str:
    return "one child" if number == 1 else f"{number} children"
