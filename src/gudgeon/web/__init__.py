"""The screens: drawing sheets on a tablet. A screen shows the read model and sends entries; it calculates nothing."""
