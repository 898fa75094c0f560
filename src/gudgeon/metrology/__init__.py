"""How well a number is known: plain functions that know no job, so that every figure can be checked by a stranger."""
