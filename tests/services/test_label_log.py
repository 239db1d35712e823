"""What was printed is known again: by a tag's mark, by the serials of jars."""

import pytest

from honeyledger.ledger.verbs.printing import Printed
from honeyledger.services.label_forms import DRUM_STICKER, JAR_BACK, JAR_FRONT, LID_SEAL, in_form
from honeyledger.services.label_log import (
    marked,
    put_on_record,
    told_before,
    told_of_code,
    told_of_copies,
)
from honeyledger.services.papers import JarLabel
from tests.support import printing
from tests.support.houses import BuiltHouse


@pytest.fixture
def house() -> BuiltHouse:
    return BuiltHouse()


def test_a_drums_label_and_its_sticker_are_counted_apart(house: BuiltHouse) -> None:
    drum = printing.drum_label()
    (sticker,) = in_form([drum], DRUM_STICKER)
    assert put_on_record([drum, drum], 3) == [Printed("drum label", drum.code, 6)]
    house.do(Printed("drum label", drum.code, 3))
    label, small = house.house.ask(lambda view: marked(view, [drum, sticker]))
    assert (label.again, small.again) == (1, 0)
    told = house.house.ask(lambda view: told_before(view, [label]))
    assert told == "It was printed before: this is reprint 1."
    assert house.house.ask(lambda view: told_before(view, [small])) is None


def test_of_jars_the_serials_are_kept_and_nothing_is_marked(house: BuiltHouse) -> None:
    jars = [printing.jar_label(serial) for serial in (4, 5, 6, 9)]
    lot = printing.jar_label().lot
    facts = put_on_record(jars)
    assert facts == [
        Printed("jar label", lot, 1, 4, 6),
        Printed("jar label", lot, 1, 9, 9),
    ]
    for one in facts:
        house.do(one)
    assert house.house.ask(lambda view: marked(view, jars)) == jars
    told = house.house.ask(lambda view: told_before(view, [printing.jar_label(5), *jars[3:]]))
    assert told == (
        "Printed before: serials 5. No two jars may carry one code, so throw the older labels "
        "away."
    )
    assert house.house.ask(lambda view: told_before(view, [printing.jar_label(7)])) is None


def test_the_jars_of_a_house_with_a_prefix_are_known_too() -> None:
    jar = printing.jar_label()
    prefixed = JarLabel("QF-J26-0146-00382-A", "QF-J26-0146-N", jar.product, 500, "", "")
    (fact,) = put_on_record([prefixed])
    assert (fact.of, fact.first, fact.last) == ("QF-J26-0146-N", 382, 382)


def test_a_front_has_no_code_and_says_where_it_is(house: BuiltHouse) -> None:
    jar = printing.jar_label(7)
    front, back, seal = (in_form([jar], form) for form in (JAR_FRONT, JAR_BACK, LID_SEAL))
    nowhere = (
        "The front has no code: it is on the back and on the lid seal, and neither was printed "
        "yet. A jar without one of them is traced by its lot at best."
    )
    assert house.house.ask(lambda view: told_of_code(view, front)) == nowhere
    for rows in (back, seal, [jar]):
        assert house.house.ask(lambda view, rows=rows: told_of_code(view, rows)) is None
    house.do(put_on_record(seal)[0])
    assert (
        house.house.ask(lambda view: told_of_code(view, front))
        == "The front has no code: it is on the back or on the lid seal."
    )
    house.do(put_on_record(front)[0])
    told = house.house.ask(lambda view: told_before(view, front))
    assert told == "Such fronts were printed before for this lot."


def test_a_jars_own_code_twice_is_told_of() -> None:
    jar = printing.jar_label()
    (front,) = in_form([jar], JAR_FRONT)
    assert told_of_copies([jar], 3) == "Each jar's own code comes 3 times: put one on a jar."
    assert told_of_copies([jar], 1) is None
    assert told_of_copies([front, printing.drum_label()], 3) is None
