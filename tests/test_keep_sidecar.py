"""A swing's sidecar: the same to the last bit, readable for ever, and damage is told."""

import gzip
import json
import re
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from baycue.errors import KeptError, OutputError
from baycue.keep.codec import from_plain, to_plain
from baycue.keep.record import SwingRecord
from baycue.keep.sidecar import packed, read_sidecar, unpacked
from baycue.keep.whole import write_whole
from baycue.measures.measurement import Measurement, Unit
from baycue.pose.pose import Pose
from tests.kept_swing import DATA, PROBE, swing_record, with_film


def same_poses(one: tuple[Pose, ...], other: tuple[Pose, ...]) -> bool:
    return len(one) == len(other) and all(
        (a.frame_index, a.stamp_ns) == (b.frame_index, b.stamp_ns)
        and a.pixels.tobytes() == b.pixels.tobytes()
        and a.world_m.tobytes() == b.world_m.tobytes()
        and a.visibility.tobytes() == b.visibility.tobytes()
        for a, b in zip(one, other, strict=True)
    )


def test_a_swing_comes_back_to_the_last_bit() -> None:
    record = with_film(swing_record())
    again = unpacked(packed(record), "it")
    assert record.scored is not None
    assert again.scored is not None
    assert again.scored.verdict == record.scored.verdict
    assert again.scored.evidence.shaft == record.scored.evidence.shaft
    assert again.scored.evidence.swing == record.scored.evidence.swing
    assert same_poses(again.scored.evidence.poses, record.scored.evidence.poses)
    assert (again.film, again.later.checkpoints) == (record.film, record.later.checkpoints)
    assert packed(again) == packed(record)


def test_a_swing_that_could_not_be_judged_comes_back() -> None:
    record = replace(swing_record(), scored=None, unscorable="the feet are cut off")
    assert unpacked(packed(record), "it") == record


def test_the_go_of_a_laid_out_session_comes_back() -> None:
    record = replace(swing_record(), go=PROBE)
    assert unpacked(packed(record), "it").go == PROBE
    assert PROBE.words == "block 2, what stays: full swing, silent probe"
    assert replace(PROBE, block="full swing", probe=False).words == "block 2, full swing"


@given(st.floats(allow_nan=False), st.floats(allow_nan=False, min_value=0))
def test_any_number_comes_back(value: float, sigma: float) -> None:
    measured = Measurement("tempo", value, sigma, Unit.RATIO)
    plain = json.loads(json.dumps(to_plain(measured)))
    assert from_plain(Measurement, plain) == measured


def test_arrays_keep_kind_and_shape() -> None:
    array = np.arange(6, dtype=np.float32).reshape(2, 3).T
    back = from_plain(NDArray[np.float32], to_plain(array))
    assert back.dtype == np.float32
    assert np.array_equal(back, array)


def test_the_first_version_is_still_read() -> None:
    record = read_sidecar(DATA / "swing_v1.json.gz")
    assert (record.student, record.number) == ("Heron", 1)
    assert record.scored is not None
    assert record.scored.verdict.targets[0].reason == (
        "knee past ankle at P6: 2.1 cm, 2.9 cm short of 5.0 cm (give or take 0.8 cm)"
    )
    assert len(record.scored.evidence.poses) > 30
    assert record.film is not None
    assert record.go is None
    assert record.plan.text.startswith("student: Heron")


def changed(change: str, by: str) -> bytes:
    text = gzip.decompress(packed(swing_record())).decode()
    assert change in text
    return gzip.compress(text.replace(change, by).encode())


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"", "damaged"),
        (b"not gzip at all", "damaged"),
        (packed(swing_record())[:-20], "damaged"),
        (gzip.compress(b"[1, 2"), "damaged"),
        (gzip.compress(b"[1, 2]"), "is no swing's sidecar"),
        (changed('"version": 1', '"version": 7'), "has version 7"),
        (changed('"unscorable"', '"unscoreable"'), "unscoreable: is not known"),
        (changed('"number": 1', '"number": "one"'), "number: 'one' is no int"),
        (changed('"PICTURE"', '"GUESS"'), 'shaft[1].evidence: "GUESS" is not known'),
    ],
)
def test_what_is_wrong_is_told_in_one_line(data: bytes, told: str) -> None:
    with pytest.raises(KeptError, match=re.escape(told)) as error:
        unpacked(data, "swing_001.json.gz")
    assert str(error.value).startswith("swing_001.json.gz: ")


@pytest.mark.parametrize("at", [20, 400, 4000])
def test_a_flipped_byte_is_noticed(at: int) -> None:
    data = bytearray(packed(swing_record()))
    data[at] ^= 0x10
    with pytest.raises(KeptError):
        unpacked(bytes(data), "it")


def test_a_missing_field_with_a_default_takes_it() -> None:
    text = gzip.decompress(packed(swing_record())).decode()
    document = json.loads(text)
    del document["swing"]["later"], document["swing"]["scored"]["evidence"]["beside_bodies2"]
    record: SwingRecord = unpacked(gzip.compress(json.dumps(document).encode()), "it")
    assert record.later.checkpoints == ()
    assert record.scored is not None
    assert record.scored.evidence.beside_bodies2 == 0.0


def test_a_file_is_never_overwritten(tmp_path: Path) -> None:
    path = tmp_path / "a.json"
    write_whole(path, b"first")
    with pytest.raises(OutputError, match="never overwritten"):
        write_whole(path, b"second")
    assert path.read_bytes() == b"first"
