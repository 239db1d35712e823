"""The form of a note and its picking: what the keyboard does in it.

Scanning fills the note; the fields are for what no scan says: who gets it, how many, whose order.
"""

from PySide6.QtCore import Signal

from honeyledger.desktop.stations.dispatch.fields_view import (
    KEEP,
    LEAVE,
    SPAN,
    DispatchFields,
    goods_of,
)
from honeyledger.desktop.stations.dispatch.hand_view import LotInHand
from honeyledger.desktop.stations.dispatch.note_head_view import NoteHead, offer
from honeyledger.desktop.stations.dispatch.picking import Scanned
from honeyledger.desktop.stations.dispatch.presenter import DispatchPresenter
from honeyledger.desktop.stations.dispatch.typed import is_load
from honeyledger.desktop.stations.dispatch.words import scan_message
from honeyledger.desktop.widgets.form import Form, FormField
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.lookup import NONE_REGISTERED, UNKNOWN_NAME
from honeyledger.services.dispatch_page import DispatchPage

STRANGERS = (UNKNOWN_NAME.key, NONE_REGISTERED.key)


class NoteForm(LotInHand):
    """What is typed and scanned of the note in hand.

    Signals:
        said: a `Message` for the slot.
        ready: everything is said; the keyboard may go to the button that signs.
    """

    said = Signal(object)
    ready = Signal()

    def __init__(self, presenter: DispatchPresenter, fields: DispatchFields, form: Form) -> None:
        super().__init__(presenter, fields, form)
        self.head = NoteHead(presenter, fields, form)
        self.head.resized.connect(self.resized)
        self._was_load = False
        self._asks_rest = False
        fields.goes.edited.connect(lambda _text: self._goes_edited())
        fields.jars.edited.connect(self._jars_edited)
        fields.net.edited.connect(self._net_edited)
        fields.span.chosen.connect(self._span_chosen)
        fields.rest.chosen.connect(self._rest_chosen)
        form.on_enter(fields.goes, self._goes_entered)
        for amount in (fields.jars, fields.net):
            form.on_enter(amount, self._amount_entered)
        form.on_enter(fields.span, self._span_entered)
        form.on_enter(fields.rest, self._rest_entered)
        presenter.found.connect(self._found)
        presenter.changed.connect(self._changed)
        presenter.switched.connect(self.fill)

    # What is shown.

    def show_page(self, page: DispatchPage) -> None:
        """Offer what there is to choose from; what is typed stays."""
        self.head.show_page(page)
        offer(self._fields.goes, goods_of(page))
        self._fields.net.set_unit(page.unit)

    def fill(self) -> None:
        """Show the note in hand, which is another now."""
        self.head.fill()
        self.ask_rest(False)
        self.leave_hand()

    def asked(self) -> list[FormField]:
        """The fields that are asked only now and then and are asked now."""
        fields, note = self._fields, self._presenter.note
        shown: list[FormField] = []
        picked = note.find(self.hand)
        if self.wanted or picked is None or picked.is_counted:
            shown.append(fields.jars)
        else:
            shown.append(fields.net)
        if picked is not None and len(picked.serials) > 1:
            shown.append(fields.span)
        if is_load(note):
            shown += [fields.freight_container, fields.consignor, fields.owner]
        if self._asks_rest:
            shown.append(fields.rest)
        if self.head.asks_stranger:
            shown.append(fields.stranger)
        return shown

    def ask_rest(self, asks: bool) -> None:
        """Ask, or do not, what becomes of what is still to pick."""
        self._asks_rest = asks
        if not asks:
            self._fields.rest.set_key("")
        self.resized.emit()

    # What is typed.

    def _goes_edited(self) -> None:
        """What is typed there now is another lot, or another line of the order."""
        if self.hand or self.wanted:
            self.hand = self.wanted = ""
            self._fields.jars.clear()
            self._fields.net.clear()
            self.resized.emit()

    def _jars_edited(self, text: str) -> None:
        if self.hand:
            self._presenter.count(self.hand, text)

    def _net_edited(self, text: str) -> None:
        if self.hand:
            self._presenter.weigh(self.hand, text)

    def _span_chosen(self, key: str) -> None:
        if self.hand:
            self._presenter.span(self.hand, key == SPAN)

    def _rest_chosen(self, key: str) -> None:
        self._presenter.keeps_rest = {KEEP: True, LEAVE: False}.get(key)

    # Enter.

    def _goes_entered(self) -> bool:
        """A code is as good as a scan; a product is a line of the order; nothing is the end."""
        fields = self._fields
        key, text = fields.goes.key(), fields.goes.text().strip()
        if self.hand or self.wanted:
            return False  # On to the number.
        if not text:
            if self._presenter.note.picked:
                self.ready.emit()
                return True
            return False
        group = key if "/" in key else self._only_group(text)
        if group:
            self.take_wanted(group)
        else:
            self._presenter.scan(key or text)
        return True

    def _only_group(self, text: str) -> str:
        """The one product a part of its name means; "" for none or several."""
        page = self._presenter.page
        wanted = text.casefold()
        names = {row.code: row.name for row in page.products} if page else {}
        found = [code for code, name in names.items() if wanted in name.casefold()]
        return f"product/{found[0]}" if len(found) == 1 else ""

    def _amount_entered(self) -> bool:
        """The number is said: the next scan."""
        fields, presenter = self._fields, self._presenter
        if self.wanted:
            if presenter.want(self.wanted, fields.jars.text()):
                self.begin_goes()
            return True
        if not presenter.is_said(self.hand):
            return True
        picked = presenter.note.find(self.hand)
        if picked is not None and len(picked.serials) > 1:
            return False  # On to whether the jars between go too.
        self.begin_goes()
        return True

    def _span_entered(self) -> bool:
        self.begin_goes()
        return True

    def _rest_entered(self) -> bool:
        if self._fields.rest.key():
            self.ready.emit()
        return True

    def begin_goes(self) -> None:
        """The next lot, or the next line of the order."""
        self.leave_hand()
        self._form.take_focus(self._fields.goes)

    # What a scan did.

    def _found(self, code: str, what: Scanned) -> None:
        picked = self._presenter.note.find(code)
        page = self._presenter.page
        if picked is None:
            return
        row = page.on_shelf(code) if page else None
        self.said.emit(scan_message(picked, what, row, page))
        if picked.is_counted:
            self.take_in_hand(code)
        else:
            self.begin_goes()

    def _changed(self) -> None:
        """The note has other lines: what is in hand may be gone from it."""
        if self._asks_rest and not self._presenter.has_rest():
            self.ask_rest(False)
        note = self._presenter.note
        picked = note.find(self.hand) if self.hand else None
        if self.hand and picked is None:
            self.leave_hand()
        elif picked is not None:
            self._show_amount(picked)
            self.resized.emit()
        elif self._was_load != is_load(note):
            self.resized.emit()
        self._was_load = is_load(note)

    def begin(self) -> None:
        """The keyboard goes where the note goes on."""
        fields, note = self._fields, self._presenter.note
        if self.hand or self.wanted:
            picked = note.find(self.hand)
            is_net = picked is not None and not picked.is_counted
            self._form.take_focus(fields.net if is_net else fields.jars)
        elif note.customer.strip():
            self._form.take_focus(fields.goes)
        else:
            self._form.take_focus(fields.customer)

    def show_refusal(self, refusal: Refusal) -> bool:
        """Go to the field a refusal is about; answers whether there is one."""
        fields = self._fields
        if refusal.field == "code" and (self.hand or self.wanted):
            self.begin()  # Another scan was refused: what was being said goes on.
            return True
        lot = str(refusal.facts.get("code", ""))
        if refusal.field in ("jars", "net_g") and lot != self.hand:
            self.take_in_hand(lot)  # The number that is wrong may be of any lot on the note.
        if refusal.field == "customer" and refusal.key in STRANGERS:
            self.head.ask_stranger(True)
            return True
        if refusal.field == "rest":
            self.ask_rest(True)
            self._form.take_focus(fields.rest)
            return True
        about = {
            "customer": fields.customer,
            "consignor": fields.consignor,
            "owner": fields.owner,
            "jars": fields.jars,
            "net_g": fields.net,
            "code": fields.goes,
            "lines": fields.goes,
        }.get(refusal.field)
        if about is None or not about.isVisibleTo(self._form):
            return False
        about.set_refused(about is not fields.goes or bool(fields.goes.text().strip()))
        self._form.take_focus(about)
        return True
