"""The printed page: its size by ISO 216 and ANSI/ASME Y14.1, read back from PDF and PNG."""

import re
import shutil
import struct
import subprocess
import zlib
from pathlib import Path

import cv2
import numpy as np
import pytest

from baycue.bay.board import SQUARE_M, charuco_board
from baycue.bay.board_page import CHECK_LINE_MM, PX_PER_MM, Paper, as_pdf, as_png, board_page
from tests.command_line import Run, files

# ISO 216: A4 is 210 x 297 mm.  ANSI/ASME Y14.1 size A, Letter: 8.5 x 11 in; an inch is 25.4 mm.
SIZE_IN = {Paper.A4: (210 / 25.4, 297 / 25.4), Paper.LETTER: (8.5, 11.0)}
POINTS_PER_INCH = 72


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    return Run(capsys)


@pytest.mark.parametrize("paper", Paper)
def test_the_sheet_and_the_picture_on_it_are_the_papers_size(paper: Paper) -> None:
    pdf = as_pdf(board_page(paper), paper)
    points = [POINTS_PER_INCH * inches for inches in SIZE_IN[paper]]
    box = re.search(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", pdf)
    matrix = re.search(rb"q ([\d.]+) 0 0 ([\d.]+) 0 0 cm /Board Do Q", pdf)
    assert box is not None
    assert matrix is not None
    assert [float(side) for side in box.groups()] == pytest.approx(points, abs=1e-3)
    assert [float(side) for side in matrix.groups()] == pytest.approx(points, abs=1e-3)


@pytest.mark.parametrize("paper", Paper)
def test_the_pdfs_picture_is_the_page_and_its_table_is_right(paper: Paper) -> None:
    page = board_page(paper)
    pdf = as_pdf(page, paper)
    size = re.search(rb"/Width (\d+) /Height (\d+)", pdf)
    data = re.search(rb"/FlateDecode /Length (\d+) >>\nstream\n", pdf)
    assert size is not None
    assert data is not None
    width, height = (int(side) for side in size.groups())
    assert (width, height) == tuple(round(inch * 25.4 * PX_PER_MM) for inch in SIZE_IN[paper])
    grey = zlib.decompress(pdf[data.end() : data.end() + int(data[1])])
    assert np.array_equal(np.frombuffer(grey, np.uint8).reshape(height, width), page)
    start = int(re.search(rb"startxref\n(\d+)\n", pdf)[1])  # type: ignore[index]
    places = re.findall(rb"(\d{10}) 00000 n ", pdf[start:])
    assert pdf[start:].startswith(b"xref")
    for number, place in enumerate(places, start=1):
        assert pdf[int(place) :].startswith(f"{number} 0 obj".encode())


@pytest.mark.parametrize("paper", Paper)
def test_opencv_reads_the_squares_at_their_true_size(paper: Paper) -> None:
    corners, _, _, _ = cv2.aruco.CharucoDetector(charuco_board()).detectBoard(board_page(paper))
    upper, lower = np.reshape(corners, (2, 2))
    assert float(np.linalg.norm(lower - upper)) / PX_PER_MM == pytest.approx(
        SQUARE_M * 1000, abs=0.1
    )


@pytest.mark.parametrize("paper", Paper)
def test_the_check_line_is_100_mm_from_end_to_end(paper: Paper) -> None:
    """The longest dark run of any row below the board."""
    below = board_page(paper)[(8 + 240 + 2) * PX_PER_MM :]
    longest = 0
    for row in below < 128:
        edges = np.flatnonzero(np.diff(np.concatenate([[0], row, [0]])))
        longest = max(longest, *(edges[1::2] - edges[::2]), 0)
    assert longest == CHECK_LINE_MM * PX_PER_MM


def test_the_print_stays_clear_of_the_edges() -> None:
    """Five millimetres at the sides and the top, three at the foot: common practice, no source."""
    for paper in Paper:
        dark = np.argwhere(board_page(paper) < 250)
        low, high = dark.min(axis=0), dark.max(axis=0)
        page_px = np.array([paper.height_mm, paper.width_mm]) * PX_PER_MM
        assert (low >= 5 * PX_PER_MM).all()
        assert (page_px - high >= [3 * PX_PER_MM, 5 * PX_PER_MM]).all()


def test_the_png_says_its_size_and_is_the_page() -> None:
    """The chunk pHYs: pixels per unit in x and y, and 1 for the metre (PNG, W3C 2003, 11.3.5.3)."""
    page = board_page(Paper.A4)
    png = as_png(page)
    place = png.index(b"pHYs")
    assert struct.unpack(">IIB", png[place + 4 : place + 13]) == (10_000, 10_000, 1)
    assert struct.unpack(">I", png[place + 13 : place + 17])[0] == zlib.crc32(
        png[place : place + 13]
    )
    back = cv2.imdecode(np.frombuffer(png, np.uint8), cv2.IMREAD_GRAYSCALE)
    assert back is not None
    assert np.array_equal(back, page)


@pytest.mark.skipif(shutil.which("pdftoppm") is None, reason="poppler is not installed")
@pytest.mark.parametrize("paper", Paper)
def test_poppler_draws_the_pdf_as_the_page(paper: Paper, tmp_path: Path) -> None:
    (tmp_path / "board.pdf").write_bytes(as_pdf(board_page(paper), paper))
    command = ["pdftoppm", "-r", "254", "-gray", "-singlefile", "board.pdf", "drawn"]
    subprocess.run(command, cwd=tmp_path, check=True)
    drawn = cv2.imread(str(tmp_path / "drawn.pgm"), cv2.IMREAD_GRAYSCALE)
    assert drawn is not None
    page = board_page(paper)
    assert np.abs(np.array(drawn.shape) - page.shape).max() <= 1
    rows, columns = np.minimum(drawn.shape, page.shape)
    apart = np.abs(drawn[:rows, :columns].astype(int) - page[:rows, :columns])
    assert apart.mean() < 2


@pytest.mark.parametrize("paper", ["A4", "letter"])
def test_the_command_writes_both_and_overwrites_neither(
    paper: str, tmp_path: Path, run: Run
) -> None:
    said = run("scale-board", "--paper", paper, "--out", tmp_path / "prints")
    assert said.exit_code == 0
    assert "measure the line" in said.out
    before = files(tmp_path)
    assert sorted(path.suffix for path in before) == [".pdf", ".png"]
    assert run("scale-board", "--paper", paper, "--out", tmp_path / "prints").exit_code == 6
    assert files(tmp_path) == before


def test_an_unknown_paper_gets_the_nearest(tmp_path: Path, run: Run) -> None:
    said = run("scale-board", "--paper", "lettre", "--out", tmp_path / "prints")
    assert said.exit_code == 2
    assert 'did you mean "Letter"?' in said.line
    assert list(tmp_path.iterdir()) == []
