"""A job that goes on event by event is the same as one read at once."""

from hypothesis import given
from hypothesis import strategies as st

from stackcheck.job.events import Answered, Begun, Noted, NotSeen, NotThere, Off, Seen, Undone
from stackcheck.job.state import Job
from stackcheck.value import replace
from tests.page.phones import LIBRARY

REFERENCE = LIBRARY.reference("freight-tricycle/front-hub")
PLACES = [place.name for place in REFERENCE.places]
BEGUN = Begun(
    reference=REFERENCE.id,
    revision=REFERENCE.revision,
    ends=REFERENCE.ends,
    ends_seen_from="",
    title="hub",
    at="2031-05-06T09:12:00+02:00",
)
COMPUTED = ("undone", "live", "sent", "offs", "answers", "passed", "empty", "disagreed")

places = st.sampled_from(PLACES)
events = st.one_of(
    st.builds(Off, what=st.just("seal"), place=places, end=st.sampled_from(REFERENCE.ends)),
    st.builds(NotSeen, place=places),
    st.builds(NotThere, place=places),
    st.builds(Seen, entry=st.integers(1, 3), toward=st.sampled_from(REFERENCE.ends), by=st.sampled_from(["A", "B"])),
    st.builds(Answered, key=st.sampled_from(["inside", "loose"]), answer=st.text(max_size=3)),
    st.builds(Noted, text=st.just("x"), sent=st.sampled_from(["", "7-1"])),
    st.builds(Undone, event=st.integers(2, 8)),
)


@given(said=st.lists(events, max_size=12))
def test_a_job_event_by_event_is_the_job_at_once(said):
    numbered = tuple(replace(event, number=number) for number, event in enumerate((BEGUN, *said), start=1))
    job = Job(name="hub", reference=REFERENCE, events=numbered[:1])
    for event in numbered[1:]:
        job = job.followed_by(event)
    at_once = Job(name="hub", reference=REFERENCE, events=numbered)
    assert job == at_once
    assert [getattr(job, name) for name in COMPUTED] == [getattr(at_once, name) for name in COMPUTED]
    assert all(job.of(type(event)) == at_once.of(type(event)) for event in numbered)
