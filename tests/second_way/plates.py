"""Flats as plates by finite elements of scikit-fem: in their plane, and bent out of it. No code of ours."""

import numpy as np
from skfem import (
    Basis,
    BilinearForm,
    ElementQuad2,
    ElementTriArgyris,
    ElementVector,
    FacetBasis,
    LinearForm,
    MeshQuad,
    MeshTri,
    condense,
    solve,
)
from skfem.helpers import dd, ddot, eye, trace
from skfem.models.elasticity import linear_elasticity

YOUNGS, POISSON = 2.1e5, 0.3
LAME = YOUNGS * POISSON / (1.0 - POISSON**2), YOUNGS / (2.0 * (1.0 + POISSON))  # plane stress


def round_hole(half, width, diameter, off, around=80, outward=26, growth=1.17):
    """Quads (points, corners) of a strip x in [-half, half], y in [-width/2, width/2], hole at (0, off)."""
    corners = [(half, -width / 2), (half, width / 2), (-half, width / 2), (-half, -width / 2)]
    turns = np.unwrap([np.arctan2(y - off, x) for x, y in corners])
    ends = np.append(turns[1:], turns[0] + 2 * np.pi)
    angle = np.concatenate(
        [np.linspace(a, b, around // 4, endpoint=False) for a, b in zip(turns, ends, strict=True)]
    )
    c, s = np.cos(angle), np.sin(angle)
    # a line that runs exactly along the strip never meets its long edges, and the other way round
    least = 1e-300
    reach = np.minimum(
        half / np.maximum(np.abs(c), least),
        np.where(s > 0, width / 2 - off, width / 2 + off) / np.maximum(np.abs(s), least),
    )
    steps = np.append(0.0, np.cumsum(growth ** np.arange(outward)))
    radius = diameter / 2 + np.outer(steps / steps[-1], reach - diameter / 2)
    points = np.stack([(radius * c).ravel(), (radius * s + off).ravel()])
    row, column = (
        each.ravel() for each in np.meshgrid(np.arange(outward), np.arange(angle.size), indexing="ij")
    )
    here, there = column, (column + 1) % angle.size
    n = angle.size
    return points, np.stack([row * n + here, (row + 1) * n + here, (row + 1) * n + there, row * n + there])


def in_plane(mesh, facets, traction, fixed):
    """Movement under a traction (x, y) -> (along x, along y) on facets; fixed: freedoms from a basis."""
    basis = Basis(mesh, ElementVector(ElementQuad2()), intorder=4)
    matrix = linear_elasticity(*LAME).assemble(basis)

    def work(v, w):
        x, y = traction(w.x[0], w.x[1])
        return x * v[0] + y * v[1]

    force = LinearForm(work).assemble(FacetBasis(mesh, basis.elem, facets=facets, intorder=4))
    return basis, solve(*condense(matrix, force, D=fixed(basis)))


def stresses(basis, moved, facets):
    """Stresses x, y, xy at points of facets, with the facets' basis."""
    at = FacetBasis(basis.mesh, basis.elem, facets=facets, intorder=5)
    strain = at.interpolate(moved).grad
    lame, shear = LAME
    both = lame * (strain[0][0] + strain[1][1])
    xx, yy = both + 2 * shear * strain[0][0], both + 2 * shear * strain[1][1]
    return at, xx, yy, shear * (strain[0][1] + strain[1][0])


def peak_at_hole(width, diameter, off, traction, mirrored=False):
    """Greatest stress along a hole's edge in a strip three widths long, under tractions at its ends.

    mirrored: the lower edge is a line of symmetry, so that there are two holes in twice the width.
    """
    half = 1.5 * width
    mesh = MeshQuad(*round_hole(half, width, diameter, off))
    ends = mesh.facets_satisfying(lambda x: np.abs(np.abs(x[0]) - half) < 1e-9 * half, boundaries_only=True)

    def fixed(basis):
        low = basis.get_dofs(lambda x: np.abs(x[1] + width / 2) < 1e-9 * width)
        left = basis.get_dofs(lambda x: np.abs(x[0] + half) < 1e-9 * half)
        order = np.argsort(basis.doflocs[1, left.nodal["u^1"]])
        across, along = left.nodal["u^1"][order], left.nodal["u^2"][order]
        if mirrored:
            return np.append(low.all(["u^2"]), across[0])
        return np.array([across[0], across[-1], along[0]])

    def pull(x, y):
        sign = np.sign(x)
        return tuple(sign * part for part in traction(x, y))

    basis, moved = in_plane(mesh, ends, pull, fixed)
    edge = mesh.facets_satisfying(
        lambda x: np.abs(np.hypot(x[0], x[1] - off) - diameter / 2) < 0.02 * diameter, boundaries_only=True
    )
    at, xx, yy, xy = stresses(basis, moved, edge)
    along, across = -at.normals[1], at.normals[0]
    return float(np.abs(xx * along**2 + yy * across**2 + 2 * xy * along * across).max())


def outer_fibre(ratio, share):
    """Greatest stress over M/W at `share` of the width from the held edge of a strip `ratio` widths long."""
    mesh = MeshQuad.init_tensor(np.linspace(0, 1, 37) ** 1.3 * ratio, np.linspace(-0.5, 0.5, 41))
    tip = mesh.facets_satisfying(lambda x: np.abs(x[0] - ratio) < 1e-9)

    def held(basis):
        return basis.get_dofs(lambda x: np.abs(x[0]) < 1e-9).all()

    basis, moved = in_plane(mesh, tip, lambda _, y: (0 * y, 1.5 * (1 - 4 * y**2)), held)
    places = np.unique(mesh.p[0])
    place = places[np.abs(places - share).argmin()]
    cut = mesh.facets_satisfying(lambda x: np.abs(x[0] - place) < 1e-9)
    _, xx, _, _ = stresses(basis, moved, cut)
    return float(np.abs(xx).max()) / (6.0 * (ratio - place))


@BilinearForm
def plate_bending(u, v, _):
    """Kirchhoff plate of unit stiffness."""
    curvature = dd(u)
    return ddot((1 - POISSON) * curvature + POISSON * eye(trace(curvature), 2), dd(v))


def root_moment(ratio, along=20, across=32):
    """Greatest moment per unit width at the held edge, unit load in the middle of the free one, width 1."""
    mesh = MeshTri.init_tensor(
        np.linspace(0, 1, along + 1) ** 1.5 * ratio, np.linspace(-0.5, 0.5, across + 1)
    )
    basis = Basis(mesh, ElementTriArgyris(), intorder=8)
    matrix = plate_bending.assemble(basis)
    held = basis.get_dofs(lambda x: np.abs(x[0]) < 1e-9).all(["u", "u_x", "u_y", "u_xy", "u_yy", "u_n"])
    force = np.zeros(basis.N)
    (tip,) = np.flatnonzero((np.abs(mesh.p[0] - ratio) < 1e-9) & (np.abs(mesh.p[1]) < 1e-9))
    force[basis.nodal_dofs[0, tip]] = 1.0
    moved = solve(*condense(matrix, force, D=held))
    root = np.flatnonzero((np.abs(mesh.p[0]) < 1e-9) & (np.abs(mesh.p[1]) < 0.45))
    return float(np.abs(moved[basis.nodal_dofs[3, root]]).max())


def plate_peak_at_hole(share):
    """Greatest moment along a hole's edge over the mean of the net section, strip bent out of its plane."""
    half = 1.5
    points, quads = round_hole(half, 1.0, share, 0.0, around=48, outward=12, growth=1.25)
    mesh = MeshTri(points, np.hstack([quads[[0, 1, 2]], quads[[0, 2, 3]]]))
    basis = Basis(mesh, ElementTriArgyris(), intorder=8)
    matrix = plate_bending.assemble(basis)
    force = np.zeros(basis.N)
    for sign in (1.0, -1.0):
        end = mesh.facets_satisfying(lambda x, s=sign: np.abs(x[0] - s * half) < 1e-9)
        turn = LinearForm(lambda v, w, s=sign: s * v.grad[0] + 0 * w.x[0])
        force += turn.assemble(FacetBasis(mesh, basis.elem, facets=end, intorder=8))
    (corner,) = np.flatnonzero((np.abs(mesh.p[0] - half) < 1e-9) & (np.abs(mesh.p[1] + 0.5) < 1e-9))
    moved = solve(*condense(matrix, force, D=basis.nodal_dofs[:3, corner]))
    edge = mesh.facets_satisfying(
        lambda x: np.abs(np.hypot(x[0], x[1]) - share / 2) < 0.05 * share, boundaries_only=True
    )
    at = FacetBasis(mesh, basis.elem, facets=edge, intorder=4)
    bent = at.interpolate(moved).hess
    along, across = -at.normals[1], at.normals[0]
    mx, my = bent[0][0] + POISSON * bent[1][1], bent[1][1] + POISSON * bent[0][0]
    hoop = mx * along**2 + my * across**2 + 2 * (1 - POISSON) * bent[0][1] * along * across
    return float(np.abs(hoop).max()) * (1 - share)
