"""What holds a job up, taken away from its files one by one: what would be saved, and what collides."""
