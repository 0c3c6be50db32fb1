"""The shapes of a floor drawing as native Word shapes, to scale.

A plan turns metres into EMU (914 400 to the inch) by one whole factor, so that a shape moved by hand reads back in metres by
one division.
"""

from dataclasses import dataclass

from lessonkit.document.scene import Area, Label, Scene, Segment, Symbol, Way
from lessonkit.writers.word.ledger import Ledger
from lessonkit.writers.word.xml import paragraph, quoted, run

_PAD = 25400


@dataclass(frozen=True, slots=True)
class Plan:
    """A scene on paper: EMU per metre, and the size of the whole drawing in EMU."""

    scene: Scene
    scale: int
    width: int
    height: int


def plan_of(scene: Scene, width: int, tallest: int) -> Plan:
    """Return the plan of a scene that fits a width and a height."""
    scale = int(min((width - 2 * _PAD) / scene.width, (tallest - 2 * _PAD) / scene.depth))
    return Plan(scene, scale, round(scene.width * scale) + 2 * _PAD, round(scene.depth * scale) + 2 * _PAD)


def shapes_xml(plan: Plan, ledger: Ledger) -> str:
    """Return the shapes of a plan from back to front."""
    pieces: list[str] = []
    for shape in plan.scene.shapes:
        match shape:
            case Area(x=x, y=y, width=width, depth=depth, name=name):
                pieces.append(_box(plan, ledger, (x, y, x + width, y + depth), name, "rect"))
            case Segment(x1=x1, y1=y1, x2=x2, y2=y2, name=name):
                pieces.append(_box(plan, ledger, (x1, y1, x2, y2), name, "line"))
            case Symbol(x=x, y=y, name=name):
                pieces.append(_box(plan, ledger, (x - 0.3, y - 0.3, x + 0.3, y + 0.3), name, "ellipse"))
            case Way(points=points, name=name):
                for (x1, y1), (x2, y2) in zip(points, points[1:], strict=False):
                    pieces.append(_box(plan, ledger, (x1, y1, x2, y2), name, "line"))
            case Label(x=x, y=y, words=words):
                pieces.append(_box(plan, ledger, (x - 2, y - 0.3, x + 2, y + 0.3), words, "rect", words))
    return "".join(pieces)


def _box(
    plan: Plan, ledger: Ledger, corners: tuple[float, float, float, float], name: str, form: str, words: str = ""
) -> str:
    x1, y1, x2, y2 = corners
    left, top = _PAD + round(min(x1, x2) * plan.scale), _PAD + round((plan.scene.depth - max(y1, y2)) * plan.scale)
    across, down = round(abs(x2 - x1) * plan.scale), round(abs(y2 - y1) * plan.scale)
    flip = ' flipV="1"' if (x2 - x1) * (y2 - y1) > 0 and form == "line" else ""
    text = f"<wps:txbx><w:txbxContent>{paragraph('PlanLabel', run(words))}</w:txbxContent></wps:txbx>" if words else ""
    stroke = "" if words else '<a:ln w="9525"><a:solidFill><a:schemeClr val="tx2"/></a:solidFill></a:ln>'
    return (
        f'<wps:wsp><wps:cNvPr id="{ledger.next_id()}" name="{quoted(name)}"/><wps:cNvSpPr/><wps:spPr>'
        f'<a:xfrm{flip}><a:off x="{left}" y="{top}"/><a:ext cx="{across}" cy="{down}"/></a:xfrm>'
        f'<a:prstGeom prst="{form}"><a:avLst/></a:prstGeom><a:noFill/>{stroke}</wps:spPr>{text}<wps:bodyPr/></wps:wsp>'
    )
