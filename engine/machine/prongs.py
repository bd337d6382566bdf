"""Which transfer tools there are, and how stitches side by side are moved with them."""

from __future__ import annotations

# Tools that come with hand-flat machines: common practice, no source.
PRONGS = (1, 2, 3)
MOST = PRONGS[-1]
# So many neighbours are moved in goes; more, on a garter bar. Common practice, no source.
IN_GOES = 12


def goes(stitches: int) -> tuple[int, ...]:
    """Return the stitches moved in each go, those nearest to where they go first [stitches].

    At most as many as the widest tool has prongs. Raises ValueError for no stitches.
    """
    if stitches < 1:
        raise ValueError(f"cannot move {stitches} stitches")
    whole, rest = divmod(stitches, MOST)
    return (MOST,) * whole + ((rest,) if rest else ())
