"""Shipped files are found, and a missing one is refused by name."""

from pathlib import Path

import pytest

from honeyledger import assets
from honeyledger.assets import resource
from honeyledger.domain.refusals import Refusal


def test_a_shipped_folder_is_found_in_the_checkout() -> None:
    folder = resource("fonts")
    assert folder.is_dir()
    assert folder == Path(assets.__file__).resolve().parent.parent / "resources" / "fonts"


def test_what_the_package_carries_comes_before_the_checkout(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    carried, beside = tmp_path / "_resources", tmp_path / "resources"
    for folder in (carried, beside):
        folder.mkdir()
        (folder / "stock.toml").write_text(folder.name)
    (beside / "only.toml").write_text("")
    monkeypatch.setattr(assets, "_FOLDERS", (carried, beside))
    assert resource("stock.toml").read_text() == "_resources"
    assert resource("only.toml").parent == beside


def test_a_missing_file_is_refused_with_what_to_do() -> None:
    with pytest.raises(Refusal) as refused:
        resource("no such folder", "no such file.csv")
    assert refused.value.text == (
        "The program's own file no such folder/no such file.csv is missing; "
        "install Honeyledger again."
    )
