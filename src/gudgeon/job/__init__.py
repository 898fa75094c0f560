"""The ledger of a job and what follows from it: entries, codec, digest chain, replay, freshness. No input or output."""
