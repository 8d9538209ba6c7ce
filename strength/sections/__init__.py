"""Shapes to properties and stresses."""
