"""A colony of each yard this season, the best first, as a chart."""

from honeyledger.desktop.models.charts import (
    Chart,
    ChartForm,
    ChartHead,
    ChartItem,
    Level,
    Part,
    about_mass,
    drawn_mass,
)
from honeyledger.desktop.stations.yards.words import bare, counted, tr
from honeyledger.domain.units import MassUnit, format_mass, format_number
from honeyledger.services.yards_page import YardRow, YardsPage


def yield_chart(page: YardsPage) -> Chart:
    """Every yard with colonies, with what seasons past gave behind it."""
    unit = page.unit
    rows = sorted(
        (row for row in page.rows if row.colonies),
        key=lambda row: (-(row.a_colony(row.now) or 0), row.name.casefold()),
    )
    levels: tuple[Level, ...] = ()
    if page.a_colony:
        words = tr("all yards {mass}").format(mass=about_mass(page.a_colony, unit))
        levels = (Level(drawn_mass(page.a_colony, unit), words),)
    past = any(row.seasons[1:] for row in rows)
    return Chart(
        ChartForm.BARS,
        tr("Honey a colony by yard this season"),
        tr("Honey a colony"),
        unit,
        (
            ChartHead(tr("Yard"), is_number=False),
            ChartHead(tr("A colony"), unit, estimated=True),
            ChartHead(tr("Colonies")),
        ),
        tuple(_item(row, unit) for row in rows) if page.a_colony else (),
        levels=levels,
        behind=tr("seasons past") if past else "",
        empty=tr("No yard with its colonies on record was pulled this season yet."),
    )


def _item(row: YardRow, unit: MassUnit) -> ChartItem:
    now = row.a_colony(row.now) or 0
    past = [(one.season, row.a_colony(one) or 0) for one in row.seasons[1:]]
    ends = [drawn_mass(grams, unit) for _, grams in past if grams]
    colonies = counted(row.colonies, tr("1 colony"), tr("{n} colonies"))
    words = tr("{name}: nothing yet, {colonies}")
    if now:
        words = tr("{name}: about {mass} a colony, {colonies}")
    said = [words.format(name=row.name, mass=format_mass(now, unit, 1), colonies=colonies)]
    for season, grams in past[:2]:
        earlier = tr("{season}: {mass}")
        said.append(earlier.format(season=season, mass=format_mass(grams, unit, 1)))
    return ChartItem(
        key=row.code,
        name=row.name,
        spoken="; ".join(said),
        cells=(row.name, bare(now, unit, 1) if now else "", format_number(row.colonies)),
        parts=(Part(0, drawn_mass(now, unit)),) if now else (),
        words=about_mass(now, unit) if now else tr("nothing yet"),
        behind=(min(ends), max(ends)) if ends else None,
        opens=row.code,
    )
