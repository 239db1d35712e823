"""The fields of the floor: what each happening is typed in, and the questions asked back."""

from collections.abc import Mapping

from PySide6.QtCore import QObject

from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, whole
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice, ChoiceField
from honeyledger.desktop.widgets.counts import CountField
from honeyledger.desktop.widgets.fields import CodeField, Field, MassField, TextField
from honeyledger.desktop.widgets.form import FormField
from honeyledger.desktop.widgets.sight_glass import SightGlass

LOAD, DRUM, CAPPINGS, WET = "load", "drum", "cappings", "wet"
WASH, CLOSE, OPEN = "wash", "close", "open"
_USUAL = {"how": "dip", "pending": "done"}
_STAY = ("line", "source", "vessel")
"""What is chosen and stays so, whatever is recorded."""


class FloorFields(QObject):
    """Every field, of every kind of happening, in the order of the work."""

    def __init__(self) -> None:
        whole(self.make_fields())

    def make_fields(self) -> Making[None]:
        """Make them, in two pieces."""
        QObject.__init__(self)
        self._make_fields()
        yield
        self._make_questions()

    def _make_fields(self) -> None:
        tr = self.tr
        kinds = [
            Choice(LOAD, tr("Load")),
            Choice(DRUM, tr("Drum")),
            Choice(CAPPINGS, tr("Cappings")),
            Choice(WET, tr("Wet")),
        ]
        self.what = ChoiceButtons(tr("What happens"), kinds, density=Density.DESK)
        self.line = ChoiceField(tr("Line"))
        self.pallet = CodeField(tr("Pallet: scan its tag"))
        self.supers = CountField(tr("Supers, blank for all"))
        self.source = ChoiceField(tr("From"))
        self.container = ChoiceField(tr("Drum, blank if one-way"))
        self.gross = MassField(tr("Gross"))
        self.tare = MassField(tr("Tare, if not on record"))
        self.seal = TextField(tr("Seal, if one is put on"), density=Density.FLOOR)
        self.net = MassField(tr("Cappings, net"))
        self.count = CountField(tr("Empty supers"))
        self.wet_gross = MassField(tr("Gross, if weighed"))
        self.vessel = ChoiceField(tr("Heel in"))
        self.heel = MassField(tr("Left in it"))

    def _buttons(self, label: str, *choices: tuple[str, str]) -> ChoiceButtons:
        made = [Choice(key, text) for key, text in choices]
        return ChoiceButtons(label, made, density=Density.DESK)

    def _make_questions(self) -> None:
        tr = self.tr
        yes, no = ("yes", tr("yes")), ("no", tr("no"))
        self.follows = self._buttons(tr("No weight yet"), ("yes", tr("it is to follow")))
        self.washed = self._buttons(tr("Was the drum washed since?"), yes, no)
        self.top_up = self._buttons(tr("It holds honey already"), ("yes", tr("top it up")))
        self.remains = self._buttons(
            tr("It was"),
            ("rinse", tr("rinse")),
            ("discarded", tr("discarded")),
            ("never", tr("never there")),
        )
        self.why = TextField(tr("On hold: why it may go on"))
        self.how = self._buttons(
            tr("Read"), ("dip", tr("by dip")), ("mark", tr("by mark")), ("guess", tr("a guess"))
        )
        self.pending = self._buttons(
            tr("Cappings of this run"),
            ("done", tr("weighed")),
            ("later", tr("weighed later")),
        )
        self.dip = CountField(tr("Dip in cm"))
        self.glass = SightGlass(tr("On the sight glass"), density=Density.DESK)
        self.how.set_key(_USUAL["how"])
        self.pending.set_key(_USUAL["pending"])

    def rows(self) -> tuple[tuple[FormField, ...], ...]:
        """The fields as they stand beside one another, under the buttons that choose which."""
        return (
            (self.line,),
            (self.pallet, self.supers),
            (self.source, self.container),
            (self.gross, self.tare),
            (self.seal,),
            (self.net,),
            (self.count, self.wet_gross),
            (self.remains,),
            (self.follows,),
            (self.washed,),
            (self.top_up,),
            (self.why,),
            (self.vessel, self.heel),
            (self.how,),
            (self.dip,),
            (self.glass,),
            (self.pending,),
        )

    def fields(self) -> dict[str, FormField]:
        """Every field that is typed in or chosen, by its name."""
        names = (
            "line pallet supers source container gross tare seal net count wet_gross remains "
            "follows washed top_up why vessel heel how dip glass pending"
        )
        return {name: getattr(self, name) for name in names.split()}

    def take_seal(self, text: str) -> bool:
        """A seal's own number, scanned where it is asked for; anywhere else it is no code."""
        if not self.seal.editor.hasFocus():
            return False
        self.seal.set_text(text)
        return True

    def record_words(self, kind: str) -> str:
        """What the button says that records it."""
        return {
            LOAD: self.tr("Load pallet"),
            DRUM: self.tr("Fill drum"),
            CAPPINGS: self.tr("Weigh cappings"),
            WET: self.tr("Count wet supers"),
            WASH: self.tr("Wash the whole line"),
            OPEN: self.tr("Open the run"),
            CLOSE: self.tr("See the balance"),
        }[kind]

    def draft(self) -> dict[str, str]:
        """What is typed or tapped and not recorded; what is chosen already is not of it."""
        return {
            name: text
            for name, field in self.fields().items()
            if name not in _STAY and (text := _said(field)) and text != _USUAL.get(name)
        }

    def restore(self, typed: Mapping[str, object]) -> None:
        """Bring back what was typed or tapped, where nothing is typed now."""
        for name, field in self.fields().items():
            text = typed.get(name)
            if not isinstance(text, str) or _said(field) != _USUAL.get(name, ""):
                continue
            if isinstance(field, Field):
                field.set_text(text)
            else:
                field.set_key(text)

    def chosen(self) -> dict[str, str]:
        """What is chosen, by name, and stays when something is recorded."""
        return {name: key for name in _STAY if (key := getattr(self, name).key())}

    def choose_again(self, chosen: Mapping[str, object]) -> None:
        """Choose what was chosen when the window was closed, where there is such a thing yet."""
        for name, key in chosen.items():
            field = self.fields().get(name)
            if isinstance(field, ChoiceField) and key in [one.key for one in field.choices()]:
                field.set_key(str(key))


def _said(field: FormField) -> str:
    """What stands in a field, or which of its buttons is chosen."""
    return field.text() if isinstance(field, Field) else field.key()
