"""Every run of the suite tries the same examples; `--hypothesis-profile=search` looks for new ones."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("same", derandomize=True, deadline=None)
settings.register_profile("search", deadline=None)
settings.load_profile("same")
