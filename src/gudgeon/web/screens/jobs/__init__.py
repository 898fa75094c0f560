"""The first page: what each job waits for."""
