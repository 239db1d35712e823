"""Tags of vessels, equipment and samples say what is on record."""

from honeyledger.ledger.verbs.quality import Sample
from honeyledger.ledger.verbs.registers import Register
from honeyledger.services.label_forms import EquipmentTag, PlainTag, SampleLabel, VesselLabel
from honeyledger.services.labelling import label_rows
from tests.support.books import code_in
from tests.support.houses import BuiltHouse


def _tag(house: BuiltHouse, code: str) -> PlainTag:
    (row,) = house.house.ask(lambda view: list(label_rows(view, code)))
    assert isinstance(row, PlainTag)
    return row


def test_a_tank_a_scale_and_a_container() -> None:
    house = BuiltHouse()
    done = house.do(
        Register("vessel", {"name": "Tank 2", "sort": "tank", "capacity_g": 1_200_000})
    )
    tank = _tag(house, code_in(done, "E"))
    assert isinstance(tank, VesselLabel)
    assert (tank.sort, tank.name, tank.house) == ("tank", "Tank 2", "Test House")
    assert tank.facts == (("Holds", "1\u202f200.0 kg"),)
    done = house.do(Register("equipment", {"name": "Drum scale", "number": "K-77"}))
    scale = _tag(house, code_in(done, "E"))
    assert isinstance(scale, EquipmentTag)
    assert (scale.sort, scale.facts) == ("equipment", (("Number", "K-77"),))
    done = house.do(Register("drum", {"name": "Drum 7", "tare_g": 18_200}))
    assert _tag(house, code_in(done, "E")).facts == (("Tare", "18.2 kg"),)


def test_a_sample_pot_says_what_it_is_of() -> None:
    house = BuiltHouse()
    house.yard("Creek")
    house.vessel("Tank")
    house.load("Creek", 100_000, "Tank")
    drum = house.drum("Tank", 50_000)
    sample = code_in(house.do(Sample((drum,), 200, "shelf 2", "before shipment")), "X")
    pot = _tag(house, sample)
    assert isinstance(pot, SampleLabel)
    assert (pot.code, pot.name) == (sample, f"of {drum}")
    assert [caption for caption, _ in pot.facts] == ["Taken", "For", "Kept at"]
    assert pot.facts[1:] == (("For", "before shipment"), ("Kept at", "shelf 2"))
