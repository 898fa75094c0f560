"""The job page: the engine in section."""
