"""A process that gets no more memory than it has, or less."""

import re
import subprocess
from pathlib import Path


def limit_memory(pid: int, beyond_mb: int) -> None:
    """So much more than it has now may be asked for; below 0: less, and nothing new at all."""
    status = Path(f"/proc/{pid}/status").read_text()
    found = re.search(r"^VmData:\s+(\d+) kB", status, re.MULTILINE)
    assert found is not None, "the process is there"
    most = (int(found[1]) << 10) + (beyond_mb << 20)
    command = ["prlimit", "--pid", str(pid), f"--data={most}:unlimited"]
    subprocess.run(command, check=True, capture_output=True, timeout=30)
