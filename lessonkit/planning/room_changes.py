"""Changes of lessons and school that could make a request possible: shapes, lengths, spaces and equipment."""

from collections import defaultdict
from collections.abc import Callable, Iterator
from dataclasses import replace

from msgspec import structs

from lessonkit.logistics.equipment import needed, shortages
from lessonkit.logistics.words import listed
from lessonkit.planning.asked import Asked, Change, change
from lessonkit.planning.case import Case, counted
from lessonkit.planning.precheck import span
from lessonkit.planning.said import Said
from lessonkit.records.activity import CORE_PARTS, LessonPart
from lessonkit.records.school import Owned, Space
from lessonkit.records.unit import Circuit, ShapePart


def room_changes(case: Case) -> Iterator[Change]:
    """Yield changes of shapes, of the lessons' length and space, and of what is in the cupboard."""
    yield from _shapes(case)
    yield from _lengths(case)
    yield from _spaces(case)
    yield from _equipment(case)
    yield from _for_stations(case)


def _shapes(case: Case) -> Iterator[Change]:
    problem = case.problem
    for shape in sorted({problem.lessons[lesson].shape for lesson in problem.open_lessons}):
        record = case.unit.shapes[shape]
        of = f"of “{record.title}”"
        for number, part in enumerate(record.parts):
            place = ("shapes", shape, "parts", number)
            changes = _part_changes(part, of) if part.circuit is None else _circuit_changes(part.circuit, of)
            for field, says, price, new in changes:
                make = _part(shape, part.part, part.circuit is not None, new)
                yield change(case.in_unit((*place, field), says), price, make)
        yield from _further_parts(case, shape)


_PIECES = 3
"""Pieces of equipment that are as dear as a point."""


_PartChange = tuple[str, str, int, dict[str, object]]


def _named(part: LessonPart) -> str:
    return f"the {part}" if part in ("warm-up", "game", "closing") else f"the {part} part"


def _part_changes(part: ShapePart, of: str) -> Iterator[_PartChange]:
    name = f"{_named(part.part)} {of}"
    if part.least > 1:
        says = f"Ask for {counted(part.least - 1, 'activity')} in {name} instead of {part.least}."
        yield "least", says, 5, {"least": part.least - 1}
    elif part.least:
        yield "least", f"Let lessons {of} do without {_named(part.part)} where that helps.", 8, {"least": 0}
    more = part.most + 1
    says = f"Allow {counted(more, 'activity')} in {name} instead of {part.most}."
    yield "most", says, 3, {"most": more}
    if part.least_minutes is not None or part.most_minutes is not None:
        field = "least_minutes" if part.most_minutes is None else "most_minutes"
        yield field, f"Leave the minutes of {name} open.", 3, {"least_minutes": None, "most_minutes": None}


def _circuit_changes(circuit: Circuit, of: str) -> Iterator[_PartChange]:
    for stations in range(circuit.stations - 1, 1, -1):
        says = f"Set up {stations} stations {of} instead of {circuit.stations}."
        new = structs.replace(circuit, stations=stations)
        yield "circuit", says, 6 * (circuit.stations - stations), {"circuit": new}
    for work in (*range(circuit.work - 1, 1, -1), *range(circuit.work + 1, circuit.work + 4)):
        says = f"Let squads work {counted(work, 'minute')} at a station {of} instead of {circuit.work}."
        yield "circuit", says, 2 * abs(work - circuit.work), {"circuit": structs.replace(circuit, work=work)}


def _part(shape: int, name: LessonPart, circuit: bool, new: dict[str, object]) -> Callable[[Asked], Asked]:
    def make(asked: Asked) -> Asked:
        record = asked.unit.shapes[shape]
        parts = tuple(
            structs.replace(part, **new) if (part.part, part.circuit is not None) == (name, circuit) else part
            for part in record.parts
        )
        return asked.with_shape(shape, structs.replace(record, parts=parts))

    return make


def _further_parts(case: Case, shape: int) -> Iterator[Change]:
    """Add a teaching part that a shape does not have, where an activity may stand that nothing else has room for."""
    names = [part.part for part in case.unit.shapes[shape].parts]
    for name in CORE_PARTS:
        if name not in names:
            says = f"Let “{case.unit.shapes[shape].title}” have a {name} part, too, where it helps."
            yield change(case.in_unit(("shapes", shape, "parts"), says), 3, _with_part(shape, name), name)


def _with_part(shape: int, name: LessonPart) -> Callable[[Asked], Asked]:
    order = ("warm-up", *CORE_PARTS, "closing")

    def make(asked: Asked) -> Asked:
        record = asked.unit.shapes[shape]
        later = [n for n, part in enumerate(record.parts) if order.index(part.part) > order.index(name)]
        place = min(later, default=len(record.parts))
        new = ShapePart(part=name, least=0, most=1)
        return asked.with_shape(
            shape, structs.replace(record, parts=(*record.parts[:place], new, *record.parts[place:]))
        )

    return make


def _class_field(case: Case, field: str) -> tuple[str | int, ...]:
    classes = [each.id for each in case.school.classes]
    return ("classes", classes.index(case.school_class.id), field)


