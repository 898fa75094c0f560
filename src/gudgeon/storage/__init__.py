"""What is kept: ledgers, books, shelf, pictures, copies. The only room beside web and wiring that knows Django."""
