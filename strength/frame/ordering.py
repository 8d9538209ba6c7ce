"""In which order the points of a frame are eliminated, and which of them together.

Minimum degree (Tinney & Walker 1967; George & Liu 1989, SIAM Review 31:1, from memory): always the point
that the fewest others hang on. Points that follow each other join one front where one larger dense
solve is cheaper than two smaller ones.
"""

from collections.abc import Iterator

from strength.values import frozen

# Cost of a front in multiply-adds, own choice from timing: so much for each front, before any work in it.
CALLS = 12_000
TOGETHER = 12  # unknowns of a front, beyond which none join it (own choice from timing)


@frozen(kw_only=True, eq=False)
class Group:
    """Nodes eliminated together, the later nodes they are joined to, and the groups that end here."""

    own: tuple[int, ...]
    border: tuple[int, ...]
    children: tuple[int, ...]  # numbers of groups, all before this one


def group_nodes(neighbours: list[int], size: list[int], last: frozenset[int] = frozenset()) -> list[Group]:
    """Groups in the order of their elimination.

    neighbours: of each node, one bit for every other node it is joined to. size: unknowns of each node.
    last: nodes that go after all others.
    """
    order, border = _minimum_degree(neighbours, last)
    rank = {node: n for n, node in enumerate(order)}
    own: dict[int, list[int]] = {}
    children: dict[int, list[int]] = {node: [] for node in order}
    held: dict[int, int] = {}  # unknowns of the nodes that go together
    width = {node: sum([size[other] for other in border[node]]) for node in order}
    for node in order:
        own[node] = [node]
        pivots = size[node]
        for child in sorted(children[node], key=width.__getitem__, reverse=True):
            theirs = held[child]
            apart = _cost(theirs, width[child]) + _cost(pivots, width[node])
            alike = (child in last) == (node in last)
            if alike and theirs + pivots <= TOGETHER and _cost(theirs + pivots, width[node]) <= apart:
                pivots += theirs
                own[node] = own.pop(child) + own[node]
                children[node].remove(child)
                children[node] += children[child]
        held[node] = pivots
        if border[node]:
            children[min(border[node], key=rank.__getitem__)].append(node)
    number = {node: n for n, node in enumerate(own)}
    return [
        Group(
            own=tuple(nodes),
            border=tuple(sorted(border[node], key=rank.__getitem__)),
            children=tuple(number[child] for child in children[node]),
        )
        for node, nodes in own.items()
    ]


def bits(mask: int) -> Iterator[int]:
    """Numbers of the bits that are set.

    >>> list(bits(0b1101))
    [0, 2, 3]
    """
    while mask:
        last = mask & -mask
        yield last.bit_length() - 1
        mask ^= last


def _minimum_degree(neighbours: list[int], last: frozenset[int]) -> tuple[list[int], list[list[int]]]:
    """Nodes in order, and of each node those it is joined to when it goes."""
    joined = list(neighbours)
    degree = [mask.bit_count() for mask in joined]
    order = []
    border: list[list[int]] = [[] for _ in joined]
    for left in ([node for node in range(len(joined)) if node not in last], list(last)):
        while left:
            node = min(left, key=degree.__getitem__)
            left.remove(node)
            order.append(node)
            around, gone = joined[node], ~(1 << node)
            border[node] = list(bits(around))
            for other in border[node]:
                mask = (joined[other] | around) & ~(1 << other) & gone
                joined[other], degree[other] = mask, mask.bit_count()
    return order, border


def _cost(pivots: int, width: int) -> float:
    """Multiply-adds of a front with so many unknowns, and so many it is joined to."""
    return CALLS + pivots**3 / 3.0 + pivots**2 * width + pivots * width**2 / 3.0
