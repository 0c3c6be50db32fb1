"""The activity card: everything that the record of one activity says."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import chain

from lessonkit.document.detail import CountPages, fullest
from lessonkit.document.floor_plan import describe, group_scene
from lessonkit.document.keys import activity_key, joint_key, leaf_keyed, listed
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.lesson_flow import CUE_MARK, PART_NAMES, in_grade
from lessonkit.document.model import (
    Block,
    Document,
    Drawing,
    Emphasis,
    Heading,
    Inline,
    KeyValues,
    PageBreak,
    Paragraph,
    Role,
    Strong,
    Table,
    Text,
    text,
)
from lessonkit.document.pieces import (
    EN_DASH,
    NO_BREAK,
    cell,
    in_one,
    inline,
    keyed_bullets,
    labelled,
    markdown,
    sentence,
    words_cell,
)
from lessonkit.document.run_in import run_in
from lessonkit.document.scene import Scene
from lessonkit.logistics.activity_time import turns_say
from lessonkit.logistics.equipment import needed
from lessonkit.logistics.groups import group
from lessonkit.logistics.words import opened
from lessonkit.records.activity import Activity, Form


@dataclass(frozen=True, slots=True)
class CardSize:
    """How roomy a card is: the width of the drawing's column in hundredths of the page, and lists or running words.

    ``run_in`` of the parts stand in running words instead of tables and lists: faults and what to say to them first,
    then easier and harder versions, then changes for everyone and cautions, then what to look for, then the steps and
    what else is said to everybody, then the facts above them. With ``placed`` it is said where the equipment lies, with
    ``echoes`` what the card says once more: what to look for in a child's words, and the parts of a lesson that the
    activity is for. With ``talk`` stand questions and new words.
    """

    width: int = 33
    run_in: int = 0
    placed: bool = True
    echoes: bool = True
    talk: bool = True


_SIZES = (
    *(CardSize(width) for width in (36, 33, 30, 27)),
    *(CardSize(width, run_in) for run_in in (1, 2) for width in (33, 30, 27)),
    *(CardSize(width, 3) for width in (33, 30, 27, 24, 21, 18)),
    *(CardSize(width, 4) for width in (18, 15)),
    CardSize(15, 5),
    CardSize(15, 5, placed=False),
    CardSize(15, 5, placed=False, echoes=False),
    CardSize(15, 6, placed=False, echoes=False),
    CardSize(15, 6, placed=False, echoes=False, talk=False),
)
"""Sizes from the roomiest to the tightest."""


_DRAWN: dict[Form, str] = {"individuals": "One child", "whole-class": "The class"}
"""Whose floor a card shows, where it is not that of a group."""


def activity_anchor(activity_id: str) -> str:
    """Return the anchor of an activity's card inside a binder."""
    return "activity_" + activity_id.replace("-", "_")


def fitted_card(activity: Activity, facts: PlanFacts, pages: CountPages | None) -> tuple[Block, ...]:
    """Return a card in the roomiest size in which it prints on one page, as far as ``pages`` can tell."""
    if pages is None:
        return card_blocks(activity, facts)

    def fits(size: CardSize) -> bool:
        blocks = card_blocks(activity, facts, size)
        return pages(Document(activity.title, "", "", "", "", blocks, paper=facts.school.paper)) == 1

    return card_blocks(activity, facts, fullest(_SIZES, fits))


def card_blocks(activity: Activity, facts: PlanFacts, size: CardSize = _SIZES[1]) -> tuple[Block, ...]:
    """Return the card of an activity (already resolved for the grade) as it stands in a binder."""
    parts = ", ".join(PART_NAMES[part].lower() for part in activity.parts)
    return (
        PageBreak(),
        *((Paragraph(text(f"Activity {EN_DASH} {parts}"), Role.KICKER),) if size.echoes else ()),
        Heading(1, text(activity.title), activity_anchor(activity.id), key=activity_key(activity.id, "title")),
        sentence(activity.summary, Role.SUMMARY, activity_key(activity.id, "summary")),
        _facts_in_words(activity, facts) if size.run_in >= 6 else KeyValues(_facts(activity, facts)),
        _how_and_where(activity, facts, size),
        *(_challenge_in_words(activity, joined=size.run_in >= 6) if size.run_in >= 2 else _challenge(activity)),
        *(_faults_in_words(activity) if size.run_in >= 1 else _faults(activity)),
        *(_everyone_in_words(activity) if size.run_in >= 3 else _everyone_and_safety(activity)),
        *(_criteria_in_words(activity, size.echoes) if size.run_in >= 4 else _criteria(activity)),
        *(_talk(activity, joined=size.run_in >= 6) if size.talk else ()),
    )


