import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from honeyledger.ledger.canonical import text_of
from honeyledger.persistence.short_values import SIGNS, WHEN, short_value, written_value

AT_MS = 1_882_115_700_000
KEYS = st.sampled_from(["grams", "jars", "to", "by", "balance", "lots", "in_g"]) | st.text()
TEXTS = st.sampled_from(["sealed", "customer/C1", "\x01", "\x1f"]) | st.text()
VALUES = st.recursive(
    st.integers() | st.just(AT_MS) | TEXTS,
    lambda parts: st.lists(parts) | st.dictionaries(KEYS, parts),
    max_leaves=12,
)

FORMS = {
    '{"grams":99000,"jars":198}': "\x0199000\x02198}",
    '{"to":"customer/customer-050"}': '\x03customer-050"}',
    '"sealed"': "\x04",
    "[1882115700000,1882115700000]": "[\x1f,\x1f]",
    "1850": "1850",
    '"Gr\u00f6\u00dfe 5 kg"': '"Gr\u00f6\u00dfe 5 kg"',
}


@pytest.mark.parametrize("text", FORMS)
def test_values_as_stored(text: str) -> None:
    assert short_value(text, AT_MS) == FORMS[text]
    assert written_value(FORMS[text], AT_MS) == text


@given(VALUES, st.just(AT_MS) | st.integers())
def test_every_value_is_read_back(value: object, at_ms: int) -> None:
    text = text_of(value)
    stored = short_value(text, at_ms)
    assert written_value(stored, at_ms) == text
    assert len(stored) <= len(text)
    assert "\0" not in stored


@given(VALUES, VALUES)
def test_no_two_values_have_one_short_form(value: object, other: object) -> None:
    one, two = text_of(value), text_of(other)
    assert (short_value(one, AT_MS) == short_value(two, AT_MS)) == (one == two)


def test_no_sign_is_in_any_other_s_part() -> None:
    assert WHEN not in SIGNS.values()
    assert len(set(SIGNS.values())) == len(SIGNS)
    for part in SIGNS:
        assert not re.search("[\x00-\x1f]", part)
        assert not any(other != part and other.startswith(part) for other in SIGNS)
