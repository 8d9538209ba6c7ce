"""What is wrong, doubtful or not checked in a case whose parts are all there."""

from strength.case.checking.check import Checked, check

__all__ = ["Checked", "check"]
