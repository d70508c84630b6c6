"""`serve`: the page for phone and tablet."""

from __future__ import annotations

import argparse
import socket
from pathlib import Path
from typing import Any

from stackcheck.commands.common import DONE, library_of, library_option, mistake
from stackcheck.commands.jobs import jobs_folder

PORT = 8093


def add(commands: Any) -> None:
    parser = commands.add_parser(
        "serve",
        help="the page for phone and tablet",
        description="Serve the page at the bench from this computer: to this computer alone, or with --lan to the "
        "local network, where a device types a short code once. Nothing is fetched from outside; the record stays "
        "here.",
    )
    parser.add_argument("--lan", action="store_true", help="also to the local network, with a code")
    parser.add_argument("--port", type=int, default=PORT, help=f"port (default {PORT})")
    parser.add_argument("--jobs", metavar="FOLDER", type=Path, help="folder of jobs")
    library_option(parser)
    parser.set_defaults(command=_serve)


def _serve(options: argparse.Namespace) -> int:
    import uvicorn

    from stackcheck.page.app import application
    from stackcheck.page.guard import Guard, new_code
    from stackcheck.page.jobs import Bench

    if not 1 <= options.port <= 65535:
        raise mistake("--port", f"{options.port} is no port", "a number from 1 to 65535")
    code = new_code() if options.lan else ""
    own = _own_address() if options.lan else "127.0.0.1"
    names = {"127.0.0.1", "localhost", "[::1]", own}
    guard = Guard({f"{name}:{options.port}" for name in names}, code=code)
    app = application(Bench(jobs_folder(options), library_of(options)), guard)
    address = f"http://{own}:{options.port}/"
    listening = socket.socket()
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind(("0.0.0.0" if options.lan else "127.0.0.1", options.port))
    except OSError as problem:
        raise mistake(
            "serve",
            f"port {options.port} cannot be used ({problem.strerror})",
            "another program has it: choose one with --port",
        ) from None
    _announce(address, code)
    config = uvicorn.Config(
        app,
        log_level="warning",
        server_header=False,
        timeout_keep_alive=5,
        limit_concurrency=200,
        h11_max_incomplete_event_size=16_384,
    )
    uvicorn.Server(config).run(sockets=[listening])
    return DONE


def _announce(address: str, code: str) -> None:
    """The address, as a picture for the phone where the network may see it, and the code."""
    print(f"The page at the bench: {address}", flush=True)
    if code:
        import segno

        segno.make(address).terminal(compact=True)
        print(f"Code, to be typed once on each device: {code[:3]} {code[3:]}", flush=True)
    print("Stop with Ctrl-C. What was answered is on disk.", flush=True)


def _own_address() -> str:
    """The address of this computer on its network; no packet is sent for it."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # a documentation address (RFC 5737)
            return probe.getsockname()[0]
        except OSError:
            return "127.0.0.1"
