"""How the checks beyond the steps are run: what is wrong is put down, and the reading goes on."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from tests.reader import grammar
from tests.reader.bed import Wrong
from tests.reader.needles import Unclear
from tests.reader.page_parts import Reading


def attempt(reading: Reading, section: str, words: str, do: Callable[..., None],
            *args: Any) -> None:
    """Do something, and put down what is wrong with it."""
    try:
        do(*args)
    except Wrong as wrong:
        reading.fault(wrong.kind, section, words[:160], wrong.message)
    except Unclear as unclear:
        reading.fault("unclear", section, words[:160], str(unclear))
    except grammar.Unknown as unknown:
        reading.fault("unknown-sentence", section, str(unknown), "no line of the table fits it")
    except (ValueError, AttributeError, KeyError, IndexError, TypeError, StopIteration) as error:
        reading.fault("unreadable", section, words[:160], repr(error))
