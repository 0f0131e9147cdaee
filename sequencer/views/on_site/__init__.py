"""Views for a day on site: pure functions from a plan and its answers to text and JSON."""
