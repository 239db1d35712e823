"""The bottling without a window: what it records, refuses, prints and keeps."""

import pytest

from honeyledger.desktop.messages import Message
from honeyledger.desktop.printing import Paper
from honeyledger.desktop.stations.bottling.presenter import BottlingPresenter
from honeyledger.desktop.stations.bottling.typed import (
    CHANGE,
    LABELS,
    LEFT,
    START,
    WEIGH,
    Typed,
)
from honeyledger.domain.refusals import Refusal
from honeyledger.ledger.verbs.bottling import Bottle
from honeyledger.ledger.verbs.quality import PutOnHold
from tests.desktop.bottling_rig import PRODUCT, Drums


class Heard:
    """A presenter, and everything it has said."""

    def __init__(self, drums: Drums) -> None:
        self.drums = drums
        self.presenter = BottlingPresenter(drums.rig.desk)
        self.presenter.pause.setInterval(0)
        self.warned: list[list[Message]] = []
        self.refused: list[Refusal] = []
        self.done: list[Message] = []
        self.printed: list[Paper | None] = []
        self.begun: list[str] = []
        self.filled: list[str] = []
        presenter = self.presenter
        presenter.warned.connect(self.warned.append)
        presenter.refused.connect(self.refused.append)
        presenter.done.connect(self.done.append)
        presenter.printed.connect(self.printed.append)
        presenter.begun.connect(lambda: self.begun.append(self.typed.kind))
        presenter.filled.connect(self.filled.append)
        self.ask()

    @property
    def typed(self) -> Typed:
        return self.presenter.hand.typed

    def ask(self) -> None:
        self.presenter.ask()
        self.settle()

    def settle(self) -> None:
        self.drums.rig.settle(self.presenter.pause)

    def type(self, typed: Typed, at: str = "") -> None:
        self.presenter.type(typed, at)
        self.settle()

    def submit(self) -> None:
        self.presenter.submit()
        self.settle()

    def scan(self, code: str) -> bool:
        self.drums.wait()
        used = self.presenter.scan(code)
        self.settle()
        return used


@pytest.fixture
def heard(drums: Drums) -> Heard:
    return Heard(drums)


def _started(heard: Heard) -> str:
    heard.type(Typed(START, PRODUCT, (heard.drums.first, heard.drums.second)))
    heard.submit()
    return heard.presenter.hand.bottling


def test_a_start_is_recorded_once_and_weighing_begins(heard: Heard) -> None:
    before = heard.drums.entries()
    heard.type(Typed(START, PRODUCT, (heard.drums.first,)))
    heard.presenter.submit()
    heard.presenter.submit()
    heard.settle()
    assert heard.drums.entries() == before + 1
    assert heard.begun[-1] == WEIGH
    assert heard.done[0].about == before + 1
    assert heard.presenter.hand.sheet() is not None
    assert heard.drums.rig.desk.newest == before + 1


def test_what_is_refused_stands_until_something_is_typed(heard: Heard) -> None:
    _started(heard)
    heard.type(Typed(CHANGE, jars="1.5"))
    heard.submit()
    assert heard.refused[-1].field == "jars"
    count = len(heard.warned)
    heard.settle()
    assert len(heard.warned) == count
    heard.type(Typed(CHANGE, jars="15"))
    assert heard.warned[-1][0].sentence.startswith("15 jars: ")


def test_the_ledger_s_refusal_leaves_the_form_as_it_is(heard: Heard) -> None:
    typed = Typed(START, PRODUCT, ("Tank 9",))
    heard.type(typed)
    heard.submit()
    assert heard.refused[-1].field == "feed"
    assert heard.typed == typed
    assert heard.drums.page().bottlings == ()


def test_feeds_are_added_one_after_another(heard: Heard) -> None:
    heard.type(Typed(START, PRODUCT))
    assert not heard.presenter.add_feed()
    heard.type(Typed(START, PRODUCT, feed="drum 1"))
    assert heard.presenter.add_feed()
    heard.settle()
    assert (heard.typed.order, heard.typed.feed) == ((heard.drums.first,), "")
    assert heard.presenter.hand.page is not None
    assert heard.presenter.hand.page.makeup is not None
    heard.type(Typed(START, PRODUCT, (heard.drums.first,), feed="Drum 2"))
    heard.submit()
    assert heard.typed.order == (heard.drums.first, heard.drums.second), "typed is not lost"


def test_a_feed_the_books_see_empty_is_taken_where_the_ledger_knows_it(heard: Heard) -> None:
    heard.type(Typed(START, PRODUCT, feed="Tank 1"))
    assert heard.presenter.add_feed()
    heard.settle()
    assert heard.typed.order == ("Tank 1",)
    heard.type(Typed(START, PRODUCT, feed="Tank 9"))
    heard.presenter.add_feed()
    heard.settle()
    assert heard.refused[-1].text.startswith("There is no vessel or container called Tank 9.")
    heard.type(Typed(START, "Lime", feed="478"))
    heard.presenter.add_feed()
    heard.settle()
    assert heard.refused[-1].field == "product"
    assert heard.typed.order == (), "nobody knows yet whether that is a feed"


