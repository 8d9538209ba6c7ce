"""A metal and its strength by thickness."""

from strength.errors import RangeError
from strength.values import frozen


@frozen(kw_only=True)
class Strength:
    """Strength of one thickness range [mm, MPa]; elongation a fraction, None: unknown.

    `up_to` is inclusive, `over` is exclusive. `diameter_to` limits the row to round parts of at
    most that outside diameter [mm]. Welded values are those beside a weld (MIG), None where the
    metal may not be welded. `sure` says how a value is known: read | computed | memory | choice |
    user; `sure_welded`, `sure_elongation` and `source_welded` differ where those values come from
    elsewhere.
    """

    yield_: float
    ultimate: float
    yield_welded: float | None
    ultimate_welded: float | None
    elongation: float | None = None
    over: float = 0.0
    up_to: float = float("inf")
    diameter_to: float = float("inf")
    source: str = ""
    sure: str = ""
    source_welded: str = ""
    sure_welded: str = ""
    sure_elongation: str = ""


@frozen(kw_only=True)
class Metal:
    """A metal; moduli in MPa, density in kg/mm^3."""

    name: str
    kind: str  # steel | stainless | aluminium
    modulus: float
    poisson: float
    shear_modulus: float
    density: float
    weldable: bool
    buckling_curve: str  # a0 a b c d (EN 1993-1-1), A B (EN 1999-1-1)
    rows: tuple[Strength, ...]
    beta_w: float = 1.0  # EN 1993-1-8 Table 4.1
    series: str = ""  # aluminium: "5xxx", "6xxx", "7xxx", "2xxx"
    quenched: bool = False
    carbon_equivalent: float | None = None
    own: bool = False  # the user's own, in the case or the personal library
    textbook: bool = False  # of a book's example: it cannot be bought
    note: str = ""
    family: str = ""  # "S355", "E235", "6082": what a filler is chosen by
    form: str = ""  # in what form it is sold
    standard: str = ""
    wall_rule: str = ""  # the standard of its tube's wall tolerance, where it is tube
    also: tuple[str, ...] = ()  # other names
    source: str = ""  # of the elastic constants, or of the user's own metal
    sure: str = ""

    def strength(self, thickness: float, diameter: float | None = None) -> Strength:
        """The row for a part of this thickness [mm].

        `thickness` is a tube's or box's wall, a flat's thickness, a bar's diameter; `diameter` the
        outside diameter of a round part, where the row depends on it; left out, the lower row holds.
        Raises RangeError (strength.errors), naming the ranges, where no row holds.
        """
        for row in self.rows:
            if row.over < thickness <= row.up_to and (diameter or 0.0) <= row.diameter_to:
                return row
        raise RangeError(self.name, thickness, [(row.over, row.up_to) for row in self.rows])
