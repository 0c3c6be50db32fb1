"""A lesson page about short-handled paddles and a small binder around it: every node at least once. All is invented."""

from lessonkit.document.markdown import read_inline, read_markdown
from lessonkit.document.model import (
    Block,
    Cell,
    CheckBoxes,
    Contents,
    Document,
    Drawing,
    Heading,
    KeyValues,
    Link,
    ListBlock,
    Note,
    PageBreak,
    Paragraph,
    Role,
    Rule,
    Strong,
    Table,
    Text,
    WritingSpace,
    text,
)
from lessonkit.document.scene import Area, Label, Scene, Segment, Shape, Symbol, Way


def lesson_document(paper: str = "letter", *, landscape: bool = False) -> Document:
    """Return the lesson alone, on a paper."""
    return Document(
        title="Keep it alive: rallies off the wall and over the rope",
        subject="Short-handled paddles, grade 3",
        author="Quillfeather School",
        footer="Short-handled paddles \u2013 lesson 4",
        date="2026-03-09",
        blocks=lesson_blocks(),
        paper=paper,
        landscape=landscape,
        keywords=("S1.E24.3", "paddles"),
        pages=3,
    )


def binder_document(paper: str = "letter") -> Document:
    """Return a small binder: cover, contents, the lesson, and a page with whatever the lesson lacks."""
    cover: tuple[Block, ...] = (
        Paragraph(text("Quillfeather School \u2013 grade 3"), Role.KICKER),
        Paragraph(text("Short-handled paddles"), Role.TITLE),
        Paragraph(text("Eight lessons from bumping a ball upwards to rallying with a friend."), Role.SUMMARY),
        KeyValues(
            (
                ("Class", text("3 Maple, 24 children")),
                ("Lessons", text("8 of 35 minutes")),
                ("From", text("2 March 2026")),
                ("To", text("27 March 2026")),
                ("Where", text("Half gym, 14 \u00d7 12 m")),
                ("Teacher", text("R. Okonjo")),
                ("Cupboard", text("B, left side")),
            )
        ),
        PageBreak(),
        Heading(1, text("Contents")),
        Contents(
            (
                (1, "Lesson 4: Keep it alive", "lesson_4", 3),
                (2, "Minute by minute", "flow_4", 3),
                (1, "For the last page of the binder", "the appendix: forms & lists, whatever their names may be", 6),
                (2, "A row that leads nowhere", "missing", 6),
            )
        ),
    )
    return Document(
        title="Short-handled paddles: the unit binder",
        subject="Short-handled paddles, grade 3",
        author="Quillfeather School",
        footer="Short-handled paddles \u2013 unit binder",
        date="2026-02-20",
        blocks=(*cover, PageBreak(), *lesson_blocks(), *appendix_blocks()),
        paper=paper,
        pages=6,
    )


