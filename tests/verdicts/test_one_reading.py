"""What one reading of a lash says, by quadrature of the rule itself: correct ones not passed, bad ones let through.

True lashes are uniform in the window, bad ones uniform up to 0.03 past either wall, readings normal about them.
"""

from statistics import NormalDist

from gudgeon.metrology.known import Known
from gudgeon.verdicts.decide import Limits, of_setting

LOW, BEYOND = 0.10, 0.03
Shares = tuple[float, float, float]


def shares(u: float, width: float, *, tight: bool, steps: int = 60) -> Shares:
    """Of correct lashes: too close to call, and called tight or loose; of bad ones: called in setting."""
    limits = Limits(low=LOW, high=LOW + width, new_low=None, new_high=None, judged_new=False)
    cell = u / 10
    grid = [LOW - BEYOND - 5 * u + cell * n for n in range(int((width + 2 * BEYOND + 10 * u) / cell) + 1)]
    words = [of_setting(Known(value=x, parts=(("gauge", u),)), limits, risk=0.05, tight_guarded=tight,
                        loose_guarded=False).word for x in grid]  # fmt: skip

    def said(true: float) -> tuple[float, float, float]:
        law, out = NormalDist(true, u), {"in setting": 0.0, "too close to call": 0.0}
        for x, word in zip(grid, words, strict=True):
            out[word] = out.get(word, 0.0) + law.pdf(x) * cell
        return out["too close to call"], out.get("tight", 0.0) + out.get("loose", 0.0), out["in setting"]

    good = [said(LOW + width * (n + 0.5) / steps) for n in range(steps)]
    off = [BEYOND * (n + 0.5) / steps for n in range(steps)]
    bad = [said(t) for d in off for t in (LOW - d, LOW + width + d)]
    return (sum(g[0] for g in good) / steps, sum(g[1] for g in good) / steps, sum(b[2] for b in bad) / len(bad))


def test_one_reading_of_a_lash_guarded_beside_simple_acceptance() -> None:
    print()
    for u in (0.006, 0.008, 0.010):
        for width in (0.03, 0.05, 0.10):
            guarded, simple = shares(u, width, tight=True), shares(u, width, tight=False)
            print(f"u {u} window {width}: guarded {guarded[0]:.1%} open, {guarded[1]:.1%} out, {guarded[2]:.1%} bad passed; "
                  f"simple {simple[1]:.1%} out, {simple[2]:.1%} bad passed")  # fmt: skip
            # Under simple acceptance a wall misjudges u/√(2π) of true lash on its good side, less what reads past the other.
            assert abs(simple[1] - 2 * 0.39894 * u / width) < 0.02
            assert simple[0] == 0.0
            assert guarded[2] < simple[2]
            assert guarded[0] > 0.02, "one reading alone never meets two in a hundred"
