"""Small weights as people read them, and the mean net of jars."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.domain.units import format_weight, parse_mean_net_mg


def test_a_weight_below_a_kilogram_is_written_in_grams() -> None:
    assert [format_weight(grams) for grams in (0, 1, 999, 1000, -250)] == [
        *("0.0 kg", "1 g", "999 g", "1.0 kg", "−250 g"),
    ]
    assert format_weight(453_592, "lb") == "1\u202f000.0 lb"


def test_a_mean_net_is_read_in_grams_to_the_milligram() -> None:
    assert parse_mean_net_mg("502,4") == 502_400
    assert parse_mean_net_mg("502.4131 g") == 502_413
    assert parse_mean_net_mg("1,02 kg") == 1_020_000
    with pytest.raises(Refusal, match=r"502\.413 can mean 502\.4130 g or 502413 g"):
        parse_mean_net_mg("502.413")
    with pytest.raises(Refusal, match="cannot be a weight"):
        parse_mean_net_mg("10000000000000")
