"""Returns, what is thrown away, samples, without a window: facts, refusals, drafts."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.dispatch.other_presenter import OtherPresenter
from honeyledger.desktop.stations.dispatch.other_typed import (
    AWAY,
    BACK,
    SAMPLE,
    TO_AWAY,
    TO_HOLD,
    OtherTyped,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.dispatch import DispatchLine
from honeyledger.services.dispatch_page import dispatch_page
from honeyledger.services.dispatch_returns import CameBack
from tests.desktop.dispatch_rig import Goods
from tests.desktop.rig import DeskRig


class Heard:
    """A presenter, and all it said."""

    def __init__(self, goods: Goods) -> None:
        self.goods = goods
        self.presenter = OtherPresenter(goods.rig.desk)
        self.presenter.pause.setInterval(0)
        self.back: list[CameBack | None] = []
        self.followed: list[Sequence[str]] = []
        self.refused: list[Refusal] = []
        self.warned: list[list[Message]] = []
        self.done: list[tuple[str, Message]] = []
        self.filled: list[str] = []
        self.presenter.came_back.connect(self.back.append)
        self.presenter.followed.connect(self.followed.append)
        self.presenter.refused.connect(self.refused.append)
        self.presenter.warned.connect(self.warned.append)
        self.presenter.done.connect(lambda kind, said: self.done.append((kind, said)))
        self.presenter.filled.connect(self.filled.append)
        self.show()

    def show(self) -> None:
        house = self.goods.rig.house
        self.presenter.show_page(
            house.ask(lambda view: dispatch_page(view, self.goods.rig.now_ms))
        )
        self.settle()

    def settle(self) -> None:
        self.goods.rig.settle(self.presenter.pause)

    def type(self, at: str = "", **texts: str) -> None:
        self.presenter.type(replace(self.presenter.now(), **texts), at)
        self.settle()

    def scan(self, code: str) -> None:
        self.presenter.scan(code)
        self.settle()

    def record(self) -> None:
        self.presenter.record()
        self.settle()


@pytest.fixture
def goods(qtbot: QtBot, tmp_path: Path) -> Iterator[Goods]:
    rig = DeskRig(qtbot, tmp_path)
    made = Goods(rig)
    made.note = made.sent("Packer", DispatchLine(made.old, jars=40), DispatchLine(made.drum))
    yield made
    rig.close()


@pytest.fixture
def heard(goods: Goods) -> Heard:
    return Heard(goods)


def test_a_scan_says_who_has_it_and_what_follows(heard: Heard) -> None:
    goods = heard.goods
    heard.scan(goods.jar(goods.old, 12))
    assert heard.presenter.now() == OtherTyped(goods.old, "Packer")
    assert heard.back[-1] is not None
    assert [one.jars for one in heard.back[-1].holders] == [40]
    assert heard.followed[-1] == (
        f"40 jars, 20.0 kg of {goods.old} come back from Packer.",
        "They can be sent again.",
    )
    assert heard.warned[-1] == [], "a reason that is not said yet is not worth a word"


def test_some_jars_come_back_for_a_reason_and_once(heard: Heard) -> None:
    goods = heard.goods
    heard.scan(goods.old)
    heard.type(jars="12")
    heard.record()
    assert heard.refused[-1].text == "Give the reason in a word or two."
    heard.type(reason="broken")
    heard.presenter.record()
    heard.presenter.record()
    heard.settle()
    ((kind, message),) = heard.done
    assert (kind, message.lead) == (BACK, f"12 jars, 6.0 kg of {goods.old} came back.")
    assert goods.said() == {
        "customer": "Packer",
        "code": goods.old,
        "reason": "broken",
        "jars": 12,
    }
    assert heard.presenter.now() == OtherTyped()
    assert heard.back[-1] is None


def test_what_comes_back_can_be_thrown_away_or_held_in_one_command(heard: Heard) -> None:
    goods = heard.goods
    heard.scan(goods.old)
    heard.type(jars="2", reason="broken", goes=TO_AWAY)
    heard.record()
    entries = goods.rig.house.ask(lambda view: view.entries(last=2))
    assert [entry.kind for entry in entries] == ["take back", "discard"]
    assert len({entry.act.command for entry in entries}) == 1
    heard.scan(goods.drum)
    heard.type(reason="wrong", goes=TO_HOLD)
    heard.record()
    entries = goods.rig.house.ask(lambda view: view.entries(last=2))
    assert [entry.kind for entry in entries] == ["take back", "hold"]
    assert heard.done[-1][1].lead == f"280.0 kg of {goods.drum} came back; the lot is on hold."


def test_nothing_of_a_return_is_half_written(heard: Heard) -> None:
    goods = heard.goods
    heard.scan(goods.old)
    heard.type(jars="41", reason="broken", goes=TO_AWAY)
    before = goods.entries()
    assert heard.warned[-1][0].lead == (
        f"Packer has 40 jars of {goods.old} in the books, not 41. Count again."
    )
    heard.record()
    assert goods.entries() == before
    assert heard.refused[-1].field == "jars"


def test_a_whole_note_comes_back_by_its_code(heard: Heard) -> None:
    goods = heard.goods
    heard.scan(goods.note)
    heard.type(reason="unsold")
    heard.record()
    assert heard.done[-1][1].lead == f"40 jars, 300.0 kg of {goods.note} came back."


def test_what_nobody_has_is_said_so(heard: Heard) -> None:
    goods = heard.goods
    heard.scan(goods.aster)
    assert heard.back[-1] is not None
    assert heard.back[-1].holders == ()
    heard.type(party="Packer", reason="broken")
    heard.record()
    assert heard.refused[-1].text == (
        f"Packer has nothing of {goods.aster} in the books: check the code on what came back."
    )
    heard.scan("J26-0099-9")
    assert heard.refused[-1].field == "code"


def test_honey_is_thrown_away_with_what_follows_first(heard: Heard) -> None:
    goods = heard.goods
    heard.presenter.choose(AWAY)
    heard.scan(goods.aster)
    heard.type(jars="10")
    assert heard.followed[-1][0] == (
        f"10 jars, 2.5 kg of {goods.aster} leave the books as thrown away."
    )
    heard.type(reason="other", words="rusty lids")
    heard.record()
    assert goods.said() == {"code": goods.aster, "reason": "rusty lids", "jars": 10}


def test_a_sample_is_of_every_lot_scanned_once(heard: Heard) -> None:
    goods = heard.goods
    heard.presenter.choose(SAMPLE)
    for code in (goods.other_drum, goods.aster, goods.other_drum):
        heard.scan(code)
    heard.type(net="500", kept="shelf 3")
    assert heard.followed[-1][0].endswith("are taken as a sample, with a code of their own.")
    heard.record()
    assert goods.said() == {
        "lots": [goods.other_drum, goods.aster],
        "net_g": 500,
        "kept_at": "shelf 3",
    }


def test_what_is_just_being_typed_is_not_complained_of(heard: Heard) -> None:
    heard.presenter.choose(AWAY)
    heard.type("lot", lot="J26")
    assert heard.warned[-1] == []
    heard.type("words", words="x")
    assert heard.warned[-1][0].lead.startswith("J26 is not a code")
    assert heard.followed[-1] == ()


def test_each_form_is_kept_and_comes_back(heard: Heard) -> None:
    goods = heard.goods
    heard.type(lot=goods.old, jars="5")
    heard.presenter.choose(AWAY)
    heard.type(lot=goods.aster, reason="spilt")
    again = Heard(goods)
    assert again.presenter.typed[BACK] == OtherTyped(goods.old, jars="5")
    assert again.presenter.typed[AWAY] == OtherTyped(goods.aster, reason="spilt")
    assert set(again.filled) == {BACK, AWAY}
    kept = goods.rig.desk.drafts.read("dispatch-other-ledger-1")["away"]
    assert isinstance(kept, dict)
    again.presenter.choose(AWAY)
    again.record()
    assert goods.last().act.command == kept["command"]
    again.presenter.choose(BACK)
    again.presenter.clear(BACK)
    again.settle()
    assert goods.rig.desk.drafts.read("dispatch-other-ledger-1") == {}
