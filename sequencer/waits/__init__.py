"""How long each layer takes in its room's air: one table of laws, the limits air sets, ready times for every start."""
