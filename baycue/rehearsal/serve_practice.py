"""The camera of a soak: ``python -m baycue.rehearsal.serve_practice FOLDER_OF_SAMPLES``."""

import sys
from pathlib import Path

from baycue.rehearsal.practice_show import practice_show
from baycue.rehearsal.serve import serve

if __name__ == "__main__":
    serve(practice_show(Path(sys.argv[1])))
