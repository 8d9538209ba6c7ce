"""One wishbone with each kind of pivot: what goes through them, what the arm makes of it, how they turn."""

from collections.abc import Callable, Iterable
from typing import Any

import numpy as np
from numpy.typing import NDArray

from strength.case.faults import RefusedError, nearest
from strength.case.model import Case
from strength.case.places import other_side
from strength.case.sizes import thread_size
from strength.case.trade.names import suffixed
from strength.case.trade.wishbone import plane_normal
from strength.case.writing import amount
from strength.checks.verdict import Row
from strength.errors import CaseError, StrengthError
from strength.joints.end_force import along_and_across, end_force, size
from strength.library.threads import thread as known_thread
from strength.run import Outcome, run
from strength.studies.typed import BLOCK, Edit, TypedCase
from strength.values import evolve, frozen

Array = NDArray[np.float64]

SIDES = ("front", "rear")
BUSH_LONG = 2.0  # diameters: length of a bush, distance of a pair of bearings (own choice)
ARM = ("-front", "-rear", "-spreader", "-front-pivot", "-rear-pivot", "-front-cup", "-rear-cup",
       "-spreader-front", "-spreader-rear")  # fmt: skip
# a pivot's bolt and its weld have one name
BOLT_KINDS = ("bolt-shear", "bolt-tension", "bolt-combined", "bolt-bending", "pull-through", "bearing",
              "tear-out", "net-section")  # fmt: skip
STUDS = ("-front-rodend", "-rear-rodend")
FREE, HINGED = "ball", "hinge"


@frozen(kw_only=True)
class Passing:
    """What the arm hands over at one pivot under one load [N, N*mm, rad].

    along: the pivot axis, from rear to front. across it. about: the axis (0 where it turns freely).
    tipping: about what is square to the axis. swing: how far the leg turns about the axis as the load
    comes on, tilt: about what is square to it.
    """

    side: str
    load: str
    along: float
    across: float
    about: float
    tipping: float
    swing: float
    tilt: float
    edge: float  # pressure at a bush's edge [MPa]
    bearing: float  # greater radial force of a pair of bearings [N]


@frozen(kw_only=True)
class Worst:
    """The worst utilisation of some parts and the check it is of."""

    utilisation: float
    governs: str
    in_range: bool


@frozen(kw_only=True)
class PivotKind:
    """The arm with one kind of pivot. shank: of its studs in bending; why: it cannot be built or computed."""

    name: str
    held: str  # FREE | HINGED
    arm: Worst | None = None
    pivots: Worst | None = None
    whole: Worst | None = None
    shank: Row | None = None
    passing: tuple[Passing, ...] = ()
    why: str = ""

    @property
    def worst(self) -> Worst | None:
        """The worse of the arm and its pivots; in range where all of both is."""
        both = [each for each in (self.arm, self.pivots) if each is not None]
        if not both:
            return None
        top = max(both, key=lambda each: each.utilisation)
        return evolve(top, in_range=all(each.in_range for each in both))


@frozen(kw_only=True)
class Pivots:
    """A wishbone with every kind of pivot side by side; bush [mm]: its length."""

    part: str
    now: str
    size: str
    diameter: float
    bush: float
    kinds: tuple[PivotKind, ...]

    @property
    def favoured(self) -> tuple[PivotKind, ...]:
        """Kinds that could be computed, least worst utilisation first."""
        able = [each for each in self.kinds if each.worst is not None]
        return tuple(sorted(able, key=lambda each: each.worst.utilisation if each.worst else 0.0))


