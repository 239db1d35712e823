"""The fields offer what there is, and say what counts where they are left blank."""

from honeyledger.desktop.stations.bottling.known_view import KnownFields
from honeyledger.desktop.stations.bottling.typed import (
    CHANGE,
    CLOSE,
    LABELS,
    LEFT,
    START,
    AtFiller,
    Typed,
)
from honeyledger.ledger.verbs.bottling import Bottle
from tests.desktop.bottling_rig import Drums


def test_the_choices_are_what_is_in_the_house(drums: Drums) -> None:
    form = KnownFields()
    form.offer(None, Typed())
    assert form.feed.choices() == ()
    drums.tell(Bottle(drums.started(drums.second), 20))
    code = drums.started()
    form.offer(drums.page(), Typed(LABELS))
    assert [(one.text, one.note) for one in form.product.choices()] == [("Clover 500 g", "500 g")]
    assert [(one.text, one.note) for one in form.feed.choices()] == [
        ("Drum 1", "100 kg"),
        ("Drum 2", "50 kg"),
    ]
    lots = [one.key for one in form.lot.choices()]
    assert code in lots
    assert len(lots) == 2
    form.offer(drums.page(), Typed(LEFT))
    assert [one.text for one in form.lot.choices()] == ["Drum 1", "Drum 2"]


def test_what_is_chosen_stays_chosen(drums: Drums) -> None:
    form = KnownFields()
    form.offer(drums.page(), Typed())
    form.next.set_key(drums.second)
    drums.drum("Drum 3", "Top", 20_000)
    form.offer(drums.page(), Typed())
    assert form.next.key() == drums.second
    assert len(form.next.choices()) == 3


def test_a_page_that_was_offered_is_not_worked_out_again(drums: Drums) -> None:
    form, page = KnownFields(), drums.page()
    form.offer(page, Typed())
    feeds = form.feed.choices()
    form.offer(page, Typed(LEFT))
    form.offer(page, Typed())
    assert form.feed.choices() is feeds
    assert form.next.choices() is feeds


def test_labels_at_rest(drums: Drums) -> None:
    form = KnownFields()
    form.tell(drums.page(), Typed(START, order=(drums.first, "Tank 9")), AtFiller())
    assert form.feed.label.text() == "Drum 1, Tank 9, then"
    form.tell(drums.page(), Typed(LEFT), AtFiller())
    assert form.lot.label.text() == "Drum"
    form.tell(drums.page(), Typed(LABELS), AtFiller())
    assert (form.lot.label.text(), form.feed.label.text()) == ("Jar lot", "Filled from: scan it")


def test_labels_of_a_bottling_say_what_counts_if_nothing_is_typed(drums: Drums) -> None:
    drums.started()
    form = KnownFields()
    filler = AtFiller(((0, 502_000),), counter=12_340)
    form.tell(drums.page(), Typed(CHANGE, empty="yes"), filler)
    assert form.jars.label.text() == "Counter, else ≈ 12\u202f539"
    assert form.mean.label.text() == "Mean, else 502.0"
    assert form.empty.label.text() == "Drum 1 ran empty"
    assert [button.text() for button in form.empty.buttons()] == ["yes", "no"]
    form.empty.set_key("no")
    form.tell(drums.page(), Typed(CLOSE, empty="no"), filler)
    assert form.jars.label.text() == "Counter now"
    assert [button.text() for button in form.empty.buttons()] == ["the rest", "nothing"]
    assert form.empty.key() == "no"
