"""The desk: the only code that writes files."""
