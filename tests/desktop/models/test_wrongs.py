"""What is usually wrong, to choose from."""

from honeyledger.desktop.models.wrongs import wrongs


def test_each_is_there_once_in_words() -> None:
    words = wrongs()
    assert len(words) == len(set(words)) == 6
    assert "glass or metal" in words
