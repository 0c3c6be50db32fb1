"""The page that explains every outcome code a binder uses."""

from itertools import groupby

from lessonkit.document.detail import CountPages
from lessonkit.document.lesson_facts import PlanFacts
from lessonkit.document.lesson_plan import code_anchor
from lessonkit.document.model import Block, Document, Heading, Paragraph, Role, Table, text
from lessonkit.document.pieces import cell, sentence
from lessonkit.document.unit_coverage import coverage_codes


def outcome_blocks(facts: PlanFacts, pages: CountPages | None = None) -> tuple[Block, ...]:
    """Return an entry for every outcome code of a plan, each with the anchor that the lessons link to.

    They stand in two columns where ``pages`` says that these go on one page.
    """
    side_by_side = _blocks(facts, columns=2)
    if pages is not None and pages(Document("", "", "", "", "", side_by_side, paper=facts.school.paper)) == 1:
        return side_by_side
    return _blocks(facts, columns=1)


def _blocks(facts: PlanFacts, columns: int) -> tuple[Block, ...]:
    blocks: list[Block] = [
        Heading(1, text("The outcome codes"), "outcomes", new_page=True),
        sentence(
            f"Codes are those of {facts.framework.publisher} ({facts.framework.year}). "
            "The words beside them are ours; the published wording is the publisher's.",
            Role.SUMMARY,
        ),
    ]
    places = {outcome.code: number for number, outcome in enumerate(facts.framework.outcomes)}
    codes = sorted(coverage_codes(facts), key=lambda code: (places.get(code, len(places)), code))
    for standard, group in groupby(codes, key=lambda code: _standard(facts, code)):
        listed = tuple(group)
        if standard:
            blocks.append(Heading(2, text(f"{standard}: {facts.framework.standards.get(standard, '')}")))
        if columns == 1:
            blocks.extend(block for code in listed for block in _entry(facts, code))
        else:
            blocks.append(_side_by_side(facts, standard, listed))
    return tuple(blocks)


def _standard(facts: PlanFacts, code: str) -> str:
    outcome = facts.outcomes.get(code)
    return outcome.standard if outcome else ""


def _side_by_side(facts: PlanFacts, standard: str, codes: tuple[str, ...]) -> Table:
    """Set entries in two columns, the first half on the left."""
    half = -(-len(codes) // 2)
    columns = (codes[:half], codes[half:])
    row = tuple(cell(*(block for code in column for block in _entry(facts, code))) for column in columns)
    return Table((row,), (50, 50), f"The codes of {standard or 'no standard'}", header_rows=0, plain=True)


def _entry(facts: PlanFacts, code: str) -> tuple[Block, ...]:
    outcome = facts.outcomes.get(code)
    if outcome is None:
        unknown = "The framework file does not list this code yet."
        return (Heading(3, text(code), code_anchor(code)), sentence(unknown))
    return (Heading(3, text(f"{code}, {outcome.topic}"), code_anchor(code)), Paragraph(text(outcome.says or "")))
