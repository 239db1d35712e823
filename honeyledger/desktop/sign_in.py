"""Who works here: chosen at the start, by a badge, or from a list; nobody's work waits for it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from PySide6.QtCore import QCoreApplication, QObject, Qt, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QWidget

from honeyledger.desktop import style
from honeyledger.desktop.desk import EVERYTHING, Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.ledger.lookup import find_record
from honeyledger.ledger.places import key_of
from honeyledger.services.dock import Choice
from honeyledger.services.roster import people_now
from honeyledger.services.store import View

OPERATOR = "operator"


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody who works here: the code of the badge, and the name."""

    code: str
    name: str


class SignIn(QObject):
    """Keeps the desk's operator.

    Signals:
        signed: a `Person` works here now, or nobody (None).
        refused: a `Refusal`: no such badge or name.
        wanted: nobody is signed in, though the house has operators.
    """

    signed = Signal(object)
    refused = Signal(object)
    wanted = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.people: tuple[Choice, ...] = ()
        desk.refresh.watch(EVERYTHING, self.ask)

    def start(self) -> None:
        """Whoever the settings remember, where this house knows them; else say that one may."""
        remembered = self._desk.operator
        self._desk.operator = ""

        def question(view: View) -> tuple[tuple[Choice, ...], Person | None]:
            people = people_now(view, self._desk.house.clock())
            known = [one for one in people if remembered in (one.code, one.name) and remembered]
            return people, Person(known[0].code, known[0].name) if known else None

        def answered(outcome: Outcome[tuple[tuple[Choice, ...], Person | None]]) -> None:
            if outcome.value is None:
                return
            self.people, person = outcome.value
            if person is not None:
                self._desk.operator = person.code
                self.signed.emit(person)
            elif self.people:
                self.wanted.emit()

        self._desk.jobs.read(lambda: self._desk.house.ask(question), answered)

    def ask(self) -> None:
        """Ask who works in this house."""
        house = self._desk.house
        self._desk.jobs.read(
            lambda: house.ask(lambda view: people_now(view, house.clock())),
            self._listed,
            about=(self, OPERATOR),
        )

    def _listed(self, outcome: Outcome[Sequence[Choice]]) -> None:
        if outcome.value is None:
            return
        # Whoever registers as a house's first person is sitting here.
        is_first = not self.people and len(outcome.value) == 1 and not self._desk.operator
        self.people = tuple(outcome.value)
        if is_first:
            self._take(Person(self.people[0].code, self.people[0].name))

    def operator(self) -> str:
        """The code of who works here now, "" for nobody."""
        return self._desk.operator

    def is_visit(self) -> bool:
        """Whether a visitor looks at the house, who is nobody of its people."""
        return self._desk.is_visit

    def sign_in(self, text: str) -> None:
        """A badge was scanned, or a name chosen; "" signs out."""
        if not text:
            self._take(None)
            return

        def question(view: View) -> Person:
            subject, record = find_record(view, OPERATOR, text)
            return Person(key_of(subject), str(record.get("name", "")))

        self._desk.jobs.read(lambda: self._desk.house.ask(question), self._answered)

    def _answered(self, outcome: Outcome[Person]) -> None:
        if outcome.refusal is not None:
            self.refused.emit(outcome.refusal)
        elif outcome.value is not None:
            self._take(outcome.value)

    def _take(self, person: Person | None) -> None:
        code = person.code if person else ""
        self._desk.operator = code
        self._desk.remember(replace(self._desk.settings, operator=code))
        self.signed.emit(person)


def _tr(text: str) -> str:
    return QCoreApplication.translate("sign_in", text)


def people_menu(signing: SignIn, parent: QWidget, register: Callable[[], object]) -> QMenu:
    """Who may work here, those on shift now first; with nobody registered, the way to people.

    A visitor chooses nobody.
    """
    menu = QMenu(parent)
    menu.setStyle(style.measured())
    menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    if signing.is_visit():
        visitor = QAction(_tr("Scan your badge to end the visit."), menu)
        visitor.setEnabled(False)
        menu.addAction(visitor)
        return menu
    if not signing.people:
        nobody = QAction(_tr("Nobody is registered yet: add people in Setup"), menu)
        nobody.triggered.connect(register)
        menu.addAction(nobody)
        return menu
    for person in signing.people:
        words = f"{person.name} · {person.detail}" if person.detail else person.name
        menu.addAction(_person_action(signing, words, person.code, menu))
    if signing.operator():
        menu.addSeparator()
        menu.addAction(_person_action(signing, _tr("Nobody"), "", menu))
    return menu


def _person_action(signing: SignIn, name: str, code: str, menu: QMenu) -> QAction:
    action = QAction(name, menu)
    action.setCheckable(True)
    action.setChecked(bool(code) and code == signing.operator())
    action.triggered.connect(lambda: signing.sign_in(code))
    return action
