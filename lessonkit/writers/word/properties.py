"""The small parts of a Word file: properties, settings, fonts, footer."""

from functools import lru_cache

from lessonkit.document.model import Document
from lessonkit.writers.word.theme import FONT
from lessonkit.writers.word.xml import DECLARATION, NAMESPACES, escaped, field, paragraph, quoted, run

PROPERTIES_PART = "docProps/custom.xml"
"""The name of the part that holds properties of our own."""
_CORE = "http://schemas.openxmlformats.org/package/2006/metadata/core-properties"
_EXTENDED = "http://schemas.openxmlformats.org/officeDocument/2006/extended-properties"
_CUSTOM = "http://schemas.openxmlformats.org/officeDocument/2006/custom-properties"
_VALUES = "http://schemas.openxmlformats.org/officeDocument/2006/docPropsVTypes"
_FREE_PROPERTIES = "{D5CDD505-2E9C-101B-9397-08002B2CF9AE}"
_PAGE_OF = {"en": ("Page ", " of "), "es": ("Página ", " de "), "fr": ("Page ", " sur "), "pt": ("Página ", " de ")}


def core_part(document: Document) -> bytes:
    """Return docProps/core.xml: title, subject, author, keywords, language, and the document's own date, if any."""
    day = escaped(f"{document.date}T00:00:00Z")
    dates = (
        f'<dcterms:created xsi:type="dcterms:W3CDTF">{day}</dcterms:created>'
        f'<dcterms:modified xsi:type="dcterms:W3CDTF">{day}</dcterms:modified>'
    )
    return (
        f'{DECLARATION}<cp:coreProperties xmlns:cp="{_CORE}" xmlns:dc="http://purl.org/dc/elements/1.1/"'
        ' xmlns:dcterms="http://purl.org/dc/terms/" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">'
        f"<dc:title>{escaped(document.title)}</dc:title><dc:subject>{escaped(document.subject)}</dc:subject>"
        f"<dc:creator>{escaped(document.author)}</dc:creator>"
        f"<cp:keywords>{escaped(', '.join(document.keywords))}</cp:keywords>"
        f"<cp:lastModifiedBy>{escaped(document.author)}</cp:lastModifiedBy><cp:revision>1</cp:revision>"
        f"{dates if document.date else ''}<dc:language>{escaped(document.language)}</dc:language></cp:coreProperties>"
    ).encode()


def extended_part(pages: int | None) -> bytes:
    """Return docProps/app.xml: the program's name, and the number of pages where it is known."""
    counted = f"<Pages>{pages}</Pages>" if pages is not None else ""
    return (
        f'{DECLARATION}<Properties xmlns="{_EXTENDED}" xmlns:vt="{_VALUES}">{counted}'
        "<Application>lessonkit</Application></Properties>"
    ).encode()


def custom_part(stamps: tuple[tuple[str, str], ...]) -> bytes:
    """Return docProps/custom.xml with a text property for every (name, value) pair."""
    properties = "".join(
        f'<property fmtid="{_FREE_PROPERTIES}" pid="{number}" name="{quoted(name)}">'
        f"<vt:lpwstr>{escaped(value)}</vt:lpwstr></property>"
        for number, (name, value) in enumerate(stamps, start=2)
    )
    return f'{DECLARATION}<Properties xmlns="{_CUSTOM}" xmlns:vt="{_VALUES}">{properties}</Properties>'.encode()


@lru_cache(maxsize=16)
def settings_part(language: str, even_pages: bool = False) -> bytes:
    """Return settings.xml: nothing that makes a program ask on opening, and today's layout rules."""
    even = "<w:evenAndOddHeaders/>" if even_pages else ""
    return (
        f'{DECLARATION}<w:settings {NAMESPACES}><w:zoom w:percent="100"/>{even}<w:defaultTabStop w:val="720"/>'
        '<w:characterSpacingControl w:val="doNotCompress"/><w:compat>'
        '<w:compatSetting w:name="compatibilityMode" w:uri="http://schemas.microsoft.com/office/word" w:val="15"/>'
        '<w:compatSetting w:name="overrideTableStyleFontSizeAndJustification"'
        ' w:uri="http://schemas.microsoft.com/office/word" w:val="1"/>'
        '<w:compatSetting w:name="enableOpenTypeFeatures" w:uri="http://schemas.microsoft.com/office/word" w:val="1"/>'
        '<w:compatSetting w:name="doNotFlipMirrorIndents" w:uri="http://schemas.microsoft.com/office/word" w:val="1"/>'
        f'</w:compat><w:themeFontLang w:val="{quoted(language)}"/>'
        '<w:clrSchemeMapping w:bg1="light1" w:t1="dark1" w:bg2="light2" w:t2="dark2" w:accent1="accent1"'
        ' w:accent2="accent2" w:accent3="accent3" w:accent4="accent4" w:accent5="accent5" w:accent6="accent6"'
        ' w:hyperlink="hyperlink" w:followedHyperlink="followedHyperlink"/>'
        '<w:decimalSymbol w:val="."/><w:listSeparator w:val=","/></w:settings>'
    ).encode()


@lru_cache(maxsize=8)
def fonts_part(further: tuple[str, ...] = ()) -> bytes:
    """Return fontTable.xml: our fonts with free ones of the same widths, and a school's."""
    others = "".join(f'<w:font w:name="{quoted(font)}"/>' for font in dict.fromkeys(further) if font not in _OURS)
    return (
        f"{DECLARATION}<w:fonts {NAMESPACES}>"
        f'<w:font w:name="{FONT}"><w:altName w:val="Carlito"/><w:panose1 w:val="020F0502020204030204"/>'
        '<w:charset w:val="00"/><w:family w:val="swiss"/><w:pitch w:val="variable"/></w:font>'
        '<w:font w:name="Consolas"><w:altName w:val="Liberation Mono"/>'
        '<w:charset w:val="00"/><w:family w:val="modern"/><w:pitch w:val="fixed"/></w:font>'
        '<w:font w:name="MS Gothic">'
        '<w:charset w:val="80"/><w:family w:val="modern"/><w:pitch w:val="fixed"/></w:font>'
        f"{others}</w:fonts>"
    ).encode()


_OURS = (FONT, "Consolas", "MS Gothic")


def footer_part(document: Document) -> bytes:
    """Return the footer: the document's own words at the left, page and pages at the right."""
    before, between = _PAGE_OF.get(document.language.split("-")[0].lower(), ("", " / "))
    pages = str(document.pages or 1)
    number = field("PAGE", "1") + run(between) + field("NUMPAGES", pages)
    counted = (run(before) if before else "") + number
    words = paragraph("Footer", f"{run(document.footer)}<w:r><w:tab/></w:r>{counted}")
    return f"{DECLARATION}<w:ftr {NAMESPACES}>{words}</w:ftr>".encode()
