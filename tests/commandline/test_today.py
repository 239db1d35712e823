"""What there is to do today, on the terminal and on paper."""

from pathlib import Path

from tests.support.printing import text_of
from tests.support.terminal import Terminal


def test_the_day_on_the_terminal_for_programs_and_on_paper(
    terminal: Terminal, tmp_path: Path
) -> None:
    words = ("--customer", "Corner shop", "--due", "20 Jul 2026", "--goods", "12 drums")
    terminal.do("register", "order", "add", "PO 118", *words)
    lines = terminal.do("today").splitlines()
    assert lines[0].split() == ["station", "what", "of"]
    said = "order PO 118 of Corner Shop: 12 drums, due 20 Jul 2026"
    assert any(said in line and "overdue" in line for line in lines)
    value = terminal.json("today")
    assert lines[-1] == f"{len(value['rows'])} to do, {value['overdue']} of them overdue."
    (order,) = [row for row in value["rows"] if row["station"] == "Dispatch"]
    assert (order["when"], order["what"]) == ("overdue", said)
    file = tmp_path / "today.pdf"
    assert terminal.do("today", "-o", str(file)) == f"Day sheet: {file}\n"
    assert "PO 118" in text_of(file.read_bytes())
