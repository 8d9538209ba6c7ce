"""Strength: structural and weld strength estimates for light vehicles."""
