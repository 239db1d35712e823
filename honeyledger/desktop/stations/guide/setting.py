"""A page of the guide as it is set: our typefaces, sizes and colours, for Qt's own text engine."""

import html
import re

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop import look, tokens
from honeyledger.desktop.stations.guide.pages import Block, GuidePage, Kind
from honeyledger.desktop.tokens import Density, Type

PICTURE_WIDTH = 560
_BOLD = re.compile(r"\*\*(.+?)\*\*")
_KEY = re.compile(r"`(.+?)`")
_LINK = re.compile(r"\[(.+?)\]\((.+?)\.md\)")
_LISTS = {Kind.ITEM: "ul", Kind.STEP: "ol"}


def tr(text: str) -> str:
    """A word of the guide's page, in the language in use; the pages are files of their own."""
    return QCoreApplication.translate("guide", text)


def style_sheet() -> str:
    """How everything on a page looks, in the theme in use."""
    body = tokens.type_size(Type.BODY, Density.FLOOR)
    title = tokens.type_size(Type.FIGURE, Density.DESK)
    heading = tokens.type_size(Type.TITLE, Density.DESK)
    ink, act = look.colour("ink").name(), look.colour("act").name()
    text = f"font-family: '{look.SANS}'; font-size: {body.px}px; color: {ink};"
    return (
        f"body, p, li, td {{ {text} line-height: 108%; }}"
        f"h1 {{ font-family: '{look.SANS}'; font-size: {title.px}px; color: {ink}; }}"
        f"h2 {{ font-family: '{look.SANS}'; font-size: {heading.px}px; color: {ink};"
        f" margin-top: 20px; }}"
        f"li {{ margin-bottom: 6px; }}"
        f".key {{ font-family: '{look.MONO}'; font-weight: 600;"
        f" background-color: {look.colour('well').name()}; }}"
        f"a {{ color: {act}; }}"
    )


def page_html(page: GuidePage) -> str:
    """The page in HTML, as far as Qt's text engine knows it."""
    made: list[str] = []
    open_list = ""
    for block in page.blocks:
        wanted = _LISTS.get(block.kind, "")
        if wanted != open_list:
            made.append(f"</{open_list}>" if open_list else "")
            made.append(f"<{wanted}>" if wanted else "")
            open_list = wanted
        made.append(_block_html(block))
    if open_list:
        made.append(f"</{open_list}>")
    return "".join(made)


def _block_html(block: Block) -> str:
    words = _inline_html(block.text)
    match block.kind:
        case Kind.TITLE:
            return f"<h1>{words}</h1>"
        case Kind.HEADING:
            return f"<h2>{words}</h2>"
        case Kind.ITEM | Kind.STEP:
            return f"<li>{words}</li>"
        case Kind.CAUTION:
            tint, alert = (look.colour(name).name() for name in ("alert_tint", "alert"))
            lead = f'<b style="color: {alert}">{html.escape(tr("Caution."))}</b>'
            return (
                f'<table width="100%" cellspacing="0" cellpadding="12" style="margin-top: 12px">'
                f"<tr>"
                f'<td width="4" bgcolor="{alert}" style="padding: 0"></td>'
                f'<td bgcolor="{tint}">{lead} {words}</td></tr></table><p></p>'
            )
        case Kind.PICTURE:
            file = html.escape(block.file)
            return f'<p><img src="{file}" width="{PICTURE_WIDTH}"><br>{words}</p>'
        case _:
            return f"<p>{words}</p>"


def _inline_html(text: str) -> str:
    made = html.escape(text, quote=False)
    made = _LINK.sub(r'<a href="\2">\1</a>', made)
    made = _BOLD.sub(r"<b>\1</b>", made)
    return _KEY.sub(r'<span class="key">\1</span>', made)
