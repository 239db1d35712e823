"""The small form for what happens on the floor: one kind of happening at a time.

Each kind has its fields; what is typed for one stays while another is shown, and is emptied only
when it is recorded. What the ledger asks back appears as one more field, in focus.
"""

from collections.abc import Sequence

from PySide6.QtCore import Qt

from honeyledger.desktop.language import refusal_words, say
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.extraction.fields_view import (
    CAPPINGS,
    CLOSE,
    DRUM,
    LOAD,
    OPEN,
    WASH,
    WET,
    FloorFields,
)
from honeyledger.desktop.stations.extraction.glass_view import HeelGlass
from honeyledger.desktop.stations.extraction.presenter import ExtractionPresenter
from honeyledger.desktop.stations.extraction.typed import Asked, FillTyped
from honeyledger.desktop.turns import Making, whole
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice, ChoiceField
from honeyledger.desktop.widgets.fields import Field
from honeyledger.desktop.widgets.form import Form, FormField
from honeyledger.desktop.widgets.panel import Panel
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import MassUnit, format_mass
from honeyledger.ledger.holds import ASKS_WHY
from honeyledger.services.floor_page import FloorPage

KIND_OF_VERB = {
    "open run": OPEN,
    "load": LOAD,
    "fill": DRUM,
    "cappings": CAPPINGS,
    "wet out": WET,
    "wash": WASH,
    "close run": CLOSE,
}
VERB_OF_KIND = {kind: verb for verb, kind in KIND_OF_VERB.items()}


