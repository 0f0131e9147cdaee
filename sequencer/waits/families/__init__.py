"""The families of laws. Each is a drive: what air does to a layer, in its own unit; a rate is a ratio of two drives."""
