"""A table on a terminal: no code is wrapped or cut, and nothing typed is taken for markup."""

import io

from rich.console import Console

from honeyledger.commandline.output import Column
from honeyledger.commandline.rich_table import draw


def _drawn(width: int) -> str:
    stream = io.StringIO()
    console = Console(file=stream, width=width, highlight=False, markup=False, emoji=False)
    columns = (Column("code"), Column("weight", right=True), Column("why", wraps=True))
    rows = [["J26-0147-00382-F", "1 234.5 kg", "yard [north] :bee: asked for it twice"]]
    draw(columns, rows, console)
    return stream.getvalue()


def test_markup_of_a_name_is_kept() -> None:
    assert "yard [north] :bee: asked for it twice" in _drawn(120)


def test_a_code_is_never_wrapped_and_prose_may_be() -> None:
    drawn = _drawn(45)
    assert "J26-0147-00382-F  1 234.5 kg" in drawn
    assert len(drawn.splitlines()) > 2
    assert "J26-0147-00382-F  1 234.5 kg" in _drawn(20)
