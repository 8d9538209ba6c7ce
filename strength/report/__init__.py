"""Rows and values to console, page and record."""
