"""Jars from a weight: plain division, no source."""

import pytest

from honeyledger.domain.jar_count import JarCount, jars_from
from honeyledger.domain.refusals import Refusal


@pytest.mark.parametrize(
    ("mass_g", "net_g", "over_mg", "lost_g", "found"),
    [
        (300_000, 500, 0, 0, JarCount(600, 0)),
        (300_499, 500, 0, 0, JarCount(600, 499)),
        (300_000, 500, 2_400, 0, JarCount(597, 67)),
        (300_000, 500, 2_400, 2_000, JarCount(593, 76)),
        (499, 500, 0, 0, JarCount(0, 499)),
        (500, 500, 0, 500, JarCount(0, 0)),
    ],
)
def test_whole_jars_and_what_is_left(
    mass_g: int, net_g: int, over_mg: int, lost_g: int, found: JarCount
) -> None:
    assert jars_from(mass_g, net_g, over_mg, lost_g) == found


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        jars_from(1_000, 0)
    assert refused.value.text == "Type what a jar holds: a weight above 0."
    with pytest.raises(Refusal) as refused:
        jars_from(1_000, 500, 0, 1_001)
    assert refused.value.text == (
        "Of 1.0 kg no more than that can be lost. Correct one of the two."
    )
