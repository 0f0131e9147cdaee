"""Views: a frozen plan in, text out. Nothing here reads files, knows the hour or changes a plan."""
