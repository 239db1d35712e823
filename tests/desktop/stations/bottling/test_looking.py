"""What is said while a form is being typed: nothing too early, nothing that is not so."""

from honeyledger.desktop.marks import Mark
from honeyledger.desktop.messages import Message
from honeyledger.desktop.stations.bottling.hand import Hand
from honeyledger.desktop.stations.bottling.looking import Looking
from honeyledger.desktop.stations.bottling.typed import CHANGE, LABELS, START, WEIGH, Typed
from tests.desktop.bottling_rig import PRODUCT, Drums


class Looked:
    """A look at a form, and what was told of it."""

    def __init__(self, drums: Drums) -> None:
        self.drums, self.hand = drums, Hand()
        self.told: list[list[Message]] = []
        self.looking = Looking(drums.rig.desk, self.hand, self.told.append)
        self.hand.take_page(drums.page())

    def at(self, typed: Typed, typing: str = "") -> list[str]:
        """What is said of this."""
        self.hand.typed, self.looking.typing = typed, typing
        self.looking.look()
        self.drums.rig.settle()
        return [one.sentence for one in self.told[-1]]


def test_what_is_not_there_yet_is_not_complained_of(drums: Drums) -> None:
    looked = Looked(drums)
    assert looked.at(Typed(START)) == []
    drums.started()
    looked.hand.take_page(drums.page())
    assert looked.at(Typed(CHANGE)) == []


def test_what_is_just_being_typed_is_left_in_peace(drums: Drums) -> None:
    drums.started()
    looked = Looked(drums)
    assert looked.at(Typed(CHANGE, jars="12,"), "jars") == []
    (said,) = looked.at(Typed(CHANGE, jars="12,"))
    assert said.startswith("12, is not a whole number")
    assert looked.told[-1][0].mark is Mark.WARNING


def test_what_the_ledger_would_say(drums: Drums) -> None:
    looked = Looked(drums)
    typed = Typed(START, PRODUCT, feed="Tank 9")
    (said,) = looked.at(typed)
    assert said.startswith("There is no vessel or container called Tank 9.")
    drums.started()
    looked.hand.take_page(drums.page())
    assert looked.at(Typed(CHANGE, jars="10")) == [
        "10 jars: 5.0 kg from Drum 1, 95.0 kg left there."
    ]


def test_weighing_says_its_verdict_and_labels_nothing(drums: Drums) -> None:
    drums.started()
    looked = Looked(drums)
    assert looked.at(Typed(WEIGH)) == []
    looked.hand.typed = Typed(WEIGH, weight="502")
    looked.hand.weigh()
    assert looked.at(Typed(WEIGH))[0].startswith("In order: mean 502.0 g")
    assert looked.at(Typed(LABELS)) == []


def test_a_refusal_stands_until_something_else_is_typed(drums: Drums) -> None:
    looked = Looked(drums)
    looked.looking.is_refused = True
    looked.looking.look()
    drums.rig.settle()
    assert looked.told == []


def test_an_answer_that_comes_too_late_is_not_told(drums: Drums) -> None:
    drums.started()
    looked = Looked(drums)
    looked.hand.typed = Typed(CHANGE, jars="10")
    looked.looking.look()
    looked.hand.typed = Typed(CHANGE, jars="11")
    drums.rig.settle()
    assert looked.told == []
