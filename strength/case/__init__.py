"""TOML file to frozen, checked Case.

`read` has the order in which a file is read: `source` (bytes, TOML), `gather` (parts, by the keys in
`kinds`), `trade` (wishbones, knuckles, brackets to plain entries, places to points), `mirror`,
`loads`, `defaults`, `checking`, `build` (entries to the classes of `model`).
"""

from typing import Any

from strength.case.model import Case
from strength.case.read import case_from_text, read_case

__all__ = ["Case", "case_from_text", "read_case", "schema"]


def schema() -> dict[str, Any]:
    """The JSON Schema of a case file (draft 2020-12)."""
    from strength.case.json_schema import case_schema

    return case_schema()
