"""A sweep on a local Dask cluster, one worker killed in mid-run: the same bytes as one process. Run by tests/all.

    python far.py HEARTHLOAD_BINARY
"""

import io
import os
import pathlib
import signal
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "src/cli/far"))

from distributed import Client, LocalCluster  # noqa: E402

import far  # noqa: E402

LINES = 40


def main():
    binary = os.path.abspath(sys.argv[1])
    sweep = [sys.executable, ROOT / "src/cli/far/sweep.py", ROOT / "demo-data/small.json", str(LINES)]
    requests = subprocess.run(sweep, capture_output=True, check=True).stdout
    # One line in the middle is no request, and one blank: both must come out as one process has them.
    lines = requests.splitlines(keepends=True)
    requests = b"".join(lines[:20]) + b"{this is not JSON\n\n" + b"".join(lines[20:])
    one = subprocess.run([binary, "batch"], input=requests, capture_output=True, check=True).stdout
    assert one.count(b"\n") == LINES + 1, one.count(b"\n")

    with tempfile.TemporaryDirectory() as scratch:
        cluster = LocalCluster(n_workers=2, threads_per_worker=1, dashboard_address=None, local_directory=scratch)
        killed = []

        def kill_one(_written):
            if not killed:
                killed.append(cluster.workers[0].process.process.pid)
                os.kill(killed[0], signal.SIGKILL)

        answers = io.BytesIO()
        with cluster, Client(cluster) as client:
            count = far.answer(io.BytesIO(requests), answers, client, binary, 4, kill_one)
    assert killed, "no worker was killed"
    assert count == LINES + 1, count
    assert answers.getvalue() == one, "other bytes than one process gives"
    print(f"{count} lines, worker {killed[0]} killed in mid-run, the same bytes as one process")


if __name__ == "__main__":
    main()
