"""One check worked out by hand: numbers with their origin, formulas, and what they come to."""
