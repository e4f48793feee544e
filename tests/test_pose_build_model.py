import hashlib
import io
import zipfile
from importlib import resources
from pathlib import Path

import pytest
from mediapipe.tasks.metadata import metadata_schema_py_generated as metadata_schema
from mediapipe.tasks.metadata import schema_py_generated as tflite_schema

from baycue.errors import BaycueError
from baycue.pose.build_model import PARTS, Part, build
from baycue.pose.model_file import MODEL_SHA256, model_bytes


@pytest.fixture(scope="module")
def bundle() -> zipfile.ZipFile:
    return zipfile.ZipFile(io.BytesIO(model_bytes()))


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.bundle_name)
def test_each_network_says_how_its_input_is_scaled(bundle: zipfile.ZipFile, part: Part) -> None:
    model = tflite_schema.ModelT.InitFromObj(
        tflite_schema.Model.GetRootAs(bundle.read(part.bundle_name), 0)
    )
    entry = next(m for m in model.metadata if m.name == b"TFLITE_METADATA")
    metadata = metadata_schema.ModelMetadataT.InitFromObj(
        metadata_schema.ModelMetadata.GetRootAs(model.buffers[entry.buffer].data.tobytes(), 0)
    )
    scaling = metadata.subgraphMetadata[0].inputTensorMetadata[0].processUnits[0].options
    assert (list(scaling.mean), list(scaling.std)) == ([part.mean], [part.std])


def test_networks_start_at_multiples_of_16_bytes(bundle: zipfile.ZipFile) -> None:
    content = model_bytes()
    for part in PARTS:
        assert content.index(bundle.read(part.bundle_name)) % 16 == 0


def test_the_notice_names_every_hash() -> None:
    notice = (resources.files("baycue.pose") / "data" / "NOTICE").read_text()
    assert all(hash_ in notice for hash_ in (MODEL_SHA256, *(part.sha256 for part in PARTS)))


def test_a_wheel_with_another_network_is_refused(tmp_path: Path) -> None:
    wheel = tmp_path / "other.whl"
    with zipfile.ZipFile(wheel, "w") as archive:
        archive.writestr(PARTS[0].wheel_name, b"another")
    with pytest.raises(BaycueError, match=hashlib.sha256(b"another").hexdigest()):
        build(wheel)


def test_a_file_that_is_no_wheel_is_refused(tmp_path: Path) -> None:
    wheel = tmp_path / "other.whl"
    wheel.write_text("no zip")
    with pytest.raises(BaycueError, match="not a readable wheel"):
        build(wheel)
