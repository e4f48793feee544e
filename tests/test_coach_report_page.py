"""The page and text of the coach's report, from what was kept to a browser."""

import base64
import random
import re
from datetime import date
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path

import cv2
import numpy as np
import pytest
import wcag_contrast_ratio

from baycue.capture.frame import Picture
from baycue.coach_report.figures import figures_of, outcomes_of
from baycue.coach_report.from_log import practice_of
from baycue.coach_report.page import report_page
from baycue.coach_report.palette import DARK, LIGHT, Theme
from baycue.coach_report.pictures import pictures_of
from baycue.coach_report.record import (
    PracticeRecord,
)
from baycue.coach_report.words import CAUTIONS, rate_words
from baycue.commands.report import LARGEST_BYTES, page_within
from baycue.errors import BaycueError, KeptError
from baycue.keep.pages import PAGE
from baycue.keep.place import Place
from baycue.report.blur import blur_face
from tests.chromium import CHROMIUM, asked_for, dumped, printed, screenshot
from tests.command_line import SAMPLE, Run
from tests.invented_answers import PASS, session
from tests.kept_practice import Filmed, Invented, keep_practice
from tests.scored_swing import scored_swing


def weeks(seed: int = 3) -> list[list[Invented]]:
    rng = random.Random(seed)
    return [
        [
            Invented(rng.gauss(3 + 1.2 * week, 2), rng.gauss(3, 1.2), rng.gauss(3, 0.3))
            for _ in range(swings)
        ]
        for week, swings in enumerate((9, 12, 14))
    ]


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> Place:
    """Three weeks; their film is a sample's, whose golfer is not where the stick golfer is."""
    filmed = Filmed(scored_swing(), SAMPLE)
    return keep_practice(tmp_path_factory.mktemp("kept"), weeks(), filmed)


@pytest.fixture(scope="module")
def record(place: Place) -> PracticeRecord:
    return practice_of(place, "Heron")


@pytest.fixture(scope="module")
def page(record: PracticeRecord) -> str:
    return page_within(record, blur_faces=False)


