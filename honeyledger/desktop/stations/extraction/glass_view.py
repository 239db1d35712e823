"""A heel read by a sight glass's mark or by a dip in cm: what that weighs.

A dip counts as in an upright vessel: half as deep is half as much. The weight may be typed over.
"""

from PySide6.QtCore import QCoreApplication, QObject, Signal

from honeyledger.desktop.stations.extraction.fields_view import FloorFields
from honeyledger.desktop.stations.extraction.presenter import ExtractionPresenter
from honeyledger.desktop.widgets.form import FormField
from honeyledger.desktop.widgets.sight_glass import MARKS
from honeyledger.domain.units import MassUnit, format_mass
from honeyledger.services.floor import VesselNow


class HeelGlass(QObject):
    """Shows the glass, or asks for the dip, where the vessel's size is on record.

    Signals:
        changed: one of them came or went.
    """

    changed = Signal()

    def __init__(self, presenter: ExtractionPresenter, fields: FloorFields) -> None:
        super().__init__()
        self._presenter, self._fields = presenter, fields
        fields.vessel.edited.connect(lambda _text: self._show())
        fields.how.chosen.connect(lambda _key: self._show())
        fields.glass.chosen.connect(self._mark_chosen)
        fields.dip.edited.connect(self._dipped)

    def shown(self) -> tuple[FormField, ...]:
        """The glass or the dip, while it is asked."""
        vessel, how = self._vessel(), self._fields.how.key()
        if vessel is None or not vessel.capacity_g:
            return ()
        if how == "mark":
            return (self._fields.glass,)
        return (self._fields.dip,) if how == "dip" and vessel.depth_cm else ()

    def _vessel(self) -> VesselNow | None:
        sheet, code = self._presenter.sheet(), self._fields.vessel.key()
        rows = sheet.vessels if sheet else ()
        return next((row for row in rows if row.code == code), None)

    def _unit(self) -> MassUnit:
        page = self._presenter.page
        return page.unit if page else "kg"

    def _at_g(self, mark: int) -> int:
        vessel = self._vessel()
        return vessel.capacity_g * mark // MARKS if vessel else 0

    def _text(self, mark: int, decimals: int) -> str:
        """What a mark weighs, without the unit."""
        return self._bare(self._at_g(mark), decimals)

    def _bare(self, grams: int, decimals: int) -> str:
        return format_mass(grams, self._unit(), decimals).rpartition(" ")[0]

    def _show(self) -> None:
        """The vessel, or how it is read, is another: so are the marks."""
        words = QCoreApplication.translate("extraction", "On the sight glass, {unit}")
        self._fields.glass.set_label(words.format(unit=self._unit()))
        amounts = [self._text(mark, 0) for mark in range(1, MARKS + 1)]
        self._fields.glass.show_amounts(amounts)
        self.changed.emit()

    def _mark_chosen(self, mark: str) -> None:
        """The mark says what is left; it may be typed over."""
        self._fields.heel.set_text(self._text(int(mark), 1))

    def _dipped(self, text: str) -> None:
        """So many centimetres of honey, of the vessel's depth; what is no number says nothing."""
        vessel = self._vessel()
        if vessel is None or not vessel.depth_cm or not text.strip().isdecimal():
            return
        depth = min(int(text), vessel.depth_cm)
        self._fields.heel.set_text(self._bare(vessel.capacity_g * depth // vessel.depth_cm, 1))
