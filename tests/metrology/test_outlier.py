"""One reading that stands alone: the mass-spectrometer series of the NIST/SEMATECH e-Handbook, and a printed table.

The table is that of a chemistry textbook's appendix (two-sided, 5 %). It prints 2.202 for seven readings; two other tables and
the formula give 2.020: its digits are swapped. Its last digit is off by up to one, as 1.155 for 1.1543.
"""

import pytest

from gudgeon.metrology.outlier import critical_g, farthest
from gudgeon.problem import Refused

URANIUM = (199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57)
TABLE = {3: 1.155, 4: 1.481, 5: 1.715, 6: 1.887, 7: 2.020, 8: 2.126, 9: 2.215, 10: 2.290, 11: 2.355, 12: 2.412, 13: 2.462,
         14: 2.507, 15: 2.549}  # fmt: skip


@pytest.mark.authority
def test_the_handbooks_example() -> None:
    found = farthest(URANIUM, sides=1)
    assert found.index == 7 and found.alone
    assert found.g == pytest.approx(2.468765, abs=5e-7)
    assert found.critical == pytest.approx(2.031652, abs=5e-7)


@pytest.mark.authority
@pytest.mark.parametrize("n", TABLE)
def test_the_printed_table(n: int) -> None:
    assert critical_g(n) == pytest.approx(TABLE[n], abs=1e-3)


@pytest.mark.authority
def test_three_readings() -> None:
    """Three readings: 1.1543, as other tables print it; more than 2/√3 is not possible."""
    assert critical_g(3) == pytest.approx(1.1543, abs=5e-5)


def test_without_it_nothing_stands_alone() -> None:
    assert not farthest(URANIUM[:-1]).alone
    assert not farthest((4.975,) * 10).alone


def test_it_is_the_same_whatever_the_unit() -> None:
    there, moved = farthest(URANIUM), farthest(tuple(x * 25.4 + 3.0 for x in URANIUM))
    assert (there.index, round(there.g, 9)) == (moved.index, round(moved.g, 9))


def test_two_are_too_few() -> None:
    with pytest.raises(Refused, match="too few"):
        critical_g(2)
