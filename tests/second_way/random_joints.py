"""Case files drawn at random: arms on supports, a branch welded onto each, nothing square. Seeded."""

import numpy as np

LIGHT = {
    "tube": ("6061-T6", "6082-T6", "6060-T66"),
    "box": ("6082-T6", "6060-T66", "6061-T6"),
    "flat": ("6082-T651", "5083-H111 plate", "5754-H111"),
    "bar": ("6082-T6",),
}
STEEL = {
    "tube": ("E235+N", "E355+N", "S355J2H", "E235+C"),
    "box": ("S235JRH", "S355J2H", "S275J2H"),
    "flat": ("S235JR", "S355J2", "S275JR"),
    "bar": ("S235JR", "S355J2"),
}


class Draw:
    """Draws numbers, words and lines of a case file."""

    def __init__(self, seed):
        """Same seed, same file."""
        self.rng = np.random.default_rng(seed)

    def pick(self, *options):
        """One of several."""
        return options[self.rng.integers(len(options))]

    def __call__(self, low, high):
        """A number."""
        return self.rng.uniform(low, high)

    def host(self):
        """Kind and text of a stout section."""
        return self.pick(
            ("tube", f"tube {self(40, 70):.1f} x {self(1.5, 3.5):.2f} mm"),
            ("box", f"box {self(40, 80):.1f} x {self(40, 60):.1f} x {self(2, 5):.2f} mm"),
            ("flat", f"flat {self(50, 90):.1f} x {self(8, 16):.1f} mm"),
        )

    def branch(self):
        """Text of a slender section."""
        return self.pick(
            f"tube {self(16, 38):.1f} x {self(1.5, 3.5):.2f} mm",
            f"bar {self(8, 20):.1f} mm",
            f"square {self(18, 38):.1f} x {self(1.5, 2.8):.2f} mm",
            f"box {self(20, 38):.1f} x {self(16, 34):.1f} x {self(1.5, 3):.2f} mm",
            f"flat {self(18, 36):.1f} x {self(3, 8):.1f} mm",
        )

    def up(self):
        """A skew `up`, or none."""
        if self(0, 1) < 0.2:
            return ""
        return f', up = "{self(-1, 1):.2f} {self(-1, 1):.2f} {self(-1, 1):.2f}"'

    def root(self, kind, plate):
        """Keys of the weld at the root of an arm."""
        if self(0, 1) < 0.25:
            y, z = self(3, 5), self(5, 18)
            pattern = (
                f'{{lines = ["{-y:.1f} {-z:.1f} {-y:.1f} {z:.1f} mm", '
                f'"{y:.1f} {-0.7 * z:.1f} {y:.1f} {0.8 * z:.1f} mm"]}}'
            )
        else:
            pattern = '"sides"' if kind != "tube" and self(0, 1) < 0.4 else '"around"'
        onto = f', onto = {{thickness = "{self(3, 9):.1f} mm", material = "{plate}"}}'
        return (
            f'inset = "{self(0, 20):.1f} mm", leg = "{self(2.5, 6):.1f} mm", pattern = {pattern}'
            + self.pick("", onto)
        )


def place(v):
    """A vector as text."""
    return f'"{v[0]:.4f} {v[1]:.4f} {v[2]:.4f} mm"'


def case_text(seed):
    """A whole case file."""
    draw = Draw(seed)
    light = draw(0, 1) < 0.4
    metals = {kind: draw.pick(*names) for kind, names in (LIGHT if light else STEEL).items()}
    filler = draw.pick("5356", "4043") if light else draw.pick("ER70S-6", "G3Si1", "G 38")
    head = [
        'title = "random arms"',
        "[defaults]",
        f'process = "{draw.pick("mig", "tig", "stick")}"',
        f'filler = "{filler}"',
        f'quality = "{draw.pick("good", "ordinary", "poor")}"',
        "material = {" + ", ".join(f'{kind} = "{name}"' for kind, name in metals.items()) + "}",
        "[basis]",
        f'method = "{draw.pick("allowable", "limit-state")}"',
        f'wall = "{draw.pick("nominal", "minimum")}"',
    ]
    parts = {"points": [], "members": [], "supports": [], "welds": [], "holes": []}
    pushed = {"routine": [], "hard": [], "abuse": []}
    for k in range(3):
        arm(draw, k, metals, parts, pushed)
    loads = [f'{name} = {{severity = "{name}", forces = [{", ".join(f)}]}}' for name, f in pushed.items()]
    body = [line for kind, lines in parts.items() if lines for line in (f"[{kind}]", *lines)]
    return "\n".join([*head, *body, "[loads]", *loads])


def arm(draw, k, metals, parts, pushed):
    """One arm from a support, perhaps held at its tip, and the branch on it."""
    start = np.array([0.0, 400.0 * k, 0.0])
    along = draw.rng.normal(size=3) * [0.2, 0.3, 0.3] + [1, 0, 0]
    along /= np.linalg.norm(along)
    length, share = draw(300, 700), draw(0.3, 0.7)
    across = np.cross(along, draw.rng.normal(size=3))
    across /= np.linalg.norm(across)
    lean = np.radians(draw(45, 135))
    foot = start + along * length * share
    tip = foot + draw(120, 300) * (np.cos(lean) * along + np.sin(lean) * across)
    kind, section = draw.host()
    only = draw.pick("", "", "", ", only_path = true")
    parts["points"] += [
        f"a{k} = {place(start)}",
        f"b{k} = {place(start + along * length)}",
        f"t{k} = {place(tip)}",
        f'm{k} = {{between = ["a{k}", "b{k}"], at = {share:.6f}}}',
    ]
    parts["supports"].append(f'a{k} = "all"')
    if draw(0, 1) < 0.7:
        parts["supports"].append(f'b{k} = "{draw.pick("all", "x y z", "y z")}"')
    ends = draw.pick(
        f'from = "m{k}", to = "t{k}", weld_from = "h{k}"', f'from = "t{k}", to = "m{k}", weld_to = "h{k}"'
    )
    parts["members"] += [
        f'h{k} = {{from = "a{k}", to = "b{k}", via = ["m{k}"], section = "{section}"{draw.up()}{only}}}',
        f'r{k} = {{{ends}, section = "{draw.branch()}"{draw.up()}}}',
    ]
    parts["welds"].append(f'w{k} = {{member = "h{k}", end = "from", {draw.root(kind, metals["flat"])}}}')
    if kind == "flat" and draw(0, 1) < 0.6:
        parts["holes"].append(
            f'o{k} = {{member = "h{k}", along = {draw(0.1, 0.9):.3f}, '
            f'diameter = "{draw(5, 16):.1f} mm", off_centre = "{draw(-5, 5):.1f} mm"}}'
        )
    for found in pushed.values():
        f, m = draw.rng.normal(size=3) * 600, draw.rng.normal(size=3) * 25
        found.append(
            f'{{at = "t{k}", force = "{f[0]:.1f} {f[1]:.1f} {f[2]:.1f} N", '
            f'moment = "{m[0]:.2f} {m[1]:.2f} {m[2]:.2f} N*m"}}'
        )
