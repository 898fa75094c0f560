"""Numbers to SVG: part drawings, the limit strip, the engine along its centre line. Nothing here judges."""
