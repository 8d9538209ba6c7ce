"""Points and bars to displacements and internal forces.

1. `lay_out` cuts members at their via points and gives every segment its axes.
2. `plan` prepares what does not depend on sizes: freedoms, exact constraints, where each stiffness goes;
   it refuses what can move freely.
3. `solve` gives displacements, internal forces and reactions for all designs and loads at once: small frames
   point after point (`fronts`, `elimination`), large ones panel after panel (`envelope`, `factor`).
4. `at_places` reads internal forces along a bar; `wheel_movement` how far wheels move and turn.
5. `at_least` proves that nothing buckles below a multiple of the loads, `critical_multiplier` finds it.

Signs: see `strength.frame.response`. Lengths mm, forces N, moments N*mm, rotations rad.
"""
