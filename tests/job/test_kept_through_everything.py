"""Power cut, full disk, a pseudo-terminal: every answer that was acknowledged is there afterwards."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pexpect
import pytest

from stackcheck.job.folder import JobFolder

ROOT = Path(__file__).parents[2]
ENVIRONMENT = {
    **os.environ,
    "STACKCHECK_LIBRARY": str(ROOT / "reference_assemblies"),
    "PYTHONPATH": str(ROOT),
    "COLUMNS": "80",
    "TERM": "dumb",
}
RECORDER = """
import sys
from pathlib import Path
from stackcheck.job.folder import JobFolder
from stackcheck.job.events import Off
folder = JobFolder.open(Path(sys.argv[1]))
for number in range(10_000):
    folder.record(Off(what=f"part {number}", end="left"))
    sys.stdout.write(f"{number}\\n")
    sys.stdout.flush()
"""
KILLS = int(os.environ.get("STACKCHECK_KILLS", "30"))
"""Set it to 300 for the long run; the suite does a tenth of it."""


def begin(folder: Path) -> Path:
    """A job in this folder."""
    subprocess.run(
        [sys.executable, "-m", "stackcheck", "teardown", "front-hub", "--jobs", str(folder)], env=ENVIRONMENT,
        input="/\n", text=True, capture_output=True, check=True,
    )  # fmt: skip
    return folder / "front-hub"


def test_killed_at_random_moments_no_acknowledged_answer_is_lost_and_the_folder_always_opens(tmp_path):
    """One recorder after the other is killed in the middle of its work;
    what it had said "saved" of is in the journal.
    """
    job, chance = begin(tmp_path), random.Random(6)
    acknowledged = 0
    for _ in range(KILLS):
        recorder = subprocess.Popen(
            [sys.executable, "-c", RECORDER, str(job)], env=ENVIRONMENT, stdout=subprocess.PIPE, text=True
        )
        recorder.stdout.readline()
        time.sleep(chance.uniform(0.0, 0.02))
        recorder.send_signal(signal.SIGKILL)
        said = recorder.stdout.read().count("\n") + 1
        recorder.wait()
        before = acknowledged
        acknowledged = len(JobFolder.open(job).job.offs)
        assert said <= acknowledged - before <= said + 1


def test_an_answer_torn_at_any_byte_costs_at_most_itself(tmp_path):
    """The same as a power cut in the middle of a write, at every place where it can fall: 270 of them."""
    job = begin(tmp_path)
    folder = JobFolder.open(job)
    from stackcheck.job.events import Off

    folder.record(Off(what="axle nut", end="left"))
    whole = folder.journal.path.read_bytes()
    folder.record(Off(what="washer", end="left"))
    longer = folder.journal.path.read_bytes()
    for end in range(len(whole), len(longer)):
        folder.journal.path.write_bytes(longer[:end])
        assert [off.what for off in JobFolder.open(job).job.offs][:1] == ["axle nut"]
        assert len(JobFolder.open(job).job.offs) == (2 if end == len(longer) - 1 else 1)


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_on_a_full_disk_the_answer_is_not_acknowledged_and_nothing_is_spoilt(tmp_path):
    job = begin(tmp_path)
    before = (job / "journal.toml").read_bytes()
    limited = (
        f"ulimit -f {max(1, len(before) // 1024)}; trap '' XFSZ; exec \"$@\""  # no file may grow beyond what it has now
    )
    line = "x" * 4000
    command = [sys.executable, "-m", "stackcheck", "note", line, "--jobs", str(tmp_path)]
    ran = subprocess.run(
        ["bash", "-c", limited, "bash", *command], env=ENVIRONMENT, text=True, capture_output=True, check=False
    )
    assert ran.returncode == 3 and "could not be saved" in ran.stderr and "Traceback" not in ran.stderr
    assert (job / "journal.toml").read_bytes() == before


def test_on_a_terminal_a_digit_answers_at_once_and_the_job_goes_on_where_it_stopped(tmp_path):
    command = ["-m", "stackcheck", "teardown", "front-hub", "--jobs", str(tmp_path)]
    terminal = pexpect.spawn(
        sys.executable, command, env=ENVIRONMENT, encoding="utf-8", dimensions=(40, 120), timeout=30
    )
    terminal.expect("Free gap")
    for _ in range(8):
        terminal.send("0\r")
    terminal.expect("Axle nut")
    terminal.send("\r")
    terminal.expect("Came off")
    terminal.send("2")  # no Enter
    terminal.expect("Flange toward")
    terminal.send("2")
    terminal.expect("loosened")
    terminal.send("1\r")
    terminal.expect("Washer under the axle nut")
    terminal.send("/\r")
    terminal.expect("DO NOT RIDE")
    terminal.expect(pexpect.EOF)
    job = JobFolder.open(tmp_path / "front-hub").job
    assert [(off.what, off.came_off, off.toward) for off in job.offs] == [("axle nut", "spanner", "right")]
    again = pexpect.spawn(sys.executable, command, env=ENVIRONMENT, encoding="utf-8", dimensions=(40, 120), timeout=30)
    again.expect("Washer under the axle nut")
    again.send("/\r")
    again.expect(pexpect.EOF)
