"""The fields of dispatch: those of a note, and those of the three smaller forms."""

from collections import Counter
from collections.abc import Sequence

from PySide6.QtCore import QObject

from honeyledger.desktop.stations.dispatch.other_typed import (
    AWAY,
    BACK,
    IN_WORDS,
    SAMPLE,
    TO_AWAY,
    TO_HOLD,
    TO_STOCK,
)
from honeyledger.desktop.stations.dispatch.rows import counted, tr
from honeyledger.desktop.tokens import Density
from honeyledger.desktop.turns import Making, whole
from honeyledger.desktop.widgets.choice_buttons import ChoiceButtons
from honeyledger.desktop.widgets.choices import Choice, ChoiceField
from honeyledger.desktop.widgets.counts import CountField
from honeyledger.desktop.widgets.fields import MassField, TextField
from honeyledger.desktop.widgets.form import FormField
from honeyledger.domain.units import format_mass, format_number
from honeyledger.services.dispatch_page import DispatchPage
from honeyledger.services.dispatching import GROUPS, LOTS, OnShelf

SEND = "send"
KEEP, LEAVE = "keep", "leave"
ADD, MISTYPED = "add", "mistyped"
THESE, SPAN = "these", "span"
MOST_JARS = 99_999
# So many lots of a product, or of drums, are offered to choose from; nobody reads on for more.
MOST_OFFERED = 1_000
Fields = tuple[tuple[FormField, int], ...]


class DispatchFields(QObject):
    """Every field, in the order of the work; which are shown depends on what happens."""

    def __init__(self, density: Density) -> None:
        whole(self.pieces(density))

    def pieces(self, density: Density) -> Making[None]:
        """Make it piece by piece. See `InPieces`."""
        super().__init__()
        self._density = density
        self.what = self._buttons(
            tr("What happens"),
            (SEND, tr("Send")),
            (BACK, tr("Back")),
            (AWAY, tr("Discard")),
            (SAMPLE, tr("Sample")),
        )
        self._make_note()
        yield
        self._make_others()

    def _buttons(self, label: str, *choices: tuple[str, str]) -> ChoiceButtons:
        made = [Choice(key, text) for key, text in choices]
        return ChoiceButtons(label, made, density=self._density)

    def _make_note(self) -> None:
        density = self._density
        self.customer = ChoiceField(tr("Customer"), density=density)
        self.reference = TextField(tr("Their order"), density=density)
        self.carrier = ChoiceField(tr("Carrier"), density=density)
        self.carrier.is_free = True
        self.contract = TextField(tr("Contract"), density=density)
        self.vehicle = TextField(tr("Number plates"), density=density)
        self.seals = TextField(tr("Seals, by commas"), density=density)
        self.freight_container = TextField(tr("Freight container"), density=density)
        self.consignor = ChoiceField(tr("In whose name"), density=density)
        self.owner = ChoiceField(tr("Whose from now on"), density=density)
        self.stranger = self._buttons(
            tr("No customer of that name yet"), (ADD, tr("add it")), (MISTYPED, tr("mistyped"))
        )
        self.goes = ChoiceField(tr("Goes: scan it, or type what is wanted"), density=density)
        self.jars = CountField(tr("Jars"), most=MOST_JARS, density=density)
        self.net = MassField(tr("Net, blank for all"), density=density)
        self.span = self._buttons(tr("Jars scanned"), (THESE, ""), (SPAN, ""))
        self.rest = self._buttons(
            tr("What is still to pick"),
            (KEEP, tr("waits")),
            (LEAVE, tr("is left out")),
        )

    def _make_others(self) -> None:
        density = self._density
        self.lot = ChoiceField("", density=density)
        self.lot.is_free = True
        self.count = CountField(tr("Jars, blank for all"), most=MOST_JARS, density=density)
        self.mass = MassField("", density=density)
        self.party = ChoiceField(tr("From"), density=density)
        self.back_reason = self._reasons(tr("broken"), tr("unsold"), tr("wrong"))
        self.away_reason = self._reasons(tr("broken"), tr("spoilt"), tr("spilt"))
        self.words = TextField(tr("In a word or two"), density=density)
        self.where = self._buttons(
            tr("Goes to"),
            (TO_STOCK, tr("stock")),
            (TO_AWAY, tr("discard")),
            (TO_HOLD, tr("hold")),
        )
        self.kept = TextField(tr("Kept at"), density=density)

    def _reasons(self, *reasons: str) -> ChoiceButtons:
        pairs = [(reason, reason) for reason in reasons]
        return self._buttons(tr("Reason"), *pairs, (IN_WORDS, tr("other")))

    def rows(self) -> tuple[Fields, ...]:
        """The fields as they stand beside one another, each with its part of the width.

        The buttons that choose what happens stand over them.
        """
        return (
            ((self.customer, 1),),
            ((self.stranger, 1),),
            ((self.reference, 1), (self.carrier, 1)),
            ((self.goes, 300), (self.jars, 152), (self.net, 152)),
            ((self.span, 1),),
            ((self.contract, 1), (self.vehicle, 1), (self.seals, 1)),
            ((self.freight_container, 1), (self.consignor, 1), (self.owner, 1)),
            ((self.rest, 1),),
            ((self.lot, 300), (self.count, 152), (self.mass, 152)),
            ((self.party, 1),),
            ((self.back_reason, 1),),
            ((self.away_reason, 1),),
            ((self.words, 1),),
            ((self.where, 1),),
            ((self.kept, 1),),
        )

    def reason(self, kind: str) -> ChoiceButtons:
        """The reasons of a kind."""
        return self.back_reason if kind == BACK else self.away_reason

    def own(self, kind: str) -> tuple[FormField, ...]:
        """The fields of a kind, without what is only asked now and then."""
        fields: dict[str, tuple[FormField, ...]] = {
            SEND: (
                *(self.customer, self.reference, self.carrier, self.goes),
                *(self.contract, self.vehicle, self.seals),
            ),
            BACK: (self.lot, self.party, self.back_reason, self.where),
            AWAY: (self.lot, self.away_reason),
            SAMPLE: (self.lot, self.mass, self.kept),
        }
        return fields[kind]

    def lot_label(self, kind: str) -> str:
        """What stands above the lot of a kind."""
        return {
            BACK: tr("Came back: scan it"),
            AWAY: tr("Thrown away: scan it"),
            SAMPLE: tr("Sample of: scan it"),
        }.get(kind, "")

    def mass_label(self, kind: str) -> str:
        """What stands above the weight of a kind."""
        return tr("Weight") if kind == SAMPLE else tr("Net, blank for all")


