"""The note in hand, without a window: its lines, what the ledger would say, several at once."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.dispatch.note_presenter import NotePresenter
from honeyledger.desktop.stations.dispatch.typed import NoteTyped, Picked, Wanted
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.dispatch_page import dispatch_page
from tests.desktop.dispatch_rig import Goods
from tests.desktop.rig import DeskRig

CLOVER = "product/clover-500-g"


@pytest.fixture
def goods(qtbot: QtBot, tmp_path: Path) -> Iterator[Goods]:
    rig = DeskRig(qtbot, tmp_path)
    yield Goods(rig)
    rig.close()


class Heard:
    """A presenter of one note, and all it said."""

    def __init__(self, goods: Goods) -> None:
        self.goods = goods
        self.presenter = NotePresenter(goods.rig.desk)
        self.presenter.pause.setInterval(0)
        self.presenter.page = goods.rig.house.ask(
            lambda view: dispatch_page(view, goods.rig.now_ms)
        )
        self.warned: list[list[Message]] = []
        self.refused: list[Refusal] = []
        self.switched = 0
        self.presenter.warned.connect(self.warned.append)
        self.presenter.refused.connect(self.refused.append)
        self.presenter.switched.connect(self._switched)

    def _switched(self) -> None:
        self.switched += 1

    def put(self, *picked: Picked, customer: str = "Packer") -> None:
        """A note with these lines in hand."""
        note = NoteTyped(customer, picked=picked)
        self.presenter.bring_back(note)
        self.settle()

    def settle(self) -> None:
        self.goods.rig.settle(self.presenter.pause)

    def says(self) -> list[str]:
        return [message.sentence for message in self.warned[-1]]


@pytest.fixture
def heard(goods: Goods) -> Heard:
    return Heard(goods)


def test_the_first_fields_are_typed(heard: Heard) -> None:
    heard.presenter.type("Packer", "PO 7", "Own van")
    heard.settle()
    note = heard.presenter.note
    assert (note.customer, note.reference, note.carrier) == ("Packer", "PO 7", "Own van")
    assert note.command
    assert heard.presenter.customer() == "packer"
    assert heard.says() == []


def test_an_order_is_asked_for_and_a_wrong_number_refused(heard: Heard) -> None:
    assert heard.presenter.want(CLOVER, "24x12")
    assert heard.presenter.note.wanted == (Wanted(CLOVER, 288),)
    assert heard.presenter.has_rest()
    assert not heard.presenter.want(CLOVER, "many")
    assert heard.refused[-1].field == "jars"
    assert heard.presenter.note.wanted == (Wanted(CLOVER, 288),)
    heard.presenter.take_off(CLOVER)
    assert not heard.presenter.has_rest()


def test_numbers_and_weights_are_taken_as_typed(heard: Heard) -> None:
    goods = heard.goods
    heard.put(Picked(goods.old, "J"), Picked(goods.drum, "D"))
    presenter = heard.presenter
    assert not presenter.is_said(goods.old)
    assert heard.refused[-1].key == "how-many-go"
    presenter.count(goods.old, "40")
    assert presenter.is_said(goods.old)
    presenter.weigh(goods.drum, "1.234")
    assert not presenter.is_said(goods.drum)
    presenter.weigh(goods.drum, "50")
    assert presenter.is_said(goods.drum)
    assert presenter.is_said("J26-0099-9"), "of what is not on the note there is nothing to say"
    presenter.span(goods.old, True)
    assert presenter.note.picked[0].jars == "40"


def test_the_ledger_says_beforehand_what_it_would_refuse(heard: Heard) -> None:
    goods = heard.goods
    heard.put(Picked(goods.old, "J", jars="101"))
    assert heard.says() == [f"There are 100 jars of {goods.old} here, not 101. Count again."]
    heard.presenter.count(goods.old, "12,5")
    heard.settle()
    assert heard.says() == ["12,5 is not a whole number: type a number of jars, such as 24."]
    heard.presenter.count(goods.old, "")
    heard.settle()
    assert heard.says() == [], "what is not said yet is not worth a word"
    heard.put(Picked(goods.old, "J", jars="5"), customer="Nobody")
    assert heard.says()[0].startswith("There is no customer called Nobody.")


def test_honey_not_eligible_where_the_customer_is_is_said_first(heard: Heard) -> None:
    goods = heard.goods
    record = {"name": "Mill Lane", "not_for": "Norland"}
    goods.rig.house.record(Register("yard", record, goods.yard))
    goods.rig.house.record(Register("customer", {"name": "Fjord Foods", "market": "Norland"}))
    heard.put(Picked(goods.new, "J", jars="10"), customer="Fjord Foods")
    assert heard.says() == [
        f"Fjord Foods is in Norland, and {goods.new} is not eligible for export there, because "
        f"of {goods.pull} from Mill Lane. Take it off the note, or put those records right.",
        f"{goods.old} is older than {goods.new} and is here still: the oldest goes first.",
    ]
    heard.put(Picked(goods.old, "J", jars="10"), customer="Packer")
    assert heard.says() == []


def test_a_note_without_a_customer_yet_is_looked_at_all_the_same(heard: Heard) -> None:
    goods = heard.goods
    heard.put(Picked(goods.old, "J", jars="101"), customer="")
    assert heard.says() == [f"There are 100 jars of {goods.old} here, not 101. Count again."]
    heard.put(Picked(goods.new, "J", jars="10"), customer="")
    assert heard.says() == [
        f"{goods.old} is older than {goods.new} and is here still: the oldest goes first."
    ]


def test_what_was_refused_stands_until_something_else_is_said(heard: Heard) -> None:
    heard.put(Picked(heard.goods.old, "J"))
    heard.presenter.is_said(heard.goods.old)
    told = len(heard.warned)
    heard.presenter.pause.start()
    heard.settle()
    assert len(heard.warned) == told
    heard.presenter.count(heard.goods.old, "5")
    heard.settle()
    assert len(heard.warned) > told


def test_notes_are_put_aside_taken_up_cleared_and_brought_back(heard: Heard) -> None:
    presenter = heard.presenter
    presenter.type("Packer", "", "")
    presenter.put_aside()
    assert presenter.note == NoteTyped()
    presenter.type("Corner Shop", "", "")
    presenter.keeps_rest = True
    presenter.take_up(0)
    assert presenter.note.customer == "Packer"
    assert presenter.keeps_rest is None
    presenter.take_up(7)
    assert [note.customer for note in presenter.open.aside] == ["Corner Shop"]
    gone = presenter.clear()
    assert (gone.customer, presenter.note) == ("Packer", NoteTyped())
    presenter.bring_back(gone)
    assert presenter.note.customer == "Packer"
    assert [note.customer for note in presenter.open.aside] == ["Corner Shop"]
    assert heard.switched == 4


def test_the_last_note_of_a_customer_is_wanted_again(heard: Heard) -> None:
    from_before = heard.presenter
    from_before.type("Packer", "", "")
    assert not from_before.repeat(), "Packer had nothing"
