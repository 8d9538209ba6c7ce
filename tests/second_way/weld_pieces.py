"""Weld lines cut into thousands of straight pieces in body axes."""

from types import SimpleNamespace

import numpy as np

from strength.case.shape import Bar, Box, Flat, Outline, Tube
from tests.second_way.sizes import Size

PIECES = 2000


def section_runs(part, weld, host=None):
    """Runs of the line in (y, z) of the member: list of (points, outward normals, side kind, is free).

    On a round host a round line is parted where it may have a kink: across both parts' axes.

    Side kind: "wide" for lines along the width of a flat, else "".
    """
    shape = part.shape
    if weld.pattern == "lines":
        runs = []
        for y1, z1, y2, z2 in weld.lines:
            line = straight((y1, z1), (y2, z2))
            along = np.array([y2 - y1, z2 - z1]) / np.hypot(y2 - y1, z2 - z1)
            wide = isinstance(shape, Flat) and abs(along[0]) < 1e-9
            runs.append((line, None, "wide" if wide else "", True))
        return runs
    if weld.pattern == "sides":
        half = shape.thickness / 2 if isinstance(shape, Flat) else shape.width / 2
        tall = shape.width / 2 if isinstance(shape, Flat) else shape.depth / 2 - Size(shape, 0.3).outer
        kind = "wide" if isinstance(shape, Flat) else ""
        return [
            (straight((s * half, -tall), (s * half, tall)), normal_of((s, 0)), kind, True) for s in (1, -1)
        ]
    if isinstance(shape, (Tube, Bar)):
        r = (shape.od if isinstance(shape, Tube) else shape.diameter) / 2
        kink = 0.0
        if host is not None:
            way = part.turn @ np.cross(part.turn[0], host.turn[0])
            kink = np.arctan2(way[2], way[1])
        runs = []
        for half in (0, 1):
            a = kink + np.linspace(half * np.pi, (half + 1) * np.pi, PIECES + 1)
            out = np.array([np.cos(a), np.sin(a)]).T
            runs.append((r * out, out, "", False))
        return runs
    if isinstance(shape, Outline):
        c = np.array(shape.corners)
        pairs = zip(c, np.roll(c, -1, axis=0), strict=True)
        return [(straight(a, b), None, "", False) for a, b in pairs]
    if isinstance(shape, Flat):
        t, w = shape.thickness / 2, shape.width / 2
        runs = [(straight((s * t, -w), (s * t, w)), normal_of((s, 0)), "wide", False) for s in (1, -1)]
        return runs + [(straight((-t, s * w), (t, s * w)), normal_of((0, s)), "", False) for s in (1, -1)]
    return box_runs(shape)


def box_runs(shape: Box):
    """Four straight sides and four quarter circles."""
    r = Size(shape, 0.3).outer
    b, h = shape.width / 2, shape.depth / 2
    runs = []
    for s in (1, -1):
        runs.append((straight((s * b, r - h), (s * b, h - r)), normal_of((s, 0)), "", False))
        runs.append((straight((r - b, s * h), (b - r, s * h)), normal_of((0, s)), "", False))
        for o in (1, -1):
            a = np.linspace(0, np.pi / 2, PIECES + 1)
            out = np.array([s * np.cos(a), o * np.sin(a)]).T
            runs.append((np.array([s * (b - r), o * (h - r)]) + r * out, out, "", False))
    return runs


def straight(a, b):
    """Points from a to b."""
    return np.linspace(np.array(a, dtype=float), np.array(b, dtype=float), PIECES + 1)


def normal_of(n):
    """The same normal at every point."""
    return np.tile(np.array(n, dtype=float), (PIECES + 1, 1))


def shorten(runs, throat):
    """Take a throat off each end of a line that touches no other line."""
    left = []
    for k, (line, normals, kind, free) in enumerate(runs):
        if not free:
            left.append((line, normals, kind, free))
            continue
        cuts = []
        for end in (line[0], line[-1]):
            touches = any(gap(end, other) < 0.01 for j, (other, *_) in enumerate(runs) if j != k)
            cuts.append(0.0 if touches else throat)
        length = np.linalg.norm(line[-1] - line[0])
        if length - sum(cuts) <= 0:
            continue
        e = (line[-1] - line[0]) / length
        left.append((straight(line[0] + cuts[0] * e, line[-1] - cuts[1] * e), normals, kind, free))
    return left


def gap(point, line):
    """Distance of a point from a straight line between its ends."""
    a, b = line[0], line[-1]
    t = np.clip((point - a) @ (b - a) / ((b - a) @ (b - a)), 0, 1)
    return np.linalg.norm(point - a - t * (b - a))