def test_held_feeds_are_taken_into_the_order_and_told(heard: Heard) -> None:
    heard.drums.tell(PutOnHold(heard.drums.first, "taste"))
    heard.ask()
    heard.scan(heard.drums.first)
    assert heard.typed.order == (heard.drums.first,)
    assert "on hold" in heard.warned[-1][0].sentence
    heard.submit()
    assert heard.refused[-1].key == "held-asks"


def test_a_feed_that_a_hold_travelled_to_is_taken_into_the_order(heard: Heard) -> None:
    heard.drums.tell(PutOnHold("Mill Lane", "residue"))
    heard.ask()
    heard.type(Typed(START, PRODUCT, feed="Drum 1"))
    assert heard.presenter.add_feed()
    heard.settle()
    assert heard.typed.order == (heard.drums.first,)
    heard.submit()
    assert heard.refused[-1].key == "held-by-way-asks"


def test_jars_are_weighed_and_a_wrong_weight_is_refused(heard: Heard) -> None:
    _started(heard)
    heard.type(Typed(WEIGH, weight="502"))
    heard.submit()
    assert heard.presenter.hand.filler().weights_mg == (502_000,)
    assert heard.filled[-1] == "weight"
    heard.type(Typed(WEIGH, weight="50"))
    heard.submit()
    assert heard.refused[-1].key == "not-such-a-jar"
    heard.type(Typed(WEIGH))
    begun = len(heard.begun)
    heard.submit()
    assert len(heard.begun) == begun + 1, "nothing typed: back to the first field"
    heard.presenter.clear()
    assert heard.presenter.hand.filler().weights_mg == ()
    heard.presenter.clear()
    assert heard.typed == Typed(WEIGH)


def test_a_double_scan_and_a_feed_scanned_twice_say_so(heard: Heard) -> None:
    heard.scan(heard.drums.first)
    assert heard.presenter.scan(heard.drums.first)
    assert heard.warned[-1][0].lead == f"{heard.drums.first} was scanned a moment ago."
    heard.scan(heard.drums.second)
    heard.drums.wait()
    assert heard.presenter.scan(heard.drums.first)
    assert heard.warned[-1][0].lead == "Drum 1 is in the order already."
    assert heard.typed.order == (heard.drums.first, heard.drums.second)
    assert not heard.scan("G26-0001-3")


def test_another_bottling_that_is_scanned_is_taken_in_hand(heard: Heard) -> None:
    first = _started(heard)
    second = heard.drums.started(heard.drums.second)
    heard.ask()
    heard.scan(second)
    assert heard.presenter.hand.bottling == second
    heard.presenter.take_in_hand(first)
    heard.settle()
    sheet = heard.presenter.hand.sheet()
    assert sheet is not None
    assert sheet.bottling.code == first


def test_labels_into_a_file_or_a_sentence(heard: Heard) -> None:
    code = _started(heard)
    heard.presenter.choose(LABELS)
    heard.type(Typed(LABELS, lot=code, first="1", last="12"))
    heard.submit()
    assert heard.printed[-1] == Paper(heard.drums.rig.folder / "papers" / f"{code} 1 to 12.pdf")
    heard.type(Typed(LABELS, lot=code, first="x"))
    heard.submit()
    assert heard.refused[-1].field == "first"
    heard.type(Typed(LABELS, lot="J26-0099-X", last="3"))
    heard.submit()
    assert heard.printed[-1] is None
    heard.drums.tell(Bottle(code, 60))
    heard.presenter.print_labels(code)
    heard.settle()
    told = heard.printed[-1]
    assert told.file == heard.drums.rig.folder / "papers" / f"{code}.pdf"
    assert [str(note) for note in told.notes] == [
        "Printed before: serials 1–12. No two jars may carry one code, so throw the older labels "
        "away."
    ]


def test_what_was_recorded_before_a_crash_is_recorded_once(heard: Heard) -> None:
    """The draft on disk still has the form and its id, though the ledger has the entry."""
    heard.type(Typed(START, PRODUCT, (heard.drums.first,)))
    drafts = heard.drums.rig.desk.drafts
    (file,) = drafts.folder.iterdir()
    kept = file.read_text()
    heard.submit()
    entries = heard.drums.entries()
    file.write_text(kept)
    again = Heard(heard.drums)
    assert again.typed.kind == START, "the form is there once more, as it was left"
    again.submit()
    assert heard.drums.entries() == entries
    assert again.presenter.hand.bottling == heard.presenter.hand.bottling


def test_a_closing_window_keeps_what_is_typed(heard: Heard) -> None:
    heard.presenter.type(Typed(LEFT, lot="D", gross="12"))
    heard.drums.rig.desk.refresh.broadcast({"closing"})
    heard.presenter.type(Typed(LEFT))
    again = Heard(heard.drums)
    assert again.typed == Typed(LEFT, lot="D", gross="12")
