"""Scatter: each draw is a case of its own, and what is counted follows from the draws."""

import os
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from pathlib import Path

import numpy as np
import pytest
from scipy.stats import binomtest, norm, qmc, rankdata, spearmanr

from strength.__main__ import main
from strength.case import case_from_text
from strength.errors import CaseError, StrengthError
from strength.library.data import cases_folder
from strength.run import run
from strength.studies.chance import interval, rank_correlations, ranks
from strength.studies.draws import drawn, hypercube, scatter_of
from strength.studies.executors import workers
from strength.studies.forces import loading, scaled
from strength.studies.spread import spread
from strength.studies.typed import typed_case
from strength.values import evolve
from strength.vehicle import balance, into_structure
from tests.second_way.random_cases import vehicle
from tests.studies.cases import CRANE
from tests.studies.test_evaluate import plain

STILL = "wall = 0.0\nthickness = 0.0\nleg = 0.0\nstrength = 0.0\nmass = 0.0\nload = 0.0\n"
ARM = (
    'title = "Bracken wall arm"\n[defaults]\nmaterial = {tube = "E235+N"}\n'
    '[members]\narm = {from = "0 0 0 mm", to = "500 0 0 mm", section = "tube 30 x 2 mm"}\n'
    '[supports]\narm-from = "all"\n'
    '[loads]\nhang = {forces = [{at = "arm-to", force = "0 0 -360 N"}]}\n'
)


def only(kind: str, deviation: float, text: str = ARM) -> str:
    """A case in which one thing alone scatters."""
    table = STILL.replace(f"{kind} = 0.0", f"{kind} = {deviation}")
    return f"{text}[spread]\n{table}"


def test_load_alone_has_a_closed_form() -> None:
    """Utilisation is the load's factor times the nominal one: a normal law, cut off at three deviations."""
    case = case_from_text(only("load", 0.08))
    found = spread(case, draws=1000)
    u = run(case).rows[0].utilisation
    assert found.nominal == pytest.approx(u, rel=1e-12)
    z = (1.0 / u - 1.0) / 0.08
    inside = norm.cdf(3.0) - norm.cdf(-3.0)
    exact = (norm.cdf(3.0) - norm.cdf(z)) / inside
    assert 0.02 < exact < 0.98
    # a Latin hypercube of one input hits each of 1000 strips once: right to one draw
    assert found.chance.chance == pytest.approx(exact, abs=1.1 / 1000)
    assert found.chance.low < exact < found.chance.high
    for share, value in found.chance.quantiles.items():
        at = norm.ppf(norm.cdf(-3.0) + share * inside)
        assert value == pytest.approx(u * (1.0 + 0.08 * at), abs=4e-3)
    assert found.matters == (("load", "hang", pytest.approx(1.0, abs=1e-12)),)


def test_strength_alone_lowers() -> None:
    """A stronger metal always helps: rank correlation -1."""
    found = spread(case_from_text(only("strength", 0.05)), draws=200)
    assert found.matters == (("strength", "E235+N", pytest.approx(-1.0, abs=1e-12)),)


def test_interval_of_no_events() -> None:
    """None in n: the exact upper bound at 95 % is 1 - 0.025^(1/n) (Clopper & Pearson 1934)."""
    found = spread(case_from_text(only("load", 0.01).replace("-360 N", "-100 N")), draws=100)
    assert (found.chance.over, found.chance.low) == (0, 0.0)
    assert found.chance.high == pytest.approx(1.0 - 0.025 ** (1.0 / 100.0), rel=1e-9)