def host_face(structure, weld, part):
    """Outward normal of the face of a flat or box host the member stands on; None where not known."""
    if not isinstance(weld.onto, str):
        return None
    host = structure.parts[weld.onto]
    if not isinstance(host.shape, (Flat, Box)):
        return None
    e = part.turn[0] if weld.end == "from" else -part.turn[0]
    e = host.turn @ e  # from the host to the member, in host axes
    reach = [np.inf, np.inf]
    for k, half in ((1, host.size.width / 2), (2, host.size.depth / 2)):
        if abs(e[k]) > 1e-12:
            reach[k - 1] = half / abs(e[k])
    k = 1 if reach[0] < reach[1] else 2
    return np.sign(e[k]) * host.turn[k]


def weld_line(structure, weld):
    """The line: per node place, tangent s, axis x, normal n; pieces' middles and lengths; face angles."""
    part = structure.parts[weld.member]
    host = structure.parts[weld.onto] if isinstance(weld.onto, str) else None
    saddle = host is not None and host.is_round
    runs = section_runs(part, weld, host if saddle else None)
    if structure.case.basis.method != "allowable":
        runs = shorten(runs, weld.leg / np.sqrt(2))
    x0 = weld.inset if weld.end == "from" else part.length - weld.inset
    face = host_face(structure, weld, part)
    nodes, tangents, kinds, middles, lengths, cosines = [], [], [], [], [], []
    for yz, normals, kind, _ in runs:
        at = part.start + x0 * part.turn[0] + yz @ part.turn[1:]
        hit_normals = None
        if saddle:
            at, hit_normals = onto_cylinder(at, part, host, weld.end)
        steps = np.diff(at, axis=0)
        slopes = np.gradient(at, axis=0, edge_order=2)
        nodes.append(at)
        tangents.append(slopes / np.linalg.norm(slopes, axis=1)[:, None])
        kinds += [kind] * len(at)
        middles.append((at[1:] + at[:-1]) / 2)
        lengths.append(np.linalg.norm(steps, axis=1))
        if normals is not None and (saddle or face is not None):
            wall = normals @ part.turn[1:]
            cosines.append(np.einsum("ij,ij->i", wall, hit_normals if saddle else face[None] + 0 * wall))
    nodes, s = np.concatenate(nodes), np.concatenate(tangents)
    x = part.turn[0] - (s @ part.turn[0])[:, None] * s
    x /= np.linalg.norm(x, axis=1)[:, None]
    cosines = np.concatenate(cosines) if cosines else np.zeros(1)
    return SimpleNamespace(
        nodes=nodes,
        s=s,
        x=x,
        n=np.cross(s, x),
        wide=np.array(kinds) == "wide",
        middles=np.concatenate(middles),
        lengths=np.concatenate(lengths),
        steep=float(np.abs(cosines).max()),
        station=x0,
        saddle=saddle,
    )


def onto_cylinder(at, part, host, end):
    """Places where lines along the member through `at` first meet the host's outer cylinder."""
    go = -part.turn[0] if end == "from" else part.turn[0]  # from the member into the host
    radius = host.size.depth / 2
    h = host.turn[0]
    flat = np.eye(3) - np.outer(h, h)
    p, d = (at - host.start) @ flat, go @ flat
    a, b, c = d @ d, p @ d, np.einsum("ij,ij->i", p, p) - radius**2
    root = b * b - a * c
    assert root.min() >= -1e-9 * radius**2, "misses the host"
    found = at + ((-b - np.sqrt(np.maximum(root, 0.0))) / a)[:, None] * go
    return found, (found - host.start) @ flat / radius


def tractions(line, force, moment, about):
    """Force per length at the nodes for F and M (about a place), by pieces."""
    total = line.lengths.sum()
    middle = line.lengths @ line.middles / total
    q = line.middles - middle
    w = line.lengths
    s = np.eye(3) * (w @ (q * q).sum(axis=1)) - np.einsum("k,ki,kj->ij", w, q, q)
    m = moment + np.cross(about - middle, force)
    turn, *_ = np.linalg.lstsq(s, m, rcond=1e-9)
    assert np.abs(s @ turn - m).max() <= 1e-6 * max(np.abs(m).max(), 1.0), "cannot carry the moment"
    per = force / total + np.cross(turn, line.nodes - middle)
    return (
        np.einsum("ij,ij->i", per, line.x),
        np.einsum("ij,ij->i", per, line.s),
        np.einsum("ij,ij->i", per, line.n),
    )
