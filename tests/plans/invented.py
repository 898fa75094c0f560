"""An invented engine and shelf for tests of plans: two cams, four valves under buckets, shims beneath them."""

from __future__ import annotations

from plan_bench import PlanBench

SHELF = """
[[gauge]]
id = "F"
name = "gauge F"
source = "invented"
kind = "feeler"
unit = "mm"
low = "0.02 mm"
high = "1 mm"
resolution = "0.01 mm"
permissible_error = "0.002 mm"

[[gauge]]
id = "M"
name = "gauge M"
source = "invented"
kind = "micrometer"
unit = "mm"
low = "0 mm"
high = "25 mm"
resolution = "0.001 mm"
permissible_error = "0.001 mm"

[[gauge]]
id = "D"
name = "gauge D"
source = "invented"
kind = "depth micrometer"
unit = "mm"
low = "0 mm"
high = "80 mm"
resolution = "0.001 mm"
permissible_error = "0.002 mm"

[[gauge]]
id = "S"
name = "gauge S"
source = "invented"
kind = "spring tester"
unit = "N"
low = "10 N"
high = "500 N"
resolution = "0.1 N"
permissible_error = "1 N"
"""

BOOK = """
[book]
name = "Bench Two-Fifty"

[layout]
cylinders = 1
arrangement = "single"
cams = "two"
cam_drive = "chain"
holders = "per cam"
bore = "{bore}"

[layout.in]
valves = 2
follower = "{follower}"
{lever}
coated = {coated}

[layout.ex]
valves = 2
follower = "{follower}"
{lever}

[[shims]]
smallest = "{smallest}"
largest = "2.60 mm"
step = "{step}"
part = "S-1"
price = "5.00"

[[limit]]
of = "lash"
side = "in"
least = "0.10 mm"
most = "{in_most}"

[[limit]]
of = "lash"
side = "ex"
least = "0.20 mm"
most = "0.26 mm"

[[limit]]
of = "spring_load"
new = ["150 N", "170 N"]
least = "140 N"

[[part]]
number = "S-1"
name = "shim"
slots = ["c1.*.*/shim"]
price = "5.00"

[[part]]
number = "V-1"
name = "valve spring"
slots = ["c1.*.*/spring"]
price = "9.00"
"""

IL, IR, EL, ER = VALVES = ("c1.in.left", "c1.in.right", "c1.ex.left", "c1.ex.right")


def book(
    *,
    follower: str = "bucket_under",
    lever: str = "",
    coated: str = "false",
    smallest: str = "1.50 mm",
    step: str = "0.05 mm",
    in_most: str = "0.16 mm",
    bore: str = "iron",
) -> str:
    return BOOK.format(follower=follower, lever=lever, coated=coated, smallest=smallest, step=step, in_most=in_most,
                       bore=bore)  # fmt: skip


def bench(scope: str = "valves", shelf: str = "", **engine: str) -> PlanBench:
    return PlanBench(book(**engine), SHELF + shelf, scope)


def finger(scope: str = "head out", **engine: str) -> PlanBench:
    """Finger followers of ratio 1.6, read at the cam."""
    return bench(scope, follower="finger", lever='lash_read = "cam"\nratio = "1.6"', **engine)
