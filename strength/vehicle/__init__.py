"""Masses and manoeuvres to wheel forces, limits and loads on points."""
