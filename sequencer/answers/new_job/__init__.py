"""A first job from a few answers: what is asked, what it is built of, the file, and what costs most days in it."""
