"""What a form's measures are by default: by what the size chart has, and what else is given."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from ..sizing.measures import leads, names_in

Better = Mapping[str, tuple[str, ...]]  # sums to take before a measure's usual one, best first

# A child's neck must pass the head (machine-knitting teachers' common practice). A knitted neck
# gives a third over its length (whole_checks.STRETCH). Round necks are 2.9 times as long as they
# are wide or longer, those of a saddle raglan 3.4, of a boat neck knitted sideways 2: measured on
# the forms. So wide, a neck passes the largest head of its size with a stitch or two to spare.
# A head by age is a mean one, and the chart's head the middle of a range: hence two shares.
HEADS = ("head", "head_by_age")
# A men's chart has the hip, not the waist. A deeper armhole takes some of the length; common
# practice, no source.
TO_THE_HIP: Better = {"body_length": ("back_waist_length * 1.35",
                                       "back_hip_length - 6 cm + armhole_depth / 2")}


def over_head(usual: str, share: str, by_age: str) -> Better:
    """Return the width of a closed neck: the usual one, but wide enough for the chart's head."""
    return {"neck_width": (f"max({usual}, head * {share}, head_by_age * {by_age})",
                           f"max({usual}, head * {share})")}


def to_the_wrist(above: str) -> Better:
    """Return the length of a sleeve to the underarm; the garment takes `above` off the whole way.

    Midway between the arm below the armpit and what the way from the neck to the wrist leaves:
    the garment's underarm lies lower than the body's, and charts give larger sizes longer arms
    than bodies have. The second sum of the two is less for babies alone, whose charts have arms
    that are long for their way. Common practice, no source for the shares.
    """
    return {"sleeve_length": (f"min((arm_length + neck_to_wrist - {above}) / 2, "
                              f"neck_to_wrist * 1.1 - 2.2 cm - {above})",)}


def sums(usual: Mapping[str, str], better: Better, halves: Mapping[str, str],
         rows: Collection[str], given: Mapping[str, str]) -> dict[str, str]:
    """Return the sum of every measure of a form, for a chart with these `rows`.

    The first of the `better` ones whose names are all there, else the usual one. `given` are the
    designer's own sums: where she gave a measure and not the one that is half of it (`halves`:
    the half, then the whole), the half follows, unless her sum uses the half itself.
    """
    found = dict(usual)
    for name, texts in better.items():
        if name in found:
            found[name] = next((text for text in texts if all(
                used in usual or used in rows for used in names_in(text))), found[name])
    for half, whole in halves.items():
        if whole in given and half not in given and half not in leads(whole, given):
            found[half] = f"{whole} / 2"
    return found
