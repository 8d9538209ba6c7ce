"""Wishbones, knuckles and brackets: what a builder names, turned into plain entries."""
