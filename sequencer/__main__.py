"""`python -m sequencer` is the shell command."""

from sequencer.cli import main

if __name__ == "__main__":
    raise SystemExit(main())
