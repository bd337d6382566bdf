"""The remarks of a tech editor, kept beside a pattern until each is answered and done."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator, Sequence
from dataclasses import asdict, dataclass, fields
from pathlib import Path
from typing import Any

import yaml
from walebook_site.open_remarks import FILE
from walebook_site.sheet_file import SheetRemark

DONE = "done"  # the status that lets a remark go which the designer has answered
_HEAD = """\
# Remarks of the tech editor, read from her workbook. Write your answer to each; the next workbook
# shows it to her. A remark that you have answered goes when her workbook comes back with the status
# "done" beside it.
"""


class NoRemarks(Exception):
    """The file of remarks cannot be read; says where and what is wrong."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """A remark as it is kept, with the designer's answer, "" where she has not answered."""

    sheet: str
    count: str
    place: str
    remark: str
    status: str
    answer: str = ""

    @property
    def at(self) -> tuple[str, str]:
        """The row that it stands beside."""
        return self.sheet, self.count

    @property
    def is_done(self) -> bool:
        """True where the editor has closed it, and the designer has answered it before."""
        return self.status.casefold() == DONE and bool(self.answer.strip())


def merged(kept: Sequence[Kept], read: Sequence[SheetRemark]) -> tuple[Kept, ...]:
    """Return what is kept after a workbook was read: what is new in it, and what is not done.

    A remark beside the same row takes the place of the older one; its answer stays where the words
    of the remark are the same. One that the designer has not answered is not done, whatever its
    status.
    """
    found = {one.at: one for one in kept}
    for one in read:
        old = found.pop((one.sheet, one.count), None)
        if old is None and not one.remark:
            continue
        same = old is not None and (not one.remark or old.remark == one.remark)
        found[one.sheet, one.count] = Kept(
            sheet=one.sheet, count=one.count, place=one.place,
            remark=one.remark or (old.remark if old else ""), status=one.status,
            answer=old.answer if old and same else "")
    return tuple(one for one in found.values() if not one.is_done)


def unread(kept: Sequence[Kept], read: Sequence[SheetRemark]) -> tuple[SheetRemark, ...]:
    """Return what a workbook has that is not kept: new remarks, and changed words and statuses.

    A remark that is done and is not kept has been answered and let go.
    """
    known = {one.at: (one.remark, one.status) for one in kept}
    return tuple(one for one in read
                 if known.get(at := (one.sheet, one.count)) != (one.remark, one.status)
                 and (at in known or (one.remark and one.status.casefold() != DONE)))


def kept_remarks(folder: Path) -> tuple[Kept, ...]:
    """Return the remarks beside a pattern. Raises NoRemarks for a file that is none of ours."""
    path = folder / FILE
    try:
        read = yaml.safe_load(path.read_text(encoding="utf-8"))
    except FileNotFoundError:
        return ()
    except (yaml.YAMLError, UnicodeDecodeError) as fault:
        where = getattr(fault, "problem_mark", None)
        line = f":{where.line + 1}:{where.column + 1}" if where else ""
        raise NoRemarks(f"{path}{line} cannot be read as YAML. Mend it, or remove the file and "
                        "read the workbook again") from fault
    return tuple(_entries(path, read))


def _entries(path: Path, read: Any) -> Iterator[Kept]:
    names = [field.name for field in fields(Kept)]
    for number, one in enumerate(read if isinstance(read, list) else [read] if read else [], 1):
        if not isinstance(one, dict) or set(one) != set(names):
            raise NoRemarks(f"{path}: entry {number} does not have {', '.join(names)}, and no "
                            "other keys. Mend it, or remove the file and read the workbook again")
        yield Kept(**{name: "" if one[name] is None else str(one[name]) for name in names})


def keep(folder: Path, remarks: Sequence[Kept]) -> None:
    """Write the remarks beside a pattern in one step; the file goes when none is left."""
    path = folder / FILE
    if not remarks:
        path.unlink(missing_ok=True)
        return
    lines = [_HEAD]
    for one in remarks:
        entry = [f"{name}: {json.dumps(value, ensure_ascii=False)}"
                 for name, value in asdict(one).items()]
        lines.append("- " + "\n  ".join(entry) + "\n")
    new = path.with_name(f".{FILE}.new")
    new.write_text("".join(lines), encoding="utf-8")
    os.replace(new, path)
