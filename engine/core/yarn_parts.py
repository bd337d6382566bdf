"""What yarn is needed for, and what its amount is based on: roles, to be worded in words/."""

from __future__ import annotations

from enum import Enum

from ..machine.records import dataclass
from .piece_roles import FabricPart


class ShareRole(Enum):
    """What of a piece or band is knitted with a yarn."""

    ALL = "all"
    SECOND_COLOUR = "second colour"
    STRIPES = "stripes"
    BEHIND_FOLD = "behind its fold"


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedIn:
    """What a share of a yarn is knitted in: the piece or band with that `title`, knitted so many
    `times`, each of them one of its `parts` where it is knitted in parts."""

    title: str
    times: int = 1
    parts: bool = False
    role: ShareRole = ShareRole.ALL


class Beside(Enum):
    """What a yarn is needed for beside its counted stitches."""

    ENDS = "ends"
    SEAMS = "seams"
    SWATCH = "swatch"
    MARGINS = "margins"


@dataclass(frozen=True, slots=True)
class ExtraPart:
    """What a yarn is needed for beside its counted stitches; a swatch has the parts for which its
    `fabric` is knitted."""

    what: Beside
    fabric: tuple[FabricPart, ...] = ()


class YarnDoubt(Enum):
    """Why an amount of yarn is an estimate, or not all that is needed."""

    UNWEIGHED = "no weighed swatch of a fabric"
    TWO_YARNS = "one swatch of two yarns"
    AS_EDGE = "a band as its edge"
    BY_AREA = "a band by its area"
    EXTRAS_ON_TOP = "extras left out"
    ALL_BY_AREA = "all by area"


@dataclass(frozen=True, slots=True, kw_only=True)
class YarnCaution:
    """A doubt with what it is about: the parts of a `fabric`, the title of a `band`, or `extras`
    that are left out."""

    doubt: YarnDoubt
    fabric: tuple[FabricPart, ...] = ()
    band: str = ""
    extras: tuple[ExtraPart, ...] = ()
