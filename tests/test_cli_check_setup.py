"""``baycue check-setup`` on sample recordings, in its own process."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]


def check_setup(sample: str, plan: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [
            *(sys.executable, "-m", "baycue.cli", "check-setup"),
            str(ROOT / "sample_recordings" / f"{sample}.mp4"),
            *("--plan", str(ROOT / "configs" / f"{plan}.yaml")),
        ],
        capture_output=True,
        text=True,
        timeout=300,
        cwd=ROOT,
    )


def test_a_recording_set_up_right_is_a_go() -> None:
    result = check_setup("knee_pass_30fps", "right_hander_knee_head_tempo")
    assert result.returncode == 0, result.stderr
    assert "Set-up: go." in result.stdout
    assert "room for the club" in result.stdout


def test_a_plan_for_the_other_hand_is_told_by_exit_code_and_words() -> None:
    result = check_setup("left_handed_30fps", "right_hander_knee_head_tempo")
    assert result.returncode == 5
    assert "Set-up: 1 to mend." in result.stdout
    assert "no-go" in result.stdout