@pytest.fixture(scope="module")
def page_file(page: str, tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("page") / "heron.html"
    file.write_text(page, encoding="utf-8")
    return file


def test_what_was_kept_is_read_back(record: PracticeRecord) -> None:
    assert [len(s.swings) for s in record.sessions] == [9, 12, 14]
    assert (
        outcomes_of(record).passed + outcomes_of(record).failed + outcomes_of(record).too_close
        == 35
    )
    knee_, head, tempo = figures_of(record)
    values = [s.answer.value for s in knee_.shown]
    wanted = [swing.knee_cm / 100 for week in weeks() for swing in week]
    assert values == pytest.approx(wanted)
    assert [f.target.watch_only for f in (knee_, head, tempo)] == [False, False, True]


def test_days_choose_the_sessions(place: Place) -> None:
    days = [s.started.date() for s in practice_of(place, "Heron", since=date(2026, 11, 9)).sessions]
    assert days == [date(2026, 11, 10), date(2026, 11, 17)]
    (only,) = practice_of(place, "Heron", date(2026, 11, 10), date(2026, 11, 10)).sessions
    assert only.started.date() == date(2026, 11, 10)
    with pytest.raises(KeptError, match="nothing"):
        practice_of(place, "Heron", until=date(2026, 11, 1))


def test_no_session_is_left_out_however_many_there_are(tmp_path: Path) -> None:
    many = keep_practice(tmp_path, [[Invented(6, 3, 3)]] * (PAGE + 2))
    assert len(practice_of(many, "Heron").sessions) == PAGE + 2


def test_an_unknown_student_gets_the_nearest(place: Place) -> None:
    with pytest.raises(KeptError, match='did you mean "Heron"'):
        practice_of(place, "Hern")


class _Seen(HTMLParser):
    """Tags with their attributes, in order."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def of(self, *names: str) -> list[dict[str, str | None]]:
        return [attributes for tag, attributes in self.tags if tag in names]


def test_the_page_refers_to_nothing_outside_itself(page: str) -> None:
    seen = _Seen(page)
    for _, attributes in seen.tags:
        for name in ("src", "href", "srcset", "action", "poster", "data", "xlink:href"):
            assert (attributes.get(name) or "#").startswith(("#", "data:")), attributes
    assert "http://" not in page
    assert "https://" not in page
    assert not re.search(r"url\((?!#)|@import", page)
    (policy,) = [m for m in seen.of("meta") if m.get("http-equiv")]
    assert (policy["content"] or "").startswith("default-src 'none'")
    assert not seen.of("script", "link", "iframe", "object", "embed")


def test_every_picture_has_words_and_every_link_a_place(page: str) -> None:
    seen = _Seen(page)
    ids = [a["id"] for _, a in seen.tags if a.get("id")]
    assert len(ids) == len(set(ids))
    assert len(seen.of("svg")) == 9
    for plot in seen.of("svg"):
        assert plot["role"] == "img"
        assert plot["aria-labelledby"] in ids
    assert len(seen.of("img")) == len(seen.of("video")) == 6
    assert all(len(picture["alt"] or "") > 20 for picture in seen.of("img"))
    assert all(clip["aria-label"] and "controls" in clip for clip in seen.of("video"))
    for link in seen.of("a", "use"):
        assert (link["href"] or "")[1:] in ids


def test_headings_go_down_step_by_step_and_wide_tables_take_the_keyboard(page: str) -> None:
    seen = _Seen(page)
    levels = [int(tag[1]) for tag, _ in seen.tags if re.fullmatch(r"h\d", tag)]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(later <= sooner + 1 for sooner, later in pairwise(levels))
    scrolled = [d for d in seen.of("div") if d.get("class") == "scroll"]
    assert scrolled
    assert all(d["tabindex"] == "0" and d["aria-label"] for d in scrolled)
    assert seen.of("html")[0]["lang"] == "en"


@pytest.mark.parametrize("theme", [LIGHT, DARK], ids=["light", "dark"])
def test_words_and_drawings_stand_out(theme: Theme) -> None:
    """WCAG 2.2, 1.4.3 and 1.4.11: text 4.5, graphics 3."""
    for text in (theme.ink, theme.quiet, theme.passed, theme.failed):
        assert contrast(text, theme.ground) >= 4.5
    for drawn in (theme.line, theme.close, theme.bound):
        assert contrast(drawn, theme.ground) >= 3.0


def contrast(one: str, other: str) -> float:
    first, second = (tuple(int(c[i : i + 2], 16) / 255 for i in (1, 3, 5)) for c in (one, other))
    return float(wcag_contrast_ratio.rgb(first, second))


def test_plots_take_their_colours_from_the_theme(page: str) -> None:
    plots = re.findall(r"<svg .*?</svg>", page, re.DOTALL)
    for plot in plots:
        colours = set(re.findall(r"#[0-9a-f]{6}\b", plot))
        assert not colours, colours
    assert all("var(--ink)" in plot and "var(--bound)" in plot for plot in plots[:2])


def test_answers_are_told_apart_by_shape_too(page: str) -> None:
    assert all(word in page for word in (">pass<", ">fail<", ">too close to call<"))


def test_the_page_says_all_that_it_must(page: str) -> None:
    for said in (*CAUTIONS, "at least 5 cm", "watched only", "Retention", "Short swings first"):
        assert said in page.replace("&#x27;", "'")


def test_names_cannot_become_markup() -> None:
    record = PracticeRecord("<script>alert(1)</script>", (session(PASS),), ("<img src=x>",))
    text = report_page(record, {}, "now")
    assert "<script" not in text
    assert "<img" not in text


def test_a_page_that_would_be_too_large_leaves_its_clips_out(
    record: PracticeRecord, page: str
) -> None:
    assert len(page) < LARGEST_BYTES
    without = page_within(record, False, largest=len(page) - 1)
    assert "<video" not in without
    assert "<img" in without
    with pytest.raises(BaycueError, match="name fewer days"):
        page_within(record, False, largest=1000)


def test_a_film_that_is_gone_leaves_the_rest(tmp_path: Path) -> None:
    place = keep_practice(tmp_path, weeks()[:1], Filmed(scored_swing(), SAMPLE))
    for film in tmp_path.rglob("*.mov"):
        film.unlink()
    figures = figures_of(practice_of(place, "Heron"))
    assert all(not pictures.shown for pictures in pictures_of(figures, False).values())


def test_a_blurred_face_has_no_detail_left() -> None:
    pose = scored_swing().evidence.poses[0]
    rng = np.random.default_rng(1)
    picture = rng.integers(0, 255, (720, 1280, 3), dtype=np.uint8)
    before = picture.copy()
    blur_face(picture, pose)
    x, y = pose.pixels[:11].mean(axis=0).astype(int)
    here = np.s_[y - 15 : y + 15, x - 15 : x + 15]
    assert picture[here].std() < 0.3 * before[here].std()
    hips = pose.pixels[23].astype(int)
    assert np.array_equal(picture[hips[1] :], before[hips[1] :])


def test_faces_are_blurred_in_stills_on_request(record: PracticeRecord) -> None:
    figures = figures_of(record)[:1]
    (plain,) = pictures_of(figures, False, clips=False).values()
    (blurred,) = pictures_of(figures, True, clips=False).values()
    shown, hidden = (_decoded(p.shown[0].still) for p in (plain, blurred))
    assert shown.shape == hidden.shape
    assert not np.array_equal(shown, hidden)


def _decoded(still: str) -> Picture:
    picture = cv2.imdecode(np.frombuffer(base64.b64decode(still), np.uint8), cv2.IMREAD_COLOR)
    return np.asarray(picture, np.uint8)


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.setenv("COLUMNS", "80")
    return Run(capsys)


def test_the_text_tells_the_same(place: Place, run: Run) -> None:
    said = run("report", "Heron", "--keep", place.folder, "--text")
    assert (said.exit_code, said.err) == (0, "")
    assert "Heron: 35 swings in 3 sessions" in said.out
    assert rate_words(figures_of(practice_of(place, "Heron"))[0].practice) in said.out
    assert all(len(line) <= 80 for line in said.out.splitlines())


def test_a_page_is_written_once_and_never_over_another(
    place: Place, tmp_path: Path, run: Run
) -> None:
    out = tmp_path / "heron.html"
    words = ("report", "Heron", "--keep", place.folder, "--out", out, "--to", "2026-11-04")
    assert run(*words).exit_code == 0
    before = out.read_bytes()
    assert "9 swings" in before.decode()
    assert run(*words).exit_code == 6
    assert out.read_bytes() == before


def test_a_day_that_is_none_is_told(place: Place, run: Run) -> None:
    said = run("report", "Heron", "--keep", place.folder, "--from", "yesterday")
    assert said.exit_code == 2
    assert '--from "yesterday" is no day' in said.line


needs_chromium = pytest.mark.skipif(CHROMIUM is None, reason="there is no Chromium here")


@needs_chromium
def test_a_browser_asks_nobody_for_anything(page_file: Path, tmp_path: Path) -> None:
    assert asked_for(page_file, tmp_path) == []
    asking = tmp_path / "asking.html"
    asking.write_text('<img src="http://example.invalid/x.png">')
    assert asked_for(asking, tmp_path) == ["GET http://example.invalid/x.png HTTP/1.1"]


@needs_chromium
@pytest.mark.parametrize(("width_px", "dark"), [(360, False), (768, True), (1280, False)])
def test_it_fits_its_window_in_light_and_dark(
    width_px: int, dark: bool, page_file: Path, tmp_path: Path
) -> None:
    picture = tmp_path / "seen.png"
    screenshot(page_file, picture, width_px, 1600, dark)
    seen = cv2.imread(str(picture))
    assert seen is not None
    theme = DARK if dark else LIGHT
    ground = [int(theme.ground[i : i + 2], 16) for i in (5, 3, 1)]
    assert seen.shape[1] == width_px
    assert seen[5, 5].tolist() == ground
    edge = seen[:, -6:]  # nothing may run out of the window at its right
    assert (edge == ground).all(axis=2).mean() > 0.99


KEYBOARD = """<script>
const told = [...document.querySelectorAll("a[href], video, summary, [tabindex]")].map((each) => {
  each.focus();
  const outlined = parseFloat(getComputedStyle(each).outlineWidth) >= 3;
  return each.localName + (document.activeElement === each && outlined ? " yes" : " no");
});
document.body.dataset.told = told.join(",");
</script>"""


@needs_chromium
def test_all_that_is_operated_takes_the_keyboard_and_shows_it(page: str, tmp_path: Path) -> None:
    tried = tmp_path / "tried.html"
    # The page lets no script run; the one that looks has to be let in.
    let_in = page.replace("default-src 'none'", "default-src 'none'; script-src 'unsafe-inline'")
    tried.write_text(let_in.replace("</body>", KEYBOARD + "</body>"), encoding="utf-8")
    found = re.search(r'data-told="([^"]+)"', dumped(tried, tmp_path))
    assert found is not None
    told = set(found[1].split(","))
    assert told >= {"a yes", "div yes", "video yes"}
    assert not [each for each in told if each.endswith(" no")]


@needs_chromium
def test_it_prints_to_a4(page_file: Path, tmp_path: Path) -> None:
    pdf = tmp_path / "heron.pdf"
    printed(page_file, pdf)
    boxes = re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", pdf.read_bytes())
    assert len(boxes) <= 10
    assert {(round(float(w)), round(float(h))) for w, h in boxes} == {(595, 842)}
