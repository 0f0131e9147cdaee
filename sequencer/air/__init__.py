"""A room's air, hour by hour, and where each hour's figures come from."""
