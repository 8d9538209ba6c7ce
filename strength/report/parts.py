"""What a row is about: a tube, a plate, a weld, a bolt."""

from collections.abc import Sequence

from strength.case.dropout import Dropout
from strength.case.model import Bolt, Case, Clamp, Member, Sleeve, Strut, Stud, Weld
from strength.case.shape import Bar, Box, Flat, Tube
from strength.report.mirrored import mirrored

JOINT_KINDS = {
    "weld": ("weld-throat", "weld-toe", "chord-wall", "chord-punching", "tab-wall", "plate-bending"),
    "bolt": (
        "bolt-shear", "bolt-tension", "bolt-combined", "bolt-bending",
        "pull-through", "bearing", "tear-out", "net-section", "lug",
    ),
    "stud": ("stud-bending", "stud-rocking", "thread-strip", "rod-end"),
    "sleeve": ("sleeve-bearing", "sleeve-wall"),
    "clamp": ("clamp-slip",),
    "dropout": ("dropout",),
}  # fmt: skip
NOUN_OF_KIND = {kind: noun for noun, kinds in JOINT_KINDS.items() for kind in kinds}
SHAPES = {Tube: "tube", Bar: "bar", Box: "box", Flat: "plate"}


def across(case: Case) -> dict[tuple[str, str], str]:
    """Joints at the left end of members that span the middle, with their equals at the right end.

    (name, noun) of the one at the end whose place ends in ".left" -> name of the other.
    """
    parts: list[Member | Strut] = [*case.members, *case.struts]
    spans = {
        part.name: "from" if part.start.endswith(".left") else "to"
        for part in parts
        if part.start != part.end and mirrored(part.start) == part.end
    }
    found: dict[tuple[str, str], str] = {}
    for noun, joints in joints_of(case):
        ends: dict[tuple[str, str], list[str]] = {}
        for joint in joints:
            ends.setdefault((joint.member, joint.end), []).append(joint.name)
        for member, left in spans.items():
            one = ends.get((member, left), [])
            other = ends.get((member, "to" if left == "from" else "from"), [])
            if len(one) == len(other) == 1:
                found[one[0], noun] = other[0]
    return found


def joints_of(case: Case) -> tuple[tuple[str, Sequence[Weld | Bolt | Stud | Sleeve | Clamp | Dropout]], ...]:
    """All joints by what they are."""
    return (
        ("weld", case.welds),
        ("bolt", case.bolts),
        ("stud", case.studs),
        ("sleeve", case.sleeves),
        ("clamp", case.clamps),
        ("dropout", case.dropouts),
    )


class Nouns:
    """Tells what a part is; a name may stand once for a member and once for a weld."""

    def __init__(self, case: Case) -> None:
        self._shapes = {m.name: SHAPES.get(type(m.shape), "part") for m in case.members}
        for strut in case.struts:
            self._shapes[strut.name] = "strut"
        self._joints = {joint.name: noun for noun, joints in joints_of(case) for joint in joints}

    def noun(self, part: str, kind: str) -> str:
        """A short word: tube, bar, box, plate, strut, weld, bolt, stud, sleeve, clamp, frame, part."""
        if kind == "plate-bending" and part not in self._joints:
            return self._shapes.get(part, "part")  # a lug; else the weld that bends the plate it stands on
        if kind in NOUN_OF_KIND:
            return NOUN_OF_KIND[kind]
        if kind == "frame-buckling":
            return "frame"
        return self._shapes.get(part) or self._joints.get(part, "part")
