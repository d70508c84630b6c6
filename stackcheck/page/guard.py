"""Who may speak to the page: which hosts, which devices, which forms.

No accounts. On the computer itself nothing is asked. On the local network a device types a short code once and then
carries a cookie; the code is compared in constant time and tries are limited. Every form carries a mark that belongs to
the device, so that a page from elsewhere cannot post.
A request for another host name is refused, which ends DNS rebinding.
"""

from __future__ import annotations

import hmac
import secrets
import time
from collections.abc import Awaitable, Callable, Iterable, MutableMapping
from typing import Any

from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response

from stackcheck.page.assets import POLICY
from stackcheck.value import Value

COOKIE = "bench"
MOST_TRIES = 8
MOST_DEVICES = 1000
WAIT_SECONDS = 60.0
LARGEST_FORM = 64_000
LARGEST_PHOTO = 30_000_000
CODE_SIGNS = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"  # none that is taken for another

HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-store",
}

PAPER_HEADERS = {
    "Content-Security-Policy": (
        "default-src 'none'; style-src 'unsafe-inline'; img-src data:; "
        "frame-ancestors 'none'; base-uri 'none'; form-action 'none'"
    )
}
"""For a drawing or a report, which carry their own style and can do nothing else."""

Scope = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[MutableMapping[str, Any]]]
Send = Callable[[MutableMapping[str, Any]], Awaitable[None]]


class Device(Value):
    """A device that may speak, and the mark that its forms carry."""

    token: str
    mark: str


class Guard:
    """Knows the hosts that this server answers to, the code, and the devices that have typed it."""

    def __init__(self, hosts: Iterable[str], *, code: str = "", clock: Callable[[], float] = time.monotonic):
        self.hosts = frozenset(hosts)
        self.code = code
        self._clock = clock
        self._devices: dict[str, Device] = {}
        self._tries: list[float] = []

    def device(self, request: Request) -> Device | None:
        """The device that a request comes from; without a code every browser on this computer is one."""
        return self._devices.get(request.cookies.get(COOKIE, ""))

    def admit(self) -> Device:
        device = Device(secrets.token_urlsafe(32), secrets.token_urlsafe(24))
        while len(self._devices) >= MOST_DEVICES:
            del self._devices[next(iter(self._devices))]  # the one admitted longest ago
        self._devices[device.token] = device
        return device

    def may_try(self) -> bool:
        """Whether another try at the code is allowed: so many a minute, over all devices together."""
        now = self._clock()
        self._tries = [at for at in self._tries if now - at < WAIT_SECONDS]
        return len(self._tries) < MOST_TRIES

    def is_code(self, said: str) -> bool:
        self._tries.append(self._clock())
        typed = "".join(sign for sign in said.upper() if sign.isalnum())
        return bool(self.code) and hmac.compare_digest(typed.encode(), self.code.encode())

    def is_own_form(self, device: Device, mark: str) -> bool:
        return hmac.compare_digest(mark.encode(), device.mark.encode())


def new_code() -> str:
    """Six signs to be typed once: about 10⁹ of them, eight tries a minute."""
    return "".join(secrets.choice(CODE_SIGNS) for _ in range(6))


def set_cookie(response: Response, device: Device) -> None:
    response.set_cookie(COOKIE, device.token, httponly=True, samesite="strict", max_age=30 * 86400, path="/")


class Gate:
    """ASGI layer before everything: host, origin, size; and the headers of every answer."""

    def __init__(self, app: Any, *, guard: Guard):
        self.app, self.guard = app, guard

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            if scope["type"] == "lifespan":
                await self.app(scope, receive, send)
            return
        request = Request(scope)
        refusal = self._refusal(request)
        if refusal is not None:
            await _with_headers(refusal, scope, receive, send)
            return
        limit = LARGEST_PHOTO if request.url.path.endswith("/photo") else LARGEST_FORM

        async def limited() -> MutableMapping[str, Any]:
            nonlocal limit
            message = await receive()
            limit -= len(message.get("body", b""))
            if limit < 0:
                raise _TooLarge
            return message

        async def headed(message: MutableMapping[str, Any]) -> None:
            if message["type"] == "http.response.start":
                own = list(message.get("headers", ()))
                told = {name for name, _ in own}
                own += [
                    (name.lower().encode(), value.encode())
                    for name, value in HEADERS.items()
                    if name.lower().encode() not in told
                ]
                message["headers"] = own
            await send(message)

        try:
            await self.app(scope, limited, headed)
        except _TooLarge:
            await _with_headers(PlainTextResponse("too large\n", status_code=413), scope, receive, send)

    def _refusal(self, request: Request) -> Response | None:
        host = request.headers.get("host", "").lower()
        if host not in self.guard.hosts:
            return PlainTextResponse("this server does not answer to that name\n", status_code=421)
        if request.method not in ("GET", "HEAD", "POST"):
            return PlainTextResponse("not done here\n", status_code=405)
        if request.method == "POST":
            origin = request.headers.get("origin")
            if origin is not None and origin.lower().removeprefix("http://") != host:
                return PlainTextResponse("posted from another page\n", status_code=403)
            if request.headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
                return PlainTextResponse("posted from another page\n", status_code=403)
            length = request.headers.get("content-length", "0")
            most = LARGEST_PHOTO if request.url.path.endswith("/photo") else LARGEST_FORM
            if not length.isdecimal() or int(length[:20]) > most:
                return PlainTextResponse("too large\n", status_code=413)
        return None


class _TooLarge(Exception):
    pass


async def _with_headers(response: Response, scope: Scope, receive: Receive, send: Send) -> None:
    for name, value in HEADERS.items():
        response.headers[name] = value
    await response(scope, receive, send)
