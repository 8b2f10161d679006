"""Shares the lines of a batch out over machines by Dask distributed: lines in are lines out, the same bytes as one process.

Lines go out in chunks, each answered by `hearthload batch` on one core of a worker. A chunk that fails is tried again, one whose
worker is lost goes to another, and answers are written in the order of the requests. So many chunks are on their way as keep all
workers busy and no more, so that memory does not grow with the file. A run that broke off is taken up again after the last whole
line of the answers there are.
"""

import argparse
import itertools
import os
import shutil
import subprocess
import sys
import time

import dask
from distributed import Client, KilledWorker, LocalCluster, as_completed

# A chunk that fails is tried so many times more, and so many workers may be lost under one.
RETRIES = 3
LOST_WORKERS = 10
# Chunks on their way for each core: one in work, the rest at hand.
CHUNKS_PER_CORE = 3
# A line may take so long, s: the longest question, a ladder of floors, takes a hundredth of it.
LINE_TIMEOUT_S = 600
SAY_EVERY_S = 2.0


def answer_chunk(binary, text):
    """Runs on a worker: the answers to some lines, as many as there are lines."""
    lines = text.count(b"\n")
    ran = subprocess.run(
        [binary, "batch", "--threads", "1"],
        input=text,
        capture_output=True,
        timeout=LINE_TIMEOUT_S * lines,
        check=False,
    )
    got = ran.stdout.count(b"\n")
    if ran.returncode != 0 or got != lines:
        tail = ran.stderr[-500:].decode(errors="replace")
        raise RuntimeError(f"{got} answers to {lines} lines, exit status {ran.returncode}: {tail}")
    return ran.stdout


def requests_in(file):
    """Lines that hold a request, each with its end; blank ones are passed over, as `hearthload batch` does."""
    for line in file:
        if line.strip():
            yield line if line.endswith(b"\n") else line + b"\n"


def chunks_of(lines, size):
    """Numbered pieces of so many lines."""
    for number in itertools.count():
        chunk = b"".join(itertools.islice(lines, size))
        if not chunk:
            return
        yield number, chunk


class Progress:
    """Says how far it is, now and then."""

    def __init__(self, client):
        self.client, self.began, self.said, self.lines = client, time.monotonic(), time.monotonic(), 0

    def add(self, lines):
        self.lines += lines
        if time.monotonic() - self.said >= SAY_EVERY_S:
            self.said = time.monotonic()
            self.say()

    def say(self):
        seconds = max(time.monotonic() - self.began, 1e-9)
        workers = len(self.client.scheduler_info(n_workers=-1)["workers"])
        print(f"{self.lines} answered, {self.lines / seconds:.1f} a second, {workers} workers", file=sys.stderr)


def answer(requests, answers, client, binary, chunk_lines, noted=lambda written: None):
    """Answers the requests of one open file into another; returns how many lines. `noted` is told after each chunk written."""
    cores = max(sum(client.nthreads().values()), 1)
    chunks = chunks_of(requests_in(requests), chunk_lines)
    progress = Progress(client)
    on_their_way, ready, lost, written = {}, {}, {}, 0
    done = as_completed(with_results=True, raise_errors=False)

    def send(number, text):
        future = client.submit(answer_chunk, binary, text, pure=False, retries=RETRIES)
        on_their_way[future] = (number, text)
        done.add(future)

    # What waits to be written counts too: a slow chunk must not let the others pile up behind it.
    for number, text in itertools.islice(chunks, CHUNKS_PER_CORE * cores):
        send(number, text)
    for future, result in done:
        number, text = on_their_way.pop(future)
        if future.status == "error":
            error = future.exception()
            lost[number] = lost.get(number, 0) + 1
            if not isinstance(error, KilledWorker) or lost[number] > RETRIES:
                raise error
            send(number, text)
            continue
        ready[number] = result
        while written in ready:
            text = ready.pop(written)
            answers.write(text)
            answers.flush()
            written += 1
            progress.add(text.count(b"\n"))
            noted(written)
            for number, text in itertools.islice(chunks, 1):
                send(number, text)
    progress.say()
    return progress.lines


def take_up(answers):
    """Cuts a broken last line off and tells how many whole ones there are."""
    if not os.path.exists(answers):
        return 0
    whole, lines = 0, 0
    with open(answers, "rb") as file:
        for line in file:
            if line.endswith(b"\n"):
                whole, lines = whole + len(line), lines + 1
    os.truncate(answers, whole)
    return lines


def main():
    parser = argparse.ArgumentParser(description="Answers a file of requests on a cluster of machines.")
    parser.add_argument("requests", help="one request a line, as hearthload batch takes them")
    parser.add_argument("answers", help="where the answers go; a run that broke off is taken up again")
    parser.add_argument("--scheduler", help="address of a Dask scheduler; a cluster on this machine if left out")
    parser.add_argument("--workers", type=int, default=os.cpu_count(), help="workers of the cluster on this machine")
    parser.add_argument("--chunk", type=int, default=50, help="lines that go out together")
    parser.add_argument("--binary", default="hearthload", help="the program, where it stands on every machine")
    args = parser.parse_args()
    binary = args.binary
    if not args.scheduler:
        binary = shutil.which(binary) or sys.exit(f"There is no program {binary}: --binary says where it stands.")
        binary = os.path.abspath(binary)
    dask.config.set({"distributed.scheduler.allowed-failures": LOST_WORKERS})
    done = take_up(args.answers)
    cluster = args.scheduler or LocalCluster(n_workers=args.workers, threads_per_worker=1, dashboard_address=None)
    with Client(cluster) as client, open(args.requests, "rb") as requests, open(args.answers, "ab") as answers:
        for _ in itertools.islice(requests_in(requests), done):
            pass
        answered = answer(requests, answers, client, binary, args.chunk)
    if not args.scheduler:
        cluster.close()
    with open(args.requests, "rb") as requests, open(args.answers, "rb") as answers:
        lines_in, lines_out = sum(1 for _ in requests_in(requests)), sum(1 for _ in answers)
    print(f"{answered} lines answered now, {done} earlier: {lines_in} in, {lines_out} out.", file=sys.stderr)
    return 0 if lines_in == lines_out else 1


if __name__ == "__main__":
    sys.exit(main())
