"""The contrast of two colours, as Web Content Accessibility Guidelines 2.2 define it.

Relative luminance and contrast ratio: WCAG 2.2, terms "relative luminance" and "contrast ratio"
(the threshold of 0.04045 is that of IEC 61966-2-1, which WCAG 2.2 takes).
"""

from __future__ import annotations

TEXT = 4.5
"""Text against its ground: 1.4.3, level AA."""
MORE_TEXT = 7.0
"""Text against its ground: 1.4.6, level AAA."""
PART = 3.0
"""The border of a control, a part of a drawing, against what is beside it: 1.4.11."""


def contrast(one: str, other: str) -> float:
    """Return the contrast ratio of two colours written as #rrggbb, from 1 to 21."""
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    digits = colour.removeprefix("#")
    if len(digits) == 3:
        digits = "".join(digit * 2 for digit in digits)
    red, green, blue = (_linear(int(digits[at:at + 2], 16) / 255) for at in (0, 2, 4))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(part: float) -> float:
    return part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4
