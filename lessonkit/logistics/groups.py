"""Dividing a class into the groups of an activity, with the record's rule for the children left over."""

from dataclasses import dataclass, replace

from lessonkit.logistics.words import children as said
from lessonkit.logistics.words import number, opened
from lessonkit.records.activity import Organisation, UnevenRule

_NAMES = {2: "pair", 3: "three", 4: "four"}
_SIZES = {"pairs": 2, "threes": 3, "fours": 4}
FOR_ONE = ("individuals", "pairs", "whole-class")
"""Ways of grouping that a class of one child can have; in pairs the teacher is the partner."""


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

    A class too small for one whole group is one smaller group. Raises CannotGroupError when there is no child at all.
    """
    if children < 1:
        raise CannotGroupError("A class needs at least one child.")
    match organisation.form:
        case "whole-class":
            return Grouping((children,), 0, False, f"The whole class together, {said(children)}.")
        case "individuals":
            return Grouping((1,) * children, 0, False, f"{opened(said(children))}, each alone.")
        case "squads":
            return _squads(organisation, children)
        case "teams":
            return _equal(2 * (organisation.side or 1), organisation, children)
        case _:
            return _equal(_SIZES[organisation.form], organisation, children)


def share_out(children: int, groups: int) -> tuple[int, ...]:
    """Share children over groups so that sizes differ by one at most, larger groups first."""
    each, over = divmod(children, groups)
    return (each + 1,) * over + (each,) * (groups - over)


def larger_groups(children: int, size: int) -> tuple[int, ...]:
    """Share children over groups of ``size`` or more; one group more where that keeps all of them nearer to it.

    Five in threes are a three and a two, not one group of five.
    """
    larger = share_out(children, max(1, children // size))
    smaller = share_out(children, -(-children // size))
    return min(larger, smaller, key=lambda sizes: max(abs(each - size) for each in sizes))


def _squads(organisation: Organisation, children: int) -> Grouping:
    """Make as few squads as the most in a squad allows, of sizes that differ by one at most."""
    least, most = (organisation.squad.least, organisation.squad.most) if organisation.squad else (4, 6)
    if children < least:
        few = f"One squad of {number(children)}: too few children for a squad of {least}."
        return Grouping((children,), 0, False, few)
    sizes = share_out(children, -(-children // most))
    if sizes[-1] < least:
        sizes = share_out(children, children // least)
    note = "" if sizes[0] <= most else f" (more than {most} in a squad cannot be avoided with {children})"
    parts = [f"{_count(sizes.count(size), 'squad')} of {number(size)}" for size in dict.fromkeys(sizes)]
    return Grouping(sizes, 0, False, f"{opened(' and '.join(parts))}{note}.")


def _equal(size: int, organisation: Organisation, children: int) -> Grouping:
    """Make groups of one size, by the record's rule for those left over, or the nearest that the class allows."""
    full, over = divmod(children, size)
    name = "game" if organisation.form == "teams" else _NAMES[size]
    if not over:
        return _grouping((size,) * full, size, name)
    asked = organisation.uneven.rule if organisation.uneven else "smaller-group"
    rule = _possible(asked, size, full, over)
    found = _by_rule(rule, children, size, name)
    if asked == "teacher-joins" != rule:
        why = (
            f"the teacher and {said(over)} left over would not make {'a whole game' if name == 'game' else f'a {name}'}"
        )
        return replace(found, says=f"{found.says.rstrip('.')}: {why}.")
    return found


def _by_rule(rule: UnevenRule, children: int, size: int, name: str) -> Grouping:
    """Make groups of one size from a class that does not divide by it."""
    full, over = divmod(children, size)
    match rule:
        case "rotate-in":
            return _grouping((size,) * full, size, name, rotating_in=over)
        case "teacher-joins":
            return _grouping((*(size,) * full, over), size, name, teacher_joins=True)
        case "larger-group":
            return _grouping(larger_groups(children, size), size, name)
        case "smaller-group":
            return _grouping(share_out(children, full + 1), size, name)


def _possible(rule: UnevenRule, size: int, full: int, over: int) -> UnevenRule:
    """Return the rule, or what stands in for it: no group to join, or more missing than one teacher makes up.

    The only child of a class has the teacher for a partner, whatever the rule.
    """
    if size == _SIZES["pairs"] and full == 0:
        return "teacher-joins"
    if rule == "teacher-joins" and over != size - 1:
        return "larger-group" if full >= over else "smaller-group"
    if full == 0 and rule in ("larger-group", "rotate-in"):
        return "smaller-group"
    return rule


def _grouping(
    sizes: tuple[int, ...], size: int, name: str, *, rotating_in: int = 0, teacher_joins: bool = False
) -> Grouping:
    whole = sizes[:-1] if teacher_joins else sizes
    words = _sentence(whole, size, name) if whole else ""
    if rotating_in:
        words = f"{words}, and {said(rotating_in)} changing in from the side"
    if teacher_joins:
        joins = f"he teacher joins {said(sizes[-1])}"
        words = f"{words}, and t{joins}" if words else f"T{joins}"
    return Grouping(sizes, rotating_in, teacher_joins, f"{words}.")


def _sentence(sizes: tuple[int, ...], size: int, name: str) -> str:
    """Say groups of the usual size by their name, the others by their number; games by their sides."""
    usual = _versus(size) if name == "game" else name
    parts = [_count(sizes.count(size), usual)] if size in sizes else []
    for other in sorted(set(sizes) - {size}):
        parts.append(_other(sizes.count(other), other, name))
    return opened(" and ".join(parts))


def _other(count: int, size: int, name: str) -> str:
    if size == 1:
        return "one child alone" if count == 1 else f"{number(count)} children alone"
    if name == "game":
        return _count(count, _versus(size))
    if size == 2:
        return _count(count, "pair")
    return f"{number(count)} group{'s' if count > 1 else ''} of {number(size)}"


def _versus(size: int) -> str:
    return f"game of {size - size // 2} against {size // 2}"


def _count(count: int, name: str) -> str:
    if count == 1:
        return f"one {name}"
    plural = f"games{name[4:]}" if name.startswith("game") else f"{name}s"
    return f"{number(count)} {plural}"