class FloorForm(FloorFields):
    """Fields in the order of the work; Enter moves on, the last Enter records."""

    def __init__(self, presenter: ExtractionPresenter) -> None:
        whole(self.pieces(presenter))

    def pieces(self, presenter: ExtractionPresenter) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        yield from self.make_fields()
        yield
        self._presenter = presenter
        self.kind = ""
        self._asked: set[FormField] = set()
        self.panel = Panel(self.tr("On the floor"))
        self.slot = self.panel.add_slot(self.tr("Scan the tag of the first pallet."))
        self.form = Form()
        self.form.pin(self.what)
        for row in self.rows():
            self.form.add_row(*[(field, 1) for field in row])
        bar = self.panel.add_bar(wide_primary=True)
        self.record = bar.add_primary(self.tr("Load pallet"))
        self.record.clicked.connect(self.submit)
        self.label = bar.add_secondary(self.tr("Its label"), icon="print")
        self.label.hide()
        self.form.finish_with(self.record)
        # Most drums get none: a drum after the other takes no key more for it.
        self.form.pass_over((self.seal,))
        self.what.chosen.connect(self._what_chosen)
        for name, field in self.fields().items():
            if isinstance(field, Field):
                field.edited.connect(lambda _text: presenter.keep_draft())
                field.editor.setObjectName(name)
            elif isinstance(field, ChoiceButtons):
                field.chosen.connect(lambda _key: presenter.keep_draft())
        self.container.edited.connect(self._container_changed)
        self.glasses = HeelGlass(presenter, self)
        self.glasses.changed.connect(self._show_fields)
        presenter.working.connect(self.record.set_working)

    def _own(self, kind: str) -> tuple[FormField, ...]:
        """The fields of a kind, without what is only asked back."""
        return {
            LOAD: (self.pallet, self.supers),
            DRUM: (self.source, self.container, self.gross, self.tare, self.seal),
            CAPPINGS: (self.net,),
            WET: (self.count, self.wet_gross),
            WASH: (self.remains,) if self._presenter.in_line_g() else (),
            OPEN: (self.line,),
            CLOSE: (self.vessel, self.heel, self.how, *self.glasses.shown(), self.pending),
        }[kind]

    # What is shown.

    def choose(self, kind: str, *, begins: bool = True) -> None:
        """Show the fields of what happens; what was typed for them is still there."""
        self.kind = kind
        self._asked = set()
        self.what.set_key(kind)
        self.record.setText(self.record_words(kind))
        self.slot.clear()
        self.slot.set_next_step(self._next_step(kind))
        if kind == OPEN:
            self._offer_line()
        if kind == WASH:
            words = self.tr("The books still see {mass} in the line. It was")
            mass = format_mass(self._presenter.in_line_g(), self._unit())
            self.remains.label.setText(words.format(mass=mass))
        self._show_fields()
        if begins:
            self.begin()

    def _offer_line(self) -> None:
        if not self.line.text() and self.line.choices():
            self.line.set_key(self.line.choices()[0].key)

    def _show_fields(self) -> None:
        shown = {*self._own(self.kind), *self._asked}
        if self._presenter.is_open():
            shown.add(self.what)
        for field in self.form.fields():
            field.setVisible(field in shown)

    def _unit(self) -> MassUnit:
        page = self._presenter.page
        return page.unit if page else "kg"

    def _next_step(self, kind: str) -> str:
        heels = [
            f"{heel.name} {format_mass(heel.grams, self._unit())}"
            for heel in self._presenter.heels
        ]
        opening = self.tr("Choose the line; Enter opens the run.")
        if not self._presenter.is_open():
            opening = self.tr("No run is open. Choose the line; Enter opens it.")
        return {
            LOAD: self.tr("Scan the tag of the pallet at the uncapper."),
            DRUM: self.tr("Type the gross weight; Enter records."),
            CAPPINGS: self.tr("Weigh the full barrel."),
            WET: self.tr("Count the empties that go back."),
            WASH: self.tr("Emptied and washed: this cuts the chain between runs."),
            OPEN: opening,
            CLOSE: ", ".join(heels) or self.tr("What is left in the tank: dip it, or guess."),
        }[kind]

    def show_page(self, page: FloorPage) -> None:
        """Offer what there is to choose; what is being typed stays."""
        for field, choices in (
            (self.line, page.lines),
            (self.source, page.sources),
            (self.container, page.containers),
        ):
            key = field.key()
            field.set_choices([Choice(row.code, row.name, say(row.detail)) for row in choices])
            if key:
                field.set_key(key)
        for mass in (self.gross, self.tare, self.net, self.wet_gross, self.heel):
            mass.set_unit(page.unit)
        vessels = page.sheet.vessels if page.sheet else ()
        heel = self.vessel.key()
        self.vessel.set_choices([Choice(row.code, row.name) for row in vessels])
        if vessels:
            codes = [row.code for row in vessels]
            self.vessel.set_key(heel if heel in codes else codes[-1])
            self.source.set_key(self.source.key() or codes[-1])
        is_open = self._presenter.is_open()
        if not is_open and self.kind not in (OPEN, WASH):
            self.choose(OPEN)
        elif is_open and self.kind in (OPEN, ""):
            self.choose(LOAD)
        if self.kind == OPEN:
            self._offer_line()
        self.slot.set_next_step(self._next_step(self.kind))

    # The keyboard.

    def begin(self) -> None:
        """The keyboard goes to the first field that is not chosen already."""
        if not self.panel.isVisible():
            return
        chosen = (self.what, self.source, self.container, self.vessel)
        for field in self.form.fields():
            if field not in chosen and field.isVisibleTo(self.form):
                self.form.take_focus(field)
                return
        self.record.setFocus(Qt.FocusReason.OtherFocusReason)

    def _what_chosen(self, kind: str) -> None:
        """With the arrows a person goes on to the next one; a press goes into the fields."""
        self.choose(kind, begins=not self.what.is_by_arrow)
        self._presenter.keep_draft()

    def _container_changed(self, _text: str) -> None:
        """A drum on record brings its own tare."""
        self.tare.clear()

    # Recording.

    def submit(self) -> None:
        """Record what the form says."""
        presenter = self._presenter
        presenter.asked = Asked(
            washed={"yes": True, "no": False}.get(self.washed.key()),
            top_up=self.top_up.key() == "yes",
            follows=self.follows.key() == "yes",
            why=self.why.text(),
        )
        if self.kind == OPEN:
            presenter.open_run(_chosen(self.line))
        elif self.kind == LOAD:
            presenter.load(self.pallet.text(), self.supers.text())
        elif self.kind == DRUM:
            source, container = _chosen(self.source), _chosen(self.container)
            gross, tare = self.gross.text(), self.tare.text()
            presenter.fill(FillTyped(source, container, gross, tare, self.seal.text()))
        elif self.kind == CAPPINGS:
            presenter.cappings(self.net.text())
        elif self.kind == WET:
            presenter.wet_out(self.count.text(), self.wet_gross.text())
        elif self.kind == WASH:
            presenter.wash(self.remains.key())
        elif self.kind == CLOSE:
            presenter.cappings_pending = self.pending.key() == "later"
            presenter.see_balance(_chosen(self.vessel), self.heel.text(), self.how.key())

    def clear(self, kind: str) -> None:
        """Empty what was typed for a kind and what was asked back; the source stays."""
        kept: tuple[FormField, ...] = (self.line, self.source, self.vessel)
        if not self.container.text():
            kept = (*kept, self.tare)  # One-way drums of a delivery weigh the same.
        questions = (self.remains, self.follows, self.washed, self.top_up, self.why)
        for field in (*self._own(kind), *questions):
            if isinstance(field, ChoiceButtons):
                field.set_key("")
            elif field not in kept:
                field.clear()
        self.how.set_key("dip")
        self.glass.set_key("")
        self.pending.set_key("done")
        self.choose(self.kind)

    def show_refusal(self, refusal: Refusal) -> None:
        """The sentence at the top, the field it is about in focus; a question with its answers."""
        self.slot.show_messages(
            [Message(Mark.REFUSED, self.tr("Not recorded."), refusal_words(refusal))]
        )
        asks: dict[str, FormField] = {
            **dict.fromkeys(ASKS_WHY, self.why),
            "washed-asks": self.washed,
            "top-up-asks": self.top_up,
            "no-weight": self.follows,
            "what-remains": self.remains,
        }
        asked = asks.get(refusal.key)
        if asked is not None:
            self._asked.add(asked)
            self._show_fields()
        about = self._about(refusal.field)
        if about is not None and about.isVisibleTo(self.form):
            about.set_refused(True)
        # A missing weight is more often forgotten than to follow.
        goes_to = about if refusal.key == "no-weight" else asked or about
        if goes_to is not None and goes_to.isVisibleTo(self.form) and self.panel.isVisible():
            self.form.take_focus(goes_to)

    def _about(self, name: str) -> Field | None:
        wet = self.kind == WET
        fields: dict[str, Field] = {
            "line": self.line,
            "pallet": self.pallet,
            "count": self.count if wet else self.supers,
            "source": self.source,
            "container": self.container,
            "gross_g": self.wet_gross if wet else self.gross,
            "tare_g": self.tare,
            "seal": self.seal,
            "net_g": self.net if self.kind == CAPPINGS else self.gross,
            "heel": self.heel,
        }
        return fields.get(name)

    # What was asked back.

    def asked_back(self) -> list[str]:
        """The questions that stand open, by their names."""
        return [name for name, field in self.fields().items() if field in self._asked]

    def ask_back(self, names: Sequence[str]) -> None:
        """Ask these questions again."""
        self._asked = {field for name, field in self.fields().items() if name in names}
        self._show_fields()


def _chosen(field: ChoiceField) -> str:
    """What is chosen, else what is typed, for the ledger to find by its name."""
    return field.key() or field.text()
