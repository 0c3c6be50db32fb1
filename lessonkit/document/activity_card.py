"""The activity card: everything that the record of one activity says."""

from collections.abc import Iterator
from dataclasses import dataclass

from lessonkit.document.detail import CountPages, fullest
from lessonkit.document.floor_plan import describe, group_scene
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.lesson_flow import PART_NAMES, in_grade
from lessonkit.document.model import (
    Block,
    Document,
    Drawing,
    Heading,
    KeyValues,
    PageBreak,
    Paragraph,
    Role,
    Table,
    text,
)
from lessonkit.document.pieces import EN_DASH, NO_BREAK, bullets, cell, inline, labelled, markdown, sentence, words_cell
from lessonkit.document.scene import Scene
from lessonkit.logistics.activity_time import turns_say
from lessonkit.logistics.equipment import needed
from lessonkit.logistics.groups import group
from lessonkit.logistics.words import opened
from lessonkit.records.activity import Activity, Form


@dataclass(frozen=True, slots=True)
class CardSize:
    """How roomy a card is: the width of the drawing's column in hundredths of the page, and lists or running words.

    ``run_in`` of the three parts below the steps stand in running words instead of tables: faults and what to say to
    them first, then easier and harder versions, then changes for everyone and cautions. With ``placed`` it is said
    where the equipment lies.
    """

    width: int = 33
    run_in: int = 0
    placed: bool = True


_SIZES = (
    *(CardSize(width) for width in (36, 33, 30, 27)),
    *(CardSize(width, run_in) for run_in in (1, 2) for width in (33, 30, 27)),
    *(CardSize(width, 3) for width in (33, 30, 27, 24, 21, 18)),
    CardSize(15, 3, placed=False),
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
    return (
        PageBreak(),
        Paragraph(
            text(f"Activity {EN_DASH} {', '.join(PART_NAMES[part].lower() for part in activity.parts)}"), Role.KICKER
        ),
        Heading(1, text(activity.title), activity_anchor(activity.id)),
        sentence(activity.summary, Role.SUMMARY),
        _facts(activity, facts),
        _how_and_where(activity, facts, size),
        *(_challenge_in_words(activity) if size.run_in >= 2 else _challenge(activity)),
        *(_faults_in_words(activity) if size.run_in >= 1 else _faults(activity)),
        *(_everyone_in_words(activity) if size.run_in >= 3 else _everyone_and_safety(activity)),
        *_criteria(activity),
        *_words(activity),
    )


def _facts(activity: Activity, facts: PlanFacts) -> KeyValues:
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
    return KeyValues(tuple((name, text(value)) for name, value in pairs))


def _how_and_where(activity: Activity, facts: PlanFacts, size: CardSize) -> Table:
    """Put the steps, and what else is said to everybody, beside the drawing of one group."""
    scene = group_scene(activity, facts.school.lengths)
    header = (words_cell("What happens"), words_cell(_DRAWN.get(activity.organisation.form, "One group")))
    cues = Paragraph(inline(" \u00b7 ".join(activity.cues)), Role.CUE)
    happens = cell(cues, *markdown(activity.steps), *_remarks(activity, facts, size.placed))
    drawn = cell(Drawing(scene, describe(scene), _share(scene)))
    return Table((header, (happens, drawn)), (100 - size.width, size.width), f"Steps and set-up of {activity.title}")


def _share(scene: Scene) -> float:
    """Draw a small space smaller, so that a child has about the same size on every card."""
    return max(0.6, min(1.0, scene.width / 5))


def _remarks(activity: Activity, facts: PlanFacts, placed: bool) -> Iterator[Block]:
    organisation = activity.organisation
    written = facts.library.activities.get(activity.id, activity).version_for(facts.school_class.grade)
    said = (
        ("Set-up:", " ".join(_placed(activity, facts)) if placed else None),
        ("Stop:", activity.stop_signal),
        ("Waiting:", organisation.waiting),
        ("Uneven numbers:", organisation.uneven.say if organisation.uneven else None),
        ("More children than space:", activity.floor.if_more),
        (in_grade(facts.school_class.grade), " ".join(written.changes) if written else None),
        ("Beat your best:", f"{activity.measured.what}." if activity.measured else None),
    )
    yield from (Paragraph(labelled(label, words)) for label, words in said if words)


def _placed(activity: Activity, facts: PlanFacts) -> Iterator[str]:
    """Yield where the equipment of an activity lies, as far as its record says so."""
    for need in activity.equipment:
        if need.note:
            item = facts.item_name(need.item, 2).partition(" (")[0]
            yield f"{opened(item)} {EN_DASH} {need.note[:1].lower()}{need.note[1:].rstrip('.')}."


def _in_words(*said: tuple[str, str]) -> Iterator[Block]:
    yield from (Paragraph(labelled(label, words)) for label, words in said if words)


def _challenge_in_words(activity: Activity) -> Iterator[Block]:
    return _in_words(("Easier:", " ".join(activity.easier)), ("Harder:", " ".join(activity.harder)))


def _faults_in_words(activity: Activity) -> Iterator[Block]:
    faults = (f"*{pair.see.rstrip('.').replace('*', '')}:* \u201c{pair.say}\u201d" for pair in activity.see_say)
    return _in_words(("You may see, and say:", " ".join(faults)))


def _everyone_in_words(activity: Activity) -> Iterator[Block]:
    return _in_words(("Everyone takes part:", " ".join(_changes(activity))), ("Safety:", " ".join(activity.safety)))


def _challenge(activity: Activity) -> tuple[Block, ...]:
    if not activity.easier and not activity.harder:
        return ()
    header = (words_cell("Easier"), words_cell("Harder"))
    row = (cell(*bullets(activity.easier)), cell(*bullets(activity.harder)))
    return (Table((header, row), (50, 50), "Easier and harder versions"),)


def _faults(activity: Activity) -> tuple[Block, ...]:
    if not activity.see_say:
        return ()
    header = (words_cell("You may see"), words_cell("You can say"))
    rows = tuple((words_cell(pair.see), words_cell(f"\u201c{pair.say}\u201d")) for pair in activity.see_say)
    return (Table((header, *rows), (42, 58), "Common faults and what to say"),)


def _everyone_and_safety(activity: Activity) -> tuple[Block, ...]:
    header = (words_cell("Everyone takes part"), words_cell("Safety"))
    row = (cell(*bullets(_changes(activity))), cell(*bullets(activity.safety)))
    return (Table((header, row), (56, 44), "Everyone takes part, in safety"),)


def _changes(activity: Activity) -> list[str]:
    kinds = ("space", "task", "equipment", "people")
    return [change for kind in kinds for change in getattr(activity.inclusion, kind)]


def _criteria(activity: Activity) -> tuple[Block, ...]:
    if not activity.look_for:
        return ()
    header = (words_cell("Outcome"), words_cell("What to look for"), words_cell("In a child's words"))
    rows = tuple(
        (words_cell(entry.outcome), words_cell(entry.criterion), words_cell(entry.i_can)) for entry in activity.look_for
    )
    return (Table((header, *rows), (14, 48, 38), "What to look for", row_header=True),)


def _words(activity: Activity) -> Iterator[Block]:
    for question in activity.questions:
        yield Paragraph(labelled(f"Ask: {question.ask}", f"*Listen for:* {question.listen_for}"))
    if activity.words:
        yield Paragraph(labelled("Words:", "; ".join(f"*{word.word}*, {word.means}" for word in activity.words) + "."))
