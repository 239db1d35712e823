"""What dispatch knows, without a window: scans, signing once, the paper, drafts."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pypdfium2 import PdfDocument
from pytestqt.qtbot import QtBot

from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import Paper
from honeyledger.desktop.stations.dispatch.picking import Scanned
from honeyledger.desktop.stations.dispatch.presenter import DispatchPresenter
from honeyledger.desktop.stations.dispatch.typed import NoteTyped, Wanted
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.corrections import Reverse
from honeyledger.ledger.verbs.dispatch import DispatchLine
from honeyledger.ledger.verbs.quality import PutOnHold
from honeyledger.ledger.verbs.registers import Register
from tests.desktop.dispatch_rig import Goods
from tests.desktop.rig import DeskRig

CLOVER = "product/clover-500-g"


class Heard:
    """A presenter, and all it said."""

    def __init__(self, goods: Goods) -> None:
        self.goods = goods
        self.presenter = DispatchPresenter(goods.rig.desk)
        self.presenter.pause.setInterval(0)
        self.found: list[tuple[str, Scanned]] = []
        self.refused: list[Refusal] = []
        self.sent: list[tuple[str, Message]] = []
        self.printed: list[object] = []
        self.warned: list[list[Message]] = []
        self.presenter.found.connect(lambda code, what: self.found.append((code, what)))
        self.presenter.refused.connect(self.refused.append)
        self.presenter.sent.connect(lambda code, said: self.sent.append((code, said)))
        self.presenter.printed.connect(self.printed.append)
        self.told: list[str] = []
        self.presenter.warned.connect(self.warned.append)
        self.presenter.told.connect(lambda message: self.told.append(message.sentence))
        self.presenter.ask()
        self.settle()

    def settle(self) -> None:
        self.goods.rig.settle(self.presenter.pause)

    def scan(self, *codes: str) -> None:
        for code in codes:
            self.presenter.scan(code)
        self.settle()

    def send(self) -> None:
        self.presenter.send()
        self.settle()


@pytest.fixture
def goods(qtbot: QtBot, tmp_path: Path) -> Iterator[Goods]:
    rig = DeskRig(qtbot, tmp_path)
    yield Goods(rig)
    rig.close()


@pytest.fixture
def heard(goods: Goods) -> Heard:
    return Heard(goods)


def test_scans_fill_a_note_and_it_is_signed_once_and_printed(heard: Heard) -> None:
    goods, presenter = heard.goods, heard.presenter
    presenter.type("Packer", "PO 7", "Own van")
    heard.scan(goods.drum, goods.container, goods.old)
    assert heard.found == [
        (goods.drum, Scanned.ADDED),
        (goods.drum, Scanned.TWICE),
        (goods.old, Scanned.ADDED),
    ]
    presenter.count(goods.old, "40")
    presenter.send()
    presenter.send()
    heard.settle()
    ((code, message),) = heard.sent
    assert message.lead == f"{code} is signed: 2 lots, 300.0 kg to Packer."
    assert goods.said() == {
        "customer": "Packer",
        "lines": [{"code": goods.drum}, {"code": goods.old, "jars": 40}],
        "carrier": "Own van",
        "reference": "PO 7",
    }
    assert presenter.note == NoteTyped()
    file = goods.rig.folder / "papers" / f"{code}.pdf"
    assert heard.printed == [Paper(file)]
    text = PdfDocument(file)[0].get_textpage().get_text_bounded()
    assert "Own van" in text
    assert presenter.page is not None
    assert presenter.page.notes[0].code == code


def test_jars_scanned_one_by_one_are_sent_by_number(heard: Heard) -> None:
    goods = heard.goods
    heard.presenter.type("gate", "", "")
    heard.scan(*(goods.jar(goods.old, serial) for serial in (3, 9, 9, 4)))
    assert heard.presenter.note.picked[0].jars == "3"
    heard.presenter.span(goods.old, True)
    heard.send()
    assert goods.said() == {"customer": "gate", "lines": [{"code": goods.old, "jars": 7}]}


def test_a_hold_refuses_a_scan_with_its_way_and_the_rest_goes_on(heard: Heard) -> None:
    goods = heard.goods
    goods.rig.told(PutOnHold(goods.pull, "smells of smoke"))
    heard.scan(goods.old, goods.drum)
    assert heard.found == []
    fill = goods.rig.house.ask(lambda view: view.lot_by_code(goods.drum))
    assert fill is not None
    assert heard.refused[0].text.startswith(
        f"{goods.old} is on hold through {goods.pull}, by way "
    )
    assert heard.refused[1].text.startswith(
        f"{goods.drum} is on hold through {goods.pull}, by way of T26-"
    )


def test_what_is_held_meanwhile_is_told_and_refused(heard: Heard) -> None:
    goods = heard.goods
    heard.presenter.type("Packer", "", "")
    heard.scan(goods.drum)
    goods.rig.told(PutOnHold(goods.drum, "leaks"))
    heard.settle()
    assert [message.sentence for message in heard.warned[-1]] == [f"On hold. {goods.drum}: leaks"]
    heard.send()
    assert heard.refused[-1].key == "held"
    assert heard.presenter.note.picked, "the note stays as it is"


def test_somebody_signs_where_the_house_has_people(heard: Heard) -> None:
    goods = heard.goods
    badge = goods.rig.told(Register("operator", {"name": "Ann Reed"})).given[0]
    heard.settle()
    heard.presenter.type("Packer", "", "")
    heard.scan(goods.drum)
    heard.send()
    assert heard.refused[-1].text == (
        "Say who signs: scan a badge, or name a person who works here."
    )
    goods.rig.desk.operator = badge
    heard.send()
    assert goods.last().act.operator == badge


def test_what_is_still_to_pick_is_spoken_of_and_can_wait(heard: Heard) -> None:
    goods, presenter = heard.goods, heard.presenter
    presenter.type("Packer", "PO 7", "")
    presenter.want(CLOVER, "130")
    presenter.want("lots/D", "1")
    heard.scan(goods.old)
    assert presenter.note.picked[0].jars == "100"
    heard.send()
    assert heard.refused[-1].text == (
        "Still to pick: 30 Clover 500 g, 1 drum. Say whether that waits for a next note or is "
        "left out."
    )
    presenter.keeps_rest = True
    heard.send()
    assert len(heard.sent) == 1
    (rest,) = presenter.open.aside
    assert (rest.customer, rest.reference) == ("Packer", "PO 7")
    assert rest.wanted == (Wanted(CLOVER, 30), Wanted("lots/D", 1))
    presenter.take_up(0)
    heard.scan(goods.new)
    assert presenter.note.picked[0].jars == "30"
    presenter.keeps_rest = False
    heard.send()
    assert (len(heard.sent), presenter.open.aside) == (2, ())


def test_the_last_note_of_a_customer_is_wanted_again(heard: Heard) -> None:
    goods, presenter = heard.goods, heard.presenter
    goods.sent("Packer", DispatchLine(goods.old, jars=12), DispatchLine(goods.other_drum))
    heard.settle()
    presenter.type("Packer", "", "")
    assert presenter.repeat()
    assert presenter.note.wanted == (Wanted(CLOVER, 12), Wanted("lots/D", 1))


def test_open_notes_outlive_a_crash(heard: Heard) -> None:
    goods, presenter = heard.goods, heard.presenter
    presenter.type("Corner Shop", "", "")
    presenter.put_aside()
    presenter.type("Packer", "", "")
    heard.scan(goods.drum)
    again = Heard(goods)
    assert again.presenter.note == presenter.note
    assert [note.customer for note in again.presenter.open.aside] == ["Corner Shop"]


def test_what_was_signed_before_a_crash_is_not_open_again(heard: Heard) -> None:
    goods, presenter = heard.goods, heard.presenter
    presenter.type("Packer", "", "")
    heard.scan(goods.drum)
    kept = dict(goods.rig.desk.drafts.read("dispatch-ledger-1"))
    heard.send()
    goods.rig.desk.drafts.keep("dispatch-ledger-1", kept)
    before = goods.entries()
    again = Heard(goods)
    assert again.presenter.note == NoteTyped()
    code = heard.sent[0][0]
    assert again.told == [f"{code} was signed before the program stopped: it is kept once."]
    assert goods.entries() == before


def test_a_ledger_that_cannot_be_written_keeps_the_note(heard: Heard) -> None:
    goods = heard.goods
    heard.presenter.type("Packer", "", "")
    heard.scan(goods.drum)
    goods.rig.desk.jobs.close()
    heard.presenter.send()
    goods.rig.bot.waitUntil(lambda: bool(heard.refused))
    assert heard.refused[0].key == "no-more-taken"
    assert heard.presenter.note.picked


def test_a_reversed_note_is_not_printed(heard: Heard) -> None:
    goods = heard.goods
    code = goods.sent("Packer", DispatchLine(goods.drum))
    goods.rig.told(Reverse(goods.entries(), "wrong customer"))
    heard.presenter.print(code)
    heard.settle()
    (refusal,) = heard.printed
    assert isinstance(refusal, Refusal)
    assert refusal.key == "note-reversed"


def test_what_is_open_when_the_window_closes_is_kept(heard: Heard) -> None:
    goods = heard.goods
    heard.presenter.type("Packer", "", "")
    goods.rig.desk.refresh.broadcast(["closing"])
    heard.presenter.type("", "", "")
    assert heard.presenter.note.customer == "Packer", "fields that go say so, too"
    kept = goods.rig.desk.drafts.read("dispatch-ledger-1")
    assert kept["in_hand"] is True
