"""From the bottling's page to what its tables and figures show."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.language import say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.rows import Column, ColumnKind, Total
from honeyledger.desktop.stations.bottling.typed import AtFiller, Typed, jars_by_mass
from honeyledger.domain.units import (
    MassUnit,
    format_mass,
    format_moisture,
    format_number,
    format_shares,
)
from honeyledger.services.bottling import BottlingSheet, Feed, feed_of, jars_in
from honeyledger.services.bottling_makeup import Makeup
from honeyledger.services.bottling_page import BottlingPage
from honeyledger.services.standing_now import JarsNow


def tr(text: str) -> str:
    """A word of the bottling, in the language in use."""
    return QCoreApplication.translate("bottling", text)


def bare(grams: int, unit: MassUnit, decimals: int = 1) -> str:
    """A mass without its unit, which stands in the head."""
    return format_mass(grams, unit, decimals).removesuffix(f" {unit}")


def grams_of(mg: int) -> str:
    """Milligrams as grams to a tenth, without the unit."""
    return format_number(Fraction(mg, 1000), 1)


@dataclass(frozen=True, slots=True)
class SegmentRow:
    """Jars of one feed: filled, running, or still to come."""

    key: str
    name: str
    serials: str
    jars: int
    mean: str
    grams: int
    aside: str = ""

    @property
    def is_about(self) -> bool:
        """Whether it is a guess by mass."""
        return bool(self.aside)


@dataclass(frozen=True, slots=True)
class SourceRow:
    """A yard, a supplier or honey nobody can name, in what the jars hold."""

    code: str
    name: str
    share: str
    mark: Mark | None
    aside: str


def segment_rows(page: BottlingPage, filler: AtFiller, typed: Typed) -> tuple[SegmentRow, ...]:
    """The jars so far, those that are being filled, and those of the feeds to come."""
    sheet = page.sheet
    if sheet is None:
        return ()
    rows = [
        SegmentRow(
            key=f"{one.first}/{one.code}",
            name=one.name,
            serials=f"{format_number(one.first)}–{format_number(one.last)}",
            jars=one.jars,
            mean=grams_of(one.mean_mg),
            grams=one.grams,
        )
        for one in sheet.segments
    ]
    first = sheet.bottling.jars + 1
    mean_mg = mean_of(sheet, filler)
    jars = jars_in(sheet.feed.grams, mean_mg)
    rows.append(_planned(sheet.feed, first, jars, tr("runs now")))
    for code in typed.order:
        feed = feed_of(page.feeds, code)
        if feed is not None and feed.place != sheet.feed.place:
            first, jars = first + jars, jars_in(feed.grams, mean_mg)
            rows.append(_planned(feed, first, jars, tr("comes next")))
    return tuple(rows)


def mean_of(sheet: BottlingSheet, filler: AtFiller) -> int:
    """The mean net that jars to come are reckoned with: of those weighed, else the declared."""
    return filler.mean_mg(sheet) or sheet.bottling.product.net_g * 1000


def _planned(feed: Feed, first: int, jars: int, aside: str) -> SegmentRow:
    key, serials = f"{aside}/{feed.code}", f"{format_number(first)}–"
    return SegmentRow(key, feed.name, serials, jars, "", feed.grams, aside)


def code_of(key: str) -> str:
    """The code in the key of a row, of which a feed may have several."""
    return key.rpartition("/")[2]


def segment_columns(unit: MassUnit, *, narrow: bool = False) -> tuple[Column[SegmentRow], ...]:
    """The columns of the segments; where there is little room, jars say enough."""
    columns: tuple[Column[SegmentRow], ...] = (
        Column(
            "name",
            tr("Filled from"),
            lambda row: row.name,
            ColumnKind.NAME,
            aside=lambda row: row.aside,
        ),
        Column("serials", tr("Serials"), lambda row: row.serials, ColumnKind.NUMBER),
        Column(
            "jars",
            tr("Jars"),
            lambda row: format_number(row.jars),
            ColumnKind.NUMBER,
            estimated=lambda row: row.is_about,
        ),
        Column(
            "mean",
            tr("Mean"),
            lambda row: row.mean,
            ColumnKind.NUMBER,
            unit="g",
        ),
        Column(
            "honey",
            tr("Honey"),
            lambda row: bare(row.grams, unit),
            ColumnKind.NUMBER,
            unit=unit,
            estimated=lambda row: row.is_about,
        ),
    )
    return columns[:3] if narrow else columns


def segment_totals(rows: Sequence[SegmentRow], unit: MassUnit) -> dict[str, Total]:
    """All jars and honey, those to come with them."""
    is_about = any(row.is_about for row in rows)
    return {
        "jars": Total(format_number(sum(row.jars for row in rows)), estimated=is_about),
        "honey": Total(bare(sum(row.grams for row in rows), unit), unit, estimated=is_about),
    }


def source_rows(makeup: Makeup | None) -> tuple[SourceRow, ...]:
    """What the jars hold, largest share first."""
    if makeup is None:
        return ()
    shares = [say(one) for one in format_shares([one.share for one in makeup.sources])]
    rows = []
    for one, share in zip(makeup.sources, shares, strict=True):
        in_reach_only = not one.share
        heel = in_reach_only or one.only_through_heel
        rows.append(
            SourceRow(
                code=one.code,
                name=one.name,
                share=tr("in reach") if in_reach_only else share.removesuffix(" %"),
                mark=Mark.HEEL if heel else Mark.WARNING if one.kind == "unknown" else None,
                aside=tr("heel") if one.only_through_heel and not in_reach_only else "",
            )
        )
    return tuple(rows)


def source_columns() -> tuple[Column[SourceRow], ...]:
    """Where the honey of a bottling comes from, and its share."""
    return (
        Column(
            "name",
            tr("Comes from"),
            lambda row: row.name,
            ColumnKind.NAME,
            mark=lambda row: row.mark,
            aside=lambda row: row.aside,
        ),
        Column("share", tr("Share"), lambda row: row.share, ColumnKind.NUMBER, unit="%"),
    )


_FEED_MARKS = {
    "ready": Mark.READY,
    "not read": Mark.NOTE,
    "not weighed": Mark.WARNING,
    "hold": Mark.HOLD,
}


def feed_columns(unit: MassUnit, *, narrow: bool = False) -> tuple[Column[Feed], ...]:
    """The columns of what can be bottled; where there is little room, a mark says its state."""
    columns: tuple[Column[Feed], ...] = (
        Column("code", tr("Drum or tank"), lambda row: row.code, ColumnKind.CODE),
        Column(
            "state",
            tr("State"),
            lambda row: say(row.state),
            ColumnKind.STATE,
            mark=lambda row: _FEED_MARKS.get(row.state, Mark.WARNING),
        ),
        Column("name", tr("Name"), _feed_name, ColumnKind.NAME, aside=lambda row: say(row.reason)),
        Column(
            "moisture",
            tr("Moist."),
            lambda row: "" if row.moisture is None else format_moisture(row.moisture)[:-2],
            ColumnKind.NUMBER,
            unit="%",
        ),
        Column(
            "colour",
            tr("Colour"),
            kind=ColumnKind.COLOUR,
            unit="Pfund mm",
            pfund_mm=lambda row: None if row.colour is None else row.colour / 10,
            from_width=800,
        ),
        Column(
            "net",
            tr("Net"),
            lambda row: bare(row.grams, unit),
            ColumnKind.NUMBER,
            unit=unit,
            estimated=lambda row: not row.is_drum or row.state == "not weighed",
        ),
    )
    if not narrow:
        return columns
    name = Column("name", tr("Name"), _feed_name, ColumnKind.NAME, mark=_feed_mark)
    return (columns[0], name, columns[-1])


def _feed_mark(row: Feed) -> Mark | None:
    """The mark of what needs a person; what is ready has none."""
    mark = _FEED_MARKS.get(row.state, Mark.WARNING)
    return mark if mark in (Mark.WARNING, Mark.HOLD) else None


def _feed_name(row: Feed) -> str:
    """A one-way drum has no name but its code, which stands there already."""
    return "" if row.name == row.code else row.name


_JAR_MARKS = {"being bottled": Mark.WORKING, "hold": Mark.HOLD, "ready": Mark.READY}


def jar_columns(unit: MassUnit) -> tuple[Column[JarsNow], ...]:
    """The columns of the jars on hand."""
    return (
        Column("code", tr("Jar lot"), lambda row: row.code, ColumnKind.CODE),
        Column(
            "state",
            tr("State"),
            lambda row: tr(row.state),
            ColumnKind.STATE,
            mark=lambda row: _JAR_MARKS[row.state],
        ),
        Column("product", tr("Product"), lambda row: row.product, ColumnKind.NAME),
        Column(
            "jars",
            tr("Jars"),
            lambda row: format_number(row.jars) if row.jars else "",
            ColumnKind.NUMBER,
        ),
        Column(
            "honey",
            tr("Honey"),
            lambda row: bare(row.grams, unit),
            ColumnKind.NUMBER,
            unit=unit,
        ),
    )


def jar_totals(rows: Sequence[JarsNow], unit: MassUnit) -> dict[str, Total]:
    """All jars on hand."""
    return {
        "jars": Total(format_number(sum(row.jars for row in rows))),
        "honey": Total(bare(sum(row.grams for row in rows), unit), unit),
    }


def planned_feeds(page: BottlingPage, typed: Typed) -> list[Feed]:
    """The feeds in the order that have honey."""
    found = [feed_of(page.feeds, code) for code in typed.order]
    return [feed for feed in found if feed is not None]


def figures(page: BottlingPage, filler: AtFiller, typed: Typed) -> list[tuple[str, str]]:
    """Key figures, each with what it is: the jars by mass first."""
    unit, sheet = page.unit, page.sheet
    coming = planned_feeds(page, typed)
    coming_g = sum(feed.grams for feed in coming)
    if sheet is not None:
        jars = jars_by_mass(sheet, filler, coming_g)
        left = bare(sheet.feed.grams, unit)
        return [
            (tr("≈ {n} jars").format(n=format_number(jars)), tr("by mass, in all")),
            (format_number(sheet.bottling.jars), tr("at the last change-over")),
            (f"≈ {left} {unit}", tr("left in {feed}").format(feed=sheet.feed.name)),
        ]
    net_g = net_of(page, typed)
    if coming and net_g:
        jars = jars_in(coming_g, net_g * 1000)
        return [
            (tr("≈ {n} jars").format(n=format_number(jars)), tr("by mass")),
            (f"{bare(coming_g, unit)} {unit}", feeds_counted(len(coming))),
            (f"{net_g} g", tr("declared net")),
        ]
    in_jars = sum(row.grams for row in page.jars)
    to_bottle = sum(feed.grams for feed in page.feeds)
    return [
        (format_number(sum(row.jars for row in page.jars)), tr("jars on hand")),
        (format_mass(in_jars, unit, 0), tr("of honey in jars")),
        (format_mass(to_bottle, unit, 0), tr("to bottle from")),
    ]


def feeds_counted(count: int) -> str:
    """So many feeds, in words."""
    return tr("in one feed") if count == 1 else tr("in {n} feeds").format(n=count)


def net_of(page: BottlingPage, typed: Typed) -> int:
    """The declared net of the jars in hand or about to be filled; 0 where it is not known."""
    if page.sheet is not None:
        return page.sheet.bottling.product.net_g
    for product in page.products:
        if typed.product in (product.key, product.name):
            return product.net_g
    return 0


def heading(page: BottlingPage, typed: Typed) -> str:
    """What the page is about."""
    if page.sheet is not None:
        bottling = page.sheet.bottling
        return f"{bottling.code}, {bottling.product.name}"
    return tr("Jars on hand") if typed.kind == "labels" else tr("Honey to bottle")
