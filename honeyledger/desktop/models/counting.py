"""Numbers in words of a page: how many, with the right word for one; masses without their unit."""

from honeyledger.domain.units import MassUnit, format_mass, format_number


def counted(number: int, one: str, many: str) -> str:
    """How many, with the right word for one."""
    return one if number == 1 else many.format(n=format_number(number))


def bare(grams: int, unit: MassUnit, decimals: int = 1) -> str:
    """A mass without its unit, which stands in the head."""
    return format_mass(grams, unit, decimals).removesuffix(f" {unit}")
