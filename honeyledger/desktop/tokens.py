"""Every colour, type size, measure and duration of the window, by name.

No other module contains a hex value or a size in pixels for type. All lengths are logical
pixels at 100 %. The module knows no Qt, so that its tables can be tested as plain data.
"""

from dataclasses import dataclass
from enum import Enum

# ---------------------------------------------------------------------------- colours


@dataclass(frozen=True, slots=True)
class Series:
    """One line of a chart: a colour, its stroke's dashes in pixels, its width and its marker."""

    colour: str
    dashes: tuple[int, ...]
    width: float
    marker: str


@dataclass(frozen=True, slots=True)
class Theme:
    """The colours of one theme; each name says what the colour is for."""

    name: str
    ground: str
    sheet: str
    well: str
    band: str
    mast: str
    foot: str
    ink: str
    ink2: str
    on_mast: str
    on_mast2: str
    mast_edge: str
    rule: str
    edge: str
    act: str
    act_down: str
    on_act: str
    act_tint: str
    focus: str
    focus_mast: str
    alert: str
    alert_tint: str
    hold: str
    hold_tint: str
    on_state: str
    honey_edge: str
    honey_hatch: str
    series: tuple[Series, ...]
    steps: tuple[str, ...]


_STROKES = (
    ((), 3.0, "disc"),
    ((8, 4), 2.0, "square"),
    ((2, 4), 2.0, "triangle"),
    ((12, 4, 2, 4), 2.0, "diamond"),
    ((), 1.5, "cross"),
)


def _series(*colours: str) -> tuple[Series, ...]:
    return tuple(
        Series(colour, dashes, width, marker)
        for colour, (dashes, width, marker) in zip(colours, _STROKES, strict=True)
    )


LIGHT = Theme(
    name="light",
    ground="#E9EDEC",
    sheet="#FFFFFF",
    well="#F3F6F5",
    band="#F8FAF9",
    mast="#1B2625",
    foot="#DDE3E1",
    ink="#16201F",
    ink2="#485654",
    on_mast="#F1F5F4",
    on_mast2="#B4C1BE",
    mast_edge="#7F8E8B",
    rule="#CBD3D1",
    edge="#66736F",
    act="#0B5753",
    act_down="#084441",
    on_act="#FFFFFF",
    act_tint="#DDEEEB",
    focus="#1746C8",
    focus_mast="#9DBEFF",
    alert="#B0125A",
    alert_tint="#FBE8F0",
    hold="#5B2A86",
    hold_tint="#F1E9F8",
    on_state="#FFFFFF",
    honey_edge="#6B4A12",
    honey_hatch="#6B4A12",
    series=_series("#0F6B66", "#665DBF", "#679C6B", "#4A1A5C", "#878791"),
    steps=("#D6E9E6", "#A3CDC7", "#6AADA5", "#2F857E", "#0B5753"),
)

DARK = Theme(
    name="dark",
    ground="#101615",
    sheet="#19211F",
    well="#222B29",
    band="#151C1B",
    mast="#0A0F0E",
    foot="#0E1413",
    ink="#E7EDEB",
    ink2="#A8B5B2",
    on_mast="#E7EDEB",
    on_mast2="#A8B5B2",
    mast_edge="#6F7D79",
    rule="#33403D",
    edge="#84928E",
    act="#62C9BC",
    act_down="#8ADBD1",
    on_act="#06201D",
    act_tint="#173A37",
    focus="#9DBEFF",
    focus_mast="#9DBEFF",
    alert="#FF93B4",
    alert_tint="#3C1425",
    hold="#D3B3FF",
    hold_tint="#2C1F3F",
    on_state="#16201F",
    honey_edge="#CDB27A",
    honey_hatch="#6B4A12",
    series=_series("#4F8F86", "#B79CFF", "#9FE8C4", "#EFE6F5", "#7667A8"),
    steps=("#24443F", "#2F6A63", "#3F938A", "#62C9BC", "#B4EFE6"),
)

# Text on honey is pure black or pure white in both themes, so that it never depends on the theme.
ON_PALE_HONEY = "#000000"
ON_DARK_HONEY = "#FFFFFF"
PALE_HONEY_TO_MM = 68.0

PAPER = "#FFFFFF"


@dataclass(frozen=True, slots=True)
class PfundAnchor:
    """A colour class of the Pfund scale, its upper limit, and the colour drawn at one reading."""

    symbol: str
    to_mm: float
    at_mm: float
    colour: str


# The class limits are those of the United States standards for grades of extracted honey
# (USDA AMS, 1985, table of colour designations); the drawn colours are this project's own.
PFUND = (
    PfundAnchor("WW", 8.0, 4.0, "#FCF8E3"),
    PfundAnchor("XW", 17.0, 12.5, "#F7E6A3"),
    PfundAnchor("W", 34.0, 25.5, "#EFC346"),
    PfundAnchor("XLA", 50.0, 42.0, "#D1972A"),
    PfundAnchor("LA", 85.0, 67.5, "#A9681C"),
    PfundAnchor("A", 114.0, 99.5, "#783A13"),
    PfundAnchor("DA", 140.0, 127.0, "#451B0F"),
)
PFUND_END_MM = 140.0

