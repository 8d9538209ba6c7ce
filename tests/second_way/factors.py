"""Divisors of resistances by basis and severity, written out plainly."""

COLUMN = {"routine": 0, "hard": 1, "abuse": 2}


class Factors:
    """Divisors of a case for one severity."""

    def __init__(self, basis, severity):
        """Remember the basis and the column of the table."""
        self.allowable = basis.method == "allowable"
        self.given = basis.factors
        self.n = COLUMN[severity]

    def _value(self, name, table):
        own = self.given.get(name, (None, None, None))[self.n]
        return table[self.n] if own is None else own

    @property
    def effects(self):
        """On load effects: limit-state only."""
        return 1.0 if self.allowable else self._value("load_factor", (1.5, 1.5, 1.25))

    def yielding(self, kind, brittle=False, fifth=False):
        """yield_factor, or gamma_m0 (gamma_m1 aluminium, gamma_m5 of hollow section joints)."""
        if self.allowable:
            found = self._value("yield_factor", (1.67, 1.67, 1.25))
            return max(found, 1.67) if brittle else found
        if fifth:
            return self._value("gamma_m5", (1.0, 1.0, 1.0))
        light = 1.1 if kind in ("stainless", "aluminium") else 1.0
        return self._value("gamma_m1" if kind == "aluminium" else "gamma_m0", (light,) * 3)

    def ultimate(self):
        """ultimate_factor or gamma_m2."""
        if self.allowable:
            return self._value("ultimate_factor", (2.0, 2.0, 2.0))
        return self._value("gamma_m2", (1.25, 1.25, 1.25))

    def stability(self, kind):
        """stability_factor or gamma_m1."""
        if self.allowable:
            return self._value("stability_factor", (1.67, 1.67, 1.5))
        light = 1.1 if kind in ("stainless", "aluminium") else 1.0
        return self._value("gamma_m1", (light,) * 3)

    @property
    def on_critical(self):
        """What n is in 1 / (1 - n N / Ncr)."""
        return self._value("stability_factor", (1.67, 1.67, 1.5)) if self.allowable else 1.0
