"""The form of the bottling: one kind of happening at a time, and the jars weighed below it.

What is typed for one kind stays while another is shown. What the ledger asks back appears as one
more field, in focus.
"""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget

from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.bottling import net_words, words
from honeyledger.desktop.stations.bottling.known_view import KnownFields
from honeyledger.desktop.stations.bottling.label_view import share_room
from honeyledger.desktop.stations.bottling.net_view import NetStrip
from honeyledger.desktop.stations.bottling.presenter import BottlingPresenter
from honeyledger.desktop.stations.bottling.steps import kinds_now
from honeyledger.desktop.stations.bottling.typed import (
    CHANGE,
    CLOSE,
    LABELS,
    START,
    WEIGH,
    Typed,
    field_of,
)
from honeyledger.desktop.turns import Making, whole
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice
from honeyledger.desktop.widgets.fields import Field
from honeyledger.desktop.widgets.figures import KeyFigures
from honeyledger.desktop.widgets.form import Form, FormField
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.desktop.widgets.paper_look import PaperLook
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.holds import ASKS_WHY
from honeyledger.services.bottling_page import BottlingPage

SETUP = "setup"
# Notes stand away from the button that may record; typing in one empties the other.
_INSTEAD = {"jars": "case", "case": "jars"}


class BottlingForm(KnownFields):
    """Fields in the order of the work; Enter moves on, the last Enter records."""

    def __init__(self, presenter: BottlingPresenter) -> None:
        whole(self.pieces(presenter))

    def pieces(self, presenter: BottlingPresenter) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        yield from self.make_fields()
        yield
        self._presenter = presenter
        self._kinds: tuple[str, ...] = ()
        self._asks_why = False
        self.panel = Panel(self.tr("At the filler"))
        self._seldom: list[FormField] = [self.packaging, self.label_as, self.about]
        self.slot = self.panel.add_slot(words.next_step(None, Typed()))
        self.form = Form()
        self.form.pin(self.what)
        for row in self.rows():
            self.form.add_row(*row)
        yield
        self._add_body()
        bar = self.panel.add_bar(wide_primary=True)
        self.record = bar.add_primary(self.record_words(START))
        self.propose = bar.add_secondary(self.tr("Propose drums"))
        self.record.clicked.connect(self.submit)
        self.form.finish_with(self.record)
        self.form.on_enter(self.feed, self._add_feed)
        self.form.on_enter(self.weight, self._add_weight)
        self.what.chosen.connect(self._what_chosen)
        for name, field in self.texts().items():
            field.edited.connect(lambda _text, name=name: self._edited(name))
            field.editor.editingFinished.connect(self._edited)
            field.editor.setObjectName(name)
        for buttons in self.buttons().values():
            buttons.chosen.connect(lambda _key: self._edited())
        presenter.made_beside = self.make_offers
        presenter.filled.connect(self.fill)
        presenter.begun.connect(self._begun)
        presenter.warned.connect(self.say)
        presenter.working.connect(self.record.set_working)

    def _add_body(self) -> None:
        body = QWidget()
        column = self._body = QVBoxLayout(body)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.form)
        self.strip = NetStrip()
        self.figures = KeyFigures()
        self.look = PaperLook()
        column.addWidget(self.strip)
        column.addWidget(self.look)
        column.addStretch(1)
        column.addWidget(self.figures)
        self.panel.set_body(body)

    # What stands in the form.

    def typed(self) -> Typed:
        """The form as it stands."""
        now = self._presenter.hand.typed
        return self.as_typed(now.kind, now.order)

    def _edited(self, at: str = "") -> None:
        """A field was changed, and is being typed in; "" when it was left."""
        instead = _INSTEAD.get(at, "")
        if instead and self.texts()[at].text():
            self.texts()[instead].clear()
        self._presenter.type(self.typed(), at)
        hand = self._presenter.hand
        self.tell(hand.page, hand.typed, hand.filler())
        self._pass_over()

    def fill(self, at: str = "") -> None:
        """Show what is in hand, and go to a field, where one is named."""
        typed = self._presenter.hand.typed
        page = self._presenter.hand.page
        moves = not at and self._is_left(typed.kind)
        self._offer_kinds(typed)
        self.offer(page, typed)
        self.tell(page, typed, self._presenter.hand.filler())
        self.show(typed)
        self._show_fields(typed)
        self._show_jars()
        if moves:
            self.begin()
        elif at and self.panel.isVisible():
            self.form.take_focus(self.texts()[at])

    def _offer_kinds(self, typed: Typed) -> None:
        kinds = kinds_now(bool(self._presenter.hand.bottling))
        if kinds != self._kinds:
            self._kinds = kinds
            self.what.set_choices([Choice(kind, self.kind_words(kind)) for kind in kinds])
        self.what.set_key(typed.kind)

    def _is_left(self, kind: str) -> bool:
        """Whether the field with the keyboard is none of what happens now."""
        focused = QApplication.focusWidget()
        if focused is None or not self.form.isAncestorOf(focused):
            return False
        own = [field for field in self.own(kind) if field.isAncestorOf(focused)]
        return not own and not self.what.isAncestorOf(focused)

    def show_page(self, page: BottlingPage) -> None:
        """Offer what there is to choose; what is being typed stays."""
        typed = self._presenter.hand.typed
        self.gross.set_unit(page.unit)
        self._offer_kinds(typed)
        self.offer(page, typed)
        self.tell(page, typed, self._presenter.hand.filler())
        self._show_jars()
        self._say_next(page)

    def _show_fields(self, typed: Typed) -> None:
        shown: set[FormField] = {self.what, *self.own(typed.kind)}
        if typed.why or self._asks_why:
            shown.add(self.why)
        for field in self.form.fields():
            field.setVisible(field in shown)
        self.record.setText(self.record_words(typed.kind))
        self.slot.set_next_step(words.next_step(self._presenter.hand.page, typed))
        self._pass_over()

    def _pass_over(self) -> None:
        """Enter goes past what is said already."""
        # Packaging is scanned, drums are seldom proposed: Enter does not stop for them.
        hand, passed = self._presenter.hand, list[FormField](self._seldom)
        sheet = hand.sheet()
        if self.jars.text():
            passed += [self.case, self.case_size]
        if self.next.text():
            passed.append(self.next)
        if sheet is not None and hand.filler().running(sheet):
            passed.append(self.mean)
        self.form.pass_over(passed)

    def _show_jars(self) -> None:
        """The jars weighed, where jars are weighed."""
        hand = self._presenter.hand
        check = hand.check() if hand.typed.kind == WEIGH else None
        self.strip.setVisible(check is not None)
        self.figures.setVisible(check is not None)
        if check is None:
            share_room(self._body, self.form, self.look if hand.typed.kind == LABELS else None)
            return
        self.form.hold_height()
        rule, weights = net_words.rule_words(check), hand.filler().weights_mg
        said = net_words.net_message(check).sentence if check.weighed else ""
        target = net_words.target_words(check)
        self.strip.show_check(check, weights, f"{said} {rule}".strip(), target)
        figures = net_words.net_figures(check, hand.jars_in_all())
        self.figures.show_figures(net_words.net_heading(check), figures)
        self.figures.setToolTip(rule)

    # What is done with it.

    def _what_chosen(self, kind: str) -> None:
        """With the arrows a person goes on to the next one; a press goes into the fields."""
        self._asks_why = False
        self._presenter.choose(kind)
        if self.what.is_by_arrow:
            self.what.take_focus()
        else:
            self.begin()

    def _add_feed(self) -> bool:
        self._presenter.type(self.typed(), "feed")
        return self._presenter.add_feed()

    def _add_weight(self) -> bool:
        """Enter with nothing typed stays here: the next jar's weight is never taken for a tare."""
        self._presenter.type(self.typed(), "weight")
        self._presenter.add_weight()
        return True

    def submit(self) -> None:
        """Do what the form says."""
        self._presenter.type(self.typed())
        self._presenter.submit()

    def _begun(self) -> None:
        self._asks_why = False
        self._show_fields(self._presenter.hand.typed)
        self.begin()

    # What the ledger says.

    def say(self, messages: Sequence[Message]) -> None:
        """Say these, but never over what a house without a product is told."""
        page = self._presenter.hand.page
        if page is None or page.products:
            self.slot.show_messages(messages)

    def _say_next(self, page: BottlingPage) -> None:
        """A house that has no product yet is told how to get one."""
        shown = self.slot.shown()
        if not page.products:
            text = self.tr("Name it, with the net content of a jar.")
            start = Message(Mark.NOTE, self.tr("No product yet."), text, self.tr("Set up"), SETUP)
            self.slot.show_messages([start])
            if self.panel.window().focusWidget() is self.product.editor:
                self.slot.focus_action()
        elif shown is not None and shown.about == SETUP:
            self.slot.clear()
        self.slot.set_next_step(words.next_step(page, self._presenter.hand.typed))

    def show_refusal(self, refusal: Refusal) -> None:
        """The sentence at the top, the field it is about in focus."""
        kind = self._presenter.hand.typed.kind
        lead = self.tr("Not printed.") if kind == LABELS else self.tr("Not recorded.")
        self.slot.show_messages([Message(Mark.REFUSED, lead, refusal_words(refusal))])
        about = self._about(refusal, kind)
        if refusal.key in ASKS_WHY:
            self._asks_why = True
            self._show_fields(self._presenter.hand.typed)
            about = self.why
        if about is None or not about.isVisibleTo(self.form):
            return
        if isinstance(about, Field):
            about.set_refused(True)
        if self.panel.isVisible():
            self.form.take_focus(about)

    def _about(self, refusal: Refusal, kind: str) -> FormField | None:
        name = field_of(refusal, kind)
        fields: dict[str, Field | ChoiceButtons] = {**self.texts(), **self.buttons()}
        return fields.get(name)

    # Where the keyboard goes.

    def begin(self) -> None:
        """The first field that has nothing in it yet, else the first there is."""
        if not self.panel.isVisible():
            return
        page = self._presenter.hand.page
        if page is not None and not page.products and not self.slot.action.isHidden():
            self.slot.focus_action()
            return
        kind = self._presenter.hand.typed.kind
        own = [field for field in self.own(kind) if isinstance(field, Field)]
        empty = [field for field in own if not field.text()]
        if kind in (CHANGE, CLOSE, WEIGH, LABELS):
            empty = own
        self.form.take_focus((empty or own)[0])

    def focus_record(self) -> None:
        """The keyboard goes to the button that records."""
        self.record.setFocus(Qt.FocusReason.OtherFocusReason)
