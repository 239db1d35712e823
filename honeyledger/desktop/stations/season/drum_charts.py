"""The stock of drums by colour class, drawn as the honey it is."""

from honeyledger.desktop import tokens
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.charts import (
    Chart,
    ChartForm,
    ChartHead,
    ChartItem,
    Part,
    drawn_mass,
)
from honeyledger.desktop.models.key_figure import KeyFigure
from honeyledger.desktop.stations.season.words import bare, counted, mass, percent, tr
from honeyledger.domain.units import MassUnit, format_mass, format_moisture, format_number
from honeyledger.services.season_drums import ColourStock
from honeyledger.services.season_page import SeasonPage

NOT_READ = -1.0  # drawn hatched: no honey's colour


def drums_chart(page: SeasonPage) -> Chart:
    """What stands in drums now, a bar a class, with what is on hold at its end."""
    unit, stock = page.unit, page.stock
    return Chart(
        ChartForm.BARS,
        tr("Drums, totes and pails by colour"),
        tr("In drums, totes and pails"),
        unit,
        (
            ChartHead(tr("Class"), is_number=False),
            ChartHead(tr("Drums")),
            ChartHead(tr("Honey"), unit),
            ChartHead(tr("On hold"), unit),
            ChartHead(tr("Wettest"), "%", from_width=440),
        ),
        tuple(_class_item(one, unit) for one in stock),
        series=(tr("free"), tr("on hold")) if any(one.held for one in stock) else (),
        empty=tr("No honey stands in drums. They are filled on the floor (Ctrl+4)."),
        totals=(
            tr("All drums"),
            format_number(sum(one.count for one in stock)),
            bare(sum(one.grams for one in stock), unit),
            bare(sum(one.held_g for one in stock), unit),
            "",
        )
        if stock
        else (),
    )


def _class_item(one: ColourStock, unit: MassUnit) -> ChartItem:
    name = _name(one.symbol)
    free = one.grams - one.held_g
    said = [
        counted(one.count, tr("1 drum"), tr("{n} drums")),
        format_mass(one.grams, unit, 0),
    ]
    if one.held:
        said.append(tr("{mass} on hold").format(mass=format_mass(one.held_g, unit, 0)))
    if one.wettest is not None:
        said.append(tr("up to {moisture}").format(moisture=format_moisture(one.wettest)))
    parts = [(0, free), (1, one.held_g)]
    held = f", {tr('{n} on hold').format(n=one.held)}" if one.held else ""
    return ChartItem(
        key=one.symbol or "-",
        name=name,
        spoken=f"{name}: {', '.join(said)}",
        cells=(
            name,
            format_number(one.count),
            bare(one.grams, unit),
            bare(one.held_g, unit) if one.held_g else "",
            percent(one.wettest),
        ),
        parts=tuple(Part(at, drawn_mass(grams, unit)) for at, grams in parts if grams),
        words=f"{format_mass(one.grams, unit, 0)}{held}",
        pfund_mm=_shown_at(one.symbol),
    )


def _name(symbol: str) -> str:
    """A class by its symbol, as the standard has it, and its name in the language in use."""
    names = {
        "WW": tr("water white"),
        "XW": tr("extra white"),
        "W": tr("white"),
        "XLA": tr("extra light amber"),
        "LA": tr("light amber"),
        "A": tr("amber"),
        "DA": tr("dark amber"),
    }
    return f"{symbol} {names[symbol]}" if symbol else tr("not read")


def _shown_at(symbol: str) -> float:
    """The reading at which a class is drawn."""
    return next((one.at_mm for one in tokens.PFUND if one.symbol == symbol), NOT_READ)


def drums_answer(page: SeasonPage) -> str:
    """How many drums with how much, and how many of them cannot go."""
    stock = page.stock
    if not stock:
        return tr("No honey stands in drums.")
    held = sum(one.held for one in stock)
    words = tr("{drums} hold {mass}; {held} on hold.")
    return words.format(
        drums=counted(
            sum(one.count for one in stock), tr("One drum"), tr("{n} drums, totes and pails")
        ),
        mass=mass(sum(one.grams for one in stock), page.unit),
        held=counted(held, tr("one is"), tr("{n} are")) if held else tr("none is"),
    )


def drums_figures(page: SeasonPage) -> list[KeyFigure]:
    """What is free, what is wet, what nobody has read."""
    stock = page.stock
    if not stock:
        return []
    free = sum(one.grams - one.held_g for one in stock)
    wet, unread = sum(one.wet for one in stock), sum(one.unread for one in stock)
    over = tr("over {moisture}").format(moisture=format_moisture(page.dry_first))
    return [
        KeyFigure(mass(free, page.unit), tr("not on hold")),
        KeyFigure(format_number(wet), over),
        KeyFigure(format_number(unread), tr("moisture not read")),
    ]


def drums_notes(page: SeasonPage) -> list[Message]:
    """Drums whose colour nobody has read."""
    unread = sum(one.count for one in page.stock if not one.symbol)
    if not unread:
        return []
    lead = counted(unread, tr("1 drum has"), tr("{n} drums have"))
    return [Message(Mark.NOTE, lead, tr("no colour on record: it is read in the drums (Ctrl+5)."))]
