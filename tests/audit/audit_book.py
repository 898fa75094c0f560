"""A small invented book without a fault, for planting faults in."""

BOOK = """\
[book]
name = "Small engine"
edition = "1"

[layout]
cylinders = 1
bore = "plated"

[layout.in]
valves = 1
follower = "bucket_under"
coated = true

[layout.ex]
valves = 1
follower = "bucket_under"

[geometry]
bore = "60.0 mm"
stroke = "50.0 mm"
displacement = "141.4 cm³"
chamber = "15.0 cm³"
gasket_bore = "61.0 mm"
gasket_thickness = "0.50 mm"
deck = "0.20 mm"
dome = "1.2 cm³"
compression_ratio = "9.93"
intake_closes = "50 °"

[[cam]]
side = "in"
opens = "10 °"
closes = "50 °"
duration = "240 °"

[[seat]]
contact = "45 °"
top = "32 °"
throat = "60 °"

[[spring]]
wire = "2.5 mm"
mean_diameter = "16.0 mm"
active = "5.0"
total = "7.0"
shear_modulus = "80 GPa"
free = "38.0 mm"
at_length = "31.0 mm"
load = "133.5 N"
solid = "17.5 mm"

[[shims]]
smallest = "1.20 mm"
largest = "2.20 mm"
step = "0.05 mm"
count = 21

[aim]
in = "0.14 mm"

[[limit]]
of = "lash"
side = "in"
least = "0.10 mm"
most = "0.16 mm"
page = "3"

[[limit]]
of = "lash"
side = "ex"
least = "0.20 mm"
most = "0.26 mm"
page = "3"

[[limit]]
of = "stem_diameter"
new = ["4.475 mm", "4.490 mm"]
also_new = ["0.1762 in", "0.1768 in"]
least = "4.465 mm"
also_least = "0.1758 in"
page = "4"

[[limit]]
of = "guide_bore"
new = ["4.500 mm", "4.512 mm"]
most = "4.540 mm"
page = "4"

[[limit]]
of = "stem_guide_clearance"
new = ["0.010 mm", "0.037 mm"]
most = "0.080 mm"
method = "direct"
page = "4"

[[limit]]
of = "seat_width"
new = ["0.90 mm", "1.10 mm"]
most = "1.50 mm"
remedies = ["cut seat"]
page = "4"

[[limit]]
of = "bore_diameter"
new = ["60.000 mm", "60.010 mm"]
most = "60.040 mm"
remedies = ["renew barrel"]
page = "5"

[[limit]]
of = "piston_diameter"
new = ["59.960 mm", "59.975 mm"]
least = "59.930 mm"
page = "5"

[[limit]]
of = "piston_clearance"
new = ["0.025 mm", "0.050 mm"]
most = "0.100 mm"
page = "5"

[[limit]]
of = "squish"
new = ["0.60 mm", "0.85 mm"]
least = "0.50 mm"
page = "5"

[[limit]]
of = "spring_load"
new = ["128 N", "140 N"]
least = "120 N"
page = "6"

[[limit]]
of = "seal_test"
expect = "holds"
page = "6"

[[fastener]]
name = "head nuts"
joint = "head"
thread = "M8"
grade = "8.8"
count = 4
torque = ["10 N·m", "22 N·m"]
also_torque = ["1.0 kgf·m", "2.2 kgf·m"]
thread_state = "dry"
under_head = "dry"
order = [1, 3, 2, 4]

[[fastener]]
name = "sprocket bolts"
joint = "sprocket"
thread = "M6"
grade = "8.8"
count = 2
torque = ["10 N·m"]
thread_state = "degreased"
under_head = "dry"
locker = "medium"

[[part]]
number = "S-1"
name = "gasket kit"
consumable = true

[[part]]
number = "S-2"
name = "everything"
slots = ["*/*"]
kit = "S-1"
"""


def line_of(text: str, mark: str, after: str = "") -> int:
    """The line of the first `mark` behind `after`."""
    start = text.index(after) if after else 0
    return text[: text.index(mark, start)].count("\n") + 1
