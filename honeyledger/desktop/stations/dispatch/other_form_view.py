"""The smaller forms of dispatch: what comes back, what is thrown away, what is sampled."""

from PySide6.QtCore import QObject, Signal

from honeyledger.desktop.stations.dispatch.fields_view import (
    DispatchFields,
    lots_of,
    sent_lately,
)
from honeyledger.desktop.stations.dispatch.other_presenter import OtherPresenter
from honeyledger.desktop.stations.dispatch.other_typed import (
    AWAY,
    BACK,
    FIELD_OF,
    IN_WORDS,
    SAMPLE,
    TO_STOCK,
    OtherTyped,
    is_whole,
)
from honeyledger.desktop.stations.dispatch.rows import tr
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.fields import Field
from honeyledger.desktop.widgets.form import Form, FormField
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.places import FARM_GATE
from honeyledger.services.dispatch_page import DispatchPage
from honeyledger.services.dispatch_returns import CameBack


class OtherForm(QObject):
    """What is typed and scanned of the form in hand.

    Signals:
        resized: fields came or went.
        ready: everything is said, of what a button apart from the others records.
    """

    resized = Signal()
    ready = Signal()

    def __init__(self, presenter: OtherPresenter, fields: DispatchFields, form: Form) -> None:
        super().__init__()
        self._presenter, self._fields, self._form = presenter, fields, form
        self._is_filling = False
        self._back: CameBack | None = None
        for name, field in self._texts().items():
            field.edited.connect(lambda _text, name=name: self._edited(name))
            field.editor.editingFinished.connect(self._edited)
        for choice in (fields.back_reason, fields.away_reason, fields.where):
            choice.chosen.connect(lambda _key: self._chosen())
        form.on_enter(fields.lot, self._lot_entered)
        for last in (fields.away_reason, fields.words):
            form.on_enter(last, self._last_entered)
        presenter.filled.connect(self._filled)
        presenter.came_back.connect(self._came_back)

    def _texts(self) -> dict[str, Field]:
        fields = self._fields
        return {
            "lot": fields.lot,
            "count": fields.count,
            "mass": fields.mass,
            "party": fields.party,
            "words": fields.words,
            "kept": fields.kept,
        }

    # What is shown.

    def show_page(self, page: DispatchPage) -> None:
        """Offer what there is to choose from."""
        fields = self._fields
        is_back = self._presenter.kind == BACK
        fields.lot.set_choices(sent_lately(page) if is_back else lots_of(page, page.shelf))
        gate = Choice(FARM_GATE, tr("Farm gate"))
        parties = [*(Choice(row.name, row.name) for row in page.customers), gate]
        fields.party.set_choices(parties)
        fields.mass.set_unit("g" if self._presenter.kind == SAMPLE else page.unit)

    def choose(self, kind: str) -> None:
        """Show the form of a kind as it was left."""
        fields = self._fields
        self._presenter.choose(kind)
        fields.lot.set_label(fields.lot_label(kind))
        fields.mass.set_label(fields.mass_label(kind))
        if self._presenter.page is not None:
            self.show_page(self._presenter.page)
        self._filled(kind)

    def asked(self) -> list[FormField]:
        """The fields that are asked only now and then and are asked now."""
        fields, kind = self._fields, self._presenter.kind
        if kind == SAMPLE:
            return []
        shown: list[FormField] = []
        if not is_whole(fields.lot.text()):
            shown.append(fields.count if self._is_jars() else fields.mass)
        if fields.reason(kind).key() == IN_WORDS:
            shown.append(fields.words)
        return shown

    def _is_jars(self) -> bool:
        """Whether the lot typed goes by number; before there is one, by number too."""
        return self._presenter.letter(self._fields.lot.text()) in ("", "J", "K")

    def _filled(self, kind: str) -> None:
        """The form changed by itself: a scan, what a customer had, a draft."""
        if kind != self._presenter.kind:
            return
        fields, typed = self._fields, self._presenter.now()
        for name, text in (
            ("lot", typed.lot),
            ("count", typed.jars),
            ("mass", typed.net),
            ("words", typed.words),
            ("kept", typed.kept),
        ):
            field = self._texts()[name]
            field.set_refused(False)
            if field.text() != text:
                field.set_text(text)
        if typed.party.casefold() == FARM_GATE:
            fields.party.set_key(FARM_GATE)
        else:
            fields.party.set_text(typed.party)
        fields.party.set_refused(False)
        if kind != SAMPLE:
            fields.reason(kind).set_key(typed.reason)
        fields.where.set_key(typed.goes)
        self.resized.emit()

    def _came_back(self, back: CameBack | None) -> None:
        """Who has it is known: only they are offered, with what each had."""
        self._back = back
        page, fields = self._presenter.page, self._fields
        if back is None or not back.holders or page is None:
            return
        made = []
        for one in back.holders:
            words = tr("{n} jars").format(n=one.jars) if one.jars else ""
            text = tr("Farm gate") if one.customer == FARM_GATE else one.name
            made.append(Choice(one.customer, text, words))
        fields.party.set_choices(made)
        typed = self._presenter.typed[BACK]
        fields.party.set_key(typed.party)

    # What is typed.

    def _read(self) -> OtherTyped:
        fields, kind = self._fields, self._presenter.kind
        lot = fields.lot.key() if kind != SAMPLE else ""
        party = fields.party.key() or fields.party.text()
        shown = self.asked()
        return OtherTyped(
            lot=lot or fields.lot.text(),
            party=party,
            jars=fields.count.text() if fields.count in shown else "",
            net=fields.mass.text() if fields.mass in shown or kind == SAMPLE else "",
            reason="" if kind == SAMPLE else fields.reason(kind).key(),
            words=fields.words.text(),
            goes=fields.where.key() or TO_STOCK,
            kept=fields.kept.text(),
        )

    def _edited(self, at: str = "") -> None:
        self._presenter.type(self._read(), at)
        if at == "lot":
            self.resized.emit()

    def _chosen(self) -> None:
        self._presenter.type(self._read())
        self.resized.emit()

    # Enter.

    def _lot_entered(self) -> bool:
        self._edited()
        if self._presenter.kind == BACK:
            self._presenter.look_up()
        return False

    def _last_entered(self) -> bool:
        """What is thrown away is recorded by a button apart: Enter goes there, and no further."""
        fields = self._fields
        if self._presenter.kind != AWAY:
            return False
        if fields.away_reason.key() == IN_WORDS and not fields.words.editor.hasFocus():
            return False
        self.ready.emit()
        return True

    def begin(self) -> None:
        """The first field that has nothing in it yet."""
        fields, typed = self._fields, self._presenter.now()
        self._form.take_focus(self._after_lot() if typed.lot.strip() else fields.lot)

    def _after_lot(self) -> FormField:
        if is_whole(self._fields.lot.text()):
            is_back = self._presenter.kind == BACK
            return self._fields.party if is_back else self._fields.away_reason
        if self._presenter.kind == SAMPLE or not self._is_jars():
            return self._fields.mass
        return self._fields.count

    def show_refusal(self, refusal: Refusal) -> bool:
        """Go to the field a refusal is about; answers whether there is one."""
        fields = self._fields
        name = FIELD_OF.get(refusal.field, "")
        kind = self._presenter.kind
        about: FormField | None = self._texts().get(name)
        if name == "reason" and kind != SAMPLE:
            reasons = fields.reason(kind)
            about = fields.words if reasons.key() == IN_WORDS else reasons
        if about is None or not about.isVisibleTo(self._form):
            return False
        if isinstance(about, Field):
            about.set_refused(True)
        self._form.take_focus(about)
        return True
