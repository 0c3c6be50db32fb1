"""A floor drawing in its paragraph: native shapes with a picture behind them, or the picture alone."""

from lessonkit.document.model import Drawing
from lessonkit.document.scene import Area
from lessonkit.writers.forms import NO_INK
from lessonkit.writers.word.frame import Frame
from lessonkit.writers.word.geometry import EMU_PER_POINT, Box, preset, shape
from lessonkit.writers.word.ledger import Ledger
from lessonkit.writers.word.legend import legend_xml, plan_of, settled_plan
from lessonkit.writers.word.page import EMU_PER_TWIP
from lessonkit.writers.word.shapes import Plan, shapes_xml
from lessonkit.writers.word.xml import escaped, paragraph, quoted

_GROUP = "http://schemas.microsoft.com/office/word/2010/wordprocessingGroup"
_PICTURE = "http://schemas.openxmlformats.org/drawingml/2006/picture"
_SHARE_OF_HEIGHT = 0.8


def drawing_xml(drawing: Drawing, frame: Frame, ledger: Ledger) -> str:
    """Return the paragraph of a drawing, to scale, with its description for those who cannot see it.

    Raises ValueError if a picture is asked for and the options have nothing that makes one.
    """
    room = frame.width * EMU_PER_TWIP
    width = int(room * min(max(drawing.width, 0.05), 1.0))
    plan = plan_of(drawing.scene, width, int(ledger.tallest * EMU_PER_TWIP * _SHARE_OF_HEIGHT), room)
    if ledger.options.drawings == "picture":
        content = f"<w:r>{_picture(drawing, plan, ledger)}</w:r>"
    else:
        content = (
            f'<w:r><mc:AlternateContent><mc:Choice Requires="wpg">{_native(drawing, plan, ledger)}</mc:Choice>'
            f"<mc:Fallback>{_fallback(drawing, plan, ledger)}</mc:Fallback></mc:AlternateContent></w:r>"
        )
    return paragraph("Figure", content)


def _fallback(drawing: Drawing, plan: Plan, ledger: Ledger) -> str:
    """Return what a reader without native shapes shows: the picture where one can be made, else the description."""
    if ledger.options.scene_picture is None:
        return f'<w:t xml:space="preserve">{escaped(drawing.says)}</w:t>'
    return _picture(drawing, plan, ledger)


def _native(drawing: Drawing, plan: Plan, ledger: Ledger) -> str:
    plan = settled_plan(plan)
    size = f'cx="{plan.width}" cy="{plan.height}"'
    group = (
        f'<wpg:wgp><wpg:cNvGrpSpPr/><wpg:grpSpPr><a:xfrm><a:off x="0" y="0"/><a:ext {size}/><a:chOff x="0" y="0"/>'
        f"<a:chExt {size}/></a:xfrm></wpg:grpSpPr>{_edge(plan, ledger)}{shapes_xml(plan, ledger)}"
        f"{legend_xml(plan, ledger)}</wpg:wgp>"
    )
    return _inline(drawing, plan, ledger, _GROUP, group)


def _edge(plan: Plan, ledger: Ledger) -> str:
    """Return an unseen shape as large as the drawing where no area reaches its edges.

    LibreOffice stretches a group until its shapes fill its frame, and then circles are no longer round.
    """
    scene = plan.scene
    if any(isinstance(each, Area) and (each.width, each.depth) == (scene.width, scene.depth) for each in scene.shapes):
        return ""
    return shape("edge of the drawing", Box(0, 0, plan.width, plan.height), preset("rect"), NO_INK, ledger)


def _picture(drawing: Drawing, plan: Plan, ledger: Ledger) -> str:
    make = ledger.options.scene_picture
    if make is None:
        raise ValueError("drawings as pictures need a function that makes the picture of a scene")
    size = (plan.width / EMU_PER_POINT, plan.height / EMU_PER_POINT)
    relation = ledger.picture(drawing.scene, size, make)
    picture = (
        f'<pic:pic><pic:nvPicPr><pic:cNvPr id="0" name="Picture" descr="{quoted(drawing.says)}"/>'
        "<pic:cNvPicPr/></pic:nvPicPr>"
        f'<pic:blipFill><a:blip r:embed="{relation}"/><a:stretch><a:fillRect/></a:stretch></pic:blipFill>'
        f'<pic:spPr><a:xfrm><a:off x="0" y="0"/><a:ext cx="{plan.width}" cy="{plan.height}"/></a:xfrm>'
        '<a:prstGeom prst="rect"><a:avLst/></a:prstGeom></pic:spPr></pic:pic>'
    )
    return _inline(drawing, plan, ledger, _PICTURE, picture)


def _inline(drawing: Drawing, plan: Plan, ledger: Ledger, kind: str, content: str) -> str:
    number = ledger.next_id()
    return (
        '<w:drawing><wp:inline distT="0" distB="0" distL="0" distR="0">'
        f'<wp:extent cx="{plan.width}" cy="{plan.height}"/><wp:effectExtent l="0" t="0" r="0" b="0"/>'
        f'<wp:docPr id="{number}" name="Floor plan {number}" descr="{quoted(drawing.says)}"/><wp:cNvGraphicFramePr/>'
        f'<a:graphic><a:graphicData uri="{kind}">{content}</a:graphicData></a:graphic></wp:inline></w:drawing>'
    )
