"""The server killed in the middle of answers and started again: what was acknowledged is on disk, once."""

from pathlib import Path

from tests.speed.serving import killed_again_and_again


def test_no_acknowledged_answer_is_lost_however_often_the_server_dies(tmp_path: Path):
    told, gone, twice = killed_again_and_again(tmp_path, rounds=4, phones=3)
    assert told >= 12 and (gone, twice) == (0, 0)
