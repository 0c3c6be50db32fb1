"""What a legend shows beside its words: the sign of each entry, the same in every format."""

from lessonkit.document.scene import Scene, Segment, Symbol, Way
from lessonkit.writers.forms import AREAS, FORMS, LINES, PATHS, Form, Ink

Sign = Form | Ink
"""A symbol, or the ink of a line, an arrow or an area."""
_USUAL: dict[str, Sign] = {}
_USUAL.update(AREAS.items())
_USUAL.update(LINES.items())
_USUAL.update(PATHS.items())
_USUAL.update(FORMS.items())


def signs(scene: Scene) -> list[tuple[Sign, str]]:
    """Return sign and words of every entry of a scene's legend.

    A kind may be a symbol, a straight piece and a path at once (a ball and its way): an entry means the first of these
    that the scene holds and no entry before it meant.
    """
    drawn: list[tuple[str, Sign]] = []
    drawn += [(shape.what, FORMS[shape.what]) for shape in scene.shapes if isinstance(shape, Symbol)]
    drawn += [(shape.role, LINES[shape.role]) for shape in scene.shapes if isinstance(shape, Segment)]
    drawn += [(shape.role, PATHS[shape.role]) for shape in scene.shapes if isinstance(shape, Way)]
    unnamed = list(dict.fromkeys(drawn))
    found: list[tuple[Sign, str]] = []
    for kind, words in scene.legend:
        meant = next((each for each in unnamed if each[0] == kind), None)
        found.append((meant[1] if meant else _USUAL[kind], words))
        unnamed = [each for each in unnamed if each != meant]
    return found
