"""Demand against limit, one small file per kind."""
