"""The quality part of a card, in words: what was read, whether it keeps, what rules say to it."""

from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from math import isinf

from PySide6.QtCore import QCoreApplication

from honeyledger.assets import resource
from honeyledger.desktop.language import fact_word, say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.models.days import format_day, format_moment, say_day
from honeyledger.desktop.models.lot_card import CardQuality
from honeyledger.domain.air import DRIES, HOLDS, WETS
from honeyledger.domain.beetles import HELD_BACK, IN_TIME
from honeyledger.domain.heat_budget import Band
from honeyledger.domain.moments import day_of, moment_at
from honeyledger.domain.quantities import QUANTITIES, capital
from honeyledger.domain.results import parse_result
from honeyledger.domain.standards import Outcome, Standard
from honeyledger.domain.units import format_moisture
from honeyledger.exchange.standards import shipped
from honeyledger.ledger.lookup import find_lot
from honeyledger.services.heat_history import HeatBudget
from honeyledger.services.quality import InAir, Keeps, Quality, quality_of
from honeyledger.services.readings import LotReading, Readings
from honeyledger.services.store import View
from honeyledger.services.verdicts import LotVerdict, VerdictRow, markets_of, verdicts_of

JUDGED = "DPTJK"
_MOST_NAMED = 4
_KEEPING = ("keeps", "keeps with little yeast")
"""Classes that are no warning by themselves; see `domain.keeping`."""


def _tr(text: str) -> str:
    return QCoreApplication.translate("card", text)


@cache
def _standards() -> tuple[Standard, ...]:
    """The rules shipped; they do not change while the program runs."""
    return shipped(resource("standards"))


def quality_part(view: View, code: str, now_ms: int) -> tuple[CardQuality, ...]:
    """What the card says of a lot's quality; () where nothing is known of it."""
    lot = find_lot(view, code, field="code")
    quality = quality_of(view, lot, now_ms)
    verdicts: Sequence[LotVerdict] = ()
    if quality.readings and lot.kind in JUDGED:
        verdicts = verdicts_of(view, lot.code, markets_of(view, _standards()))
    return quality_rows(quality, verdicts)


def quality_rows(quality: Quality, verdicts: Sequence[LotVerdict] = ()) -> tuple[CardQuality, ...]:
    """The rows of the part, in the order in which they are asked for."""
    rows = _readings([one for one in quality.readings if one.quantity.name != "temperature"])
    if quality.keeps is not None:
        rows.append(_keeps(quality.keeps))
    if quality.colour:
        notes = (_tr("By a table seen at second hand: a guide, no grade."),)
        rows.append(CardQuality(_tr("Colour class"), quality.colour, notes))
    if quality.air is not None and (air := _air(quality.air)):
        rows.append(air)
    if quality.waits is not None and quality.waits.state != IN_TIME:
        rows.append(_waits(quality.waits.hours, quality.waits.left, quality.waits.state))
    if quality.heat is not None:
        rows.append(_heat(quality.heat))
    unverified = [one for one in verdicts if one.outcome == Outcome.UNVERIFIED.value]
    rows += [_verdict(one) for one in verdicts if one not in unverified]
    if verdicts and len(unverified) < len(verdicts):
        in_force = _tr("What counts is the text in force where the honey is sold.")
        rows[-1] = replace(rows[-1], notes=(*rows[-1].notes, in_force))
    if unverified:
        rows.append(_unverified(unverified))
    return tuple(rows)


# What was read.


def _readings(found: Sequence[Readings]) -> list[CardQuality]:
    """A row each; what came by one report says so once."""
    rows, before = [], ""
    for one in found:
        where = _where_from(one.counts)
        same = _tr("by the same report") if one.counts.laboratory else _tr("read with it")
        rows.append(_reading(one, same if where == before else where))
        before = where
    return rows


def _reading(found: Readings, where: str) -> CardQuality:
    of, counts = found.quantity, found.counts
    notes = [where, *_several(found)]
    doubtful = counts.corrected is not None
    if counts.corrected is not None:
        words = _tr(
            "In doubt: {name} was found off. With it off all the time this would be {value}."
        )
        notes.append(words.format(name=counts.instrument, value=of.said(counts.corrected)))
    mark = Mark.WARNING if doubtful or found.odd else None
    shown = tuple(note for note in notes if note)
    return CardQuality(capital(say(of.title)), say(counts.words(of)), shown, mark)


