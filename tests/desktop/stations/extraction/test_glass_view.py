"""A heel by the mark on the sight glass, by keys; without a vessel's size it is typed."""

from honeyledger.ledger.verbs.registers import Register
from tests.desktop.floor_rig import Floor


def _to_the_heel(floor: Floor) -> None:
    floor.loaded()
    floor.view.floor.close_run.click()
    floor.rig.settle()


def test_a_mark_is_chosen_by_keys_and_signed_as_read_by_mark(floor: Floor) -> None:
    record = {"name": "Tank 1", "sort": "tank", "fed_by": floor.line, "capacity_g": 1_000_000}
    floor.rig.told(Register("vessel", record, floor.tank))
    _to_the_heel(floor)
    form = floor.view.floor.form
    assert not form.glass.isVisible(), "it is dipped unless somebody says otherwise"
    floor.rig.type("")
    floor.rig.keys("Right")
    assert form.glass.isVisible()
    assert [button.text() for button in form.glass.buttons()][:2] == ["200", "400"]
    assert form.glass.buttons()[1].accessibleName() == "On the sight glass, kg: mark 2 of 5, 400"
    floor.rig.type("")
    floor.rig.keys("Right")
    floor.rig.type("")
    assert form.heel.text() == "400.0"
    floor.rig.type("")
    (heel,) = floor.view.presenter.heels
    assert (heel.grams, heel.how) == (400_000, "mark")


def test_a_dip_in_cm_weighs_what_the_vessel_holds_so_deep(floor: Floor) -> None:
    record = {"name": "Tank 1", "sort": "tank", "fed_by": floor.line, "capacity_g": 1_000_000}
    floor.rig.told(Register("vessel", record | {"depth_cm": 80}, floor.tank))
    _to_the_heel(floor)
    form = floor.view.floor.form
    floor.rig.type("")
    floor.rig.type("")
    assert form.dip.isVisible()
    floor.rig.type("6", enter=False)
    assert form.heel.text() == "75.0"
    floor.rig.type("")
    floor.rig.type("")
    (heel,) = floor.view.presenter.heels
    assert (heel.grams, heel.how) == (75_000, "dip")
    form.dip.set_text("90")
    form.glasses._dipped("90")
    assert form.heel.text() == "1\u202f000.0", "no more than it holds"


def test_without_the_vessel_s_size_the_weight_is_typed(floor: Floor) -> None:
    _to_the_heel(floor)
    form = floor.view.floor.form
    floor.rig.type("40")
    floor.rig.keys("Right")
    assert form.how.key() == "mark"
    assert not form.glass.isVisible()
