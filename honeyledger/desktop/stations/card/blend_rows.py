"""What the card of a vessel says of the blends made in it: each as weighed, part by part."""

from PySide6.QtCore import QCoreApplication

from honeyledger.desktop.models.days import format_moment
from honeyledger.desktop.models.lot_card import CardQuality
from honeyledger.domain.units import MassUnit, format_mass, format_moisture, format_shares
from honeyledger.services.blending import BlendSheet, blends_of
from honeyledger.services.store import View

MOST = 3
"""So many of a vessel's blends are told, the newest first."""


def _tr(text: str) -> str:
    return QCoreApplication.translate("card", text)


def blends_part(view: View, code: str, unit: MassUnit) -> tuple[CardQuality, ...]:
    """The blends made in a vessel, the newest first."""
    return tuple(_row(sheet, unit) for sheet in blends_of(view, code, MOST).sheets)


def _row(sheet: BlendSheet, unit: MassUnit) -> CardQuality:
    value = format_mass(sheet.net_g, unit)
    if sheet.planned_g is not None and sheet.planned_g != sheet.net_g:
        off = sheet.net_g - sheet.planned_g
        words = _tr("{mass}, {off} against the plan")
        value = words.format(mass=value, off=f"{'+' if off > 0 else ''}{format_mass(off, unit)}")
    shares = format_shares([part.share for part in sheet.parts])
    notes = [
        " ".join((part.code, format_mass(part.net_g, unit), f"({share})"))
        for part, share in zip(sheet.parts, shares, strict=True)
    ]
    return CardQuality(format_moment(sheet.happened), value, (*notes, *_moisture(sheet)))


def _moisture(sheet: BlendSheet) -> tuple[str, ...]:
    """What its parts make it, against what was read of it since."""
    if sheet.moisture is None:
        by_parts = _tr("Moisture: not every part was read.")
    else:
        by_parts = _tr("Moisture by its parts: {moisture}.").format(
            moisture=format_moisture(sheet.moisture, 2)
        )
    if sheet.measured is None:
        return (by_parts,)
    read = _tr("Read since: {moisture} ({lots}).").format(
        moisture=format_moisture(sheet.measured, 2), lots=", ".join(sheet.read_on)
    )
    return (by_parts, read)
