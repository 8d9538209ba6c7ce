"""Outlines: figures by mesh, and what is kept of them between runs."""

from pathlib import Path

import numpy as np
import pytest

from strength.case.shape import Outline
from strength.sections import outline as outline_module
from strength.sections.flat_stress import flat_matrix
from strength.sections.outline import Meshed, meshed, outline_matrix, outline_properties
from strength.sections.outline_cache import cache_file, cache_folder, recalled, remembered

PLATE = Outline(((3.0, 1.0), (15.0, 1.0), (15.0, 46.0), (3.0, 46.0)))  # 12 x 45, off the origin
ANGLE = Outline(((0.0, 0.0), (30.0, 0.0), (30.0, 4.0), (4.0, 4.0), (4.0, 50.0), (0.0, 50.0)))


@pytest.fixture(autouse=True)
def own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A cache folder of this test's own, and nothing in memory."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    meshed.cache_clear()
    return tmp_path / "cache" / "strength"


def test_rectangle_as_outline() -> None:
    """Closed forms of a rectangle: A, I, J (St Venant, Timoshenko's table between 3 and 4), shear 5/6."""
    found = outline_properties(PLATE)
    assert float(found.area[0]) == pytest.approx(540.0)
    assert float(found.iy[0]) == pytest.approx(12.0 * 45.0**3 / 12.0)
    assert float(found.iz[0]) == pytest.approx(45.0 * 12.0**3 / 12.0)
    assert 0.263 < float(found.torsion[0]) / (45.0 * 12.0**3) < 0.281
    assert float(found.kappa_z[0]) == pytest.approx(5.0 / 6.0, rel=1e-3)
    assert float(found.modulus_y[0]) == pytest.approx(12.0 * 45.0**2 / 6.0)
    assert float(found.wall[0]) == pytest.approx(12.0)
    assert meshed(PLATE).is_centred


def test_rectangle_stresses_like_a_flat() -> None:
    """All six forces keep their signs: the same worst stress as the flat's closed forms."""
    flat = flat_matrix(np.array([45.0]), np.array([12.0]))
    for forces in (
        (2000.0, -300.0, 900.0, 24e3, 31e3, -12e3),
        (-800.0, 200.0, -1400.0, 24e3, -9e3, 15e3),
        (500.0, 100.0, 2500.0, -40e3, 3e3, 2e3),
    ):
        batch = np.array([[forces]])
        expected = float(flat.von_mises(batch)[0, 0])
        assert float(outline_matrix(PLATE).von_mises(batch)[0, 0]) == pytest.approx(expected, rel=0.01)


def test_angle_bends_askew() -> None:
    """Iyz kept: sigma at a corner by the general formula of unsymmetric bending (any handbook)."""
    mesh = meshed(ANGLE)
    area = 30.0 * 4.0 + 46.0 * 4.0
    centre_y = (120.0 * 15.0 + 184.0 * 2.0) / area
    centre_z = (120.0 * 2.0 + 184.0 * 27.0) / area
    iy = (
        30.0 * 4.0**3 / 12.0
        + 120.0 * (2.0 - centre_z) ** 2
        + 4.0 * 46.0**3 / 12.0
        + 184.0 * (27.0 - centre_z) ** 2
    )
    iz = (
        4.0 * 30.0**3 / 12.0
        + 120.0 * (15.0 - centre_y) ** 2
        + 46.0 * 4.0**3 / 12.0
        + 184.0 * (2.0 - centre_y) ** 2
    )
    iyz = 120.0 * (15.0 - centre_y) * (2.0 - centre_z) + 184.0 * (2.0 - centre_y) * (27.0 - centre_z)
    assert [mesh.figure(name) for name in ("area", "iy", "iz", "iyz")] == pytest.approx([area, iy, iz, iyz])
    my, mz = 40e3, 11e3
    y, z = 0.0 - centre_y, 50.0 - centre_z
    expected = ((my * iz + mz * iyz) * z - (mz * iy + my * iyz) * y) / (iy * iz - iyz**2)
    corner = int(np.argmin(np.hypot(mesh.y - y, mesh.z - z)))
    assert float(mesh.unit[0, corner] @ [0.0, 0.0, 0.0, 0.0, my, mz]) == pytest.approx(expected, rel=1e-6)
    assert not mesh.is_centred


def test_kept_figures_are_those_of_the_mesh(own_cache: Path) -> None:
    """What a second run reads is what the first one made; nothing but the file is left."""
    first = meshed(PLATE)
    assert cache_folder() == own_cache
    assert [file.name for file in own_cache.iterdir()] == [cache_file(PLATE).name]
    meshed.cache_clear()
    again = meshed(PLATE)
    assert isinstance(again, Meshed)
    assert np.array_equal(again.unit, first.unit)
    assert np.array_equal(again.figures, first.figures)


def test_second_run_does_not_mesh(monkeypatch: pytest.MonkeyPatch) -> None:
    """Kept figures are used: the mesher is not asked again."""
    expected = meshed(PLATE).figures

    def refuse(shape: Outline) -> dict[str, np.ndarray]:
        raise AssertionError(f"{shape} was meshed again")

    monkeypatch.setattr(outline_module, "_mesh", refuse)
    meshed.cache_clear()
    assert np.array_equal(meshed(PLATE).figures, expected)


@pytest.mark.parametrize("damage", [b"", b"PK\x03\x04 not a whole archive", b"\x93NUMPY\x01\x00\xff"])
def test_damaged_file_is_made_anew(damage: bytes) -> None:
    """A file that cannot be read is passed over and replaced."""
    expected = meshed(PLATE).figures
    cache_file(PLATE).write_bytes(damage)
    meshed.cache_clear()
    assert recalled(PLATE) is None
    assert np.array_equal(meshed(PLATE).figures, expected)
    assert recalled(PLATE) is not None


def test_cut_short_file_is_made_anew() -> None:
    """A copy broken off half way."""
    meshed(PLATE)
    whole = cache_file(PLATE).read_bytes()
    cache_file(PLATE).write_bytes(whole[: len(whole) // 2])
    assert recalled(PLATE) is None


def test_file_with_other_figures_is_not_trusted() -> None:
    """Arrays that do not fit together, or are not numbers, do not count."""
    good = {"y": np.zeros(3), "z": np.zeros(3), "unit": np.zeros((3, 3, 6)), "figures": np.ones(10)}
    remembered(PLATE, good)
    assert recalled(PLATE) is not None
    for name, value in (("z", np.zeros(4)), ("unit", np.zeros((3, 2, 6))), ("figures", np.full(10, np.nan))):
        remembered(PLATE, {**good, name: value})
        assert recalled(PLATE) is None


def test_folder_that_cannot_be_written(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file where the folder should be: the answer comes all the same, and nothing is kept."""
    (tmp_path / "blocked").write_text("in the way", encoding="utf-8")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "blocked"))
    assert meshed(PLATE).figure("area") == pytest.approx(540.0)
    assert (tmp_path / "blocked").read_text(encoding="utf-8") == "in the way"


def test_relative_cache_folder_is_passed_over(monkeypatch: pytest.MonkeyPatch) -> None:
    """XDG Base Directory Specification: relative paths are to be ignored."""
    monkeypatch.setenv("XDG_CACHE_HOME", "somewhere/else")
    monkeypatch.setenv("HOME", "/home/anybody")
    assert cache_folder() == Path("/home/anybody/.cache/strength")
