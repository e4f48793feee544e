"""Make the list anew from what is installed here and from ``by_hand.yaml``.

    python -m baycue.licences.make_list

Run in the checkout, with the ``dev`` extra, when ``tests/test_licences.py`` says that the list is
stale: a package has come, gone, or says another licence.  Other versions change nothing.
"""

import json
from pathlib import Path

from baycue.licences.bill import bill_here
from baycue.licences.shipped import BILL


def main() -> None:
    """Write the file beside this one."""
    text = json.dumps(bill_here(), indent=1, ensure_ascii=False)
    (Path(__file__).parent / BILL).write_text(f"{text}\n", encoding="utf-8")


if __name__ == "__main__":
    main()
