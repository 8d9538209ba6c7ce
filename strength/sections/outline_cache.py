"""What meshes gave, kept in the user's cache folder. Nothing here may stop a run."""

import os
import tempfile
from hashlib import sha256
from importlib.metadata import version
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from strength.case.shape import Outline

Array = NDArray[np.float64]

LAYOUT = 2  # of a kept file, and of how its mesh is made: raised when either changes
NAMES = ("y", "z", "unit", "figures")


def cache_folder() -> Path:
    """`strength` in the user's cache folder (XDG Base Directory Specification)."""
    given = os.environ.get("XDG_CACHE_HOME", "")
    # the specification: a path that is not absolute is to be ignored
    base = Path(given) if given and Path(given).is_absolute() else Path.home() / ".cache"
    return base / "strength"


def cache_file(shape: Outline) -> Path:
    """Where an outline's figures are kept: named by its coordinates and the mesher's version."""
    key = repr((LAYOUT, version("sectionproperties"), np.__version__, shape.corners, shape.holes))
    return cache_folder() / f"outline-{sha256(key.encode()).hexdigest()[:32]}.npz"


def recalled(shape: Outline) -> dict[str, Array] | None:
    """What is kept of an outline; None where nothing is, or where it cannot be trusted."""
    try:
        with cache_file(shape).open("rb") as file, np.load(file, allow_pickle=False) as kept:
            found = {name: np.asarray(kept[name], dtype=np.float64) for name in NAMES}
    except Exception:  # noqa: BLE001  a damaged file can raise nearly anything; the mesh is made anew
        return None
    return found if _is_whole(found) else None


def remembered(shape: Outline, figures: dict[str, Array]) -> None:
    """Keep an outline's figures; where the folder cannot be written, do without."""
    try:
        file = cache_file(shape)
        file.parent.mkdir(parents=True, exist_ok=True)
        # written aside and moved into place, so that no other run ever reads half a file
        with tempfile.NamedTemporaryFile(dir=file.parent, suffix=".part", delete=False) as aside:
            part = Path(aside.name)
            try:
                np.savez(aside, allow_pickle=False, **figures)
                aside.close()
                part.replace(file)
            except BaseException:
                part.unlink(missing_ok=True)
                raise
    except (OSError, RuntimeError):  # RuntimeError: no home folder
        return


def _is_whole(found: dict[str, Array]) -> bool:
    points = found["y"].shape
    return (
        found["z"].shape == points
        and found["unit"].shape == (3, *points, 6)
        and found["figures"].ndim == 1
        and bool(all(np.isfinite(part).all() for part in found.values()))
    )
