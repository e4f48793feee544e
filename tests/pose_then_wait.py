"""Find poses in a few pictures, then leave MediaPipe time to do what it does behind one's back."""

import time

import numpy as np

from baycue.capture.frame import Frame
from baycue.pose.landmarker import MediaPipePose

WAIT_S = 8.0

if __name__ == "__main__":
    with MediaPipePose() as estimator:
        for number in range(5):
            black = np.zeros((360, 640, 3), np.uint8)
            estimator.estimate(Frame(number, number * 33_000_000, black))
    time.sleep(WAIT_S)
