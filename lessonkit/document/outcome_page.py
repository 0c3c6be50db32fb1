"""The page that explains every outcome code a binder uses."""

from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.lesson_plan import code_anchor
from lessonkit.document.model import Block, Heading, Paragraph, Role, text
from lessonkit.document.pieces import sentence
from lessonkit.document.unit_coverage import coverage_codes


def outcome_blocks(facts: PlanFacts) -> tuple[Block, ...]:
    """Return an entry for every outcome code of a plan, each with the anchor that the lessons link to."""
    blocks: list[Block] = [
        Heading(1, text("The outcome codes"), "outcomes", new_page=True),
        sentence(
            f"Codes are those of {facts.framework.publisher} ({facts.framework.year}). "
            "The words beside them are ours; the published wording is the publisher's.",
            Role.SUMMARY,
        ),
    ]
    standard = ""
    places = {outcome.code: number for number, outcome in enumerate(facts.framework.outcomes)}
    for code in sorted(coverage_codes(facts), key=lambda code: (places.get(code, len(places)), code)):
        outcome = facts.outcomes.get(code)
        if outcome is None:
            blocks.append(Heading(2, text(code), code_anchor(code)))
            blocks.append(sentence("The framework file does not list this code yet."))
            continue
        if outcome.standard != standard:
            standard = outcome.standard
            blocks.append(Heading(2, text(f"{standard}: {facts.framework.standards.get(standard, '')}")))
        blocks.append(Heading(3, text(f"{code}, {outcome.topic}"), code_anchor(code)))
        blocks.append(Paragraph(text(outcome.says or "")))
    return tuple(blocks)
