"""What the ledger would say to what is typed, asked in the read lane; nothing is written."""

from collections.abc import Callable, Sequence
from typing import Any

from honeyledger.desktop.desk import Desk
from honeyledger.desktop.jobs import Outcome
from honeyledger.desktop.language import refusal_words
from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.bottling import words
from honeyledger.desktop.stations.bottling.claim_words import label_messages, label_warning
from honeyledger.desktop.stations.bottling.hand import Hand
from honeyledger.desktop.stations.bottling.net_words import mean_message, net_message
from honeyledger.desktop.stations.bottling.typed import (
    CHANGE,
    CLOSE,
    LABELS,
    WEIGH,
    Typed,
    field_of,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import parse_mean_net_mg
from honeyledger.exchange.label_content import shipped_markets
from honeyledger.ledger.entry import Entry
from honeyledger.services.house import Said
from honeyledger.services.label_marks import LabelWarning
from honeyledger.services.labelling import jar_warnings

# Not worth a word while a form is being filled: there is simply nothing there yet.
NOT_YET = frozenset({"no-product", "no-number", "nothing-named", "no-jars"})


class Looking:
    """Looks at the form and tells what follows from it.

    Args:
        tell: takes the messages, worst first.
    """

    def __init__(self, desk: Desk, hand: Hand, tell: Callable[[list[Message]], object]) -> None:
        self._desk, self._hand, self._tell = desk, hand, tell
        self.typing = ""
        self.is_refused = False

    def ask(
        self, facts: Any, then: Callable[[Outcome[Entry]], None], about: object = None
    ) -> None:
        """Ask what these facts would write."""
        house, asked = self._desk.house, Said(operator=self._desk.operator, command="preview")
        self._desk.jobs.read(lambda: house.preview(facts, asked), then, about=about)

    def look_again(self, against: Sequence[Refusal]) -> None:
        """The page came later than what was typed: look again where its label would be refused."""
        if against != self._hand.against():
            self.look()

    def look(self) -> None:
        """Say what would be recorded, or what the jars weighed say."""
        typed, hand = self._hand.typed, self._hand
        if self.is_refused or hand.page is None:
            return
        if typed.kind == WEIGH:
            check = hand.check()
            self._tell([net_message(check)] if check and check.weighed else [])
            return
        if typed.kind == LABELS:
            self._look_at_label(typed)
            return
        try:
            facts = hand.facts(self._desk.unit)
        except Refusal as refusal:
            self._warn(refusal)
            return
        self.ask(facts, lambda outcome: self._looked(typed, facts, outcome), (self, "preview"))

    def _looked(self, typed: Typed, facts: Any, outcome: Outcome[Entry]) -> None:
        page, filler = self._hand.page, self._hand.filler()
        if typed != self._hand.typed or page is None or self.is_refused:
            return
        if outcome.refusal is not None:
            self._warn(outcome.refusal)
        elif outcome.value is not None:
            against = self._hand.against()
            messages = words.look_messages(outcome.value, page, typed, filler, facts)
            self._tell([*self._of_mean(typed), *label_messages(against), *messages])

    def _look_at_label(self, typed: Typed) -> None:
        """Say what the label of the lot in hand lacks by what its markets ask."""
        house, lot = self._desk.house, typed.lot.strip()
        self._tell([])
        if lot:
            now_ms, folder = house.clock(), self._desk.assets / "labels" / "content"
            self._desk.jobs.read(
                lambda: house.ask(
                    lambda view: jar_warnings(view, lot, now_ms, shipped_markets(folder))
                ),
                lambda outcome: self._label_seen(typed, outcome),
                about=(self, "label"),
            )

    def _label_seen(self, typed: Typed, outcome: Outcome[tuple[LabelWarning, ...]]) -> None:
        if typed == self._hand.typed and not self.is_refused and outcome.value:
            self._tell([label_warning(one) for one in outcome.value])

    def _of_mean(self, typed: Typed) -> list[Message]:
        """What the mean that is typed says against the declared net."""
        check = self._hand.check()
        if check is None or typed.kind not in (CHANGE, CLOSE) or not typed.mean.strip():
            return []
        return [mean_message(check, parse_mean_net_mg(typed.mean, field="mean_net_mg"))]

    def _warn(self, refusal: Refusal) -> None:
        """What would be refused, unless it is just being typed."""
        at = field_of(refusal, self._hand.typed.kind)
        quiet = refusal.key in NOT_YET or (at and at == self.typing)
        self._tell([] if quiet else [Message(Mark.WARNING, refusal_words(refusal))])
