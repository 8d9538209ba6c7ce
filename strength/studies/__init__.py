"""Many designs in one call."""
