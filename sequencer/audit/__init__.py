"""The independent check of a plan: from the files, the air and the times alone, with slow, plain code."""

from sequencer.audit.audit import audit
from sequencer.audit.site import Times

__all__ = ["Times", "audit"]
