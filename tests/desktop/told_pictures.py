"""The pictures that the readme and the guide show, made anew from the sample season.

`python -m tests.desktop.told_pictures` writes them where they are kept, after a change that can be
seen; what stands on them is the pages of the tour named here.
"""

import os
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PIL import Image

from honeyledger.assets import resource
from tests.desktop import tour
from tests.desktop.tour import Stop

FOLDER = resource() / "pictures"
PICTURES = {
    "trace": Stop("trace-jar", (1440, 868)),
    "closing": Stop("extraction-closing"),
    "dock": Stop("dock-typed"),
    "drums": Stop("drums-way"),
}
# Of a picture's colours so many are kept: it looks the same, and its file is a third.
_COLOURS = 256


def write(folder: Path, names: Sequence[str] = tuple(PICTURES)) -> int:
    """Write these pictures; how many faults the tour finds in them."""
    with tempfile.TemporaryDirectory() as ground:
        stops = [PICTURES[name] for name in names]
        faults = tour.walk(Path(ground), stops, lambda words: print(words, flush=True))  # noqa: T201
        folder.mkdir(parents=True, exist_ok=True)
        for name in names:
            with Image.open(Path(ground) / PICTURES[name].name) as shown:
                few = shown.convert("RGB").quantize(_COLOURS, dither=Image.Dither.NONE)
            few.save(folder / f"{name}.png", optimize=True)
    return faults


if __name__ == "__main__":
    sys.exit(1 if write(FOLDER) else 0)
