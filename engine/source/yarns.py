"""The yarns of a pattern: name, shade, count, package, and how many ends are knitted as one."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from ..core.problems import Place
from ..core.text import clip
from ..core.units import Length, yarn_count_in
from ..pattern.fabrics import Yarn
from .fields import Fields, Findings, open_fields
from .keys.fabric_keys import PackageKeys, YarnKeys
from .keys.key import Key
from .keys.pattern_keys import PatternKeys
from .likely import check_against_count, check_package
from .spellings import CountWritten, YarnCount
from .values import Entry


def read_yarns(fields: Fields) -> dict[str, Yarn | None]:
    """The pattern's yarns by their keys; None for one with a fault."""
    return {entry.label: _yarn(fields.findings, entry) for entry in fields.each(PatternKeys.yarns)}


def _yarn(findings: Findings, entry: Entry) -> Yarn | None:
    own = open_fields(findings, entry, f'yarn "{clip(entry.label)}"', YarnKeys)
    if own is None:
        return None
    name, fibre = own.need(YarnKeys.name_), own.get(YarnKeys.fibre)
    count = _count(own)
    package_g, package_length = _package(own, count)
    colour, shade = own.get(YarnKeys.colour), own.get(YarnKeys.shade)
    ends = own.get(YarnKeys.ends)
    return None if name is None else Yarn(
        key=entry.label, name=name, fibre=fibre, colour=colour, shade=shade, ends=ends,
        tex=count.tex if count else None, written=count.written if count else "",
        package_g=package_g, package_length=package_length,
        mass_place=_stated(own, PackageKeys.mass), length_place=_stated(own, PackageKeys.length),
        count_place=own.at(YarnKeys.count))


def _stated(yarn: Fields, key: Key[Any]) -> Place:
    """Where an entry of the package stands, else where the yarn does."""
    at = f"{yarn.path}.{YarnKeys.package.name}.{key.name}"
    return yarn.findings.places.get(at, yarn.place)


def _count(yarn: Fields) -> CountWritten | None:
    """The count of one end, by the order and the hank that stand beside it."""
    order, hank = yarn.get(YarnKeys.count_order), yarn.get(YarnKeys.hank)
    for key in (YarnKeys.count_order, YarnKeys.hank):
        if (entry := yarn.entry(key)) and YarnKeys.count.name not in yarn:
            yarn.findings.fault("missing-key", entry.place, f'no "{YarnKeys.count.name}" in '
                                f"{yarn.what}, which has {key.name}", "the count that it explains",
                                f'Add a line such as "{YarnKeys.count.line}", or delete it.')
    return yarn.get_as(YarnKeys.count, YarnCount(order, hank), None)


def _package(yarn: Fields, count: CountWritten | None) -> tuple[Fraction | None, Length | None]:
    """The mass and the length of a ball or cone; by its count alone it needs no length."""
    package = yarn.opened(YarnKeys.package, "the package")
    if package is None:
        return None, None
    grams = package.need(PackageKeys.mass)
    if YarnKeys.count.name in yarn and PackageKeys.length.name not in package:
        return grams, None
    metres = package.need(PackageKeys.length)
    if not check_package(package, grams, metres):
        return None, None
    if count and not check_against_count(package, grams, metres,
                                         yarn_count_in(count.tex, "metres per gram")):
        return None, None
    return grams, metres
