"""The site diary on screen. It places the texts of the views; nothing in the program imports it."""
