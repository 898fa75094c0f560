"""One screen a folder, its view and its template side by side."""
