"""Papers, the ledger, the archive."""