def test_a_draw_is_a_case() -> None:
    """Walls, plates, legs and loads of one draw written into the case by hand give its utilisation."""
    case = case_from_text(CRANE)
    scatter = scatter_of(evolve(case, spread={"strength": 0.0}), draws=6)
    factors = drawn(scatter)
    found = spread(evolve(case, spread={"strength": 0.0}), draws=6)
    for draw in range(6):
        by = {(each.kind, each.number): factors[draw, n] for n, each in enumerate(scatter.inputs)}

        def cut(number: int, part: object, by: dict[tuple[str, int], float] = by) -> object:
            shape = part.shape
            if ("wall", number) in by:
                shape = evolve(shape, wall=shape.wall * by["wall", number])
            if ("thickness", number) in by:
                shape = evolve(shape, thickness=shape.thickness * by["thickness", number])
            return evolve(part, shape=shape)

        def pushed(number: int, load: object, by: dict[tuple[str, int], float] = by) -> object:
            f = by["load", number]
            forces = tuple(
                evolve(each, force=tuple(f * x for x in each.force), moment=tuple(f * x for x in each.moment))
                for each in load.forces
            )
            return evolve(load, forces=forces)

        count = len(case.members)
        lug = ("thickness", [member.name for member in case.members].index("lug"))
        made = evolve(
            case,
            members=tuple(cut(n, member) for n, member in enumerate(case.members)),
            struts=tuple(cut(count + n, strut) for n, strut in enumerate(case.struts)),
            welds=tuple(evolve(weld, leg=weld.leg * by["leg", n]) for n, weld in enumerate(case.welds)),
            loads=tuple(pushed(n, load) for n, load in enumerate(case.loads)),
            # the lug's plate in its bolt is the flat itself
            bolts=tuple(
                evolve(
                    bolt,
                    plates=tuple(evolve(plate, thickness=plate.thickness * by[lug]) for plate in bolt.plates),
                )
                for bolt in case.bolts
            ),
        )
        # flats of several proportions share one torsion field, good to 1e-5
        assert found.utilisation[draw] == pytest.approx(run(plain(made)).rows[0].utilisation, rel=1e-4)


@pytest.mark.parametrize("seed", range(5))
def test_forces_of_many_masses(seed: int) -> None:
    """Wheels, brakes, strikes and inertia for other masses, all at once and each balanced by itself."""
    case = plain(vehicle(seed))
    moves = loading(prepare_only(case))
    factors = 1.0 + 0.05 * np.random.default_rng(seed).normal(size=(4, len(case.masses)))
    found = moves.forces(factors)
    for own, draw in zip(found, factors, strict=True):
        alone = scaled(case, draw)
        exact = into_structure(alone, balance(alone)).forces
        assert own == pytest.approx(exact, abs=1e-9 * np.abs(exact).max())


def prepare_only(case: object) -> object:
    """What `loading` looks at of a prepared case; these vehicles have no members."""
    from types import SimpleNamespace

    return SimpleNamespace(case=case, loads=balance(case))


def test_poor_welds_are_worse() -> None:
    """Quality divides the throat alone: good 1, ordinary 0.8, poor 0.5."""
    text = only("load", 0.05, CRANE.replace('class = "8.8"', 'class = "8.8"\nleg = "1 mm"'))
    case = case_from_text(text)
    found = spread(case, draws=40)
    throats = [row.utilisation for row in run(case).rows if row.kind == "weld-throat"]
    assert found.nominal == pytest.approx(max(throats), rel=1e-12)
    medians = [found.by_quality[name].quantiles[0.5] for name in ("good", "ordinary", "poor")]
    assert medians[1] / medians[0] == pytest.approx(1.0 / 0.8, rel=1e-9)
    assert medians[2] / medians[0] == pytest.approx(2.0, rel=1e-9)
    assert found.by_quality["ordinary"].over == found.chance.over
    assert medians[1] == pytest.approx(found.chance.quantiles[0.5], rel=1e-12)


def test_the_same_seed_draws_the_same() -> None:
    """Draws go by their seed alone; every input meets each strip of its range once."""
    case = case_from_text(CRANE)
    one, two, other = (drawn(scatter_of(case, draws=50, seed=seed)) for seed in (7, 7, 8))
    assert np.array_equal(one, two)
    assert not np.array_equal(one, other)
    scatter = scatter_of(case, draws=50, seed=7)
    deviates = (one - 1.0) / [each.deviation for each in scatter.inputs]
    strips = np.floor((norm.cdf(deviates) - norm.cdf(-3.0)) / (norm.cdf(3.0) - norm.cdf(-3.0)) * 50.0)
    assert np.array_equal(np.sort(strips, axis=0), np.repeat(np.arange(50.0)[:, None], one.shape[1], axis=1))


