"""Buckling curves.

EN 1993-1-1:2005 6.3.1.2, Table 6.1 and Figure 6.4; EN 1999-1-1:2007 6.3.1.2, Table 6.6 (classes A and B,
from memory). The five steel columns are as usually tabled to four digits.
"""

import numpy as np
import pytest

from strength.checks.perry import CURVES, chi

# slenderness: a0 a b c d, aluminium A B
TABLE = """
0.2 1 1 1 1 1 .9796 .9377
0.3 .9859 .9775 .9641 .9491 .9235 .9581 .9054
0.4 .9701 .9528 .9261 .8973 .8504 .9341 .8705
0.5 .9513 .9243 .8842 .8430 .7793 .9063 .8319
0.6 .9276 .8900 .8371 .7854 .7100 .8727 .7886
0.7 .8961 .8477 .7837 .7247 .6431 .8316 .7400
0.8 .8533 .7957 .7245 .6622 .5797 .7812 .6865
0.9 .7961 .7339 .6612 .5998 .5208 .7219 .6298
1.0 .7253 .6656 .5970 .5399 .4671 .6563 .5721
1.1 .6482 .5960 .5352 .4842 .4189 .5893 .5161
1.2 .5732 .5300 .4781 .4338 .3762 .5253 .4638
1.3 .5053 .4703 .4269 .3888 .3385 .4672 .4162
1.4 .4461 .4179 .3817 .3492 .3055 .4158 .3738
1.5 .3953 .3724 .3422 .3145 .2766 .3710 .3363
1.6 .3520 .3332 .3079 .2842 .2512 .3323 .3035
1.7 .3150 .2994 .2781 .2577 .2289 .2988 .2747
1.8 .2833 .2702 .2521 .2345 .2093 .2699 .2495
1.9 .2559 .2449 .2294 .2141 .1920 .2447 .2274
2.0 .2323 .2229 .2095 .1962 .1766 .2228 .2080
"""
ROWS = [[float(figure) for figure in line.split()] for line in TABLE.strip().splitlines()]


@pytest.mark.parametrize(("column", "curve"), list(enumerate(("a0", "a", "b", "c", "d", "A", "B"), start=1)))
def test_curve(column: int, curve: str) -> None:
    """Each curve down its column."""
    found = chi(np.array([row[0] for row in ROWS]), *CURVES[curve])
    assert found == pytest.approx([row[column] for row in ROWS], abs=5.1e-5)


@pytest.mark.parametrize("curve", sorted(CURVES))
def test_stocky(curve: str) -> None:
    """Nothing is lost below the plateau, and nothing is gained."""
    assert chi(np.array([0.0, 0.5 * CURVES[curve][1]]), *CURVES[curve]) == pytest.approx([1.0, 1.0])
