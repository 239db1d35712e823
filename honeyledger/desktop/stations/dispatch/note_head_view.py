"""The first fields of a note: whom it is for, their order, who carries it."""

from collections.abc import Sequence

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.stations.dispatch.fields_view import ADD, DispatchFields
from honeyledger.desktop.stations.dispatch.presenter import DispatchPresenter
from honeyledger.desktop.stations.dispatch.rows import tr
from honeyledger.desktop.stations.dispatch.typed import TEXTS
from honeyledger.desktop.widgets.choices import Choice, ChoiceField
from honeyledger.desktop.widgets.fields import Field
from honeyledger.desktop.widgets.form import Form
from honeyledger.ledger.places import FARM_GATE
from honeyledger.services.dispatch_page import DispatchPage


class NoteHead(QObject):
    """What is typed before the first scan; somebody new becomes a customer on the way.

    Signals:
        resized: the question about somebody new came or went.
    """

    resized = Signal()

    def __init__(self, presenter: DispatchPresenter, fields: DispatchFields, form: Form) -> None:
        super().__init__()
        self._presenter, self._fields, self._form = presenter, fields, form
        self._stranger = ""
        self.asks_stranger = False
        for field in self._texts():
            field.edited.connect(lambda _text: self._typed())
            field.editor.editingFinished.connect(self._typed)
        form.on_enter(fields.customer, self._customer_entered)
        form.on_enter(fields.stranger, self._stranger_entered)

    def _texts(self) -> tuple[Field, ...]:
        """Its fields; the first is the customer."""
        fields = self._fields
        return (
            *(fields.customer, fields.reference, fields.carrier),
            *(fields.contract, fields.vehicle, fields.seals),
            *(fields.freight_container, fields.consignor, fields.owner),
        )

    def show_page(self, page: DispatchPage) -> None:
        """Offer what there is to choose from; what is typed stays."""
        fields = self._fields
        gate = Choice(FARM_GATE, tr("Farm gate"), tr("sold here today"))
        customers = [Choice(row.code, row.name, row.detail) for row in page.customers]
        offer(fields.customer, [*customers, gate])
        carriers = dict.fromkeys(note.carrier for note in page.notes if note.carrier)
        offer(fields.carrier, [Choice(name, name) for name in carriers])
        parties = [Choice(row.name, row.name, row.detail) for row in page.parties]
        offer(fields.consignor, parties)
        offer(fields.owner, parties)
        self._show_customer(self._presenter.note.customer)

    def fill(self) -> None:
        """Show the note in hand, which is another now."""
        note = self._presenter.note
        self._show_customer(note.customer)
        texts = [getattr(note, name) for name in TEXTS[1:]]
        for field, text in zip(self._texts()[1:], texts, strict=True):
            if field.text() != text:
                field.set_text(text)
        for field in self._texts():
            field.set_refused(False)
        self.asks_stranger = False

    def _show_customer(self, customer: str) -> None:
        field = self._fields.customer
        if customer.casefold() == FARM_GATE:
            field.set_key(FARM_GATE)
        elif field.text() != customer:
            field.set_text(customer)
            field.set_unit("")

    def _typed(self) -> None:
        fields = self._fields
        if self.asks_stranger and fields.customer.text() != self._stranger:
            self.ask_stranger(False)
        customer = fields.customer.text()
        if (key := fields.customer.key()) == FARM_GATE:
            customer = FARM_GATE
        elif key:
            # As it is registered, however it was typed.
            customer = next(one.text for one in fields.customer.choices() if one.key == key)
        self._presenter.type(
            customer,
            fields.reference.text(),
            fields.carrier.text(),
            **{name: getattr(fields, name).text() for name in TEXTS[3:]},
        )

    def ask_stranger(self, asks: bool) -> None:
        """Ask, or do not, whether the name typed is a new customer's."""
        self.asks_stranger, self._stranger = asks, self._fields.customer.text()
        self._fields.stranger.set_key("")
        self.resized.emit()
        if asks:
            self._form.take_focus(self._fields.stranger)

    def _customer_entered(self) -> bool:
        """A name nobody has is a new customer, or mistyped: that is asked before going on."""
        customer = self._fields.customer
        if self._presenter.page is None or not customer.text().strip() or customer.key():
            return False
        self.ask_stranger(True)
        return True

    def _stranger_entered(self) -> bool:
        is_new = self._fields.stranger.key() == ADD
        name = self._fields.customer.text().strip()
        self.ask_stranger(False)
        if is_new:
            self._presenter.add_customer(name)
        self._form.take_focus(self._fields.reference if is_new else self._fields.customer)
        return True


def offer(field: ChoiceField, choices: Sequence[Choice]) -> None:
    """Offer these; what is chosen stays chosen."""
    if tuple(choices) != field.choices():
        field.set_choices(choices)