@pytest.mark.parametrize("made", [ThreadPoolExecutor, ProcessPoolExecutor])
def test_executors_give_the_same_bits(made: type) -> None:
    """Spread over threads or processes: bit for bit as here."""
    case = case_from_text(CRANE)
    with made(2) as executor:
        assert spread(case, draws=150, executor=executor) == spread(case, draws=150)


def test_workers_give_the_same_bits() -> None:
    """Several pieces over processes of the program's own; what they share is unpacked once in each."""
    case = case_from_text(CRANE)
    with workers(2) as executor:
        assert spread(case, draws=300, executor=executor) == spread(case, draws=300)


def test_a_worker_that_is_ended_is_told() -> None:
    """One message that says what to do, where the system ends a worker."""
    with pytest.raises(StrengthError, match="--workers 1"), workers(2) as executor:
        executor.submit(os._exit, 9).result()


def test_hypercube_is_scipys() -> None:
    """The same figures as scipy's Latin hypercube."""
    sampler = qmc.LatinHypercube(d=7, rng=np.random.default_rng(9))
    assert np.array_equal(hypercube(53, 7, 9), sampler.random(53))


@pytest.mark.parametrize(("over", "draws"), [(0, 10), (3, 17), (17, 17), (16, 17), (59, 2000), (5, 10_000)])
def test_interval_is_scipys(over: int, draws: int) -> None:
    """The exact interval that scipy finds by root finding."""
    exact = binomtest(over, draws).proportion_ci(confidence_level=0.95, method="exact")
    assert interval(over, draws) == pytest.approx((exact.low, exact.high), rel=1e-9)


def test_rank_correlations_are_scipys() -> None:
    """Spearman's, with ties, and without what could not be computed."""
    random = np.random.default_rng(3)
    inputs, worst = random.normal(size=(40, 3)), random.integers(0, 9, 40).astype(float)
    assert np.array_equal(ranks(worst), rankdata(worst))
    exact = [spearmanr(own, worst).statistic for own in inputs.T]
    assert rank_correlations(inputs, worst) == pytest.approx(exact, rel=1e-12)
    worst[7] = np.nan
    known = np.arange(40) != 7
    exact = [spearmanr(own[known], worst[known]).statistic for own in inputs.T]
    assert rank_correlations(inputs, worst) == pytest.approx(exact, rel=1e-12)


def test_the_trike_scatters() -> None:
    """A free vehicle: nothing fails, and the nominal draw is the summary's worst."""
    case = typed_case(cases_folder() / "bracken-revised" / "case.toml").case
    found = spread(case, draws=16)
    assert found.failed == 0
    assert found.nominal == pytest.approx(run(case).rows[0].utilisation, rel=1e-9)


@pytest.mark.parametrize(
    ("table", "why"),
    [
        ("wal = 0.1", "did you mean 'wall'"),
        ("wall = 0.5", "is not a standard deviation"),
        ("wall = true", "is not a standard deviation"),
        ('wall = "4 %"', "is not a standard deviation"),
        ("draws = 1", "take at least 2"),
        ("draws = 10.5", "is not a whole number"),
    ],
)
def test_faults_of_the_table(table: str, why: str) -> None:
    """What is wrong in [spread] is named."""
    with pytest.raises(CaseError, match=why):
        scatter_of(case_from_text(f"{ARM}[spread]\n{table}\n"))


def test_command(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Printed with its seed; exit code 1 where some draw is over."""
    path = tmp_path / "arm.toml"
    path.write_text(ARM, encoding="utf-8")
    assert main(["spread", str(path), "--draws", "64", "--seed", "5"]) == 1
    shown = capsys.readouterr().out
    assert "64 draws, seed 5" in shown
    assert "all welds" in shown
    path.write_text(ARM.replace("-360 N", "-36 N"), encoding="utf-8")
    assert main(["spread", str(path), "--draws", "64", "--json", "-"]) == 0
    assert '"seed": 1' in capsys.readouterr().out