def goods_of(page: DispatchPage) -> list[Choice]:
    """Products to order, then the lots that may go, the oldest of each first."""
    groups = {group.group: group for group in page.on_hand}
    made = []
    for product in page.products:
        group = groups.get(f"product/{product.code}")
        note = counted(group.jars, tr("1 jar here"), tr("{n} jars here")) if group else tr("none")
        made.append(Choice(f"product/{product.code}", product.name, note))
    for kind, name in GROUPS.items():
        group = groups.get(f"{LOTS}/{kind}")
        if group is not None:
            note = tr("{n} here").format(n=format_number(len(group.lots)))
            made.append(Choice(group.group, name[:1].upper() + name[1:], note))
    return made + lots_of(page, [row for row in page.shelf if not row.held])


def lots_of(page: DispatchPage, rows: Sequence[OnShelf]) -> list[Choice]:
    """Lots on the shelf to choose from, with how much there is of each.

    Of many of a group only the oldest, which go first: the code of any other is typed or scanned.
    """
    seen: Counter[str] = Counter()
    offered = []
    for row in rows:
        seen[row.group] += 1
        if seen[row.group] <= MOST_OFFERED:
            text = f"{row.code} {row.name}".strip()
            offered.append(Choice(row.code, text, _lot_note(row, page)))
    return offered


def sent_lately(page: DispatchPage) -> list[Choice]:
    """Lots that went out lately, each with the last customer it went to."""
    found: dict[str, Choice] = {}
    for note in page.notes:
        for line in note.lines:
            text = f"{line.code} {line.name}" if line.kind == "J" else line.code
            found.setdefault(line.code, Choice(line.code, text, note.name))
    return list(found.values())


def _lot_note(row: OnShelf, page: DispatchPage) -> str:
    if row.kind == "J":
        return counted(row.jars, tr("1 jar"), tr("{n} jars"))
    return format_mass(row.grams, page.unit)
