"""The form of one kind: its fields, what is asked later hidden until it is wanted."""

from collections.abc import Callable, Mapping, Sequence

from PySide6.QtCore import Signal

from honeyledger.desktop.language import fact_word
from honeyledger.desktop.stations.setup.asks import YES, Ask, SetupKind, Typing, tr
from honeyledger.desktop.stations.setup.kinds import records_of
from honeyledger.desktop.stations.setup.printer_deeds import (
    each_time,
    stocks_for,
)
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Turns
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice, ChoiceField
from honeyledger.desktop.widgets.counts import CountField
from honeyledger.desktop.widgets.fields import Field, MassField, TextField
from honeyledger.desktop.widgets.form import Form, FormField
from honeyledger.documents.stock import Stocks
from honeyledger.services.setup_page import SetupPage

_IN_A_TURN, _TURNS = 6, 5
"""So many fields are made in one turn, and so many turns that the largest form is."""
_VESSELS = (Typing.LINE, Typing.VESSEL)


class KindForm(Form):
    """The form of one kind.

    Args:
        begun: fields of it that are made already, by the key of what they ask.

    Signals:
        changed: something in it was typed or chosen.
    """

    changed = Signal()

    def __init__(
        self, kind: SetupKind, density: Density, begun: Mapping[str, FormField] | None = None
    ) -> None:
        super().__init__()
        self.kind = kind
        self.by_key: dict[str, FormField] = {}
        self.is_whole = False
        for row in rows_of(kind):
            fields: list[tuple[FormField, int]] = []
            for ask in row:
                made = (begun or {}).get(ask.key) or _made(ask, density, kind)
                self.by_key[ask.key] = made
                fields.append((made, 1))
                self._listen(made)
            self.add_row(*fields)
        self.show_later(False)

    def _listen(self, field: FormField) -> None:
        if isinstance(field, ChoiceButtons):
            field.chosen.connect(lambda _key: self.changed.emit())
        else:
            field.edited.connect(lambda _text: self.changed.emit())

    def has_later(self) -> bool:
        """Whether there is more to ask than is asked at first."""
        return any(ask.later for ask in self.kind.asks)

    def show_later(self, shown: bool) -> None:
        """Ask what is asked later, too."""
        self.is_whole = shown
        for ask in self.kind.asks:
            self.by_key[ask.key].setVisible(shown or not ask.later)

    def values(self) -> dict[str, str]:
        """What stands in the form, as typed; what a field offers is kept by its English word."""
        return {
            ask.key: field.key() if isinstance(field, ChoiceButtons) else _kept(ask, field.text())
            for ask in self.kind.asks
            for field in (self.by_key[ask.key],)
        }

    def fill(self, values: Mapping[str, str]) -> None:
        """Show these values; what is asked later is shown where there is any of it."""
        for ask in self.kind.asks:
            field, value = self.by_key[ask.key], values.get(ask.key, "")
            if isinstance(field, ChoiceButtons):
                field.set_key(value)
            else:
                field.set_text(fact_word(value) if value in ask.offers else value)
                field.set_refused(False)
        later = [ask for ask in self.kind.asks if ask.later]
        has_any = any(values.get(ask.key, "") not in ("", ask.default, ask.usual) for ask in later)
        self.show_later(self.is_whole or has_any)

    def show_page(self, page: SetupPage) -> None:
        """Offer what there is to choose from, in the house's unit."""
        for ask in self.kind.asks:
            field = self.by_key[ask.key]
            if isinstance(field, MassField):
                field.set_unit(page.unit)
            elif isinstance(field, ChoiceField) and (ask.typing in _VESSELS or ask.of):
                field.set_choices(_offers(ask, page))
        if not self.kind.register or self.kind.key == "house":
            return
        name = self.by_key["name"]
        if isinstance(name, ChoiceField):
            rows = records_of(self.kind, page)
            name.set_choices([Choice(row.key, row.name, row.key) for row in rows])

    def offer_papers(self, printers: Sequence[str], stocks: Stocks) -> None:
        """This computer's printers and the label stocks there are, where they are asked for."""
        for ask in self.kind.asks:
            field = self.by_key[ask.key]
            if not isinstance(field, ChoiceField):
                continue
            if ask.typing is Typing.PRINTER:
                offers = printers if ask.key == "name" else (*printers, each_time())
                field.set_choices([Choice(name, name) for name in offers])
            elif ask.typing is Typing.STOCK:
                names = stocks_for(ask.key, stocks)
                field.set_choices([Choice(name, name) for name in names])

    def offer_zones(self, zones: Sequence[str]) -> None:
        """The names of all time zones, where one is asked for."""
        field = self.by_key.get("zone")
        if isinstance(field, ChoiceField):
            field.set_choices([Choice(zone, zone) for zone in zones])


