"""Small forms on a real house: previews, refusals, recording, drafts; without widgets."""

from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.models.asked import AT, Ask, FormSpec, FormTyped, LineTyped, Reading
from honeyledger.desktop.models.asking import Asking
from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import parse_mass_g, parse_moisture
from honeyledger.ledger.sources import Weight
from honeyledger.ledger.verbs.drums import Reweigh
from honeyledger.ledger.verbs.measuring import Measure
from honeyledger.ledger.verbs.quality import PutOnHold
from tests.desktop.drums_rig import Cellar
from tests.desktop.rig import DeskRig


def _weighed(typed: FormTyped, reading: Reading) -> Sequence[Reweigh]:
    grams = parse_mass_g(typed.text("net"), reading.unit, field="net_g")
    return [Reweigh(typed.text("drum"), Weight(net_g=grams))]


def _read(typed: FormTyped, _reading: Reading) -> Sequence[Measure]:
    return [
        Measure(line.code, parse_moisture(line.text("moisture"), field=f"moisture{AT}{line.code}"))
        for line in typed.lines
    ]


WEIGH = FormSpec(
    *("weigh", "Weigh", "Scan it.", "Keep it"),
    rows=((Ask("drum", "Drum"), Ask("net", "Net")),),
    facts=_weighed,
    done=lambda typed, _done, reading: f"{typed.text('drum')}: {reading.unit}",
    scan="drum",
    fields={"net_g": "net"},
)
READ = FormSpec(
    *("read", "Read", "Scan them.", "Keep them"),
    rows=((Ask("lot", "Drum"),),),
    facts=_read,
    done=lambda _typed, done, _reading: f"{len(done.entries)} read",
    scan="lot",
    line=(Ask("moisture", "Moisture"),),
)
HOLD = FormSpec(
    *("hold", "Hold", "Say why.", "Hold it"),
    rows=((Ask("reason", "Reason"),),),
    facts=lambda typed, _reading: [PutOnHold("D26-0001-C", typed.text("reason"))],
    done=lambda _typed, _done, _reading: "held",
)


class Forms:
    """A desk on a house with drums, three forms, and what they said."""

    def __init__(self, rig: DeskRig) -> None:
        self.rig = rig
        self.cellar = Cellar(rig)
        rig.desk.operator = self.cellar.badge
        self.asking = self.made()
        self.warned: list[Message] = []
        self.refused: list[Refusal] = []
        self.done: list[tuple[str, Message]] = []
        self.asking.warned.connect(self._warned)
        self.asking.refused.connect(self.refused.append)
        self.asking.done.connect(lambda kind, message: self.done.append((kind, message)))

    def made(self) -> Asking:
        """The forms, as the window makes them."""
        asking = Asking(self.rig.desk, "test", [WEIGH, READ, HOLD])
        asking.pause.setInterval(0)
        asking.show_page(object(), "ledger-1", asking.reading().today)
        self.rig.settle(asking.pause)
        return asking

    def _warned(self, messages: Sequence[Message]) -> None:
        self.warned = list(messages)

    def type(self, typed: FormTyped, at: str = "") -> None:
        """Type, and pause."""
        self.asking.type(typed, at)
        self.rig.settle(self.asking.pause)

    def record(self) -> None:
        """Press the button."""
        self.asking.record()
        self.rig.settle(self.asking.pause)


@pytest.fixture
def forms(qtbot: QtBot, tmp_path: Path) -> Iterator[Forms]:
    rig = DeskRig(qtbot, tmp_path)
    yield Forms(rig)
    rig.close()


def test_what_the_ledger_would_say_is_said_before_it_is_recorded(forms: Forms) -> None:
    before = forms.rig.head()
    forms.type(FormTyped({"drum": forms.cellar.first, "net": "0"}))
    assert [one.mark for one in forms.warned] == [Mark.WARNING]
    assert forms.warned[0].lead == "A net weight of 0.0 kg is nothing. Weigh again."
    forms.type(FormTyped({"drum": forms.cellar.first, "net": "0,"}), at="net")
    assert forms.warned == [], "what is just being typed is not refused"
    assert forms.rig.head() == before


