"""Colours as other eyes see them, and how far apart two colours are.

Colour blindness: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, "A physiologically-based model
for simulation of color vision deficiency" (2009), the matrices of severity 1.0 on linear RGB;
values from memory, and rows add up to 1, as grey stays grey. Distance: CIEDE2000 after G. Sharma,
W. Wu, E. N. Dalal, "The CIEDE2000 color-difference formula" (2005), formula from memory.
"""

from itertools import chain
from math import atan2, cos, degrees, exp, hypot, radians, sin, sqrt

import numpy as np
from PySide6.QtGui import QImage

from honeyledger.desktop.colouring import channels

Triple = tuple[float, float, float]

BLINDNESS = {
    "protanopia": (
        (0.152286, 1.052583, -0.204868),
        (0.114503, 0.786281, 0.099216),
        (-0.003882, -0.048116, 1.051998),
    ),
    "deuteranopia": (
        (0.367322, 0.860646, -0.227968),
        (0.280085, 0.672501, 0.047413),
        (-0.011820, 0.042940, 0.968881),
    ),
    "tritanopia": (
        (1.255528, -0.076749, -0.178779),
        (-0.078411, 0.930809, 0.147602),
        (0.004733, 0.691367, 0.303900),
    ),
}
# sRGB (IEC 61966-2-1) with the white of D65.
_TO_XYZ = np.array(
    [
        [0.4124564, 0.3575761, 0.1804375],
        [0.2126729, 0.7151522, 0.0721750],
        [0.0193339, 0.1191920, 0.9503041],
    ]
)
_WHITE = _TO_XYZ.sum(axis=1)


def _linear(values: np.ndarray) -> np.ndarray:
    return np.where(values <= 0.04045, values / 12.92, ((values + 0.055) / 1.055) ** 2.4)


def _shown(values: np.ndarray) -> np.ndarray:
    values = np.clip(values, 0.0, 1.0)
    return np.where(values <= 0.0031308, values * 12.92, 1.055 * values ** (1 / 2.4) - 0.055)


def seen(colour: str, eye: str = "") -> str:
    """A colour as such an eye sees it; "" for normal sight."""
    if not eye:
        return colour
    linear = _linear(np.array(channels(colour)) / 255)
    made = np.rint(_shown(np.array(BLINDNESS[eye]) @ linear) * 255).astype(int)
    return "#" + "".join(f"{value:02X}" for value in made)


def seen_picture(image: QImage, eye: str) -> QImage:
    """A picture as such an eye sees it."""
    plain = image.convertToFormat(QImage.Format.Format_RGB888)
    high, wide, line = plain.height(), plain.width(), plain.bytesPerLine()
    raw = np.frombuffer(plain.constBits(), np.uint8, high * line).reshape(high, line)
    pixels = raw[:, : wide * 3].reshape(high, wide, 3) / 255
    made = _shown(_linear(pixels) @ np.array(BLINDNESS[eye]).T)
    data = np.ascontiguousarray(np.rint(made * 255).astype(np.uint8))
    return QImage(data.data, wide, high, wide * 3, QImage.Format.Format_RGB888).copy()


def lab(colour: str, eye: str = "") -> Triple:
    """A colour in CIELAB, as such an eye sees it."""
    linear = _linear(np.array(channels(colour)) / 255)
    if eye:
        linear = np.clip(np.array(BLINDNESS[eye]) @ linear, 0.0, 1.0)
    xyz = _TO_XYZ @ linear / _WHITE
    x, y, z = (
        float(v) ** (1 / 3) if v > 216 / 24389 else float(v) * 841 / 108 + 4 / 29 for v in xyz
    )
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def distance(one: Triple, other: Triple) -> float:
    """How far apart two colours of CIELAB are, by CIEDE2000."""
    (l1, a1, b1), (l2, a2, b2) = one, other
    mean_c = (hypot(a1, b1) + hypot(a2, b2)) / 2
    g = 0.5 * (1 - sqrt(mean_c**7 / (mean_c**7 + 25.0**7)))
    (c1, h1), (c2, h2) = (_polar(a * (1 + g), b) for a, b in ((a1, b1), (a2, b2)))
    turn = h2 - h1
    turn -= 360 * round(turn / 360) if abs(turn) > 180 and c1 * c2 else 0
    hue = 2 * sqrt(c1 * c2) * sin(radians(turn / 2))
    mean_h = h1 + turn / 2 if c1 * c2 else h1 + h2
    light, c = (l1 + l2) / 2, (c1 + c2) / 2
    waves = ((1, -30, -0.17), (2, 0, 0.24), (3, 6, 0.32), (4, -63, -0.20))
    t = 1 + sum(share * cos(radians(n * mean_h + at)) for n, at, share in waves)
    s_l = 1 + 0.015 * (light - 50) ** 2 / sqrt(20 + (light - 50) ** 2)
    s_c, s_h = 1 + 0.045 * c, 1 + 0.015 * c * t
    rotated = 60 * exp(-((((mean_h % 360) - 275) / 25) ** 2))
    r = -2 * sqrt(c**7 / (c**7 + 25.0**7)) * sin(radians(rotated))
    dl, dc, dh = (l2 - l1) / s_l, (c2 - c1) / s_c, hue / s_h
    return sqrt(dl**2 + dc**2 + dh**2 + r * dc * dh)


def _polar(a: float, b: float) -> tuple[float, float]:
    return hypot(a, b), degrees(atan2(b, a)) % 360


def least_distance(one: str, other: str) -> float:
    """How far apart two colours are for the eye that tells them apart the least."""
    return min(distance(lab(one, eye), lab(other, eye)) for eye in chain([""], BLINDNESS))
