"""What must be said of a part or a fastener the moment it goes in:
another part, the other way round, one not to be refitted.

Nothing is refused for it: somebody may have a reason. It stays among the open items until it is put right or until the
difference was decided to be kept.
"""

from __future__ import annotations

from stackcheck.errors import SizeError
from stackcheck.formats.sizes import amount_of
from stackcheck.job.buying import is_single_use
from stackcheck.job.deciding import KEPT, OUT, entries_about
from stackcheck.job.events import Answered, Fastened, Fitted, Off
from stackcheck.job.standing import homes
from stackcheck.job.state import NOT_SEEN, Job
from stackcheck.model.part import Amount
from stackcheck.result.comparison import Comparison
from stackcheck.value import Value

OTHER_PART, OTHER_WAY, WAY_NOT_SEEN = (
    "another part fitted",
    "fitted the other way round",
    "way round not seen at fitting",
)
NOT_TO_REFIT, SINGLE_USE, OTHER_TORQUE = "not to be refitted, fitted", "single-use, fitted again", "another torque"
ROUNDING = 0.01
"""As a part of a torque without limits: another figure than this near is another torque."""


class FitRemark(Value, kw_only=True):
    """One thing to be said: `kind` is that of its open item;
    `what` the joint, the part that it is, or why it is not refitted.
    """

    kind: str
    place: str = ""
    what: str = ""
    entry: int = 0
    toward: str = ""


def condemned(job: Job, comparison: Comparison) -> dict[int, str]:
    """Entry -> why it is not to be refitted: how it feels or looks, or what was decided;
    one that was kept is not among them.
    """
    kept = {
        number for decided in job.decisions.values() if decided.decision in KEPT for number in entries_about(decided)
    }
    why = {
        number: ", ".join(result.finding.words)
        for result in comparison.findings if result.finding.kind == "condition"
        for number in result.finding.entries if number not in kept
    }  # fmt: skip
    why |= {
        number: f"decided: {decided.decision}"
        for decided in job.decisions.values()
        if decided.decision in OUT
        for number in entries_about(decided)
    }
    return why


def belongs_at(job: Job, comparison: Comparison, entry: int, place: str) -> bool:
    """Whether an entry is the part of this place, or one of the same."""
    home = homes(comparison).get(entry, "")
    return bool(home) and job.reference.place(home).part == job.reference.place(place).part


def fit_remarks(job: Job, comparison: Comparison, event: Fitted) -> tuple[FitRemark, ...]:
    """What is to be said of one part that went in, most serious first."""
    reference, place = job.reference, event.place
    kept = any(
        decided.decision in KEPT and (place in decided.about.split(":")[1].split(","))
        for decided in job.decisions.values()
    )
    told: list[FitRemark] = []
    if event.entry and not kept and not belongs_at(job, comparison, event.entry, place):
        home = homes(comparison).get(event.entry, "")
        told.append(
            FitRemark(
                kind=OTHER_PART, place=place, entry=event.entry, what=reference.part_at(home).name if home else ""
            )
        )
    wanted = reference.place(place).facing and reference.end_name(reference.place(place).facing)
    if wanted and event.toward in reference.ends and event.toward != wanted and not kept:
        told.append(FitRemark(kind=OTHER_WAY, place=place, entry=event.entry, toward=event.toward))
    if wanted and event.toward == NOT_SEEN:
        told.append(FitRemark(kind=WAY_NOT_SEEN, place=place, entry=event.entry))
    if event.entry and (why := condemned(job, comparison).get(event.entry)):
        told.append(FitRemark(kind=NOT_TO_REFIT, place=place, entry=event.entry, what=why))
    if event.entry and is_single_use(job, place):
        told.append(FitRemark(kind=SINGLE_USE, place=place, entry=event.entry))
    return tuple(told)


def torque_remark(job: Job, event: Fastened) -> FitRemark | None:
    """The torque that was said, where it is another than the reference wants."""
    wanted = next((joint.torque for joint in job.reference.joints if joint.name == event.joint), None)
    if wanted is None or not event.value or event.state not in ("tightened", "marked", "locked"):
        return None
    try:
        said = amount_of("torque", event.value)
    except SizeError:
        return None
    low, high = _limits(wanted)
    return (
        None
        if low <= said.nominal <= high
        else FitRemark(kind=OTHER_TORQUE, what=event.joint, toward=f"{event.value}, reference {wanted.text}")
    )


def _limits(wanted: Amount) -> tuple[float, float]:
    slack = ROUNDING * wanted.nominal
    return (wanted.nominal if wanted.least is None else wanted.least) - slack, (
        wanted.nominal if wanted.most is None else wanted.most
    ) + slack


def all_remarks(job: Job, comparison: Comparison) -> tuple[FitRemark, ...]:
    """What stands of every place and fastener as it was left last."""
    fitted = {event.place: event for event in job.of(Fitted)}
    fastened = {event.joint: event for event in job.of(Fastened)}
    torques = (torque_remark(job, event) for event in fastened.values())
    return (
        *(remark for event in fitted.values() for remark in fit_remarks(job, comparison, event)),
        *(remark for remark in torques if remark is not None),
    )


def still_inside(job: Job, place: str) -> str:
    """What was said to be still inside, where that is the part of this place and it did not come off since; else ""."""
    answered = next((event for event in reversed(job.of(Answered)) if event.key == "inside"), None)
    if answered is None or answered.is_none:
        return ""
    said = answered.answer.lower()
    name, tag = job.reference.part_at(place).name.lower(), place.partition("@")[2].lower()
    kind = job.reference.part_at(place).kind.rpartition(" ")[2]  # "bearing" of a ball bearing
    an_end_is_said = any(end in said for end in job.reference.ends)
    named = (name in said or kind in said) and (not tag or tag in said or not an_end_is_said)
    out_since = any(
        isinstance(event, Off) and event.place == place and event.number > answered.number for event in job.live
    )
    return answered.answer if named and not out_since else ""


def is_out(inside: str, by: str) -> Answered:
    """The answer that what was said to be still inside has come out since."""
    question = "Anything still inside, or stuck to a face?"
    return Answered(key="inside", question=question, answer=f"none, it is out: {inside}", by=by)
