"""Where each thing that happens in the sample season can be seen: the rows of its guide.

    (cd /tmp && PYTHONPATH=REPO python -m tests.support.sample_guide)

writes resources/sample/README.md anew. {names} are what the sample's files call things.
"""

import re
from typing import NamedTuple

from honeyledger.assets import resource
from tests.support.sample import code


class Seen(NamedTuple):
    """What happens, the command that shows it, and the words to look for in its answer."""

    what: str
    command: str
    words: str


ROWS: tuple[tuple[str, tuple[Seen, ...]], ...] = (
    (
        "The crop and the hot room",
        (
            Seen(
                "Supers put on, a treatment, a pull too soon",
                'yard-days "Thrumley Road"',
                "Treated with formic acid pads",
            ),
            Seen("A flag for a disease, and nothing pulled", "yard-days Ivermoss", "Flagged for"),
            Seen("A certificate for moving", "yard-days Underhedge", "MV 26-41"),
            Seen(
                "A pallet with two yards",
                "stock --place pallet",
                "{Barley Knuckle on pallet 107} pull pallet {pallet 107}",
            ),
            Seen(
                "A pallet split",
                "lot {Fennimark on pallet 94}",
                "Split: 14 supers, 179.6 kg from pallet {pallet 94} to pallet {pallet 94b}",
            ),
            Seen(
                "Supers counted again",
                "lot {Yarrowby on pallet 107}",
                "Counted again: 14.6 kg less on pallet {pallet 107}",
            ),
            Seen("The hot room's air", 'room show "Hot room"', "34.5 °C 41 %"),
            Seen(
                "A green pallet dried for 46 hours",
                "lot {Fennimark on pallet 94}",
                "46 h in Hot room; moisture 18.0 %",
            ),
            Seen(
                "Frames given back to the bees",
                "lot {Windrow Seven on pallet 8}",
                "13 frames, set in the comb, given to bees",
            ),
            Seen(
                "A pallet under treatment hold, stopped at the uncapper", "holds", "Thrumley Road"
            ),
        ),
    ),
    (
        "Extraction",
        (
            Seen(
                "12 supers carried over to the next run",
                "run show {run 10}",
                "{Ninepin Bluff on pallet 33} Ninepin Bluff 12",
            ),
            Seen(
                "An untagged pallet: unknown honey, amended the next day",
                "lot {unknown 1}",
                "Amended: from Teasel End, not source not known",
            ),
            Seen(
                "A day's paper receipts typed after its run",
                "lot {Teasel End on pallet 37}",
                "24 Jul 2026 08:23 Loaded: 714.9 kg",
            ),
            Seen(
                "A wrong yard found after shipping",
                "lot {Wrenlatch East on pallet 54}",
                "Amended: from Wrenlatch West, not Wrenlatch East",
            ),
            Seen(
                "A wrong yard seen the same evening, taken out of reach by name",
                "lot {Upper Tansel on pallet 30}",
                "seen at the truck: pull sheet in hand",
            ),
            Seen(
                "A drum topped up the next day",
                "lot {drum 31}",
                "Filled: 293.2 kg of D26-0043-T (199.0 kg) and T26-0072-6 (94.2 kg)",
            ),
            Seen("The line washed once, the sump on Sundays", "entries --kind wash", "1 Aug 2026"),
            Seen(
                "Cappings left overnight across two runs",
                "lot {barrel 7}",
                "146.0 kg of {Quernhollow on pallet 16} (32.9 kg)",
            ),
            Seen(
                "A run weighed with its pallets: 0.86 of the estimate",
                "mass-balance {run 14}",
                "Estimates were off by 13.9 %",
            ),
            Seen(
                "A run kept without times",
                "lot {drum 63}",
                "and 10 more in its reach; in run {run 11}",
            ),
            Seen(
                "A tote refilled unwashed",
                "lot {tote 1}",
                "D26-0045-P in its reach",
            ),
            Seen("A reversal: one drum typed twice", "entries --kind reverse", "reverses"),
            Seen(
                "A refractometer 0.4 low for a week: read again",
                "lot {drum 110}",
                "1 Sep 2026 13:45 Measured: moisture 17.0 %",
            ),
            Seen(
                "A contract owner's run, settled by name",
                "statement {run 18}",
                "Wendt Harloff 110",
            ),
        ),
    ),
    (
        "Comb, cappings, wax",
        (
            Seen("Cut comb, 340 g a piece", "lot {comb 1}", "Cut: 258.4 kg"),
            Seen("Chunk honey", "lot {chunk 1}", "Chunk honey: 80.0 kg"),
            Seen("Wax from the melter", "lot {wax 1}", "heated to 82.0 °C"),
            Seen("Bakery honey, and whom it went to", "lot {pail 37}", "to Lowfold Bakery"),
        ),
    ),
    (
        "Blends and jars",
        (
            Seen("A creamed batch seeded from the last one", 'blends "Creaming tank"', "seed"),
            Seen(
                "Last season's honey in a blend, planned against weighed",
                "lot {old drum 1}",
                "Blended: 100.4 kg from Drum 151 to Bottling tank; 100.0 kg planned",
            ),
            Seen("A drum warmed too far", "lot {drum 18}", "Warmed: 24 h, up to 43.0 °C"),
            Seen(
                "Packaging lots named at bottling",
                "trace {bottling 1}",
                "their lot TL 511",
            ),
            Seen(
                "A broken jar that holds 40 others",
                "lot {bottling 8}",
                "Discarded: 41 jars",
            ),
            Seen("Underfills scraped back", "lot {bottling 3}", "Scraped back: 7 jars"),
            Seen("A jar of each bottling kept back", "lot {bottling 3}", "Sampled: 250 g"),
            Seen(
                "Jars labelled on a later day, for the house and for a shop, with lid seals",
                "lot {bottling 10}",
                "400 jars as Pantry creamed 375 g, roll 705 to 1106, 2 labels torn, lid seals",
            ),
            Seen("Jars in cases on a shipping pallet", "lot {bottling 12}", "Packed: 240 jars"),
            Seen("Complaints, one answered, with their yards", "complaints", "Mrs Tollard"),
        ),
    ),
    (
        "Trade",
        (
            Seen(
                "A truck of 66 drums with contract and seals",
                "drum-list {note truck}",
                "66 in all",
            ),
            Seen(
                "A sample approved before shipment",
                "lot {drum 36}",
                "Corvane Packing approved sample",
            ),
            Seen(
                "The buyer's scale 0.2 % less",
                "lot {drum 36}",
                "Weighed by the buyer: 552 g less",
            ),
            Seen("A refused load back", "lot {drum 110}", "Taken back: 293.2 kg"),
            Seen("Jars that came back", "lot {bottling 3}", "Taken back: 24 jars"),
            Seen("Title over while drums stay", "lot {drum 114}", "Title transferred"),
            Seen("Empties owed", "owed", "Corvane Packing"),
            Seen("The farm gate by day", "gate-sales", "8 Aug 2026"),
            Seen("Honey bought without a certificate", "lot {bought 5}", "LR 40902"),
            Seen("One refused at 20.4 %, sent back", "lot {bought 10}", "Sent back: 288.9 kg"),
            Seen(
                "A drum of last season of unknown yards",
                "lot {old drum 3}",
                "100.0 % source not known",
            ),
            Seen(
                "A drum found on a walk through a row",
                "lot {found in row D}",
                "perhaps a 7",
            ),
            Seen("Where drums stand", 'standing "Drum store"', "{found in row D}"),
            Seen(
                "A pull held, with all that is made of it",
                "holds",
                "strips were left in two hives during the flow",
            ),
            Seen(
                "One drum of it cleared while the pull stays held",
                "lot {drum 74}",
                "Cleared of the hold on",
            ),
        ),
    ),
    (
        "All together",
        (
            Seen("Every gram since the ledger began", "mass-balance", "not accounted for 0.0 kg"),
            Seen("Every invariant", "audit", "invariants hold"),
        ),
    ),
)