def pivots(
    file: TypedCase, name: str, thread: str = "", step: Callable[[int], None] = lambda _: None
) -> Pivots:
    """The case's wishbone `name` with rod ends, ball joints, plain bushes and bearings at its pivots.

    thread: size to compare at, such as "M10"; left out: that of the pivot as typed. Every kind is a run of
    the whole case. Raises CaseError for a name that is no wishbone's, and for a size that is not known.
    """
    known = [each.name for each in file.typed.entries if each.kind == "wishbone"]
    entry = next((found for side in file.sides(name) if (found := file.entry("wishbone", side))), None)
    if entry is None:
        more = [other_side(each) for each in known if file.mirror and other_side(each) != each]
        raise CaseError([(name, f"no wishbone is named {name!r}{nearest(name, [*known, *more])}")])
    _ = file.case  # tells every fault of the file as it stands first
    pivot = entry.keys["pivot"]
    diameter, size_text = _size(entry.path, pivot.size, thread)
    way = (*file.way_to(entry), "pivot")
    own = entry.name
    made = (
        ("rod ends", FREE, f"rod end {size_text}", False),
        ("ball joints", FREE, f"rod end {size_text}", True),
        ("plain bushes", HINGED, f"bush {size_text}", False),
    )
    kinds: list[PivotKind] = []
    for word, held, typed, across in made:
        kinds.append(_kind(file, name, own, word, held, Edit(way, typed), across=across, diameter=diameter))
        step(1)
    kinds.append(evolve(kinds[-1], name="bearings"))
    return Pivots(
        part=name,
        now=str(file.value(way)),
        size=size_text,
        diameter=diameter,
        bush=BUSH_LONG * diameter,
        kinds=tuple(kinds),
    )


def _size(path: str, own: Any, thread: str) -> tuple[float, str]:
    """Diameter [mm] and thread to compare at."""
    text = thread or ("" if own is None else own.text if own.kind == "thread" else f"M{own.diameter:g}")
    if not text:
        why = "its pivots are fixed, without a size: name one to compare at, such as --size M10"
        raise CaseError([(f"{path}.pivot", why)])
    try:
        found = thread_size(text)
        known_thread(found.text)
    except (RefusedError, StrengthError) as error:
        raise CaseError(
            [(f"{path}.pivot", f"{error}; name a thread to compare at, such as --size M10")]
        ) from None
    return found.diameter, found.text


def _kind(
    file: TypedCase, name: str, own: str, word: str, held: str, edit: Edit, *, across: bool, diameter: float
) -> PivotKind:
    """One kind of pivot: the case rebuilt and run with it."""
    studs = {f"stud {suffixed(side, tail)}" for side in {own, other_side(own)} for tail in STUDS}
    tables = dict(file.changed([edit]))
    tables["change"] = list(_changes(tables.get("change", ()), studs, held=held, across=across))
    edited = TypedCase(path=file.path, text=file.text, tables=tables, data=file.data, folder=file.folder)
    try:
        if across:
            edited = _turned(edited, own)
        outcome = run(edited.case)
    except StrengthError as error:
        return PivotKind(name=word, held=held, why=str(error).splitlines()[0])
    rows = outcome.rows
    arm = {suffixed(name, tail) for tail in ARM}
    bolts = {suffixed(name, f"-{side}-pivot") for side in SIDES}
    ends = {suffixed(name, tail) for tail in STUDS}
    own_rows = [row for row in rows if row.part in ends or (row.part in bolts and row.kind in BOLT_KINDS)]
    arm_rows = [row for row in rows if row.part in arm and row not in own_rows]
    bent = [row for row in own_rows if row.kind == "stud-bending"]
    return PivotKind(
        name=word,
        held=held,
        arm=_worst(arm_rows),
        pivots=_worst(own_rows),
        whole=_worst(rows),
        shank=max(bent, key=lambda row: row.utilisation, default=None),
        passing=tuple(_passing(outcome, name, diameter)),
    )


def _changes(blocks: Iterable[Any], studs: set[str], *, held: str, across: bool) -> Iterable[Any]:
    """Change blocks of the file; those of rod ends left out where there are none, their ratings elsewhere."""
    for block in blocks:
        if " ".join(str(block.get("part", "")).split()) not in studs or (held == FREE and not across):
            yield block
        elif held == FREE:  # another maker's rating says nothing of a ball joint
            rest = {key: value for key, value in block.items() if key != "rating"}
            if len(rest) > 1:
                yield rest


