"""The camera of a rehearsal, a process of its own: ``python -m baycue.rehearsal.serve CLIP``.

Prints the address of its video, then a line "number nanoseconds" for each picture sent.
"""

import sys
from pathlib import Path

from baycue.rehearsal.jpeg_server import JpegServer
from baycue.rehearsal.looped_clip import LoopedClip, looped_clip


def serve(clip: LoopedClip) -> None:
    """Until standard input is closed, as it is when the parent ends."""
    with JpegServer(lambda: clip.show(_told)) as server:
        print(server.url, len(clip.jpegs), flush=True)
        sys.stdin.read()


def _told(number: int, sent_ns: int) -> None:
    print(number, sent_ns, flush=True)


if __name__ == "__main__":
    serve(looped_clip(Path(sys.argv[1])))
