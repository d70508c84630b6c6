"""Gauges read on one source in a job: which is read next, and what their comparison changes from then on."""

from __future__ import annotations

from stackcheck.formats.gauges_file import gauges_text, read_gauges
from stackcheck.formats.new_file import write_new
from stackcheck.job.events import GaugeRead, GaugesBegun, GaugesCompared
from stackcheck.job.folder import JobFolder
from stackcheck.job.state import Job
from stackcheck.mechanics.gauges import GaugeComparison, compare_gauges
from stackcheck.model.gauges import GaugeReadings
from stackcheck.value import Value


class Gauging(Value, kw_only=True):
    """A comparison that is going on: `rounds` are whole, `begun_round` holds what was read since."""

    begun: GaugesBegun
    rounds: tuple[tuple[str, ...], ...] = ()
    begun_round: tuple[str, ...] = ()

    @property
    def following(self) -> str:
        """The gauge that is read next."""
        return self.begun.gauges[len(self.begun_round)]

    @property
    def round(self) -> int:
        return len(self.rounds) + 1


def gauging(job: Job) -> Gauging | None:
    """The comparison that was begun last, unless it was compared since."""
    begun = job.last(GaugesBegun)
    compared = job.last(GaugesCompared)
    if begun is None or (compared is not None and compared.number > begun.number):
        return None
    read = [event.reading for event in job.of(GaugeRead) if event.number > begun.number]
    size = len(begun.gauges)
    whole = len(read) // size * size
    return Gauging(
        begun=begun,
        rounds=tuple(tuple(read[at : at + size]) for at in range(0, whole, size)),
        begun_round=tuple(read[whole:]),
    )


def compare_read(folder: JobFolder, going_on: Gauging, *, by: str = "") -> GaugeComparison:
    """Compare the whole rounds that were read, and keep them as a file of the job."""
    begun = going_on.begun
    hows = begun.hows or ("",) * len(begun.gauges)
    text = gauges_text(
        source=begun.source, unit=begun.unit, agree_within=begun.agree_within, gauges=tuple(zip(begun.gauges, hows)),
        rounds=going_on.rounds, by=by, date=begun.at[:10],
    )  # fmt: skip
    return keep_comparison(folder, text, by=by)


def keep_comparison(folder: JobFolder, text: str, *, by: str = "") -> GaugeComparison:
    """Keep readings in the job's folder: from now on its sizes are no better than its instruments have shown."""
    number = 1
    while (file := folder.path / f"gauges-{number}.toml").exists():
        number += 1
    write_new(file, text)
    comparison = compare_gauges(read_gauges(file))
    good_to: dict[str, float] = {}
    for result in comparison.results:
        if comparison.readings.scale.dimension == "length" and result.gauge.how and result.good_to is not None:
            good_to[result.gauge.how] = max(round(result.good_to, 4), good_to.get(result.gauge.how, 0.0))
    folder.record(GaugesCompared(file=file.name, good_to_mm=good_to, by=by))
    return comparison


def compared(folder: JobFolder) -> tuple[GaugeReadings, ...]:
    """The readings of every comparison of the job, earliest first."""
    return tuple(read_gauges(folder.path / event.file) for event in folder.job.of(GaugesCompared))
