"""Joints: end forces to tractions and forces."""
