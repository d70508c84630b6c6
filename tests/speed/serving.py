"""The page under load, and how soon it is there.

    python tests/speed/serving.py [SECONDS]

Baselines, in the same run: `python -c "import starlette, uvicorn, pydantic, networkx"` for the start to the first page;
the style sheet, a page that does nothing, asked by the same phones at the same pace, for the answers. 20 phones send 10
answers a second in all, each on disk before it is acknowledged; every acknowledged answer is looked for afterwards.
"""

import os
import re
import statistics
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Callable
from pathlib import Path

import httpx

ROOT = Path(__file__).parent.parent.parent
PORT = 8971
BASE = f"http://127.0.0.1:{PORT}"
PHONES, A_SECOND = 20, 10.0


def started(folder: Path) -> tuple[subprocess.Popen, float]:
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "STACKCHECK_LIBRARY": str(ROOT / "reference_assemblies")}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    start = time.perf_counter()
    server = subprocess.Popen([sys.executable, "-m", "stackcheck", "serve", "--port", str(PORT), "--jobs", str(folder)], env=environment, stdout=subprocess.DEVNULL)
    while True:
        try:
            httpx.get(f"{BASE}/static/page.css", timeout=1.0).raise_for_status()
            httpx.get(BASE, timeout=5.0).raise_for_status()
            return server, time.perf_counter() - start
        except httpx.TransportError:
            time.sleep(0.01)


class Phone:
    def __init__(self, job: str):
        self.client, self.job = httpx.Client(base_url=BASE, timeout=30.0), job
        self.mark = re.search(r'name="mark" value="([^"]+)"', self.client.get("/").text)[1]
        self.acknowledged: list[str] = []

    def answer(self, number: int) -> None:
        sent = f"{id(self)}-{number}"
        form = {"mark": self.mark, "name": f"late {number}", "text": f"answer {sent}", "sent": sent}
        reply = self.client.post(f"/job/{self.job}/answer", data=form, headers={"origin": BASE, "accept": "application/json"})
        reply.raise_for_status()
        self.acknowledged.append(sent)

    def nothing(self, number: int) -> None:
        self.client.get("/static/page.css").raise_for_status()


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


def main(seconds: float) -> None:
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
            begun = httpx.Client(base_url=BASE)
            mark = re.search(r'name="mark" value="([^"]+)"', begun.get("/").text)[1]
            begun.post("/begin", data={"mark": mark, "reference": "freight-tricycle/front-hub"}, headers={"origin": BASE})
            phones = [Phone("front-hub") for _ in range(PHONES)]
            nothing = paced(phones, Phone.nothing, seconds)
            answers = paced(phones, Phone.answer, seconds)
        finally:
            server.kill()
            server.wait()
        journal = (Path(name) / "front-hub" / "journal.toml").read_text()
        lost = [sent for phone in phones for sent in phone.acknowledged if sent not in journal]
        print(f"{'a page that does nothing, 95th percentile':<40}{nothing * 1000:8.1f} ms")
        print(f"{'an answer on disk, 95th percentile':<40}{answers * 1000:8.1f} ms{answers / nothing:8.1f} times   (aim: at most 10)")
        print(f"{sum(len(phone.acknowledged) for phone in phones)} answers acknowledged, {len(lost)} of them lost when the server was killed")


if __name__ == "__main__":
    main(float(sys.argv[1]) if len(sys.argv) > 1 else 20.0)
