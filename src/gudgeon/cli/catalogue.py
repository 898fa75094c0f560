"""Every verb with its line and the module that holds it; a module is imported when its verb is typed."""

COMMANDS: tuple[tuple[str, str, str], ...] = (
    ("demo", "tell an invented overhaul, print it, write its hand-over record, serve it", "gudgeon.cli.commands.demo"),
    ("serve", "start the bench and open it in the browser", "gudgeon.cli.commands.serve"),
    ("job", "list, open, show, record, retract, widen, export, import jobs", "gudgeon.cli.commands.job"),
    ("calc", "work a figure out: springs, seats, shims, bolts, flatness …", "gudgeon.cli.commands.calc"),
)