def lesson_blocks() -> tuple[Block, ...]:
    """Return the blocks of the lesson."""
    return (
        Paragraph(text("Short-handled paddles \u2013 lesson 4 of 8"), Role.KICKER),
        Heading(1, text("Keep it alive"), "lesson_4"),
        Paragraph(
            text("Children send a foam ball forward with a flat face, first off the wall and then to a partner."),
            Role.SUMMARY,
        ),
        KeyValues(
            (
                ("Class", text("3 Maple, 24 children")),
                ("When", text("Monday 9 March, 10:15")),
                ("Minutes", text("35, about 24 of them moving")),
                ("Where", text("Half gym, 14 \u00d7 12 m")),
            )
        ),
        Heading(2, text("What we are learning")),
        _targets(),
        Heading(2, text("Minute by minute"), "flow_4"),
        _flow(),
        Heading(2, text("Set up")),
        _equipment(),
        Drawing(
            scene(),
            "Half gym, 14 by 12 metres, three places. Children 1 to 4 send the ball to the wall at the left,"
            " 5 to 12 play in pairs over a rope, 13 to 16 push through gates of two cones.",
            0.7,
        ),
        Paragraph(text("The half gym set up for three rallying places. Groups move on every 5 min."), Role.CAPTION),
        Heading(2, text("Change the challenge")),
        _challenge(),
        Heading(2, text("You may see, you can say")),
        _see_say(),
        Heading(2, text("Everyone takes part")),
        _bullets(
            "Seated players rally from 1.5 m with the ball resting on a tee or hanging from a cord.",
            "A cuff or strap holds the paddle for a child who cannot grip for long.",
            "A ball with a bell and a pale floor help a child who sees little; the partner calls *now* at contact.",
            "Picture cards for *ready*, *step* and *push*; a quiet place by the door for anyone who needs it.",
        ),
        Note(
            "Safety",
            (
                _bullets(
                    "Paddles move only on a floor spot, two giant steps from the next child.",
                    "On the signal the paddle is hugged; loose balls are fetched walking, around the groups.",
                    "Look for water and tape on the floor before the class comes in.",
                ),
                Paragraph(
                    text(
                        "Follow your school's own safety rules where they differ from this sheet,"
                        " and leave medical questions to licensed staff."
                    ),
                    Role.SMALL,
                ),
            ),
        ),
        Heading(2, text("Look for")),
        _check_list(),
        Heading(2, text("Ask at the end")),
        ListBlock(
            (
                (Paragraph(text("What did your feet do just before a good push?")),),
                (Paragraph(read_inline("When was a *soft* push the better choice?")),),
                (Paragraph(text("How did you help your partner to keep the ball alive?")),),
            ),
            start=1,
        ),
        WritingSpace("Notes for next time", 3),
    )


def appendix_blocks() -> tuple[Block, ...]:
    """Return the nodes that the lesson lacks, and awkward words."""
    return (
        Heading(
            1,
            text("For the last page of the binder"),
            "the appendix: forms & lists, whatever their names may be",
            new_page=True,
        ),
        Heading(2, text("Before the unit begins")),
        CheckBoxes(
            (
                text("Foam balls counted and pumped"),
                read_inline("Rope 60 cm high tried with *one* pair"),
                text("Letter to families sent"),
            )
        ),
        Rule(),
        Rule(cut=True),
        Heading(3, text("A teacher's own notes")),
        *read_markdown(_MARKDOWN),
        Heading(4, text("Words & signs: <b>, \u201cquotes\u201d, 5 > 3, \u05e9\u05dc\u05d5\u05dd")),
        Paragraph(
            (
                Text("See "),
                Link(text("the lesson"), "#lesson_4"),
                Text(", "),
                Link((Strong(text("the shape of the year")),), "https://example.org/year?grade=3&unit=paddles"),
                Text(" or "),
                Link(text("nowhere"), "#nowhere"),
                Text("."),
            ),
            key="appendix_see",
        ),
        Paragraph(text("The same key twice marks only the first."), key="appendix_see"),
        Table(
            (
                (Cell((Paragraph(text("Skill by lesson")),), span=5),),
                tuple(Cell((Paragraph(text(words)),)) for words in ("Skill", "1", "2", "3", "4")),
                (
                    Cell((Paragraph(text("Bump upwards")),)),
                    Cell((Paragraph(text("new")),), shaded=True),
                    Cell((Paragraph(text("again")),), span=2),
                    Cell(()),
                ),
                (
                    Cell((Paragraph(text("Push forward")),)),
                    Cell(()),
                    Cell((Paragraph(text("new")),), shaded=True),
                    Cell((Paragraph(text("again")),), span=2),
                ),
            ),
            (3, 1, 1, 1, 1),
            "Skill by lesson",
            header_rows=2,
            row_header=True,
        ),
        Table(
            (
                (
                    Cell((Paragraph(text("Left")), _bullets("one", "two"))),
                    Cell((Note("A note in a cell", (Paragraph(text("Short.")),)),)),
                ),
            ),
            (1, 1),
            "Side by side",
            header_rows=0,
            plain=True,
        ),
    )


