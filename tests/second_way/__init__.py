"""The same results by a second way: plain loops, other algorithms, nothing shared but the case."""
