"""Ground floor: the words everything above is written in. Standard library only."""
