"""No service is off for longer than the house allows."""

from __future__ import annotations

from collections.abc import Iterator

from sequencer.audit.site import Site


def broken(site: Site) -> Iterator[str]:
    """Services off for too long."""
    for step in site.job.steps:
        for service in step.services_off:
            allowed = site.job.house.services.get(service)
            if allowed is not None and site.end(step) - site.start(step) > allowed:
                yield f"{step.id} takes the {service} off for longer than the house allows"
