"""The shape of the program: which package may import which, and what start-up may cost."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

import strength

PACKAGE = Path(strength.__file__).parent
# Upstream first; a package may import only what stands before it (or in its own group).
ORDER = (
    {"units", "errors", "values", "arrays", "memory"},
    {"library"},
    {"case"},
    {"vehicle", "sections"},
    {"frame"},
    {"joints"},
    {"checks"},
    {"run"},
    {"studies"},
    {"report"},
    {"cli", "cli_explain", "cli_shared", "cli_studies", "__main__", "__init__"},
)
RANK = {name: rank for rank, group in enumerate(ORDER) for name in group}


def imports(path: Path) -> set[str]:
    """First names below `strength` that a file imports, lazily or not."""
    found = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("strength."):
            found.add(node.module.split(".")[1])
        elif isinstance(node, ast.ImportFrom) and node.module == "strength":
            found.update(alias.name for alias in node.names if alias.name in RANK)
        elif isinstance(node, ast.Import):
            found.update(a.name.split(".")[1] for a in node.names if a.name.startswith("strength."))
    return found


FILES = sorted(PACKAGE.rglob("*.py"))


@pytest.mark.parametrize("path", FILES, ids=[str(p.relative_to(PACKAGE)) for p in FILES])
def test_imports_point_upstream(path: Path) -> None:
    """No file imports from a package further down the flow."""
    own = path.relative_to(PACKAGE).parts[0].removesuffix(".py")
    late = {name for name in imports(path) if RANK[name] > RANK[own]}
    assert not late, f"{path} imports from downstream: {late}"


@pytest.mark.parametrize("path", FILES, ids=[str(p.relative_to(PACKAGE)) for p in FILES])
def test_files_stay_small(path: Path) -> None:
    """One noun a file: none above 350 lines."""
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 350


@pytest.mark.parametrize("module", ["strength", "strength.cli", "strength.run"])
def test_import_is_light(module: str) -> None:
    """What a command does not need is not imported."""
    heavy = ["scipy", "pint", "sectionproperties", "matplotlib", "jinja2", "tomlkit", "shapely", "pandas"]
    code = f"import sys, {module}; print([m for m in {heavy} if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