def _facts_in_words(activity: Activity, facts: PlanFacts) -> Paragraph:
    """Say the facts one behind the other."""
    said = [(Strong(text(f"{name}: ")), *value, Text(". ")) for name, value in _facts(activity, facts)]
    return Paragraph(tuple(chain.from_iterable(said)))


def _facts(activity: Activity, facts: PlanFacts) -> tuple[tuple[str, tuple[Inline, ...]], ...]:
    minutes = activity.minutes
    children = facts.school_class.children
    items = ", ".join(
        f"{count}{NO_BREAK}{facts.item_name(item, count)}" for item, count in needed(activity, children).items()
    )
    pairs = (
        ("Grades", str(activity.grades)),
        ("Minutes", f"{minutes.least}{EN_DASH}{minutes.most}, usually {minutes.usual}"),
        ("Groups", group(activity.organisation, children).says.rstrip(".")),
        ("Who moves", turns_say(activity, children).rstrip(".")),
        ("Equipment", items or "none"),
    )
    return tuple((name, text(value)) for name, value in pairs)


def _how_and_where(activity: Activity, facts: PlanFacts, size: CardSize) -> Table:
    """Put the steps, and what else is said to everybody, beside the drawing of one group."""
    scene = group_scene(activity, facts.school.lengths)
    header = (words_cell("What happens"), words_cell(_DRAWN.get(activity.organisation.form, "One group")))
    keys = joint_key(activity_key(activity.id, "cues", place) for place in range(len(activity.cues)))
    cues = Paragraph(inline(CUE_MARK.join(activity.cues)), Role.CUE, keys)
    steps = leaf_keyed(markdown(activity.steps), activity_key(activity.id, "steps"))
    remarks = tuple(_remarks(activity, facts, size.placed))
    if size.run_in >= 5:
        steps, remarks = run_in(steps), _joined(remarks)
    happens = cell(cues, *steps, *remarks)
    drawn = cell(Drawing(scene, describe(scene), _share(scene)))
    return Table((header, (happens, drawn)), (100 - size.width, size.width), f"Steps and set-up of {activity.title}")


def _share(scene: Scene) -> float:
    """Draw a small space smaller, so that a child has about the same size on every card."""
    return max(0.6, min(1.0, scene.width / 5))


def _remarks(activity: Activity, facts: PlanFacts, placed: bool) -> Iterator[Paragraph]:
    organisation = activity.organisation
    written = facts.library.activities.get(activity.id, activity).version_for(facts.school_class.grade)
    own = activity.id
    changes = listed("activity", own, "changes", words=written.changes if written else ())
    said = (
        ("Set-up:", " ".join(_placed(activity, facts)) if placed else None, None),
        ("Stop:", activity.stop_signal, activity_key(own, "stop_signal")),
        ("Waiting:", organisation.waiting, activity_key(own, "organisation", "waiting")),
        (
            "Uneven numbers:",
            organisation.uneven.say if organisation.uneven else None,
            activity_key(own, "organisation", "uneven", "say"),
        ),
        ("More children than space:", activity.floor.if_more, activity_key(own, "floor", "if_more")),
        (in_grade(facts.school_class.grade), " ".join(changes), joint_key(changes.values())),
        (
            "Beat your best:",
            f"{activity.measured.what}." if activity.measured else None,
            activity_key(own, "measured", "what"),
        ),
    )
    yield from (Paragraph(labelled(label, words), key=key) for label, words, key in said if words)


def _placed(activity: Activity, facts: PlanFacts) -> Iterator[str]:
    """Yield where the equipment of an activity lies, as far as its record says so."""
    for need in activity.equipment:
        if need.note:
            item = facts.item_name(need.item, 2).partition(" (")[0]
            yield f"{opened(item)} {EN_DASH} {need.note[:1].lower()}{need.note[1:].rstrip('.')}."


def _in_words(*said: tuple[str, Mapping[str, str]]) -> Iterator[Paragraph]:
    """Yield a line for each label that has sentences: these, with their keys, one behind the other."""
    for label, words in said:
        if words:
            yield Paragraph(labelled(label, " ".join(words)), key=joint_key(words.values()))


def _keyed(activity: Activity, field: str) -> dict[str, str]:
    return listed("activity", activity.id, field, words=getattr(activity, field))


def _challenge_in_words(activity: Activity, *, joined: bool) -> Iterable[Block]:
    said = _in_words(("Easier:", _keyed(activity, "easier")), ("Harder:", _keyed(activity, "harder")))
    return _joined(tuple(said)) if joined else said


