"""The page as an ASGI application: every address, and the screen behind it.

What a screen of a job needs is loaded when the first of its kind is asked for: the list of jobs is there sooner.
"""

from __future__ import annotations

from importlib import import_module
from typing import Any

from starlette.applications import Starlette
from starlette.responses import Response
from starlette.routing import Route

from stackcheck.page import entrance
from stackcheck.page.guard import Gate, Guard
from stackcheck.page.jobs import Bench
from stackcheck.page.visit import Address, Screen, Visit, of_job

READ, SAY, BOTH = ("GET",), ("POST",), ("GET", "POST")

OF_A_JOB: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("", "teardown.question", READ), ("/answer", "teardown.answer", SAY), ("/undo", "undoing.undo", BOTH),
    ("/photo", "teardown.photo", BOTH), ("/second", "teardown.second", BOTH), ("/state", "teardown.state", READ),
    ("/open", "resume.resume", BOTH), ("/result", "result.result", READ), ("/decide", "result.decide", BOTH),
    ("/drawing.svg", "result.drawing", READ), ("/report", "result.report", READ), ("/buy", "putting_right.buy", BOTH),
    ("/fit", "putting_right.fit", BOTH), ("/measure", "measuring.measure", BOTH), ("/points", "points.points", BOTH),
    ("/gauges", "gauges.gauges", BOTH), ("/close", "closing.close", BOTH),
)  # fmt: skip
"""What stands behind the name of a job: the rest of the address, module and function of its screen,
whether it is read or said something.
"""


def application(bench: Bench, guard: Guard) -> Any:
    """The whole application, behind its gate."""
    routes = [
        Route("/", Address(bench, guard, entrance.home)),
        Route("/code", Address(bench, guard, entrance.code, open_to_all=True), methods=BOTH),
        Route("/here", Address(bench, guard, entrance.here)),
        Route("/begin", Address(bench, guard, entrance.begin), methods=SAY),
        *(
            Route(f"/job/{{name}}{rest}", Address(bench, guard, _screen(name)), methods=methods)
            for rest, name, methods in OF_A_JOB
        ),
    ]
    return Gate(Starlette(routes=routes), guard=guard)


def _screen(name: str) -> Screen:
    module, _, function = name.partition(".")

    def load_and_show(visit: Visit) -> Response:
        return of_job(getattr(import_module(f"stackcheck.page.{module}"), function))(visit)

    return load_and_show