# ---------------------------------------------------------------------------- type


class Density(Enum):
    """How large things are: on the floor, standing and gloved, or at a desk."""

    FLOOR = "floor"
    DESK = "desk"

    # A member is equal to itself alone; an enumeration's own hash is of its name, and in Python.
    __hash__ = object.__hash__


@dataclass(frozen=True, slots=True)
class TypeSize:
    """Letters so many pixels high on a line so many pixels high, in a weight of 400 to 700."""

    px: int
    line: int
    weight: int


class Type(Enum):
    """The six sizes of type."""

    CAPTION = "caption"
    BODY = "body"
    ENTRY = "entry"
    TITLE = "title"
    FIGURE = "figure"
    LIVE = "live"

    __hash__ = object.__hash__  # as above


_FLOOR = {
    Type.CAPTION: TypeSize(15, 20, 400),
    Type.BODY: TypeSize(18, 24, 400),
    Type.ENTRY: TypeSize(22, 28, 600),
    Type.TITLE: TypeSize(22, 28, 700),
    Type.FIGURE: TypeSize(28, 32, 700),
    Type.LIVE: TypeSize(40, 44, 700),
}
_DESK = {
    Type.CAPTION: TypeSize(15, 20, 400),
    Type.BODY: TypeSize(16, 22, 400),
    Type.ENTRY: TypeSize(18, 24, 600),
    Type.TITLE: TypeSize(20, 28, 700),
    Type.FIGURE: TypeSize(24, 28, 700),
    Type.LIVE: TypeSize(40, 44, 700),
}

REGULAR = 400
SEMIBOLD = 600
BOLD = 700


def type_size(kind: Type, density: Density = Density.FLOOR) -> TypeSize:
    """The size of one kind of type at one density."""
    return (_FLOOR if density is Density.FLOOR else _DESK)[kind]


# ---------------------------------------------------------------------------- measures

STEPS = (4, 8, 12, 16, 24, 32, 48, 64)

RADIUS_CONTROL = 4
RADIUS_PANEL = 6

TARGET_LEAST = 40
MAST_HEIGHT = 48
LINE_HEIGHT = 88
NARROW_HEIGHT = 56
STATUS_HEIGHT = 32
HEADING_HEIGHT = 48
SLOT_HEIGHT = 48
SLOT_TALL_HEIGHT = 72
ACTION_BAR_HEIGHT = 72
ACTION_BAR_NARROW_HEIGHT = 64
ANSWER_HEIGHT = 64
PANEL_SIDE = 20
PANEL_GAP = 16
LABEL_HEIGHT = 20
LABEL_GAP = 8
HEAD_HEIGHT = 48
CELL_PADDING = 12
AFTER_NUMBER = 24
SCROLL_BAR = 20
FIELD_EDGE = 2
SELECTION_BAR = 4
BUTTON_LEAST_WIDTH = 120
COUNT_STEP_SIZE = 56
FOCUS_GAP = 2
FOCUS_WIDTH = 3
GRAVE_GAP = 24
HATCH_PITCH = 8
HATCH_WIDTH = 1.5

MARK_TABLE = 20
MARK_BADGE = 16
MARK_MESSAGE = 24

BADGE_HEIGHT = 24
BADGE_HALO = 2


def control_height(density: Density) -> int:
    """The height of a field or a button."""
    return 56 if density is Density.FLOOR else 44


def row_height(density: Density, *, two_lines: bool = False) -> int:
    """The height of a table row."""
    if two_lines:
        return 64
    return 48 if density is Density.FLOOR else 40


def button_gap(density: Density) -> int:
    """The room between two buttons."""
    return 16 if density is Density.FLOOR else 8


WIDE_FROM = 1600
USUAL_FROM = 1200
MIDDLE_FROM = 900


@dataclass(frozen=True, slots=True)
class Grid:
    """The columns a page of some width is laid out on."""

    columns: int
    margin: int
    gutter: int
    column: float

    def span(self, columns: int) -> float:
        """The width of so many columns and the gutters between them."""
        return columns * self.column + (columns - 1) * self.gutter


def grid(width: float) -> Grid:
    """The grid of a page so wide; below 900 one column, and panels stack."""
    if width >= WIDE_FROM:
        return Grid(12, 32, 24, (width - 328) / 12)
    if width >= USUAL_FROM:
        return Grid(12, 24, 16, (width - 224) / 12)
    if width >= MIDDLE_FROM:
        return Grid(8, 16, 12, (width - 116) / 8)
    return Grid(1, 16, 0, width - 32)


# ---------------------------------------------------------------------------- motion

QUICK_MS = 90
BASE_MS = 160
SLOW_MS = 280
ARRIVED_MS = 1600
SCANNED_MS = 2000
PROGRESS_AFTER_MS = 400
FADED = 0.35
