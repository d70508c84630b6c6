"""The page under load, and how soon it is there.

    python tests/speed/serving.py [SECONDS] [ROUNDS]

Baselines, in the same run: `python -c "import starlette, uvicorn, pydantic, networkx"` for the start to the first page;
`/code` where none is asked for, a page that does nothing, asked by the same phones at the same pace, for the answers. 20
phones send 10 answers a second in all, each on disk before it is acknowledged; every acknowledged answer is looked for
afterwards. Then the server is killed and started again, ROUNDS times, while phones go on answering. At last every screen
is weighed.
"""

import multiprocessing
import os
import re
import socket
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable
from pathlib import Path

import httpx
import uvicorn

ROOT = Path(__file__).parent.parent.parent
sys.path.insert(0, str(ROOT))

from stackcheck.formats.library import Library
from stackcheck.page.app import application
from stackcheck.page.guard import Guard
from stackcheck.page.jobs import Bench

with socket.socket() as free:
    free.bind(("127.0.0.1", 0))
    PORT = free.getsockname()[1]
BASE = f"http://127.0.0.1:{PORT}"
PHONES, A_SECOND = 20, 10.0


def started(folder: Path) -> tuple[subprocess.Popen, float]:
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "STACKCHECK_LIBRARY": str(ROOT / "reference_assemblies")}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    start = time.perf_counter()
    server = subprocess.Popen(
        [sys.executable, "-m", "stackcheck", "serve", "--port", str(PORT), "--jobs", str(folder)],
        env=environment,
        stdout=subprocess.DEVNULL,
    )
    while True:
        try:
            httpx.get(BASE, timeout=5.0).raise_for_status()
            return server, time.perf_counter() - start
        except httpx.TransportError:
            time.sleep(0.01)


class Phone:
    def __init__(self, job: str):
        self.job, self.acknowledged, self.unsure = job, [], 0
        self.meet()

    def meet(self) -> None:
        """Load the page of a server that was just started."""
        self.client = httpx.Client(base_url=BASE, timeout=30.0)
        self.mark = re.search(r'name="mark" value="([^"]+)"', self.client.get("/").text)[1]

    def answer(self, number: int) -> None:
        sent = f"{id(self)}-{number}"
        form = {"mark": self.mark, "name": f"late {number}", "text": f"answer {sent}", "sent": sent}
        reply = self.client.post(
            f"/job/{self.job}/answer", data=form, headers={"origin": BASE, "accept": "application/json"}
        )
        reply.raise_for_status()
        self.acknowledged.append(sent)

    def nothing(self, number: int) -> None:
        assert self.client.get("/code").status_code == 303