_MARKDOWN = """\
Start with the *far* groups. **Never** start while a paddle is in the air, and use `stop` as the only signal.

1. Children carry paddles:
   - flat against the chest
   - edge down, never over the head
     1. left hand on the face
     2. right hand on the handle

   Then they walk.
2. Children choose a spot.

3. Children wait for the *ready* call.

> A rally is a present to the person across the rope.
> Send what you would like to get.

7. A list may begin at seven
8. and go on.

```
ready   step   push
  1       2      3
```

| Signal | Meaning |
|--------|---------|
| one clap | freeze |
| two claps | walk to the **next** place |
"""


def _bullets(*sentences: str) -> ListBlock:
    return ListBlock(tuple((Paragraph(read_inline(words)),) for words in sentences))


def _cell(words: str, role: Role = Role.BODY) -> Cell:
    return Cell((Paragraph(read_inline(words), role),))


def _cells(*words: str) -> tuple[Cell, ...]:
    return tuple(_cell(word) for word in words)


def _targets() -> Table:
    return Table(
        (
            _cells("Outcome", "In a child's words", "What to look for"),
            _cells(
                "S1.E24.3",
                "I can push the ball forward with a flat paddle, to the wall or over the rope.",
                "Five pushes in a row that land inside the marked place.",
            ),
            _cells(
                "S2.E3.3",
                "I can choose a soft or a firm push for the distance I have.",
                "Says which push was chosen, and why.",
            ),
            _cells("S4.E4.3", "I help my partner to keep the ball going.", "Sends a ball that the partner can reach."),
        ),
        (14, 44, 42),
        "Outcomes of this lesson",
        row_header=True,
    )


def _flow() -> Table:
    return Table(
        (
            _cells("Minutes", "What happens", "Cues", "Groups"),
            _flow_row(
                "0\u20134",
                "**Waiter's walk** (warm-up)",
                "Walk, skip and turn along the lines with a ball resting on the face. On the signal, freeze low.",
                "\u201cFlat face, soft knees\u201d",
                "Whole class, each on a line",
            ),
            _flow_row(
                "4\u20139",
                "**Ready, step, push** (skill)",
                "Show *ready, step, push* twice without a ball. Children bump the ball up five times, let it drop,"
                " and push it forward after one bounce.",
                "\u201cStep with the other foot\u201d",
                "Alone, on 24 floor spots",
            ),
            _flow_row(
                "9\u201324",
                "**Three rallying places** (practice)",
                "Place 1: push to the wall from 3 m, one bounce, push again. Place 2: over a rope 60 cm high to a"
                " partner. Place 3: through a gate 2 m wide. Groups move on every 5 minutes.",
                "\u201cPush, don't chop\u201d",
                "3 groups of 8",
            ),
            _flow_row(
                "24\u201331",
                "**Longest together** (small-sided game)",
                "Pairs count how many pushes they make in one minute, rest, and try to beat *their own* number."
                " Stop: hug the paddle.",
                "\u201cSend a present\u201d",
                "12 pairs over the rope",
            ),
            _flow_row(
                "31\u201335",
                "**Tell and show** (closing)",
                "Two children show a soft and a firm push. The class names which is which, and when each is of use.",
                "\u201cWhat changed?\u201d",
                "Half circle at the wall",
            ),
        ),
        (11, 50, 20, 19),
        "The lesson minute by minute",
        row_header=True,
    )


def _flow_row(minutes: str, title: str, words: str, cue: str, groups: str) -> tuple[Cell, ...]:
    what = Cell((Paragraph(read_inline(title), key=f"flow_{minutes[0]}_title"), Paragraph(read_inline(words))))
    return (_cell(minutes), what, _cell(cue, Role.CUE), _cell(groups))


def _equipment() -> Table:
    return Table(
        (
            _cells("Number", "Item", "Where it goes"),
            _cells("24", "Short-handled paddles, light", "One each; four with a strap stay on the bench"),
            _cells("30", "Foam balls, 7 cm", "One each, six spares in the box by the wall"),
            _cells("1", "Rope, 8 m, with two stands", "Across the middle, 60 cm high"),
            _cells("8", "Cones", "Four gates, each 2 m wide"),
            _cells("24", "Floor spots", "Two giant steps apart"),
        ),
        (10, 38, 52),
        "Equipment for this class",
        row_header=True,
    )


