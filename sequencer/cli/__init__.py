"""The shell. Data on stdout, talk on stderr; heavy things load when a command needs them."""

from __future__ import annotations

import gc
import sys

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Sequence

DONE, NO_ORDER_FITS, WRONG, UNPROVEN, UNDECIDED, INTERRUPTED = 0, 1, 2, 3, 4, 130
"""Exit codes."""


OBJECTS = 200_000
"""How many objects a command makes before it is looked for some that only hold each other: it ends in seconds, and what
it loads stays."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Runs one command; gives its exit code. SystemExit where the parser ends it (a wrong command: 2)."""
    given = list(sys.argv[1:] if arguments is None else arguments)
    if given and given[0] in ("-h", "--help"):
        from sequencer.cli.help import help_text

        sys.stdout.write(help_text())
        return DONE
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
    gc.set_threshold(OBJECTS)
    try:
        code = _run(given)
        sys.stdout.flush()
        return code
    except KeyboardInterrupt:
        say("interrupted")
        return INTERRUPTED
    except BrokenPipeError:
        _leave_the_pipe()
        return DONE


def say(text: str) -> None:
    """Talk, on stderr."""
    print(f"sequencer: {text}", file=sys.stderr)


def _run(given: list[str]) -> int:
    from sequencer.cli.arguments import parsed

    arguments = parsed(given)
    from sequencer.cli.commands import run
    from sequencer.cli.give import faulty_files
    from sequencer.terms.place import Faulty

    try:
        return run(arguments)
    except Faulty as faulty:
        return faulty_files(faulty, getattr(arguments, "json", False))
    except BrokenPipeError:
        raise
    except OSError as error:
        say(f"{error.filename or 'file'}: {error.strerror or error}; check the name and who may read or write it")
        return WRONG


def _leave_the_pipe() -> None:
    """Nobody reads any more: what is left goes nowhere, and the interpreter's last flush finds an open pipe."""
    import os

    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
