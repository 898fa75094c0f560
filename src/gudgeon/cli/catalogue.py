"""Every verb with its line and the module that holds it; a module is imported when its verb is typed."""

COMMANDS: tuple[tuple[str, str, str], ...] = (
    ("demo", "tell an invented overhaul, print it, write its hand-over record, serve it", "gudgeon.cli.commands.demo"),
    ("serve", "start the bench, open it in the browser, or serve it to tablets (--lan)", "gudgeon.cli.commands.serve"),
    ("account", "who may come in over a network by name and password", "gudgeon.cli.commands.account"),
    ("job", "list, open, show, record, retract, widen, export, import jobs", "gudgeon.cli.commands.job"),
    ("paper", "write a paper of a job, list the kinds, check one against its job", "gudgeon.cli.commands.paper"),
    ("book", "check, list, show, keep and compare books", "gudgeon.cli.commands.book"),
    ("ledger", "verify a job's ledger, against a digest that you hold", "gudgeon.cli.commands.ledger"),
    ("backup", "make a checked copy of everything now", "gudgeon.cli.commands.backup"),
    ("restore", "put a kept copy back", "gudgeon.cli.commands.restore"),
    ("calc", "work a figure out: springs, seats, shims, bolts, flatness …", "gudgeon.cli.commands.calc"),
)
