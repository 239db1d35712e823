"""The seal of a drum on the floor: typed or scanned behind the weights, and asked of nobody."""

from tests.desktop.floor_rig import Floor


def _sealed(floor: Floor) -> object:
    said = floor.last().facts["said"]
    assert isinstance(said, dict)
    return said.get("seal", "")


def test_a_seal_is_typed_behind_the_weights_and_no_drum_without_one_takes_a_key_more(
    floor: Floor,
) -> None:
    run = floor.loaded()
    floor.view.floor.choose("drum")
    floor.rig.type("100")
    floor.rig.type("20", enter=False)
    floor.rig.keys("Tab")
    assert floor.rig.focused() == "Seal, if one is put on"
    floor.rig.type("A {104}")
    assert floor.rig.toast().lead == "Drum D26-0001-C is filled: 80.0 kg. Its seal: A {104}."
    assert _sealed(floor) == "A {104}"
    assert floor.view.floor.form.seal.text() == "", "every drum has another"
    floor.rig.type("100")
    floor.rig.type("")
    assert floor.came_out(run) == ["80.0 kg", "80.0 kg"]
    assert _sealed(floor) == ""


def test_a_seal_is_scanned_kept_and_read_again_where_it_is_too_long(floor: Floor) -> None:
    floor.loaded()
    form = floor.view.floor.form
    floor.view.floor.choose("drum")
    floor.rig.type("100")
    floor.rig.type("20", enter=False)
    floor.rig.keys("Tab")
    floor.rig.scan("7" * 41)
    assert form.draft()["seal"] == "7" * 41
    floor.rig.keys("Return")
    assert "The number of a seal has 40 signs at most: read it again." in floor.says()
    assert floor.rig.focused() == "Seal, if one is put on"
    floor.rig.scan("ZK0099817")
    assert form.seal.text() == "ZK0099817", "what is scanned stands in the place of what was"
    floor.rig.keys("Return")
    assert _sealed(floor) == "ZK0099817"
    floor.rig.scan("ZK0099818")
    assert form.seal.text() == "", "elsewhere it is no code of the house"
