"""What a row is about: a tube, a plate, a weld, a bolt."""

from strength.case.model import Case
from strength.case.shape import Bar, Box, Flat, Tube

JOINT_KINDS = {
    "weld": ("weld-throat", "weld-toe", "chord-wall", "chord-punching", "tab-wall", "plate-bending"),
    "bolt": (
        "bolt-shear", "bolt-tension", "bolt-combined", "bolt-bending",
        "pull-through", "bearing", "tear-out", "net-section",
    ),
    "stud": ("stud-bending", "stud-rocking", "thread-strip", "rod-end"),
    "sleeve": ("sleeve-bearing", "sleeve-wall"),
    "clamp": ("clamp-slip",),
}  # fmt: skip
NOUN_OF_KIND = {kind: noun for noun, kinds in JOINT_KINDS.items() for kind in kinds}
SHAPES = {Tube: "tube", Bar: "bar", Box: "box", Flat: "plate"}


class Nouns:
    """Tells what a part is; a name may stand once for a member and once for a weld."""

    def __init__(self, case: Case) -> None:
        self._shapes = {m.name: SHAPES.get(type(m.shape), "part") for m in case.members}
        for strut in case.struts:
            self._shapes[strut.name] = "strut"
        self._joints = {
            joint.name: noun
            for noun, joints in (
                ("weld", case.welds),
                ("bolt", case.bolts),
                ("stud", case.studs),
                ("sleeve", case.sleeves),
                ("clamp", case.clamps),
            )
            for joint in joints
        }

    def noun(self, part: str, kind: str) -> str:
        """A short word: tube, bar, box, plate, strut, weld, bolt, stud, sleeve, clamp, frame, part."""
        if kind in NOUN_OF_KIND:
            return NOUN_OF_KIND[kind]
        if kind == "frame-buckling":
            return "frame"
        return self._shapes.get(part) or self._joints.get(part, "part")
