"""What a mixture ties together, in one line."""

from honeyledger.desktop.models.tied_words import tied_words
from honeyledger.services.tied import Tied


def test_the_worst_source_and_what_only_mixing_brings_back() -> None:
    tied = Tied(140_000, 2, "Alder", 340_000, 1_240, 1, 40_000)
    assert tied_words(tied, "kg").replace("\u202f", " ").replace("\u00a0", " ") == (
        "Back with Alder, the worst of 2: 340 kg, 1 240 jars, 1 customer; 40 kg by mixing."
    )


def test_one_source_adds_nothing() -> None:
    tied = Tied(100_000, 1, "Alder", 100_000, 0, 0, 0)
    assert tied_words(tied, "kg").replace("\u00a0", " ") == (
        "Back with Alder, its only source: 100 kg, 0 jars, 0 customers."
    )
