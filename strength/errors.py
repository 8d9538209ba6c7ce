"""The tree of errors a user can meet; each says what is wrong and what to do."""

from collections.abc import Iterable

MANY = 4  # parts with the same fault: from here on told together


class StrengthError(Exception):
    """Base of every error that is the input's, not the program's."""


class QuantityError(StrengthError, ValueError):
    """A text that is not a quantity of the wanted kind."""

    def __init__(self, text: str, why: str) -> None:
        super().__init__(text, why)
        self.text = text
        self.why = why

    def __str__(self) -> str:
        return f"{self.text!r} {self.why}"


class RangeError(StrengthError, ValueError):
    """A thickness for which the library holds no strength."""

    def __init__(self, metal: str, thickness: float, ranges: Iterable[tuple[float, float]]) -> None:
        super().__init__(metal, thickness, tuple(ranges))
        self.metal = metal
        self.thickness = thickness
        self.ranges = tuple(ranges)

    def __str__(self) -> str:
        held = ", ".join(f"over {a:g} to {b:g} mm" for a, b in self.ranges)
        return (
            f"{self.metal} has no strength for {self.thickness:g} mm: the library holds it for {held}; "
            f"take a thickness in range or give the figures as a material of your own"
        )


class CaseError(StrengthError, ValueError):
    """All faults of one case file, each with its path."""

    def __init__(self, faults: Iterable[tuple[str, str]]) -> None:
        super().__init__(tuple(faults))
        self.faults: tuple[tuple[str, str], ...] = self.args[0]

    def __str__(self) -> str:
        """A line per fault; what many parts have alike once, with all their paths."""
        paths: dict[str, list[str]] = {}
        for path, text in self.faults:
            paths.setdefault(text, []).append(path)
        lines = []
        for path, text in self.faults:
            alike = paths[text]
            if len(alike) < MANY:
                lines.append(f"{path}: {text}" if path else text)
            elif path == alike[0]:
                lines.append(f"{', '.join(alike)}: {text}")
        return "\n".join(lines)


class BalanceError(StrengthError, ValueError):
    """A load whose wheels cannot be brought into balance."""

    def __init__(self, load: str, why: str) -> None:
        super().__init__(load, why)
        self.load = load
        self.why = why

    def __str__(self) -> str:
        return f"load {self.load!r}: {self.why}"


class MechanismError(StrengthError, ValueError):
    """A structure that can move without bending anything."""

    def __init__(self, part: str, why: str) -> None:
        super().__init__(part, why)
        self.part = part
        self.why = why

    def __str__(self) -> str:
        return f"{self.part}: {self.why}"


class SolveError(StrengthError, ArithmeticError):
    """A solution that does not balance its loads: no margins are given."""

    def __init__(self, why: str) -> None:
        super().__init__(why)
        self.why = why

    def __str__(self) -> str:
        return f"the frame was not solved well enough to trust ({self.why}); no margins are given"


class OutputError(StrengthError, ValueError):
    """An output file that cannot be written, or must not be."""

    def __init__(self, path: str, why: str) -> None:
        super().__init__(path, why)
        self.path = path
        self.why = why

    def __str__(self) -> str:
        return f"{self.path!r} {self.why}"


class UnknownNameError(StrengthError, LookupError):
    """A name the library does not hold; `kind` says of what (material, filler, thread ...)."""

    def __init__(self, kind: str, name: str, nearest: Iterable[str] = ()) -> None:
        super().__init__(kind, name, tuple(nearest))
        self.kind = kind
        self.name = name
        self.nearest = tuple(nearest)

    def __str__(self) -> str:
        near = ", ".join(repr(one) for one in self.nearest)
        meant = f": nearest {'is' if len(self.nearest) == 1 else 'are'} {near}" if near else ""
        return f"the library holds no {self.kind} {self.name!r}{meant}"


class LibraryError(StrengthError, ValueError):
    """A library file that cannot be used: which file, where in it, what is wrong."""

    def __init__(self, file: str, where: str, why: str) -> None:
        super().__init__(file, where, why)
        self.file = file
        self.where = where
        self.why = why

    def __str__(self) -> str:
        return f"{self.file}: {self.where}: {self.why}" if self.where else f"{self.file}: {self.why}"


class AnswerError(StrengthError, ValueError):
    """An answer, typed or given as an option, that no starter case can be made from."""

    def __init__(self, question: str, why: str) -> None:
        super().__init__(question, why)
        self.question = question
        self.why = why

    def __str__(self) -> str:
        return f"--{self.question}: {self.why}"


class UnknownCheckError(StrengthError, LookupError):
    """A check, a part or a load that the case does not have; `nearest` are names it has.

    why: the part is there, but nothing of it is checked, and why.
    """

    def __init__(self, wanted: str, nearest: Iterable[str] = (), why: str = "") -> None:
        super().__init__(wanted, tuple(nearest), why)
        self.wanted = wanted
        self.nearest = tuple(nearest)
        self.why = why

    def __str__(self) -> str:
        if self.why:
            return f"{self.wanted!r} has no check to explain: {self.why}"
        near = " or ".join(repr(one) for one in self.nearest)
        hint = f"the nearest is {near}" if near else "give a part's name to list its checks"
        return f"the case has no check, part or load {self.wanted!r}: {hint}"


class NotByHandError(StrengthError, LookupError):
    """A kind of check that has no hand calculation."""

    def __init__(self, check: str, kind: str) -> None:
        super().__init__(check, kind)

    def __str__(self) -> str:
        return f"{self.args[0]!r}: {self.args[1]} is not worked out by hand; the record tells its source"
