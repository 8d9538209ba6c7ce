"""Studies: many designs of one case, evaluated in one call.

A study makes designs (cases that differ from the one in hand) and hands them to `evaluate`, which groups
those of one make-up and runs each group as arrays: sizes, forces and checks carry the designs along
their first axis.
"""
