"""The camera of a soak: ``python -m baycue.rehearsal.serve_practice FOLDER_OF_SAMPLES``.

With ``watching`` behind it: of a golfer who watches the replay after each ball.
"""

import sys
from pathlib import Path

from baycue.rehearsal.practice_show import WATCHING, practice_order, practice_show, watching_order
from baycue.rehearsal.serve import serve

if __name__ == "__main__":
    in_order = watching_order if WATCHING in sys.argv[2:] else practice_order
    serve(practice_show(Path(sys.argv[1]), in_order))
