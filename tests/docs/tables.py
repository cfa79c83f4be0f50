"""What a page says of the store's tables, against a store."""

import re

NAMES = re.compile(r"`(\w+)`")


def described(lines):
    """The columns of each table, below a heading that is its name."""
    tables, table = {}, None
    for line in lines:
        if line.startswith("#"):
            heading = re.match(r"^### `(\w+)`$", line)
            table = tables.setdefault(heading[1], set()) if heading else None
        elif table is not None and line.startswith("| `"):
            table.update(NAMES.findall(line.split("|")[1]))
    return tables


def what_differs(lines, database):
    """A sentence for each difference."""
    version = database.execute("PRAGMA user_version").fetchone()[0]
    if not any(line.startswith(f"| `user_version` | {version} |") for line in lines):
        yield f"the store's version is {version}"
    found = {name: {row[1] for row in database.execute(f"PRAGMA table_info({name})")}
             for (name,) in database.execute("SELECT name FROM sqlite_schema WHERE type = 'table'")
             if not name.startswith("sqlite_")}
    told = described(lines)
    for name in sorted(found.keys() ^ told.keys()):
        yield f"table {name}: {'not described' if name in found else 'not in the store'}"
    for name in sorted(found.keys() & told.keys()):
        for column in sorted(found[name] ^ told[name]):
            yield f"table {name}: column {column} {'not described' if column in found[name] else 'not in the store'}"
