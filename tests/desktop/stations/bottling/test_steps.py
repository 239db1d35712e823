"""What follows at the filler when something else happens, is scanned, or was recorded."""

from dataclasses import replace

from honeyledger.desktop.stations.bottling.steps import (
    After,
    after_change,
    after_close,
    after_start,
    chosen,
    fitting,
    kinds_now,
    scanned,
    with_feed,
)
from honeyledger.desktop.stations.bottling.typed import (
    CHANGE,
    CLOSE,
    LABELS,
    LEFT,
    START,
    WEIGH,
    AtFiller,
    Typed,
)
from honeyledger.ledger.verbs.bottling import Bottle, ChangeOver
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.bottling import feed_of
from honeyledger.services.bottling_page import Wanted
from tests.desktop.bottling_rig import PRODUCT, Drums

NEW = AtFiller()


def _ready(drums: Drums) -> Typed:
    return Typed(START, product=PRODUCT, order=(drums.first, drums.second))


def test_what_can_happen() -> None:
    assert kinds_now(is_open=True) == (WEIGH, CHANGE, CLOSE, LABELS)
    assert kinds_now(is_open=False) == (START, LABELS, LEFT)


def test_the_only_product_need_not_be_chosen(drums: Drums) -> None:
    assert fitting(Typed(), drums.page(), NEW).product == PRODUCT
    drums.tell(Register("product", {"name": "Amber 1 kg", "net_g": 1000}), "")
    assert fitting(Typed(), drums.page(), NEW).product == ""
    assert chosen(Typed(LEFT), START, drums.page(), NEW).product == ""


def test_a_form_fits_what_is_open(drums: Drums) -> None:
    assert fitting(Typed(WEIGH), drums.page(), NEW).kind == START
    drums.started()
    assert fitting(_ready(drums), drums.page(), NEW).kind == WEIGH
    assert fitting(Typed(CLOSE), drums.page(), NEW) == Typed(CLOSE)


def test_a_change_over_begins_with_the_next_feed_and_a_drum_that_ran_empty(drums: Drums) -> None:
    drums.started()
    made = chosen(Typed(WEIGH, order=(drums.second,)), CHANGE, drums.page(), NEW)
    assert (made.next, made.empty) == (drums.second, "yes")
    again = replace(made, empty="no", next="Tank 1")
    assert chosen(again, CHANGE, drums.page(), NEW) == again
    assert chosen(again, CLOSE, drums.page(), NEW).empty == "no"


def test_labels_begin_with_all_jars_there_will_be(drums: Drums) -> None:
    code = drums.started()
    made = chosen(Typed(WEIGH, order=(drums.second,)), LABELS, drums.page(), NEW)
    assert (made.lot, made.first, made.last) == (code, "1", "320")


def test_a_scanned_drum_is_one_more_in_the_order(drums: Drums) -> None:
    page = drums.page()
    after = scanned(page, Typed(product=PRODUCT), NEW, drums.second)
    assert after == After(Typed(product=PRODUCT, order=(drums.second,)), "feed")
    container = next(row for row in page.feeds if row.name == "Drum 2").codes[1]
    again = scanned(page, after.typed, NEW, container)
    assert again == After(after.typed, "feed", note="Drum 2")
    assert scanned(page, Typed(), NEW, drums.first).at == "product"  # type: ignore[union-attr]
    feed = feed_of(page.feeds, drums.first)
    assert feed is not None
    assert with_feed(Typed(feed="dru"), feed).typed.feed == ""


def test_a_scanned_drum_is_the_next_one_and_the_running_one_is_empty(drums: Drums) -> None:
    drums.started()
    page = drums.page()
    after = scanned(page, Typed(WEIGH), NEW, drums.second)
    assert after is not None
    assert (after.typed.kind, after.typed.next, after.at) == (CHANGE, drums.second, "jars")
    after = scanned(page, replace(after.typed, empty="no"), NEW, drums.first)
    assert after is not None
    assert (after.typed.empty, after.typed.next, after.at) == ("yes", drums.second, "jars")
    after = scanned(page, Typed(WEIGH), NEW, drums.first)
    assert after is not None
    assert (after.typed.kind, after.at) == (CHANGE, "next")
    after = scanned(page, Typed(CLOSE, empty="no"), NEW, drums.first)
    assert after is not None
    assert (after.typed.kind, after.typed.empty, after.at) == (CLOSE, "yes", "jars")


def test_a_scanned_jar_is_the_counter_of_its_bottling(drums: Drums) -> None:
    code = drums.started()
    page = drums.page()
    after = scanned(page, Typed(WEIGH, case="3"), AtFiller(counter=100), code, 40)
    assert after is not None
    assert (after.typed.kind, after.typed.jars, after.typed.case) == (CHANGE, "140", "")
    after = scanned(page, Typed(CLOSE), NEW, code, 40)
    assert after is not None
    assert after.typed.kind == CLOSE


def test_another_open_bottling_is_taken_in_hand(drums: Drums) -> None:
    drums.started()
    second = drums.started(drums.second)
    assert scanned(drums.page(), Typed(WEIGH), NEW, second) == After(Typed(WEIGH), bottling=second)


def test_a_jar_lot_is_one_whose_labels_are_wanted_only_where_labels_are(drums: Drums) -> None:
    code = drums.started()
    drums.tell(Bottle(code, 100))
    page = drums.page()
    assert scanned(page, Typed(START), NEW, code) is None
    after = scanned(page, Typed(LABELS), NEW, code, 7)
    assert after == After(Typed(LABELS, lot=code, first="7", last="7"), "first")


def test_a_drum_whose_rest_is_weighed(drums: Drums) -> None:
    after = scanned(drums.page(), Typed(LEFT), NEW, drums.first)
    assert after == After(Typed(LEFT, lot=drums.first), "gross")
    assert scanned(drums.page(), Typed(LEFT), NEW, drums.tank) is None
    assert scanned(drums.page(), Typed(), NEW, "D26-0099-X") is None


def test_what_comes_after_each_entry(drums: Drums) -> None:
    typed = replace(_ready(drums), counter="5", why="by name")
    assert after_start(typed) == Typed(WEIGH, product=PRODUCT, order=(drums.second,))
    drums.started()
    changing = Typed(CHANGE, order=(drums.second,), next="Drum 2", jars="9", case_size="12")
    assert after_change(changing, drums.page(Wanted())) == Typed(WEIGH, case_size="12")
    done = Typed(CLOSE, product=PRODUCT, jars="9", rejects="1")
    assert after_close(done, "J26-0001-L", "") == Typed(START, product=PRODUCT)
    assert after_close(done, "J26-0001-L", "D26-0001-C").kind == LEFT
    later = after_close(replace(done, in_line="no"), "J26-0001-L", "D26-0001-C")
    assert (later.kind, later.lot) == (LABELS, "J26-0001-L")


def test_after_a_change_over_to_nothing_new_the_order_stays(drums: Drums) -> None:
    code = drums.started()
    drums.tell(ChangeOver(code, jars=20))
    typed = Typed(CHANGE, order=(drums.second,))
    assert after_change(typed, drums.page()).order == (drums.second,)