def _where_from(one: LotReading) -> str:
    """Who found it, when, and whether it is a composite's."""
    parts = [one.laboratory]
    if one.report:
        parts.append(_tr("report {number}").format(number=one.report))
    if one.sampled:
        parts.append(_tr("sampled {day}").format(day=say_day(one.sampled)))
    if not one.laboratory:
        parts += [_instrument(one), one.by]
    parts.append(format_moment(one.read_at))
    if one.lots > 1:
        words = _tr("a composite of {n} lots ({code}): any one may be off it")
        parts.append(words.format(n=one.lots, code=one.of))
    elif one.of:
        parts.append(_tr("of {what}").format(what=one.of))
    return ", ".join(part for part in parts if part)


def _instrument(one: LotReading) -> str:
    """What it was read with, and when that was last found right."""
    if not one.right_ms:
        return one.instrument
    day = format_day(day_of(moment_at(one.right_ms, one.read_at.zone)))
    return _tr("{name} (found right {day})").format(name=one.instrument, day=day)


def _several(found: Readings) -> list[str]:
    """Mean, spread and the odd one, where it was read several times."""
    of, together = found.quantity, found.together
    if together is None:
        return []
    words = _tr("{n} readings: mean {mean}, spread {spread}, {lowest} to {highest}").format(
        n=together.count,
        mean=of.said(together.mean),
        spread=of.said(together.spread),
        lowest=of.said(together.lowest),
        highest=of.said(together.highest),
    )
    if not found.odd or together.mean_without is None:
        return [words]
    odd = next(row for row in found.rows if row.entry == found.odd)
    without = _tr("{odd} does not belong: read it again. Without it the mean is {mean}.")
    return [words, without.format(odd=odd.words(of), mean=of.said(together.mean_without))]


# Whether it keeps.


def _keeps(keeps: Keeps) -> CardQuality:
    guide = _tr("By a table seen at second hand: a guide, no promise.")
    words, mark = say(keeps.name), None
    if keeps.yeast:
        by = _tr("With {yeast} of yeast.").format(yeast=say(keeps.yeast))
        guide = f"{by} {guide}"
        if keeps.a_year is not None:
            words = _tr("keeps a year") if keeps.a_year else _tr("may ferment")
    if keeps.a_year is False or (keeps.a_year is None and keeps.name not in _KEEPING):
        mark = Mark.WARNING
    return CardQuality(_tr("Keeping"), words, (guide,), mark)


def _air(air: InAir) -> CardQuality | None:
    parts = []
    if air.balance is not None:
        words = _tr("in balance with air of {humidity}")
        parts.append(words.format(humidity=format_moisture(air.balance, 0)))
    notes, mark = [], None
    if air.humidity is not None and (does := _does(air.does)):
        room = air.room or _tr("The room")
        words = _tr("{room} at {humidity} {does}.")
        humidity = format_moisture(air.humidity, 0)
        notes.append(words.format(room=room, humidity=humidity, does=does))
        mark = Mark.WARNING if air.does == WETS else None
    if air.to_dry is not None:
        target = format_moisture(air.to_dry.target)
        hours = _tr("{target} in {soonest} to {latest} h.").format(
            target=target, soonest=air.to_dry.soonest_h, latest=air.to_dry.latest_h
        )
        notes.append(say(air.to_dry.why_not) or hours)
    if not parts and not notes:
        return None
    return CardQuality(_tr("Air"), ", ".join(parts), tuple(notes), mark)


def _does(does: str) -> str:
    words = {
        DRIES: _tr("dries it"),
        WETS: _tr("makes it wetter"),
        HOLDS: _tr("leaves it as it is"),
    }
    return words.get(does, "")