INTRO = """\
# The sample season

An invented house, Larkslough, in an invented summer: 40 yards, 1,200 colonies, 26 runs. Its tables
here are such as a house keeps in a spreadsheet; `honeyledger sample` takes them in through the
imports and verbs that everyone has. Nobody in it is real. Weights, counts and readings are common
practice, no source. The 25th of September, 15:40, is its now: run 26 is open, a bottling runs, and
supers of the last pulls still wait.

`packaging/make_sample.py` writes the tables. This page is written by `tests.support.sample_guide`,
and each command on it is run by a test.

## Where to see what happens

```
honeyledger --house demo.honeyledger sample
```

Then type `honeyledger --house demo.honeyledger` and what stands in the middle.
"""


def filled(text: str) -> str:
    """The text with codes in the place of names."""
    return re.sub(r"\{([^}]+)\}", lambda found: code(found[1]), text)


def guide() -> str:
    """The whole page."""
    parts = [INTRO]
    for title, rows in ROWS:
        lines = [f"### {title}", "", "| what happens | type | look for |", "| --- | --- | --- |"]
        for row in rows:
            lines.append(f"| {row.what} | `{filled(row.command)}` | {filled(row.words)} |")
        parts.append("\n".join(lines) + "\n")
    return "\n".join(parts)


if __name__ == "__main__":
    resource("sample", "README.md").write_text(guide(), encoding="utf-8")