def _lengths(case: Case) -> Iterator[Change]:
    """Make the class's lessons as long as their parts need, where they are too short, or as short where too long."""
    problem = case.problem
    for length in sorted({problem.lessons[lesson].minutes for lesson in problem.open_lessons}):
        lessons = [lesson for lesson in problem.open_lessons if problem.lessons[lesson].minutes == length]
        spans = [span(problem, lesson) for lesson in lessons]
        least, most = max(low for low, _ in spans), min(high for _, high in spans)
        if least <= length <= most:
            continue
        nearest = least if least > length else most
        for better in sorted({nearest, nearest // 5 * 5 + (5 if least > length else 0)}):
            says = f"Give lessons of {length} minutes {better} minutes."
            said = Said("school", case.school.id, _class_field(case, "meets"), says)
            yield change(said, 4 + abs(better - length), _lasting(length, better), alone=True)


def _lasting(length: int, better: int) -> Callable[[Asked], Asked]:
    def make(asked: Asked) -> Asked:
        places = tuple(
            replace(place, minutes=better) if place.minutes == length and place.taught is None else place
            for place in asked.places or ()
        )
        return replace(asked, places=places or None)

    return make


def _spaces(case: Case) -> Iterator[Change]:
    """Teach in another space of the school; only a larger one is thought of together with other changes."""
    own = case.school_class.space
    if not any(place.space == own and place.taught is None for place in case.places):
        return
    for space in case.school.spaces:
        if space.id != own:
            says = f"Teach in {space.title} instead of {case.school.space(own).title}."
            said = Said("school", case.school.id, _class_field(case, "space"), says)
            smaller = _area(space) < _area(case.school.space(own))
            yield change(said, 5, _taught_in(own, space.id), alone=smaller)


def _area(space: Space) -> float:
    return space.length.metres * space.width.metres


def _taught_in(old: str, new: str) -> Callable[[Asked], Asked]:
    def make(asked: Asked) -> Asked:
        own = structs.replace(asked.school_class, space=new)
        classes = tuple(own if each.id == own.id else each for each in asked.school.classes)
        places = tuple(
            replace(place, space=new) if place.space == old and place.taught is None else place
            for place in asked.places or ()
        )
        return replace(asked.with_school(structs.replace(asked.school, classes=classes)), places=places or None)

    return make


def _equipment(case: Case) -> Iterator[Change]:
    """Get what activities are short of, where equipment is all that keeps them out; one purchase for all they share."""
    for items, wanted in sorted(_purchases(case).items()):
        most = {item: max(short[item] for short in wanted.values()) for item in items}
        names = [f"{count} more {_named_item(case, item, count)}" for item, count in most.items()]
        extra = tuple(Owned(item=item, count=count) for item, count in most.items())
        titles = [case.title(activity) for activity in wanted]
        what = titles[0] if len(titles) == 1 else f"{titles[0]} and {counted(len(titles) - 1, 'more activity')}"
        what = what.replace("1 more activity", "one more activity")
        said = Said("school", case.school.id, ("equipment",), f"Get {listed(names)}, for {what}.")
        yield change(said, 4 + -(-sum(most.values()) // _PIECES), _getting(extra), *items)


def _purchases(case: Case) -> dict[tuple[str, ...], dict[str, dict[str, int]]]:
    """Return, by the items that are short, the activities that nothing else keeps out and how much each is short of."""
    codes: dict[str, set[str]] = defaultdict(set)
    for bar in case.left_out:
        codes[bar.activity].add(bar.code)
    found: dict[tuple[str, ...], dict[str, dict[str, int]]] = defaultdict(dict)
    for activity in sorted(activity for activity, why in codes.items() if why == {"equipment"}):
        record = case.library.activities[activity].for_grade(case.school_class.grade)
        needs = needed(record, case.school_class.children)
        short = {each.item: each.still_short for each in shortages(needs, case.school, case.library.items)}
        short = {item: count for item, count in short.items() if count}
        if short:
            found[tuple(sorted(short))][activity] = short
    return found


def _for_stations(case: Case) -> Iterator[Change]:
    """Get what stations side by side are short of together."""
    problem, owned = case.problem, dict(case.problem.owned)
    sizes = {frame.most for lesson in problem.lessons for frame in lesson.parts if frame.circuit is not None}
    for stations in sorted(sizes):
        counts: dict[str, list[int]] = defaultdict(list)
        for choice in problem.choices:
            for number, item, count in choice.station_needs:
                if number == stations:
                    counts[item].append(count)
        for item in sorted(counts):
            wanted = sum(sorted(counts[item], reverse=True)[:2])
            more = wanted - owned.get(item, 0)
            if more > 0:
                says = f"Get {more} more {_named_item(case, item, more)}, for two stations side by side."
                said = Said("school", case.school.id, ("equipment",), says)
                yield change(said, 4 + more, _getting((Owned(item=item, count=more),)), item)


def _getting(extra: tuple[Owned, ...]) -> Callable[[Asked], Asked]:
    def make(asked: Asked) -> Asked:
        return asked.with_school(structs.replace(asked.school, equipment=asked.school.equipment + extra))

    return make


def _named_item(case: Case, item: str, count: int) -> str:
    record = case.library.items.get(item)
    if record is None:
        return item
    return record.title if count == 1 else record.plural
