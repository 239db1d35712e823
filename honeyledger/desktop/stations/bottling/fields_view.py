"""The fields of the bottling: what each happening is typed in, in the order of the work."""

from PySide6.QtCore import QObject

from honeyledger.desktop.stations.bottling.typed import (
    CHANGE,
    CLOSE,
    LABELS,
    LEFT,
    NO,
    START,
    WEIGH,
    YES,
    Typed,
)
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, whole
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice, ChoiceField
from honeyledger.desktop.widgets.counts import CountField
from honeyledger.desktop.widgets.fields import Field, MassField, TextField
from honeyledger.desktop.widgets.form import FormField
from honeyledger.services.label_forms import JAR_BACK, JAR_FRONT, LID_SEAL

MOST_JARS = 99_999  # serials have five digits


class BottlingFields(QObject):
    """Every field, of every kind of happening."""

    def __init__(self) -> None:
        whole(self.make_fields())

    def make_fields(self) -> Making[None]:
        """Make them, in two pieces."""
        QObject.__init__(self)
        tr = self.tr
        self.what = ChoiceButtons(tr("What happens"), density=Density.DESK)
        self.product = ChoiceField(tr("Product"))
        self.feed = ChoiceField(tr("Filled from: scan it"))
        self.about = CountField(tr("Jars in all, to propose drums"), most=MOST_JARS)
        self.counter = TextField(tr("Counter, if not at 0"))
        self.jars = CountField(tr("Counter now"), most=MOST_JARS)
        self.case = TextField(tr("or case now"))
        self.case_size = TextField(tr("of jars"))
        self.rejects = CountField(tr("Rejects"), most=MOST_JARS)
        self.next = ChoiceField(tr("Then from: scan it, else the same"))
        yield
        self.empty = self._buttons(tr("Ran empty"), (YES, tr("yes")), (NO, tr("no")))
        self.mean = TextField(tr("Mean net"), unit="g")
        self.in_line = self._buttons(
            tr("Labelled"), (YES, tr("as filled")), (NO, tr("afterwards"))
        )
        self.packaging = TextField(tr("Jar and lid lots: scan"))
        self.weight = TextField(tr("Jar on the scale"), unit="g")
        self.tare = TextField(tr("Empty jar"), unit="g")
        self.lot = ChoiceField(tr("Jar lot"))
        self.first = CountField(tr("First serial"), least=1, most=MOST_JARS)
        self.last = CountField(tr("Last serial"), least=1, most=MOST_JARS)
        self.label_as = ChoiceField(tr("Only"))
        self.label_as.set_choices(
            [
                Choice(JAR_FRONT, tr("front")),
                Choice(JAR_BACK, tr("back")),
                Choice(LID_SEAL, tr("seal")),
            ]
        )
        self.gross = MassField(tr("Gross"))
        self.why = TextField(tr("On hold: why it may go on"))

    def _buttons(self, label: str, *choices: tuple[str, str]) -> ChoiceButtons:
        made = [Choice(key, text) for key, text in choices]
        return ChoiceButtons(label, made)

    def rows(self) -> tuple[tuple[tuple[FormField, int], ...], ...]:
        """The fields as they stand beside one another, each with its part of the width."""
        return (
            ((self.product, 1),),
            ((self.feed, 280), (self.counter, 172)),
            ((self.about, 1),),
            (
                *((self.jars, 190), (self.case, 126), (self.case_size, 124)),
                (self.rejects, 190),
            ),
            ((self.next, 1),),
            ((self.weight, 280), (self.tare, 172)),
            ((self.empty, 280), (self.mean, 172)),
            ((self.in_line, 280), (self.packaging, 184)),
            ((self.lot, 344), (self.label_as, 112)),
            ((self.first, 1), (self.last, 1)),
            ((self.gross, 1),),
            ((self.why, 1),),
        )

    def texts(self) -> dict[str, Field]:
        """The fields that are typed in, by their name in the form."""
        names = (
            "product feed counter about jars case case_size rejects next mean weight tare lot "
            "first last gross why packaging label_as"
        )
        return {name: getattr(self, name) for name in names.split()}

    def buttons(self) -> dict[str, ChoiceButtons]:
        """The fields that are one of a few, by their name in the form."""
        return {"empty": self.empty, "in_line": self.in_line}

    def own(self, kind: str) -> tuple[FormField, ...]:
        """The fields of a kind of happening, without what is only asked back."""
        return {
            START: (self.product, self.feed, self.counter, self.about),
            WEIGH: (self.weight, self.tare),
            CHANGE: (
                *(self.jars, self.case, self.case_size),
                *(self.next, self.empty, self.mean),
            ),
            CLOSE: (
                *(self.jars, self.rejects, self.empty, self.mean),
                *(self.in_line, self.packaging),
            ),
            LABELS: (self.lot, self.first, self.last, self.label_as),
            LEFT: (self.lot, self.gross),
        }[kind]

    def kind_words(self, kind: str) -> str:
        """What the button says that chooses it."""
        return {
            START: self.tr("Start"),
            WEIGH: self.tr("Weigh"),
            CHANGE: self.tr("Change"),
            CLOSE: self.tr("Close"),
            LABELS: self.tr("Labels"),
            LEFT: self.tr("Left over"),
        }[kind]

    def record_words(self, kind: str) -> str:
        """What the button says that records it."""
        return {
            START: self.tr("Start the bottling"),
            WEIGH: self.tr("Add this jar"),
            CHANGE: self.tr("Change over"),
            CLOSE: self.tr("Close the bottling"),
            LABELS: self.tr("Print these labels"),
            LEFT: self.tr("Weigh what is left"),
        }[kind]

    def as_typed(self, kind: str, order: tuple[str, ...]) -> Typed:
        """The form as it stands; of a choice its key, else what is typed."""
        said = {name: _said(field) for name, field in self.texts().items()}
        said |= {name: field.key() for name, field in self.buttons().items()}
        return Typed(kind=kind, order=order, **said)

    def show(self, typed: Typed) -> None:
        """Show these; nothing is reported as typed."""
        for name, field in self.texts().items():
            text = getattr(typed, name)
            field.set_refused(False)
            if isinstance(field, ChoiceField):
                choose(field, text)
            elif field.text() != text:
                field.set_text(text)
        for name, buttons in self.buttons().items():
            if buttons.key() != getattr(typed, name):
                buttons.set_key(getattr(typed, name))


def _said(field: Field) -> str:
    return (field.key() or field.text()) if isinstance(field, ChoiceField) else field.text()


def choose(field: ChoiceField, key: str) -> None:
    """Choose by key; what is none of the choices stands as it was typed."""
    if key and field.key() == key:
        return
    if key in [choice.key for choice in field.choices()]:
        field.set_key(key)
    elif field.text() != key:
        field.set_text(key)
        field.set_unit("")
