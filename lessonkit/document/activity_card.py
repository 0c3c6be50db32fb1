"""The activity card: everything that the record of one activity says."""

from lessonkit.document.floor_plan import describe, group_scene
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.lesson_flow import PART_NAMES
from lessonkit.document.markdown import read_inline, read_markdown
from lessonkit.document.model import (
    Block,
    Drawing,
    Heading,
    KeyValues,
    Note,
    PageBreak,
    Paragraph,
    Role,
    Table,
    text,
)
from lessonkit.document.pieces import EN_DASH, NO_BREAK, bullets, cell, labelled, sentence, words_cell
from lessonkit.document.scene import Scene
from lessonkit.logistics.equipment import needed
from lessonkit.logistics.groups import group
from lessonkit.records.activity import Activity


def activity_anchor(activity_id: str) -> str:
    """Return the anchor of an activity's card inside a binder."""
    return "activity_" + activity_id.replace("-", "_")


def card_blocks(activity: Activity, facts: PlanFacts) -> tuple[Block, ...]:
    """Return the card of an activity (already resolved for the grade) as it stands in a binder."""
    return (
        PageBreak(),
        Paragraph(
            text(f"Activity {EN_DASH} {', '.join(PART_NAMES[part].lower() for part in activity.parts)}"), Role.KICKER
        ),
        Heading(1, text(activity.title), activity_anchor(activity.id)),
        sentence(activity.summary, Role.SUMMARY),
        _facts(activity, facts),
        _how_and_where(activity, facts),
        *_remarks(activity),
        _challenge(activity),
        *_see_say(activity),
        Heading(3, text("Everyone takes part")),
        *bullets(
            change for name in ("space", "task", "equipment", "people") for change in getattr(activity.inclusion, name)
        ),
        *_criteria(activity),
        Note("Safety", tuple(bullets(activity.safety))),
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
        ("Equipment", items or "none"),
    )
    return KeyValues(tuple((name, text(value)) for name, value in pairs))


def _how_and_where(activity: Activity, facts: PlanFacts) -> Table:
    """Put the steps beside the drawing of one group."""
    scene = group_scene(activity, facts.school.lengths)
    header = (words_cell("What happens"), words_cell("One group"))
    cues = Paragraph(read_inline(" \u00b7 ".join(activity.cues)), Role.CUE)
    return Table(
        (header, (cell(*read_markdown(activity.steps), cues), cell(Drawing(scene, describe(scene), _share(scene))))),
        (62, 38),
        f"Steps and set-up of {activity.title}",
    )


def _share(scene: Scene) -> float:
    """Draw a small space smaller, so that a child has about the same size on every card."""
    return max(0.5, min(1.0, scene.width / 4))


def _remarks(activity: Activity) -> tuple[Block, ...]:
    organisation = activity.organisation
    said = (
        ("Uneven numbers:", organisation.uneven.say if organisation.uneven else None),
        ("Waiting:", organisation.waiting),
        ("More children than space:", activity.floor.if_more),
        ("Stop:", activity.stop_signal),
        ("Beat your best:", f"{activity.measured.what}." if activity.measured else None),
    )
    return tuple(Paragraph(labelled(label, words)) for label, words in said if words)


def _challenge(activity: Activity) -> Table:
    header = (words_cell("Easier"), words_cell("Harder"))
    row = (cell(*bullets(activity.easier)), cell(*bullets(activity.harder)))
    return Table((header, row), (50, 50), "Easier and harder versions")


def _see_say(activity: Activity) -> tuple[Block, ...]:
    if not activity.see_say:
        return ()
    header = (words_cell("You may see"), words_cell("You can say"))
    rows = tuple((words_cell(pair.see), words_cell(f"\u201c{pair.say}\u201d")) for pair in activity.see_say)
    return (Table((header, *rows), (45, 55), "Common faults and what to say"),)


def _criteria(activity: Activity) -> tuple[Block, ...]:
    blocks: list[Block] = []
    if activity.look_for:
        header = (words_cell("Outcome"), words_cell("What to look for"), words_cell("In a child's words"))
        rows = tuple(
            (words_cell(entry.outcome), words_cell(entry.criterion), words_cell(entry.i_can))
            for entry in activity.look_for
        )
        blocks.append(Table((header, *rows), (17, 45, 38), "What to look for", row_header=True))
    blocks.extend(
        Paragraph(labelled(f"Ask: {question.ask}", f"*Listen for:* {question.listen_for}"))
        for question in activity.questions
    )
    blocks.extend(Paragraph(labelled(f"{word.word}:", word.means)) for word in activity.words)
    return tuple(blocks)
