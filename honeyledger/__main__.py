"""`honeyledger`: the command line; `honeyledger window` hands over to the window."""

from honeyledger import garbage

garbage.is_loading()

import sys
from io import TextIOWrapper

from honeyledger import bootstrap
from honeyledger.commandline.desk import Desk, Wiring
from honeyledger.commandline.group import honeyledger


def wiring() -> Wiring:
    """What the program's root lends the command line."""
    return Wiring(
        settings=bootstrap.load_settings,
        house_named=bootstrap.house_named,
        open_house=bootstrap.open_house,
        sample_house=bootstrap.sample_house,
        clock_from=bootstrap.clock_from,
        station_name=bootstrap.station_name,
        local_zone=bootstrap.local_zone,
        back_up=bootstrap.back_up,
        keep_up=bootstrap.keep_up,
        open_window=bootstrap.open_window,
        open_first=bootstrap.open_first,
    )


def main() -> None:
    """Run the command that was typed and end with its exit code."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            # An old console may lack a sign; the answer is still to be read.
            stream.reconfigure(errors="replace")
    honeyledger.main(obj=Desk(wiring()))


if __name__ == "__main__":
    main()
