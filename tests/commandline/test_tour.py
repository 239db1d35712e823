"""The tour: the whole main job on the sample season, with everything it says being real."""

import re

from tests.support.terminal import NOTHING, Terminal


def test_the_tour_goes_from_the_dock_to_a_jar_traced_back(bare: Terminal) -> None:
    said = bare.do("tour")
    commands = [line[2:].split()[1] for line in said.splitlines() if line.startswith("$ ")]
    assert commands == [
        *("receive", "run", "load", "fill", "fill", "measure", "measure", "limits", "cappings"),
        *("run", "change-over", "bottle", "labels", "dispatch", "trace", "trace", "audit"),
    ]
    assert "Above 18 %: dry first, wet honey ferments." in said
    assert re.search(r"hmf +at most 40 mg/kg +<5 +pass", said)
    assert re.search(r"adds up to +0\.0 kg", said)
    assert "invariants hold." in said
    folder = re.search(r"labels are in (.+)\.\n", said)
    assert folder
    assert bare.head() == NOTHING
