"""A heel read by the mark of a sight glass: what each mark weighs, and the one that was chosen."""

from PySide6.QtCore import QCoreApplication, QObject, Signal

from honeyledger.desktop.stations.extraction.fields_view import FloorFields
from honeyledger.desktop.stations.extraction.presenter import ExtractionPresenter
from honeyledger.desktop.widgets.form import FormField
from honeyledger.desktop.widgets.sight_glass import MARKS
from honeyledger.domain.units import MassUnit, format_mass


class HeelGlass(QObject):
    """Shows the glass where a heel is read by mark and the vessel's size is on record.

    Signals:
        changed: the glass came or went.
    """

    changed = Signal()

    def __init__(self, presenter: ExtractionPresenter, fields: FloorFields) -> None:
        super().__init__()
        self._presenter, self._fields = presenter, fields
        fields.vessel.edited.connect(lambda _text: self._show())
        fields.how.chosen.connect(lambda _key: self._show())
        fields.glass.chosen.connect(self._mark_chosen)

    def shown(self) -> tuple[FormField, ...]:
        """The glass, while it is asked."""
        by_mark = self._fields.how.key() == "mark"
        return (self._fields.glass,) if by_mark and self._capacity_g() else ()

    def _capacity_g(self) -> int:
        sheet, code = self._presenter.sheet(), self._fields.vessel.key()
        rows = sheet.vessels if sheet else ()
        return next((row.capacity_g for row in rows if row.code == code), 0)

    def _unit(self) -> MassUnit:
        page = self._presenter.page
        return page.unit if page else "kg"

    def _at_g(self, mark: int) -> int:
        return self._capacity_g() * mark // MARKS

    def _text(self, mark: int, decimals: int) -> str:
        """What a mark weighs, without the unit."""
        return format_mass(self._at_g(mark), self._unit(), decimals).rpartition(" ")[0]

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