def _challenge() -> Table:
    easier = _bullets(
        "Use a balloon ball or a larger foam ball.",
        "Hold the paddle close to its face.",
        "Catch the ball after each bounce, then begin anew.",
    )
    harder = _bullets(
        "Turn between pushes: left side, right side.",
        "Take one step back after every five in a row.",
        "Land the ball on a floor spot of your choice.",
    )
    return Table((_cells("Easier", "Harder"), (Cell((easier,)), Cell((harder,)))), (1, 1), "Easier and harder versions")


def _see_say() -> Table:
    return Table(
        (
            _cells("You may see", "You can say"),
            _cells("The paddle swings in a big circle.", "\u201cMake the swing as short as a handshake.\u201d"),
            _cells("The ball flies up instead of forward.", "\u201cShow your face to the wall.\u201d"),
            _cells("Feet stay planted.", "\u201cStep first, then push.\u201d"),
        ),
        (45, 55),
        "Common faults and what to say",
    )


def _check_list() -> Table:
    box = Cell((CheckBoxes(((),)),))
    criteria = ("Face stays flat at contact", "Steps with the other foot", "Sends a ball the partner can reach")
    return Table(
        (
            _cells("Look for", "Not yet", "Nearly", "Secure"),
            *((_cell(criterion), box, box, box) for criterion in criteria),
        ),
        (55, 15, 15, 15),
        "Check list",
        row_header=True,
    )


def scene() -> Scene:
    """Return a half gym with three rallying places."""
    shapes: list[Shape] = [
        Area(0, 0, 14, 12, "room", "Half gym"),
        Area(0.5, 0.6, 4, 10.8, "station", "Place 1"),
        Area(5, 0.6, 4.2, 10.8, "group", "Place 2"),
        Area(9.7, 0.6, 3.8, 10.8, "safety", "Place 3"),
        Segment(0, 0, 0, 12, "wall", "Wall for rallies"),
        Segment(6, 0, 7.2, 0, "door", "Door"),
        Segment(7.1, 1, 7.1, 11, "rope", "Rope"),
        Segment(11, 11.7, 13, 11.7, "bench", "Bench"),
    ]
    for row in range(4):
        y = 1.6 + row * 2.4
        shapes += [
            Symbol(3.4, y, "child", f"Child {row + 1}", str(row + 1)),
            Way(((3.1, y), (0.7, y + 0.4)), "ball", f"Ball of child {row + 1}"),
            Symbol(5.8, y, "child", f"Child {row + 5}", str(row + 5)),
            Symbol(8.4, y, "child", f"Child {row + 9}", str(row + 9)),
            Way(((6.1, y), (8.0, y)), "ball", f"Ball of pair {row + 1}"),
            Symbol(10.2, y, "child", f"Child {row + 13}", str(row + 13)),
            Symbol(12.2, y - 0.6, "cone", f"Cone {2 * row + 1}"),
            Symbol(12.2, y + 0.6, "cone", f"Cone {2 * row + 2}"),
            Way(((10.5, y), (13.1, y)), "ball", f"Ball through gate {row + 1}"),
        ]
    shapes += [
        Symbol(4.75, 6, "teacher", "Teacher", "T"),
        Way(((2.5, 0.3), (7.1, 0.3), (11.6, 0.3)), "rotation", "Groups move on"),
        Label(2.5, 11.1, "1  To the wall", "normal"),
        Label(7.1, 11.1, "2  Over the rope", "normal"),
        Label(11.6, 11.1, "3  Through the gate", "normal"),
    ]
    return Scene(
        14,
        12,
        tuple(shapes),
        legend=(
            ("child", "child"),
            ("teacher", "teacher"),
            ("cone", "cone"),
            ("ball", "path of the ball"),
            ("rotation", "groups move on"),
        ),
        scale_bar=2,
        scale_words="2 m",
    )
