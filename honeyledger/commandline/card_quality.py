"""The quality of a lot on its card in the terminal: readings, keeping, heat, air, and rules."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import isinf

from honeyledger.assets import resource
from honeyledger.domain.heat_budget import Band
from honeyledger.domain.moments import (
    day_of,
    format_day,
    format_iso,
    format_moment,
    moment_at,
    say_day,
)
from honeyledger.domain.units import format_moisture
from honeyledger.exchange.standards import shipped
from honeyledger.ledger.lookup import find_lot
from honeyledger.services.heat_history import HeatBudget
from honeyledger.services.quality import InAir, Quality, quality_of
from honeyledger.services.readings import LotReading, Readings
from honeyledger.services.store import View
from honeyledger.services.verdicts import LotVerdict, markets_of, verdicts_of

A_GUIDE = "by a table seen at second hand: a guide, no promise"
A_BAND = "a band for choosing what to have measured; it certifies nothing"


@dataclass(frozen=True, slots=True)
class CardQuality:
    """What is known of a lot's quality, and what rules of the house's markets say to it."""

    quality: Quality
    verdicts: tuple[LotVerdict, ...]


def card_quality(view: View, code: str, now_ms: int) -> CardQuality:
    """The quality of the lot a code names."""
    lot = find_lot(view, code, field="code")
    quality = quality_of(view, lot, now_ms)
    if not quality.readings:
        return CardQuality(quality, ())
    markets = markets_of(view, shipped(resource("standards")))
    return CardQuality(quality, verdicts_of(view, lot.code, markets))


def quality_json(found: CardQuality) -> dict[str, object]:
    """For other programs: figures in the ledger's parts, results as they were reported."""
    quality, heat = found.quality, found.quality.heat
    return {
        "readings": [
            {"what": group.quantity.name, "odd": group.odd} | _reading_json(row)
            for group in quality.readings
            for row in group.rows
        ],
        "keeps": quality.keeps and {"class": quality.keeps.name, "a_year": quality.keeps.a_year},
        "colour_class": quality.colour,
        "heat": heat
        and {
            "times": heat.times,
            "hmf_grown": _pair(heat.grown),
            "hmf": _pair(heat.hmf),
            "diastase": _pair(heat.diastase),
            "counted": list(heat.counted),
            "open": heat.is_open,
        },
        "balance_humidity": quality.air.balance if quality.air else None,
        "air": quality.air.does if quality.air else "",
        "limits": [{"name": one.standard, "outcome": one.outcome} for one in found.verdicts],
    }


def _reading_json(row: LotReading) -> dict[str, object]:
    return {
        "entry": row.entry,
        "read": format_iso(row.read_at),
        "result": str(row.result),
        "corrected": row.corrected,
        "instrument": row.instrument,
        "laboratory": row.laboratory,
        "report": row.report,
        "sampled": row.sampled,
        "lots": row.lots,
    }


def _pair(band: Band | None) -> list[float | None] | None:
    """Least and most; no most where the upper end cannot be told."""
    if band is None:
        return None
    return [round(band.least, 2), None if isinf(band.most) else round(band.most, 2)]


def quality_lines(found: CardQuality) -> list[str]:
    """The quality in words, line by line; none where nothing is known."""
    quality = found.quality
    lines = [line for group in quality.readings for line in _group(group)]
    if quality.keeps is not None:
        yeast = f", {quality.keeps.yeast} of yeast" if quality.keeps.yeast else ""
        a_year = {None: "", True: ": keeps a year", False: ": may ferment"}[quality.keeps.a_year]
        lines.append(f"keeping: {quality.keeps.name}{yeast}{a_year} ({A_GUIDE})")
    if quality.colour:
        lines.append(f"colour class: {quality.colour}")
    if quality.air is not None:
        lines += _air(quality.air)
    if quality.waits is not None:
        lines.append(f"hive beetle: {quality.waits.hours} h, {quality.waits.state}")
    if quality.heat is not None:
        lines.append(_heat(quality.heat))
    decided = [one for one in found.verdicts if one.outcome != "unverified"]
    lines += [f"{one.title}: {one.outcome} (limits {one.standard} --lot)" for one in decided]
    return lines


def _group(group: Readings) -> list[str]:
    of, counts = group.quantity, group.counts
    lines = [f"{of.title}: {counts.words(of)}{_where_from(counts)}"]
    if counts.corrected is not None:
        corrected = of.said(counts.corrected)
        lines.append(
            f"  in doubt: {counts.instrument} was found off; it would be {corrected} (in-doubt)"
        )
    if (together := group.together) is not None:
        lines.append(
            f"  {together.count} readings: mean {of.said(together.mean)}, spread "
            f"{of.said(together.spread)}"
        )
        odd = next((row for row in group.rows if row.entry == group.odd), None)
        if odd is not None and together.mean_without is not None:
            without = of.said(together.mean_without)
            lines.append(f"  {odd.words(of)} does not belong; without it {without}")
    return lines


def _where_from(row: LotReading) -> str:
    parts: Sequence[str] = (
        *(row.laboratory, f"report {row.report}" if row.report else ""),
        f"sampled {say_day(row.sampled)}" if row.sampled else "",
        _instrument(row),
        f"a composite of {row.lots} lots" if row.lots > 1 else "",
        format_moment(row.read_at) if row.laboratory or row.instrument else "",
    )
    said = ", ".join(part for part in parts if part)
    return f" ({said})" if said else ""


def _instrument(row: LotReading) -> str:
    if not row.right_ms:
        return row.instrument
    right = format_day(day_of(moment_at(row.right_ms, row.read_at.zone)))
    return f"{row.instrument}, found right {right}"


def _air(air: InAir) -> list[str]:
    lines = []
    if air.balance is not None:
        lines.append(f"air: in balance at {format_moisture(air.balance, 0)}")
    if air.humidity is not None and air.does:
        room = air.room or "the room"
        lines.append(f"  {room} at {format_moisture(air.humidity, 0)} {air.does} it")
    if air.to_dry is not None:
        dry = air.to_dry
        hours = f"{format_moisture(dry.target)} in {dry.soonest_h} to {dry.latest_h} h"
        lines.append(f"  {dry.why_not or hours}")
    return lines


def _heat(heat: HeatBudget) -> str:
    if heat.why_not:
        return f"heat: {heat.why_not}"
    hmf = _band("HMF now", heat.hmf) if heat.hmf else _band("HMF grown by", heat.grown)
    unit = "" if heat.measured else " %"
    left = _band("diastase", heat.diastase)
    counted = f"; at most also by {'; '.join(heat.counted)}" if heat.counted else ""
    return f"heat: {hmf} mg/kg, {left}{unit} ({A_BAND}{counted})"


def _band(what: str, band: Band | None) -> str:
    if band is None:
        return what
    if isinf(band.most):
        return f"{what} at least {band.least:.1f}"
    return f"{what} {band.least:.1f} to {band.most:.1f}"