def paced(phones: list[Phone], ask: Callable[[Phone, int], None], seconds: float) -> float:
    """The 95th percentile of the answers' times, each phone at its own pace [s]."""
    times: list[float] = []

    def one(phone: Phone, offset: float) -> None:
        start = time.perf_counter() + offset
        for number in range(int(seconds * A_SECOND / PHONES)):
            time.sleep(max(0.0, start + number * PHONES / A_SECOND - time.perf_counter()))
            before = time.perf_counter()
            ask(phone, number)
            times.append(time.perf_counter() - before)

    threads = [threading.Thread(target=one, args=(phone, index / A_SECOND)) for index, phone in enumerate(phones)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return statistics.quantiles(times, n=20)[-1]


def begin() -> None:
    client = httpx.Client(base_url=BASE)
    mark = re.search(r'name="mark" value="([^"]+)"', client.get("/").text)[1]
    client.post("/begin", data={"mark": mark, "reference": "freight-tricycle/front-hub"}, headers={"origin": BASE})


def lost(folder: Path, phones: list[Phone]) -> tuple[int, int]:
    """(acknowledged answers that are not on disk, answers that are there twice)."""
    journal = (folder / "front-hub" / "journal.toml").read_text()
    counts = [journal.count(f'sent = "{sent}"') for phone in phones for sent in phone.acknowledged]
    return counts.count(0), sum(count > 1 for count in counts)


def killed_again_and_again(folder: Path, rounds: int, phones: int = 4) -> tuple[int, int, int]:
    """(answers acknowledged, lost, doubled) over rounds of killing the server in the middle of answers and starting it anew.

    What a phone did not see acknowledged it sends once more with the same mark, as the page does. Every fourth server is a
    `stackcheck serve` as anybody starts it; the others are forked, so that many can be killed in a short time.
    """
    server = started(folder)[0]
    begin()
    own = [Phone("front-hub") for _ in range(phones)]
    for number in range(rounds):
        threads = [threading.Thread(target=_until_killed, args=(phone, number)) for phone in own]
        for thread in threads:
            thread.start()
        time.sleep(0.05 + number % 7 * 0.03)
        kill(server)
        for thread in threads:
            thread.join()
        server = forked(folder) if (number + 1) % 4 else started(folder)[0]
        for phone in own:
            phone.meet()
            phone.answer(phone.unsure)
    kill(server)
    return sum(len(phone.acknowledged) for phone in own), *lost(folder, own)


def kill(server: subprocess.Popen | multiprocessing.process.BaseProcess) -> None:
    server.kill()
    server.wait() if isinstance(server, subprocess.Popen) else server.join()


def forked(folder: Path) -> multiprocessing.process.BaseProcess:
    """A server in a process of its own that has its modules already."""
    server = multiprocessing.get_context("fork").Process(target=_serve, args=(folder,), daemon=True)
    server.start()
    while True:
        try:
            httpx.get(BASE, timeout=5.0).raise_for_status()
            return server
        except httpx.TransportError:
            time.sleep(0.01)


def _serve(folder: Path) -> None:
    app = application(Bench(folder, Library(ROOT / "reference_assemblies")), Guard({f"127.0.0.1:{PORT}"}))
    uvicorn.run(app, host="127.0.0.1", port=PORT, log_level="error")


def _until_killed(phone: Phone, round: int) -> None:
    for number in range(10_000):
        phone.unsure = round * 10_000 + number
        try:
            phone.answer(phone.unsure)
        except httpx.HTTPError:
            return


SCREENS = ("", "/open", "/result", "/measure", "/buy", "/fit", "/points", "/gauges", "/photo")


def weigh() -> None:
    """Every screen of a job, as it comes over the network: one answer, nothing fetched beside it but a drawing."""
    client, weights = httpx.Client(base_url=BASE), {}
    for screen in SCREENS:
        reply = client.get(f"/job/front-hub{screen}")
        beside = [
            each
            for each in re.findall(r'(?:src|href)="(?!data:)([^"]+)"', reply.text)
            if re.search(r"\.(?:css|js)\b", each)
        ]
        assert not beside, beside
        weights[screen or "/"] = len(reply.content)
    heaviest = max(weights, key=weights.get)
    print(f"{'heaviest screen, ' + heaviest:<40}{weights[heaviest] / 1000:8.1f} KB   (aim: below 60; one round trip)")


def main(seconds: float, rounds: int) -> None:
    imports = [sys.executable, "-c", "import starlette, uvicorn, pydantic, networkx"]
    with tempfile.TemporaryDirectory() as name:
        server, _ = started(Path(name))  # the first start compiles and reads from disk
        server.terminate()
        server.wait()
        subprocess.run(imports, check=True)
        before = time.perf_counter()
        subprocess.run(imports, check=True)
        baseline = time.perf_counter() - before
        server, first = started(Path(name))
        print(f"{'imports alone':<40}{baseline * 1000:8.0f} ms")
        print(f"{'start to first page':<40}{first * 1000:8.0f} ms{first / baseline:8.2f} times   (aim: at most 2)")
        try:
            begin()
            phones = [Phone("front-hub") for _ in range(PHONES)]
            nothing = paced(phones, Phone.nothing, seconds)
            answers = paced(phones, Phone.answer, seconds)
            weigh()
        finally:
            server.kill()
            server.wait()
        print(f"{'a page that does nothing, 95th percentile':<40}{nothing * 1000:8.1f} ms")
        print(
            f"{'an answer on disk, 95th percentile':<40}{answers * 1000:8.1f} ms{answers / nothing:8.1f} times   (aim: at most 10)"
        )
        told = sum(len(phone.acknowledged) for phone in phones)
        print(
            f"{told} answers acknowledged, {lost(Path(name), phones)[0]} of them lost when the server was killed",
            flush=True,
        )
    if rounds:
        with tempfile.TemporaryDirectory() as name:
            told, gone, twice = killed_again_and_again(Path(name), rounds)
            print(f"{rounds} times killed and started again: {told} answers acknowledged, {gone} lost, {twice} doubled")


if __name__ == "__main__":
    main(float(sys.argv[1]) if len(sys.argv) > 1 else 20.0, int(sys.argv[2]) if len(sys.argv) > 2 else 0)
