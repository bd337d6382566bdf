"""What reads the words behind `walebook`, and says what a mistyped one was most likely to be."""

from __future__ import annotations

import argparse
import re
import sys
from collections.abc import Sequence
from typing import Any, NoReturn

from walebook.core.problems import visible

_COMMAND = re.compile(r"argument command: invalid choice: '(.*)' \(choose from .*\)", re.DOTALL)
_NONE = "the following arguments are required: command"
# What other programs call an option of ours.
_ELSEWHERE = {"--port": "--at", "--address": "--at", "--host": "--at", "--dev-addr": "--at",
              "--dir": "--root", "--output": "--root", "--format": "--form"}


class Parser(argparse.ArgumentParser):
    """A parser whose errors say what to write; those of its commands are of this class too."""

    def parse_args(  # type: ignore[override]
            self, args: Sequence[str] | None = None, namespace: Any = None) -> argparse.Namespace:
        """Return what the words mean; end with what is wrong where one means nothing."""
        given: argparse.Namespace
        given, rest = self.parse_known_args(args, namespace)
        if rest:
            self._commands()[given.command].refuse(rest[0])
        return given

    def refuse(self, word: str) -> NoReturn:
        """End with the word that means nothing to this command, and what it takes."""
        from walebook.core.text import nearest, series  # a call without a slip needs neither
        takes = [option for option in self._option_string_actions if option.startswith("--")]
        name = word.partition("=")[0]
        near = _ELSEWHERE.get(name)
        if near not in takes:  # the dashes are alike in all
            bare = nearest(name.lstrip("-"), [option[2:] for option in takes])
            near = f"--{bare}" if bare and name.startswith("-") else None
        more = f"Did you mean {near}?" if near else f"It takes {series(takes, 'and')}."
        self.error(f"{word} means nothing behind {self.prog}. {more}")

    def error(self, message: str) -> NoReturn:
        """End with what is wrong: a mistyped command with the one most like it."""
        commands = self._commands()
        if message == _NONE:
            self.print_help(sys.stderr)
            self.exit(2, f"\n{self.prog}: error: no command was given\n")
        if mistyped := _COMMAND.fullmatch(message):
            from walebook.core.text import nearest
            near = nearest(mistyped[1], commands)
            more = f"Did you mean {near}?" if near else f"`{self.prog} --help` lists all."
            message = f"there is no command {mistyped[1]}. {more}"
        if not commands:  # of one command: how it is called
            self.print_usage(sys.stderr)
        self.exit(2, visible(f"{self.prog}: error: {message}") + "\n")

    def _commands(self) -> dict[str, Parser]:
        """The parsers of its commands by their names; none of a command."""
        found = [action.choices for action in self._actions
                 if isinstance(action, argparse._SubParsersAction)]
        return dict(found[0]) if found else {}
