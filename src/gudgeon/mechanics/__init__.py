"""How engines behave: plain functions on floats whose names end in their unit; each says where it comes from."""
