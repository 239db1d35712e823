"""Other labels of the same row."""

import pytest

from honeyledger.domain.refusals import Refusal
from honeyledger.services.label_forms import DRUM_STICKER, LID_SEAL, DrumSticker, LidSeal, in_form
from tests.support import printing


def test_a_row_is_printed_as_another_of_its_labels() -> None:
    drum, jar = printing.drum_label(), printing.jar_label()
    (sticker,) = in_form([drum], DRUM_STICKER)
    (seal,) = in_form([jar], LID_SEAL)
    assert isinstance(sticker, DrumSticker)
    assert isinstance(seal, LidSeal)
    assert (sticker.code, seal.code, seal.net_g) == (drum.code, jar.code, 500)
    assert in_form([drum], "") == [drum]


@pytest.mark.parametrize("form", [LID_SEAL, "poster"])
def test_what_it_has_no_label_of_is_refused(form: str) -> None:
    drum = printing.drum_label()
    with pytest.raises(Refusal) as refused:
        in_form([drum], form)
    assert refused.value.text == (
        f"{drum.code} has no {form}: leave --as out, or choose of drum sticker, jar front, jar "
        "back, lid seal for drums and jars."
    )
