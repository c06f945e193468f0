"""`benchleaf schema NAME`: the JSON Schema of a source file, for an editor, or of a sheet's data."""

import click

from builder.render.data.schemas import SCHEMAS, schema_text


@click.command(epilog="Example: benchleaf schema build > build.schema.json")
@click.argument("name", type=click.Choice(tuple(SCHEMAS)))
def schema(name: str) -> None:
    """Print the JSON Schema of build.yaml, of a shelf file, of site.yaml, or of sheet.json.

    An editor that knows YAML and JSON Schema completes and explains every key with it. A published
    site carries the same files under schema/.
    """
    click.echo(schema_text(name, indent=1), nl=False)
