import typer

app = typer.Typer()


def main() -> None:
    app()
