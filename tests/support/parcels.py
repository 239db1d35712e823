"""Invented drums and pallets for plans, always the same for one seed."""

import random

from honeyledger.services.planning import Parcel


def drums(seed: int, count: int, yards: int = 40) -> list[Parcel]:
    """Drums of some yards each, mostly neighbours, as runs of a season make them."""
    rng = random.Random(seed)
    made = []
    for at in range(count):
        base = rng.randrange(yards)
        near = [(base + rng.choice((0, 0, 1, 2, 3, 7))) % yards for _ in range(rng.randint(1, 5))]
        made.append(
            Parcel(
                f"D{at:03}",
                rng.randint(250_000, 310_000),
                frozenset(f"yard {one}" for one in near),
                rng.randint(1600, 1990),
                rng.randint(100, 900),
                at,
            )
        )
    return made


def pallets(seed: int, count: int, yards: int = 8) -> list[Parcel]:
    """Pallets of a yard each, some of two."""
    rng = random.Random(seed)
    made = []
    for at in range(count):
        yard = rng.randrange(yards)
        more = {(yard + 1) % yards} if rng.random() > 0.85 else set()
        made.append(
            Parcel(
                f"G{at:02}",
                rng.randint(350_000, 650_000),
                frozenset(f"yard {one}" for one in {yard, *more}),
                rng.randint(1600, 1900),
                None,
                at,
            )
        )
    return made
