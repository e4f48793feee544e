"""What the benchmark of the live loop tells; how fast it is is nothing to test."""

from rich.console import Console

from baycue.commands.benchmark_live import endurance_table
from baycue.rehearsal.endurance import Endurance, Sample


def test_it_tells_the_slope_and_the_ratio_to_the_pose_model_alone() -> None:
    samples = tuple(Sample(float(s), 800.0 + s / 60, 30 * s) for s in range(61))
    done = Endurance(samples, sent=3600, read=3597, damaged=1, times_opened=1, swings=17)
    console = Console(width=100)
    with console.capture() as said:
        console.print(endurance_table(done, bare_fps=40.0))
    rows = {
        cells[1].strip(): cells[2].strip()
        for line in said.get().splitlines()
        if len(cells := line.split("│")) == 4
    }
    assert rows["poses"] == "30.0 a second"
    assert rows["bare pose call, decoded frames"] == "40.0 a second"
    assert rows["ratio"] == "0.75"
    assert rows["frames lost before the ring"] == "2"
    assert rows["its slope after the first fifth"].startswith("+60 ")