def _faults_in_words(activity: Activity) -> Iterator[Block]:
    faults = {
        f"*{pair.see.rstrip('.').replace('*', '')}:* \u201c{pair.say}\u201d": " ".join(_pair(activity, place))
        for place, pair in enumerate(activity.see_say)
    }
    return _in_words(("You may see, and say:", faults))


def _pair(activity: Activity, place: int) -> tuple[str, str]:
    see, say = (activity_key(activity.id, "see_say", place, half) for half in ("see", "say"))
    return see, say


def _everyone_in_words(activity: Activity) -> Iterator[Block]:
    return _in_words(("Everyone takes part:", _changes(activity)), ("Safety:", _keyed(activity, "safety")))


def _challenge(activity: Activity) -> tuple[Block, ...]:
    if not activity.easier and not activity.harder:
        return ()
    header = (words_cell("Easier"), words_cell("Harder"))
    row = (cell(*keyed_bullets(_keyed(activity, "easier"))), cell(*keyed_bullets(_keyed(activity, "harder"))))
    return (Table((header, row), (50, 50), "Easier and harder versions"),)


def _faults(activity: Activity) -> tuple[Block, ...]:
    if not activity.see_say:
        return ()
    header = (words_cell("You may see"), words_cell("You can say"))
    rows = []
    for place, pair in enumerate(activity.see_say):
        see, say = _pair(activity, place)
        rows.append((words_cell(pair.see, key=see), words_cell(f"\u201c{pair.say}\u201d", key=say)))
    return (Table((header, *rows), (42, 58), "Common faults and what to say"),)


def _everyone_and_safety(activity: Activity) -> tuple[Block, ...]:
    header = (words_cell("Everyone takes part"), words_cell("Safety"))
    row = (cell(*keyed_bullets(_changes(activity))), cell(*keyed_bullets(_keyed(activity, "safety"))))
    return (Table((header, row), (56, 44), "Everyone takes part, in safety"),)


def _changes(activity: Activity) -> dict[str, str]:
    """Return what lets everyone take part, each sentence with the key of its field."""
    kinds = ("space", "task", "equipment", "people")
    found: dict[str, str] = {}
    for kind in kinds:
        said = listed("activity", activity.id, "inclusion", kind, words=getattr(activity.inclusion, kind))
        found |= {change: key for change, key in said.items() if change not in found}
    return found


def _joined(remarks: tuple[Paragraph, ...]) -> tuple[Paragraph, ...]:
    """Return paragraphs as one; nothing for none."""
    return (in_one(remarks),) if remarks else ()


def _criteria_in_words(activity: Activity, echoes: bool) -> Iterator[Block]:
    """Say what to look for outcome by outcome, one behind the other, with ``echoes`` also in a child's words."""
    if not activity.look_for:
        return
    content: list[Inline] = [Strong(text("What to look for:"))]
    keys = []
    for place, entry in enumerate(activity.look_for):
        content += [Text(" "), Strong(text(f"{entry.outcome} ")), *inline(entry.criterion)]
        keys.append(activity_key(activity.id, "look_for", place, "criterion"))
        if echoes:
            content += [Text(" "), Emphasis(inline(entry.i_can))]
            keys.append(activity_key(activity.id, "look_for", place, "i_can"))
    yield Paragraph(tuple(content), key=joint_key(keys))


def _criteria(activity: Activity) -> tuple[Block, ...]:
    if not activity.look_for:
        return ()
    header = (words_cell("Outcome"), words_cell("What to look for"), words_cell("In a child's words"))
    rows = []
    for place, entry in enumerate(activity.look_for):
        sees, says = (activity_key(activity.id, "look_for", place, half) for half in ("criterion", "i_can"))
        row = (words_cell(entry.criterion, key=sees), words_cell(entry.i_can, key=says))
        rows.append((words_cell(entry.outcome), *row))
    return (Table((header, *rows), (14, 48, 38), "What to look for", row_header=True),)


def _talk(activity: Activity, *, joined: bool) -> Iterable[Block]:
    said = _words(activity)
    return _joined(tuple(said)) if joined else said


def _words(activity: Activity) -> Iterator[Paragraph]:
    own = activity.id
    for place, question in enumerate(activity.questions):
        key = joint_key(activity_key(own, "questions", place, half) for half in ("ask", "listen_for"))
        yield Paragraph(labelled(f"Ask: {question.ask}", f"*Listen for:* {question.listen_for}"), key=key)
    if activity.words:
        said = "; ".join(f"*{word.word}*, {word.means}" for word in activity.words)
        places = range(len(activity.words))
        keys = joint_key(activity_key(own, "words", place, half) for place in places for half in ("word", "means"))
        yield Paragraph(labelled("Words:", f"{said}."), key=keys)
