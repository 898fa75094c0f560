"""Calculators: a form from what a calculator asks for, and its answer with method and source."""
