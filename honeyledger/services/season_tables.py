"""A season's yields and losses as a report's tables, for the terminal and for paper."""

from honeyledger.domain.moments import format_day
from honeyledger.domain.units import (
    MassUnit,
    format_moisture,
    format_number,
    format_temperature,
    format_weight,
)
from honeyledger.services.labelling import HEAD_DIGITS
from honeyledger.services.report_tables import (
    Report,
    ReportTable,
    cells,
    code,
    figure,
    name,
)
from honeyledger.services.season_control import (
    Judged,
    PartChart,
    limits_shown,
    out_of_usual,
    part_name,
)
from honeyledger.services.season_groups import CrewYield, ForageYield
from honeyledger.services.season_losses import RunLoss, share_of
from honeyledger.services.season_page import SeasonPage
from honeyledger.services.season_slips import Slip
from honeyledger.services.season_wax import HONEY_A_WAX, USUAL_HIGH, USUAL_LOW, Wax
from honeyledger.services.season_yields import Gave, WeekYield, YardYield
from honeyledger.services.weather import WeatherNote

ESTIMATES = (
    "Yields are estimates: what supers came in with, by weight less tares, else by their count."
)
SLIPS = (
    "Far off are stacks whose honey a super is more than 3.5 scores from the middle of their box "
    "(modified z-score, Iglewicz and Hoaglin 1993). Look before anything is corrected."
)
CONTROL = (
    "Limits are three standard deviations either way, by the mean moving range over 1.128 "
    "(NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2); alarms by its rules in 6.3.2."
)
COMB = "Bees use 7 to 10 kg of honey to make 1 kg of comb again (common practice, no source)."


class _Cells:
    """Figures of a house as words."""

    def __init__(self, unit: MassUnit) -> None:
        self.unit: MassUnit = unit

    def mass(self, grams: int | None) -> str:
        """A mass, "" for none."""
        return format_weight(grams, self.unit) if grams else ""

    def share(self, hundredths: int | None) -> str:
        """Hundredths of a percent."""
        return "" if hundredths is None else format_moisture(hundredths, 2)


def count(number: int) -> str:
    """How many; "" for none."""
    return format_number(number) if number else ""


def yield_report(page: SeasonPage) -> Report:
    """All of a season's yields, with what was noted of the weather and what looks like a slip."""
    return season_report(page, f"Yields {page.season}", (ESTIMATES, SLIPS), yield_tables(page))


def loss_report(page: SeasonPage) -> Report:
    """All of a season's losses."""
    says = (CONTROL, *wax_words(page.wax, page.unit))
    return season_report(page, f"Losses {page.season}", says, loss_tables(page))


def season_report(
    page: SeasonPage, title: str, says: tuple[str, ...], tables: tuple[ReportTable, ...]
) -> Report:
    """A report on a season, with the house and the ledger's head."""
    return Report(
        title=title,
        house=page.house or "Honey house",
        head=f"{page.entries} {page.digest[:HEAD_DIGITS].upper()}",
        facts=(("Season", str(page.season)),),
        says=says,
        tables=tables,
    )


def yield_tables(page: SeasonPage) -> tuple[ReportTable, ...]:
    """By yard, crew, forage, week and season; slips and weather."""
    shown = _Cells(page.unit)
    return (
        _yards(page, shown),
        _crews(page, shown),
        _forages(page, shown),
        _weeks(page, shown),
        _seasons(page, shown),
        _slips(page, shown),
        _weather(page),
    )


def _yards(page: SeasonPage, shown: _Cells) -> ReportTable:
    in_all = page.yields.in_all

    def row(one: YardYield) -> tuple[str, ...]:
        before = one.earlier[0].a_colony if one.earlier else None
        return (one.name, one.forage, *_gave(one.now, shown), shown.mass(before))

    return ReportTable(
        "yards",
        "By yard",
        (name("yard"), name("forage", 3.4), *_GAVE, figure("season before", 2.4)),
        cells(page.yields.yards, row),
        ("all that were pulled", "", *_gave(in_all, shown), "") if page.yields.yards else (),
        "There is no yard yet.",
    )


_GAVE = (
    figure("colonies", 1.7),
    figure("supers", 1.5),
    figure("honey", 2.3),
    figure("honey a colony", 2.6),
)


def _gave(one: Gave, shown: _Cells) -> tuple[str, ...]:
    return count(one.colonies), count(one.supers), shown.mass(one.grams), shown.mass(one.a_colony)


