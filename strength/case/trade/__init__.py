"""Wishbones, knuckles and brackets: what a builder names, turned into plain entries.

`expand.expand` is the way in; `mobility.loose` looks at the finished case for a knuckle that nothing
keeps from turning and a wishbone that nothing keeps from swinging. The modules, in the order in which
they are used: `reading` (keys to parts), `layout`, `lending`, `laying` (places and geometry, found when
asked for), `wishbone`, `knuckle`, `bracket` (plain entries), `joining` and `welded_ends`, `changes`.
"""
