"""What now: the plan after something happened, who has to hear of it, and what fills the gap."""