def _waits(hours: int, left: int, state: str) -> CardQuality:
    words = _tr("waits {hours} h").format(hours=hours)
    if state == HELD_BACK:
        note = _tr("Dry air holds hive beetles back; larvae may be in it already.")
        return CardQuality(_tr("Hive beetle"), words, (note,))
    note = _tr("{hours} h until damage by larvae is likely.").format(hours=left)
    if not left:
        note = _tr("Damage by larvae is likely: look at it before it is loaded.")
    return CardQuality(_tr("Hive beetle"), words, (note,), Mark.WARNING)


# What heat may have done.


def _heat(heat: HeatBudget) -> CardQuality:
    if heat.why_not:
        return CardQuality(_tr("Heat"), _tr("cannot be told"), (say(heat.why_not),), Mark.WARNING)
    grown, left = heat.grown, heat.diastase
    assert grown is not None
    assert left is not None
    words = _tr("HMF grown by {band} mg/kg").format(band=_band(grown))
    if heat.hmf is not None:
        words = _tr("HMF now {band} mg/kg").format(band=_band(heat.hmf))
    diastase = _tr("diastase {band} %").format(band=_band(left))
    if heat.measured:
        diastase = _tr("diastase {band}").format(band=_band(left))
    notes = (
        _tr("Warm by the heat log: {n}. Else warm storage is not counted.").format(n=heat.times)
        if not heat.counted
        else _tr("Warm by the heat log: {n}; at most also by {what}.").format(
            n=heat.times, what="; ".join(map(say, heat.counted))
        ),
        _tr("A band for choosing what to have measured; it certifies nothing."),
    )
    return CardQuality(_tr("Heat"), f"{words}, {diastase}", notes)


def _band(band: Band) -> str:
    low, high = f"{band.least:.1f}", f"{band.most:.1f}"
    if isinf(band.most):
        return _tr("at least {low}").format(low=low)
    return low if low == high else _tr("{low} to {high}").format(low=low, high=high)


# What rules say to it.


def _verdict(found: LotVerdict) -> CardQuality:
    words = {
        Outcome.PASS.value: _tr("passes"),
        Outcome.FAIL.value: _tr("fails"),
        Outcome.UNKNOWN.value: _tr("not known yet"),
    }
    fails = [row for row in found.rows if row.outcome == Outcome.FAIL.value]
    notes = [_row(row) for row in fails]
    unknown = [row for row in found.rows if row.outcome == Outcome.UNKNOWN.value]
    if missing := [row.what for row in unknown if not row.value]:
        notes.append(
            _tr("Not measured: {names}.").format(names=_named([_titled(one) for one in missing]))
        )
    notes += [f"{_measured(row)}: {say(row.why)}." for row in unknown if row.value]
    if any(row.together for row in found.rows):
        notes.append(_tr("In part by a composite of several lots."))
    if found.unverified:
        notes.append(
            _tr("Rules shown only, nobody has seen them: {n}.").format(n=found.unverified)
        )
    mark = Mark.WARNING if fails else None
    return CardQuality(say(found.title), words[found.outcome], tuple(notes), mark)


def _titled(what: str) -> str:
    of = QUANTITIES.get(what)
    return say(of.title) if of else fact_word(what)


def _named(names: Sequence[str]) -> str:
    more = len(names) - _MOST_NAMED
    shown = ", ".join(names[:_MOST_NAMED])
    return _tr("{names} and {n} more").format(names=shown, n=more) if more > 0 else shown


def _unverified(found: Sequence[LotVerdict]) -> CardQuality:
    """Standards of which nobody has seen a figure in its source: they decide nothing."""
    names = "; ".join(say(one.title) for one in found)
    note = _tr("{names}: nobody has seen the text, so nothing passes or fails by it.")
    return CardQuality(_tr("Other rules"), _tr("decide nothing"), (note.format(names=names),))


def _row(row: VerdictRow) -> str:
    return _tr("{what}, and the limit is {limit}.").format(
        what=_measured(row), limit=say(row.limit)
    )


def _measured(row: VerdictRow) -> str:
    """What was measured and found, as people read it."""
    of = QUANTITIES.get(row.what)
    if of is None:
        return f"{capital(fact_word(row.what))} {row.value}"
    result = parse_result(row.value)
    parts = of.parts(result)
    figure = of.words(result) if parts is None else of.said(parts)
    return f"{capital(say(of.title))} {say(figure)}"
