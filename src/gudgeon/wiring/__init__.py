"""Who holds what: the settings, the data folder, the workbench with its stores, and the server."""
