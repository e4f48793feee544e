"""The board on a page of paper, at exact size, as PNG and PDF.

Ten pixels a millimetre, so that paper, squares and markers are whole numbers of pixels.
"""

import struct
import zlib
from enum import Enum

import cv2
import numpy as np

from baycue.bay.board import Picture, board_picture

PX_PER_MM = 10
CHECK_LINE_MM = 100
"""A line to be measured with a ruler: printers like to shrink pages."""

_TOP_MM, _LEFT_MM = 8.0, 10.0
_LINES = (
    "Print at 100 %, not fitted to the page. The line must be 100 mm long by a ruler; if it is",
    "not, write what it is in the plan (check_line). Fix the page flat on stiff card. Stand it",
    "upright beside the lead foot, in line with the ankles, facing the camera, square to the",
    "target line. Nothing may stand where club or ball pass: take it away before you swing.",
)
_LETTER_SIZE, _PITCH_MM = 0.95, 3.7
_POINTS_PER_MM = 72 / 25.4


class Paper(Enum):
    """A paper's name, width and height, mm: ISO 216, and ANSI/ASME Y14.1 in inches."""

    A4 = ("A4", 210.0, 297.0)
    LETTER = ("Letter", 8.5 * 25.4, 11 * 25.4)

    def __init__(self, sign: str, width_mm: float, height_mm: float) -> None:
        self.sign = sign
        self.width_mm = width_mm
        self.height_mm = height_mm


def board_page(paper: Paper) -> Picture:
    """The whole page, grey (h, w)."""
    page = np.full((_px(paper.height_mm), _px(paper.width_mm)), 255, np.uint8)
    board = board_picture(1000 * PX_PER_MM)
    left, top = (page.shape[1] - board.shape[1]) // 2, _px(_TOP_MM)
    page[top : top + board.shape[0], left : left + board.shape[1]] = board
    below = top + board.shape[0]
    _check_line(page, below + _px(5.0))
    for number, line in enumerate(_LINES):
        _write(page, line, _px(_LEFT_MM), below + _px(10.5 + number * _PITCH_MM))
    return page


def _px(length_mm: float) -> int:
    return round(length_mm * PX_PER_MM)


def _check_line(page: Picture, y: int) -> None:
    """From the outer edge of one tick to the outer edge of the other."""
    left, length, tick = _px(_LEFT_MM), CHECK_LINE_MM * PX_PER_MM, _px(2.0)
    page[y - 2 : y + 2, left : left + length] = 0
    for at in (left, left + length - 3):
        page[y - tick : y + tick, at : at + 3] = 0
    _write(page, f"{CHECK_LINE_MM} mm between the ends", left + length + _px(3.0), y + 10)


def _write(page: Picture, text: str, left: int, foot: int) -> None:
    cv2.putText(
        page, text, (left, foot), cv2.FONT_HERSHEY_DUPLEX, _LETTER_SIZE, (0,), 2, cv2.LINE_AA
    )


def as_png(page: Picture) -> bytes:
    """The page as PNG that says how many pixels make a metre (chunk pHYs, PNG 11.3.4.3)."""
    plain = cv2.imencode(".png", page)[1].tobytes()
    head = 8 + 25  # signature, then the header's chunk, which is always as long
    size = struct.pack(">IIB", 1000 * PX_PER_MM, 1000 * PX_PER_MM, 1)
    chunk = b"pHYs" + size
    told = struct.pack(">I", len(size)) + chunk + struct.pack(">I", zlib.crc32(chunk))
    return plain[:head] + told + plain[head:]


def as_pdf(page: Picture, paper: Paper) -> bytes:
    """The page as PDF 1.4 (ISO 32000): one picture that fills the sheet, in points."""
    width, height = paper.width_mm * _POINTS_PER_MM, paper.height_mm * _POINTS_PER_MM
    drawing = f"q {width:.4f} 0 0 {height:.4f} 0 0 cm /Board Do Q".encode()
    image = zlib.compress(page.tobytes(), 9)
    parts = (
        b"<< /Type /Catalog /Pages 2 0 R >>",
        b"<< /Type /Pages /Kids [3 0 R] /Count 1 >>",
        f"<< /Type /Page /Parent 2 0 R /MediaBox [0 0 {width:.4f} {height:.4f}] "
        "/Resources << /XObject << /Board 5 0 R >> >> /Contents 4 0 R >>".encode(),
        _stream("", drawing),
        _stream(
            f"/Type /XObject /Subtype /Image /Width {page.shape[1]} /Height {page.shape[0]} "
            "/ColorSpace /DeviceGray /BitsPerComponent 8 /Filter /FlateDecode ",
            image,
        ),
    )
    return _file(parts)


def _stream(about: str, data: bytes) -> bytes:
    return f"<< {about}/Length {len(data)} >>\nstream\n".encode() + data + b"\nendstream"


def _file(parts: tuple[bytes, ...]) -> bytes:
    """Numbered objects, the table of where each begins, and the trailer."""
    text, places = b"%PDF-1.4\n", []
    for number, part in enumerate(parts, start=1):
        places.append(len(text))
        text += f"{number} 0 obj\n".encode() + part + b"\nendobj\n"
    table = "".join(f"{place:010d} 00000 n \n" for place in places)
    count = len(parts) + 1
    return (
        text
        + (
            f"xref\n0 {count}\n0000000000 65535 f \n{table}"
            f"trailer\n<< /Size {count} /Root 1 0 R >>\nstartxref\n{len(text)}\n%%EOF\n"
        ).encode()
    )
