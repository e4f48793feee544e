"""Print what ships and what is installed beside it, and under which licence."""

from rich.console import Console
from rich.table import Table

from baycue.licences.component import Component
from baycue.licences.shipped import shipped_bill, shipped_components

PLAINLY = (
    "Baycue's own wheel has nothing in it but what Apache-2.0 and CC0-1.0 let everybody pass on. "
    "The packages come from their makers by pip. Who passes on an installed environment, as a disk "
    "image or an installer, passes on theirs too, and must keep to the rows marked (!): above all "
    "the GPL's, for x264 and x265 inside PyAV, libimagequant inside Pillow and the font inside "
    "pygame-ce. Apache-2.0 goes with version 3 of the GPL but not with version 2 alone (Free "
    "Software Foundation, list of licences; from memory). This is no lawyer's word."
)


def run_licences(as_json: bool, console: Console) -> None:
    """A row a component and a word on what asks for more; or the document itself."""
    if as_json:
        print(shipped_bill(), end="")
        return
    table = Table()
    for head in ("what", "licence", "from", "remark"):
        table.add_column(head, overflow="fold")
    for component in shipped_components():
        for row in _rows(component):
            table.add_row(*row)
    console.print(table)
    console.print(PLAINLY, highlight=False)


def _rows(component: Component) -> list[tuple[str, str, str, str]]:
    inside = [_row(part, "  in it: ") for part in component.inside]
    return [_row(component, ""), *inside]


def _row(component: Component, before: str) -> tuple[str, str, str, str]:
    mark = "(!) " if component.asks_for_more else ""
    name = f"{before}{mark}{component.name}"
    return name, component.licence, component.origin, component.remark
