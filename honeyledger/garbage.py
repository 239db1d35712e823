"""When Python looks for garbage: not while the program loads, and never in what it loaded.

Hardly anything that is loaded is ever garbage; looking for some every 700 objects, as Python does
by itself, takes a sixth of a start.
"""

import gc

# More than a whole window is made of.
_LOADING = 1_000_000
_WORKING = 10_000


def is_loading() -> None:
    """Much is being loaded: look for no garbage meanwhile."""
    gc.set_threshold(_LOADING)


def is_loaded() -> None:
    """What is there stays: look for garbage in what comes after it.

    Where nothing was being loaded nothing changes, since garbage would stay, too.
    """
    if gc.get_threshold()[0] == _LOADING:
        gc.freeze()
        gc.set_threshold(_WORKING)
