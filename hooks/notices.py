"""Findings as they stand in a page of the preview; all that a source says is escaped."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from html import escape

from walebook.core.problems import Problem, Severity, visible

NoticeLines = Mapping[str, str]


def errors_above(problems: Iterable[Problem], lines: NoticeLines,
                 shared: tuple[Iterable[Problem], NoticeLines], *, older: bool) -> str:
    """Return the errors to put right first, as HTML, "" where there are none.

    `problems` are those of the pattern that a page shows, `shared` those of the files that patterns
    share. `older` where what stands below is the last good page.
    """
    errors, _ = _parted(problems)
    common = [each for each in _parted(shared[0])[0] if each not in errors]
    below = " Below is the last good page." if older else ""
    text = _headed(errors, lines, "", f"This pattern is not published until {{}} put right.{below}")
    text += _headed(common, shared[1], " in the files that patterns share",
                    "Nothing is published until {} put right.")
    return f'<section class="wb-findings" role="alert">{text}</section>' if text else ""


def _headed(errors: list[Problem], lines: NoticeLines, where: str, why: str) -> str:
    if not errors:
        return ""
    why = why.format("it is" if len(errors) == 1 else "they are")
    return (f'<p class="wb-findings-head">{_counted(len(errors), "error")}{where}. {why}</p>'
            f"{_items(errors, lines)}")


def remainder(whose: str, problems: Iterable[Problem], lines: NoticeLines) -> str:
    """Return what else was found in one pattern, or the shared files, as HTML, "" if nothing."""
    _, others = _parted(problems)
    return (f"<details><summary>{whose}: {_tally(others)}</summary>{_items(others, lines)}"
            "</details>" if others else "")


def other_findings(by_pattern: Mapping[str, tuple[tuple[Problem, ...], NoticeLines]], base: str,
                   left: int, texts: Iterable[str], *, of_one: bool) -> str:
    """Return what else there is to say, as HTML, "" if nothing: each with the pattern's address.

    `of_one` where the page is that of a pattern, and these are the others.
    `left` is the number of patterns that are still being knitted, `texts` what concerns all pages.
    """
    notes = "".join(f'<p class="wb-findings-head">{escape(visible(each))}</p>' for each in texts)
    if left:
        are = "is" if left == 1 else "are"
        notes += f"<p>{_counted(left, 'pattern')} {are} still being knitted.</p>"
    found = {slug: _parted(problems)[0] + _parted(problems)[1]
             for slug, (problems, _) in by_pattern.items()}
    every = [each for those in found.values() for each in those]
    if not every:
        return notes
    listed = "".join(
        f'<li><a href="{escape(base)}patterns/{escape(slug)}/index.html">{escape(slug)}</a>: '
        f"{_tally(those)}{_items(those, by_pattern[slug][1])}</li>"
        for slug, those in found.items() if those)
    whose = "Other patterns" if of_one else "Patterns"
    return (f"{notes}<details><summary>{whose}: {_tally(every)}</summary>"
            f"<ul>{listed}</ul></details>")


def _parted(problems: Iterable[Problem]) -> tuple[list[Problem], list[Problem]]:
    """Errors, and what stops nothing; remarks are left to `walebook check`."""
    shown = [each for each in problems if each.severity is not Severity.REMARK]
    return ([each for each in shown if each.severity is Severity.ERROR],
            [each for each in shown if each.severity is not Severity.ERROR])


def _items(problems: Iterable[Problem], lines: NoticeLines) -> str:
    return f"<ol>{''.join(_item(each, lines) for each in problems)}</ol>"


def _item(problem: Problem, lines: NoticeLines) -> str:
    place = problem.place
    text = problem.message.removesuffix(problem.remedy).rstrip()
    remedy = f"<br><strong>{_shown(problem.remedy)}</strong>" if problem.remedy else ""
    return (f'<li class="wb-finding-{problem.severity.value}">'
            f"<span>{escape(place.file)}, line {place.line}, column {place.column}</span>"
            f" ({problem.severity.value}, {escape(problem.code)})<br>"
            f"{_shown(text[:1].upper() + text[1:])}{remedy}{_line(problem, lines)}</li>")


def _line(problem: Problem, lines: NoticeLines) -> str:
    """The author's line, the finding's place in it marked."""
    place = problem.place
    author = lines.get(f"{place.file}:{place.line}")
    if author is None:
        return ""
    before, at = author[:place.column - 1], author[place.column - 1:].rstrip()
    return f"<pre>{_shown(before)}<mark>{_shown(at[:1] or ' ')}</mark>{_shown(at[1:])}</pre>"


def _shown(text: str) -> str:
    return escape(visible(text))


def _tally(problems: Iterable[Problem]) -> str:
    weights = [each.severity for each in problems]
    return ", ".join(_counted(weights.count(s), s.value) for s in Severity if s in weights)


def _counted(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"
