"""The independent check of a plan: from the files, the air and the times alone, with slow, plain code."""

from sequencer.audit.across import audit_several, counted_together
from sequencer.audit.audit import BrokenPlan, audit
from sequencer.audit.goals import miscounted
from sequencer.audit.site import Times

__all__ = ["BrokenPlan", "Times", "audit", "audit_several", "counted_together", "miscounted"]