def test_what_was_refused_stands_and_nothing_is_written(forms: Forms) -> None:
    before = forms.rig.head()
    forms.type(FormTyped({"drum": "D26-0999-X", "net": "10"}))
    forms.record()
    assert [refusal.field for refusal in forms.refused] == ["drum"]
    forms.type(FormTyped({"drum": forms.cellar.first, "net": "x"}))
    forms.record()
    assert forms.refused[-1].field == "net_g"
    assert forms.rig.head() == before
    assert forms.asking.now().text("net") == "x"


def test_what_is_recorded_is_told_can_be_reversed_and_empties_the_form(forms: Forms) -> None:
    forms.asking.scan(forms.cellar.first)
    forms.type(forms.asking.now().with_value("net", "299.5"))
    forms.record()
    ((kind, message),) = forms.done
    assert (kind, message.lead) == ("weigh", f"{forms.cellar.first}: kg")
    assert message.about == forms.rig.head()[0]
    assert forms.asking.now() == FormTyped()


def test_of_a_list_the_line_that_was_refused_is_found(forms: Forms) -> None:
    forms.asking.choose("read")
    good = LineTyped(forms.cellar.second, {"moisture": "17"})
    bad = LineTyped(forms.cellar.third, {"moisture": "71"})
    before = forms.rig.head()
    forms.type(FormTyped({}, (good, bad)))
    forms.record()
    assert [refusal.field for refusal in forms.refused] == [f"moisture@{forms.cellar.third}"]
    assert forms.rig.head() == before, "all of a list is kept, or nothing"
    forms.type(FormTyped({}, (good, LineTyped(forms.cellar.third, {"moisture": "18"}))))
    forms.record()
    assert forms.done[-1][1].lead == "2 read"
    newest = forms.rig.head()[0]
    message = forms.done[-1][1]
    assert (message.action, message.about) == ("Reverse", (newest - 1, newest))


def test_a_line_is_taken_off_and_a_form_without_a_scan_takes_none(forms: Forms) -> None:
    forms.asking.choose("read")
    assert forms.asking.scan("A")
    assert forms.asking.scan("B")
    forms.asking.take_off("A")
    assert [line.code for line in forms.asking.now().lines] == ["B"]
    forms.asking.choose("hold")
    assert not forms.asking.scan("A")


def test_half_a_form_outlives_the_window_and_is_recorded_once(forms: Forms) -> None:
    forms.type(FormTyped({"drum": forms.cellar.first, "net": "298"}))
    forms.rig.desk.refresh.broadcast(("closing",))
    forms.type(FormTyped())
    again = forms.made()
    assert again.typed["weigh"].text("net") == "298", "fields that go with the window say nothing"
    before = forms.rig.head()[0]
    for asking in (again, forms.made()):
        asking.record()
        forms.rig.settle(asking.pause)
    assert forms.rig.head()[0] == before + 1


def test_a_second_press_while_it_is_recorded_does_nothing(forms: Forms) -> None:
    before = forms.rig.head()[0]
    forms.type(FormTyped({"drum": forms.cellar.first, "net": "298"}))
    forms.asking.record()
    forms.asking.record()
    forms.rig.settle(forms.asking.pause)
    assert forms.rig.head()[0] == before + 1


def test_a_note_that_asks_for_something_stands_as_a_warning(forms: Forms) -> None:
    forms.asking.choose("read")
    forms.type(FormTyped({}, (LineTyped(forms.cellar.second, {"moisture": "18.0"}),)))
    assert forms.warned == []
    forms.type(FormTyped({}, (LineTyped(forms.cellar.second, {"moisture": "18.1"}),)))
    assert [(one.mark, one.lead) for one in forms.warned] == [
        (Mark.WARNING, "Above 18 %: dry first, wet honey ferments.")
    ]
