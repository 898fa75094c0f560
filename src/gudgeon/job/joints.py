"""Joints by what their state means for evidence that looks across them."""

from __future__ import annotations

#: Joints that an operation can close; only these can stand open.
CLOSABLE = frozenset({"holder", "head", "base", "keepers", "tensioner", "sprocket", "plug", "cover"})
#: What a two-turn condition restarts from.
TURNING = frozenset({"holder", "tensioner", "sprocket", "direction"})
#: Joints whose change makes a reading useless for planning too; opening any other joint leaves it a prediction.
FIXED_JOINTS = frozenset({"guide axis", "adjuster", "spacer"})
#: Joints that a test itself opens: the plug is out for leak-down and compression, as found and in proof.
OPENED_BY_TESTS = frozenset({"plug"})