def _crews(page: SeasonPage, shown: _Cells) -> ReportTable:
    def row(one: CrewYield) -> tuple[str, ...]:
        before = one.before[0][1] if one.before else None
        return (
            one.name or "not said",
            count(one.days),
            count(one.yards),
            count(one.supers),
            shown.mass(one.grams),
            shown.mass(one.a_super),
            shown.mass(before),
        )

    heads = ("days", "yards", "supers", "honey", "honey a super", "season before")
    columns = (name("crew", 5), *(figure(head) for head in heads))
    return ReportTable(
        "crews", "By crew", columns, cells(page.groups.crews, row), none="Nothing was pulled yet."
    )


def _forages(page: SeasonPage, shown: _Cells) -> ReportTable:
    def row(one: ForageYield) -> tuple[str, ...]:
        before = one.earlier[0].a_colony if one.earlier else None
        said = one.forage or "not said"
        return (said, count(one.yards), *_gave(one.now, shown), shown.mass(before))

    columns = (name("forage"), figure("yards", 1.4), *_GAVE, figure("season before", 2.4))
    rows = cells(page.groups.forages, row)
    return ReportTable("forages", "By forage", columns, rows, none="Nothing was pulled yet.")


def _weeks(page: SeasonPage, shown: _Cells) -> ReportTable:
    def row(one: WeekYield) -> tuple[str, ...]:
        before = one.earlier[0][1] if one.earlier else None
        notes = [note for note in page.weather if 0 <= (note.day - one.first).days < 7]
        words = "; ".join(dict.fromkeys(_weather_words(note) for note in notes))
        figures = count(one.supers), shown.mass(one.grams), shown.mass(before)
        return (format_day(one.first), *figures, words)

    heads = (figure("supers", 1.4), figure("honey"), figure("season before"))
    columns = (name("week of", 2.6), *heads, name("weather", 5))
    rows = cells(page.yields.weeks, row)
    return ReportTable("weeks", "By week", columns, rows, none="Nothing was pulled yet.")


def _weather_words(note: WeatherNote) -> str:
    return ", ".join(one for one in (note.sort, note.note) if one)


def _seasons(page: SeasonPage, shown: _Cells) -> ReportTable:
    rows = cells(page.groups.seasons, lambda one: (str(one.season), *_gave(one, shown)))
    columns = (name("season", 2), *_GAVE)
    return ReportTable("seasons", "By season", columns, rows, none="Nothing was pulled yet.")


def _slips(page: SeasonPage, shown: _Cells) -> ReportTable:
    def row(slip: Slip) -> tuple[str, ...]:
        stack = slip.stack
        return (
            stack.code,
            format_day(stack.day),
            ", ".join(stack.yards),
            f"{format_number(stack.supers)} {stack.box}",
            shown.mass(round(stack.a_super)),
            shown.mass(slip.usual_g),
            slip.likely or "no slip explains it: weigh it again, ask the crew",
        )

    columns = (
        code("stack"),
        name("came in", 2.6),
        name("yards", 3),
        name("supers", 2),
        figure("honey a super", 2.5),
        figure("usual", 1.9),
        name("likely", 6),
    )
    rows = cells(page.slips, row)
    return ReportTable("slips", "To look at again", columns, rows, none="No stack is far off.")


def _weather(page: SeasonPage) -> ReportTable:
    def row(note: WeatherNote) -> tuple[str, ...]:
        high = "" if note.high is None else format_temperature(note.high)
        return format_day(note.day), note.yard or "everywhere", note.sort, high, note.note

    columns = (
        *(name("day", 2), name("where", 3), name("weather", 2)),
        *(figure("highest"), name("note", 5)),
    )
    none = 'Nothing was noted of the weather. honeyledger weather rain --day "14 Jul" notes it.'
    return ReportTable("weather", "Weather", columns, cells(page.weather, row), none=none)


# Losses.


def loss_tables(page: SeasonPage) -> tuple[ReportTable, ...]:
    """By run, by machine, what is out of the usual, the limits, and the wax."""
    shown = _Cells(page.unit)
    return (
        _out(page, shown),
        _runs(page, shown),
        _machines(page, shown),
        _limits(page, shown),
        _wax(page, shown),
    )


def _out(page: SeasonPage, shown: _Cells) -> ReportTable:
    def row(one: tuple[PartChart, Judged]) -> tuple[str, ...]:
        chart, judged = one
        return (
            format_day(judged.run.day),
            judged.run.code,
            chart.line,
            part_name(chart.part),
            shown.share(judged.share),
            shown.share(round(chart.limits.centre)) if chart.limits else "",
            judged.look,
        )

    columns = (
        name("day", 3),
        code("run", 2.9),
        name("machine", 2),
        name("part", 2.8),
        figure("share", 1.9),
        figure("usual", 1.7),
        name("look first", 6.5),
    )
    rows = cells(out_of_usual(page.charts), row)
    none = "No run is out of the usual, where there are enough to say."
    return ReportTable("out", "Out of the usual", columns, rows, none=none)