class KindForms(dict[str, KindForm]):
    """Forms by the key of their kind, each made when it is first asked for.

    What they offer is kept for those that are made later.
    """

    def __init__(self, make: Callable[[str], KindForm]) -> None:
        super().__init__()
        self._make = make
        self.begun: dict[str, dict[str, FormField]] = {}
        self._zones: Sequence[str] = ()
        self._page: SetupPage | None = None
        self._papers: tuple[Sequence[str], Stocks] = ((), Stocks({}))

    def __missing__(self, key: str) -> KindForm:
        form = self[key] = self._make(key)
        form.offer_zones(self._zones)
        form.offer_papers(*self._papers)
        if self._page is not None:
            form.show_page(self._page)
        return form

    def make_in_turns(
        self, turns: Turns, in_hand: Callable[[], SetupKind], density: Density
    ) -> None:
        """Make the form of the kind in hand: a few of its fields in a turn, and then the form.

        All of them at once would hold the window.
        """
        # All turns are asked for now, so that what the page is answered comes behind them.
        for _ in range(_TURNS):
            turns.add(lambda: self._make_few(in_hand(), density))
        turns.add(lambda: self[in_hand().key])

    def _make_few(self, kind: SetupKind, density: Density) -> None:
        """Make the next fields of a form that is not made yet."""
        if kind.key not in self:
            begun = self.begun.setdefault(kind.key, {})
            few = [ask for ask in kind.asks if ask.key not in begun][:_IN_A_TURN]
            begun |= {ask.key: _made(ask, density, kind) for ask in few}

    def offer_zones(self, zones: Sequence[str]) -> None:
        """The names of all time zones."""
        self._zones = zones
        for form in self.values():
            form.offer_zones(zones)

    def offer_papers(self, printers: Sequence[str], stocks: Stocks) -> None:
        """This computer's printers, and the label stocks there are."""
        self._papers = printers, stocks
        for form in self.values():
            form.offer_papers(printers, stocks)

    def show_page(self, page: SetupPage) -> None:
        """What there is to choose from."""
        self._page = page
        for form in self.values():
            form.show_page(page)


def _kept(ask: Ask, text: str) -> str:
    """What is kept of a field: a word it offers in English, since others ask for it by that."""
    return next((word for word in ask.offers if fact_word(word) == text.strip()), text)


def _offers(ask: Ask, page: SetupPage) -> list[Choice]:
    if ask.of:
        return [Choice(row.key, row.name) for row in page.registers.get(ask.of, ())]
    every = ask.typing is Typing.VESSEL
    vessels = page.registers.get("vessel", ())
    names = [row.name for row in vessels if every or row.record.get("sort") == "line"]
    return [Choice(name, name) for name in names]


def rows_of(kind: SetupKind) -> list[list[Ask]]:
    """Its questions, row by row of the form."""
    rows: list[list[Ask]] = []
    for ask in kind.asks:
        if ask.beside and rows:
            rows[-1].append(ask)
        else:
            rows.append([ask])
    return rows


def _made(ask: Ask, density: Density, kind: SetupKind) -> FormField:
    made = _without_unit(ask, density, is_name=bool(kind.register) and ask is kind.asks[0])
    if ask.unit and isinstance(made, Field):
        made.set_unit(ask.unit)
    return made


def _without_unit(ask: Ask, density: Density, *, is_name: bool) -> FormField:
    label = ask.label
    match ask.typing:
        case Typing.COUNT:
            return CountField(label, density=density)
        case Typing.MASS:
            return MassField(label, density=density)
        case Typing.UNIT:
            units = [Choice("kg", "kg"), Choice("lb", "lb")]
            return ChoiceButtons(label, units, density=density)
        case Typing.BUTTONS:
            words = [Choice(key, word) for key, word in ask.buttons]
            return ChoiceButtons(label, words, density=density)
        case Typing.YES:
            answers = [Choice("", tr("no")), Choice(YES, tr("yes"))]
            return ChoiceButtons(label, answers, density=density)
        case Typing.PRINTER:
            printer = ChoiceField(label, density=density)
            printer.is_free = True
            return printer
        case Typing.ZONE | Typing.LINE | Typing.VESSEL | Typing.NAMED | Typing.STOCK:
            return ChoiceField(label, density=density)
        case _ if is_name or ask.offers:
            offers = [Choice(word, fact_word(word)) for word in ask.offers]
            named = ChoiceField(label, offers, density=density)
            named.is_free = True
            return named
        case _:
            return TextField(label, density=density)
