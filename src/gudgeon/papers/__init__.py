"""What leaves the bench: neutral blocks that become a PDF sheet or a piece of a page. Nothing here judges."""
