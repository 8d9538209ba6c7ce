"""Points and bars to displacements and internal forces."""
