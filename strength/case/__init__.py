"""TOML file to frozen, checked Case."""

from strength.case.model import Case
from strength.case.read import case_from_text, read_case

__all__ = ["Case", "case_from_text", "read_case"]
