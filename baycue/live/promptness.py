"""What a process that must answer in time does before it begins."""

import gc

import cv2


def be_prompt() -> None:
    """No call waits for another thread's half of it, no garbage is looked for in all that is kept.

    OpenCV shares out small pictures among threads, and where the cores have other work the caller
    waits for the slower half: at 60 frames a second on two busy cores that took the software's 95th
    percentile from 160 to 207 ms (8 swings each).
    """
    cv2.setNumThreads(1)
    gc.collect()
    gc.freeze()