def _turned(file: TypedCase, own: str) -> TypedCase:
    """Studs across the arm and no bolts through their eyes: rod ends made ball joints."""
    at = {point.name: point.at for point in file.case.points}
    front, rear, ball = (at[_point(file.case, own, side)] for side in ("front", "rear", "ball"))
    normal = plane_normal(front, rear, ball)
    blocks: list[dict[str, Any]] = []
    for side in SIDES:
        blocks.append({"part": f"stud {suffixed(own, f'-{side}-rodend')}", "axis": amount(normal, "")[1:-1]})
        blocks.append({"part": f"bolt {suffixed(own, f'-{side}-pivot')}", "remove": True})
    tables = file.changed([Edit(BLOCK, block) for block in blocks])
    return TypedCase(path=file.path, text=file.text, tables=tables, data=file.data, folder=file.folder)


def _point(case: Case, name: str, which: str) -> str:
    """The point at a wishbone's front or rear pivot, or at its ball."""
    leg = next(
        each
        for each in case.members
        if each.name == suffixed(name, f"-{'rear' if which == 'rear' else 'front'}")
    )
    return leg.end if which == "ball" else leg.start


def _worst(rows: list[Row] | tuple[Row, ...]) -> Worst | None:
    top = max(rows, key=lambda row: row.utilisation, default=None)
    if top is None:
        return None
    return Worst(
        utilisation=float(top.utilisation), governs=top.id, in_range=all(row.in_range for row in rows)
    )


def _passing(outcome: Outcome, name: str, diameter: float) -> Iterable[Passing]:
    """Forces, moments and turning at both pivots under every load."""
    layout, case = outcome.layout, outcome.case
    number = {point: n for n, point in enumerate(layout.names)}
    corners = [number[_point(case, name, which)] for which in (*SIDES, "ball")]
    axis = layout.points[corners[0]] - layout.points[corners[1]]
    axis = axis / np.linalg.norm(axis)
    long = BUSH_LONG * diameter
    moved = outcome.response.displacements[0]
    turned = turn(layout.points[corners], moved[:, corners, :3])
    for side, corner in zip(SIDES, corners, strict=False):
        bar = outcome.bars.names.index(suffixed(name, f"-{side}"))
        end = end_force(layout, outcome.response, bar, "from")
        along, radial = along_and_across(end.force[0], axis)
        about, tipping = along_and_across(end.moment[0], axis)
        pair = np.cross(tipping, axis) / long
        bearing = np.maximum(size(radial / 2.0 + pair), size(radial / 2.0 - pair))
        edge = size(radial) / (diameter * long) + 6.0 * size(tipping) / (diameter * long**2)
        swing, tilt = along_and_across(turned - moved[:, corner, 3:], axis)
        for n, load in enumerate(outcome.loads):
            yield Passing(
                side=side,
                load=load.name,
                along=float(along[n]),
                across=float(size(radial)[n]),
                about=float(about[n]),
                tipping=float(size(tipping)[n]),
                swing=float(swing[n]),
                tilt=float(size(tilt)[n]),
                edge=float(edge[n]),
                bearing=float(bearing[n]),
            )


def turn(places: Array, moved: Array) -> Array:
    """The small turn (loads, 3) [rad] that fits the movements (loads, 3, 3) of three places (3, 3) best.

    As if the three were one rigid body: least squares of u_i - u = w x (r_i - r).
    """
    arms = places - places.mean(axis=0)
    off = moved - moved.mean(axis=1, keepdims=True)
    spread = (arms**2).sum() * np.eye(3) - arms.T @ arms
    found: Array = np.linalg.solve(spread, np.cross(arms, off).sum(axis=1).T).T
    return found