_PARTS = ("cappings_g", "wet_g", "foam_g", "spilled_g", "difference_g")
_WIDE = (2.3, 2.5, 1.6, 1.7, 2.3, 2.1)
_HEADS = ("cappings", "in combs", "foam", "spilled", "difference", "")


def _runs(page: SeasonPage, shown: _Cells) -> ReportTable:
    def row(run: RunLoss) -> tuple[str, ...]:
        wet = "not weighed" if run.wet_g is None else shown.mass(run.wet_g)
        return (
            run.code,
            format_day(run.day),
            run.line,
            shown.mass(run.in_g),
            shown.mass(run.cappings_g),
            wet,
            shown.mass(run.foam_g),
            shown.mass(run.spilled_g),
            shown.mass(run.difference_g),
            shown.share(run.share(run.difference_g)),
        )

    columns = (
        *(code("run", 2.9), name("day", 3), name("machine", 1.9), figure("in", 2.3)),
        *(figure(head, part) for head, part in zip(_HEADS, _WIDE, strict=True)),
    )
    losses = page.losses
    sums = [losses.total(part) for part in ("in_g", *_PARTS)]
    total = ("all closed", "", "", *(shown.mass(one) for one in sums))
    share = shown.share(share_of(sums[-1], sums[0]))
    rows = cells(losses.closed, row)
    return ReportTable(
        "runs",
        "By run",
        columns,
        rows,
        (*total, share) if rows else (),
        "No run was closed.",
    )


def _machines(page: SeasonPage, shown: _Cells) -> ReportTable:
    lines = sorted({run.line for run in page.losses.closed}, key=str.casefold)

    def row(line: str) -> tuple[str, ...]:
        runs = [run for run in page.losses.closed if run.line == line]
        in_g = sum(run.in_g for run in runs)
        parts = [sum(getattr(run, part) or 0 for run in runs) for part in _PARTS]
        shares = [shown.share(share_of(grams, in_g)) for grams in parts]
        return (line, count(len(runs)), shown.mass(in_g), *shares)

    heads = (figure("runs", 1.2), figure("in", 2.4), *(figure(head) for head in _HEADS[:-1]))
    columns = (name("machine", 3), *heads)
    return ReportTable(
        "machines", "By machine", columns, cells(lines, row), none="No run was closed."
    )


def _limits(page: SeasonPage, shown: _Cells) -> ReportTable:
    def row(chart: PartChart) -> tuple[str, ...]:
        if chart.limits is None:
            too_few = f"{len(chart.rows)} runs: too few to say, or all the same"
            return chart.line, part_name(chart.part), "", "", "", too_few
        low, centre, high = limits_shown(chart.part, chart.limits)
        figures = (shown.share(round(one)) for one in (low, centre, high))
        return chart.line, part_name(chart.part), *figures, f"{chart.limits.made_of} runs"

    columns = (
        *(name("machine", 2), name("part", 3), figure("lower"), figure("usual")),
        *(figure("upper"), name("made of", 4)),
    )
    rows = cells(page.charts, row)
    return ReportTable("limits", "Control limits", columns, rows, none="No run was closed.")


def _wax(page: SeasonPage, shown: _Cells) -> ReportTable:
    wax = page.wax
    rows = (
        ("wax melted", shown.mass(wax.wax_g)),
        ("honey in drums", shown.mass(wax.honey_g)),
        ("wax of the honey", shown.share(wax.share)),
        ("usual", f"{shown.share(USUAL_LOW)} to {shown.share(USUAL_HIGH)}"),
        ("cappings weighed", shown.mass(wax.cappings_g)),
        ("in barrels yet", shown.mass(wax.waiting_g)),
        ("frames of comb scrapped", count(wax.frames)),
    )
    return ReportTable("wax", "Wax", (name("", 5), figure("")), rows if wax.honey_g else ())


def wax_words(wax: Wax, unit: MassUnit) -> tuple[str, ...]:
    """What the wax says, in sentences."""
    said = {
        "low": "Less wax than usual: cappings may wait to be melted, or the cut is thin.",
        "usual": "Wax is as usual: 1 to 2 in 100 of the honey (common practice, no source).",
        "high": "More wax than usual: old comb was melted too, or the cut is deep.",
        "": "No wax was melted yet.",
    }[wax.verdict]
    if not wax.frames:
        return (said, COMB)
    low, high = (format_weight(grams, unit) for grams in wax.lost_honey_g)
    frames = f"{format_number(wax.frames)} frames of comb were scrapped"
    each = f"{HONEY_A_WAX[0]} to {HONEY_A_WAX[1]}"
    cost = f"{frames}: building them again costs bees some {low} to {high} of honey"
    return (said, f"{cost} ({each} kg of honey a kg of wax; common practice, no source).")
