"""Plans: what a right one says, and how each wrong one is refused."""

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baycue.errors import PlanError
from baycue.measures.when import Extreme, When
from baycue.plan.file import LARGEST_FILE_BYTES
from baycue.plan.load import load_plan, parse_plan, plan_schema
from baycue.plan.stance import Handedness, View
from baycue.swing.swing import CheckpointName

HEAD = "student: Heron\nhandedness: right\nstature: 178 cm\nview: face-on\n"
KNEE = "{measure: knee past ankle, at: P6, at_least: 5 cm}"
RISE = "{measure: head rise, from: address, to: impact, at_most: 4 cm}"


def plan_text(*targets: str, head: str = HEAD) -> str:
    return head + "targets:\n" + "".join(f"  - {target}\n" for target in targets)


def refusal(text: str) -> list[str]:
    with pytest.raises(PlanError) as caught:
        parse_plan(text, "plan.yaml")
    return str(caught.value).splitlines()


def test_a_plan_says_what_the_coach_wrote() -> None:
    plan = parse_plan(plan_text(KNEE, RISE, "{measure: tempo, at_least: 3, watch_only: yes}"), "p")
    assert (plan.student, plan.handedness, plan.view) == ("Heron", Handedness.RIGHT, View.FACE_ON)
    assert plan.stature_m == 1.78
    knee, rise, tempo = plan.targets
    assert knee.when == When(CheckpointName.P6, CheckpointName.P6)
    assert rise.when == When(CheckpointName.ADDRESS, CheckpointName.IMPACT)
    assert tempo.when == When()
    assert knee.bound.low is not None
    assert knee.bound.low.value == 0.05
    assert [t.title for t in plan.targets] == [
        "knee past ankle at P6",
        "head rise, address to impact",
        "tempo",
    ]
    assert [t.watch_only for t in plan.targets] == [False, False, True]


def test_what_the_coach_leaves_out_is_the_usual() -> None:
    plan = parse_plan(plan_text(KNEE), "p")
    assert not plan.camera.mirrored
    assert plan.camera.horizontal_fov_deg == 70
    assert plan.targets[0].band == 1.3


def test_shorthand_and_case_name_the_same_checkpoints() -> None:
    text = "{measure: Head  Rise, from: p1, to: P7, at_most: 4 cm}"
    assert parse_plan(plan_text(text), "p").targets[0].when == When(
        CheckpointName.ADDRESS, CheckpointName.IMPACT
    )


def test_plans_and_targets_cannot_be_changed() -> None:
    plan = parse_plan(plan_text(KNEE), "p")
    with pytest.raises(ValueError, match="frozen"):
        plan.student = "Other"


KEY_OF_SPAN = "targets[1].largest_between"
FAULTY_TARGETS = [
    ("{measure: knee past ankl, at: P6, at_least: 5 cm}", "targets[1].measure", "knee past ankle"),
    ("{measure: knee past ankle, at: P66, at_least: 5 cm}", "targets[1].at", 'mean "P6"'),
    ("{measure: knee past ankle, at: P6, at_least: 5}", "targets[1].at_least", '"5" has no unit'),
    ("{measure: knee past ankle, at: P6, at_least: 5 deg}", "targets[1].at_least", "wrong unit"),
    ("{measure: knee past ankle, at: P6, at_least: 5 yd}", "targets[1].at_least", "unknown unit"),
    ("{measure: knee past ankle, at: P6, at_least: 5 m}", "targets[1].at_least", "out of range"),
    ("{measure: knee past ankle, at_least: 5 cm}", "targets[1]", 'write "at: P6"'),
    ("{measure: head rise, at: P1, at_most: 5 cm}", "targets[1].at", "counted from address"),
    ("{measure: head rise, to: P7, at_most: 5 cm}", "targets[1].to", 'needs "from" too'),
    ("{measure: head rise, largest_between: P7, at_most: 5 cm}", KEY_OF_SPAN, "list of two"),
    ("{measure: head rise, largest_between: [P7], at_most: 5 cm}", KEY_OF_SPAN, "list of two"),
    ("{measure: head rise, largest_between: [P7, P1], at_most: 5 cm}", KEY_OF_SPAN, "not come"),
    ("{measure: head rise, largest_between: [P1, tip], at_most: 5 cm}", KEY_OF_SPAN, 'mean "top"'),
    ("{measure: tempo, largest_between: [P1, P7], at_least: 3}", KEY_OF_SPAN, "whole swing"),
    ("{measure: head rise, at: P6, largest_between: [P1, P7], at_most: 5 cm}", KEY_OF_SPAN, "keep"),
    (
        "{measure: head rise, at: P6, against: top, at_most: 5 cm}",
        "targets[1].against",
        "goes with",
    ),
    ("{measure: tempo, at_least: 3, tolerance: -1}", "targets[1].tolerance", '"-1" is negative'),
    ("{measure: tempo, at_least: 3, tolerance: 1 cm}", "targets[1].tolerance", "bare number"),
    ("{measure: knee past ankle, from: P1, at: P6, at_least: 5 cm}", "targets[1].from", "belong"),
    ("{measure: head rise, from: P1, at_most: 5 cm}", "targets[1].to", "missing"),
    ("{measure: head rise, from: P7, to: P1, at_most: 5 cm}", "targets[1].to", "not come after"),
    ("{measure: tempo, at: P6, at_least: 3}", "targets[1].at", "over the whole swing"),
    ("{measure: tempo, at_least: 3 cm}", "targets[1].at_least", "bare number"),
    ("{measure: tempo, between: [5, 2]}", "targets[1].between", '"5" is not below "2"'),
    ("{measure: tempo, between: [2, 2]}", "targets[1].between", "contradicts itself"),
    ("{measure: tempo, between: 2}", "targets[1].between", "list of two"),
    ("{measure: tempo, at_least: 2, at_most: 3}", "targets[1].between", "keep one"),
    ("{measure: tempo}", "targets[1].between", "missing a bound"),
    ("{measure: tempo, at_least: 2, band: 0}", "targets[1].band", '"0" is out of range'),
    ("{measure: tempo, at_least: 2, band: nan}", "targets[1].band", "out of range"),
    ("{measure: tempo, at_least: 2, band: wide}", "targets[1].band", '"wide"'),
    ("{measure: tempo, at_least: 2, at_leest: 3}", "targets[1].at_leest", 'mean "at_least"'),
    ("{measure: tempo, at_least: 2, watch_only: maybe}", "targets[1].watch_only", "true, false"),
    ("{measure: tempo, at_least: 2, watch_only: yes}", "targets[1].watch_only", "must decide"),
    ("{measure: tempo, at_least: 2, at_least: 3}", "targets[1].at_least", "given twice"),
    ("{measure: tempo, at_least: [3]}", "targets[1].at_least", "one value"),
    ("{measure: tempo, at_least: }", "targets[1].at_least", "empty"),
    ("tempo", "targets[1]", "mapping"),
]


@pytest.mark.parametrize(("target", "key", "told"), FAULTY_TARGETS)
def test_a_faulty_target_is_told_by_line_and_key(target: str, key: str, told: str) -> None:
    lines = refusal(plan_text(target))
    assert lines[0].startswith(f"plan.yaml:6: {key}: ")
    assert told in lines[0]
    assert len(lines) == 1


ADDRESS, TOP, P6, IMPACT = (CheckpointName(n) for n in ("address", "top", "P6", "impact"))


@pytest.mark.parametrize(
    ("target", "when", "title"),
    [
        ("measure: knee past ankle, at: P6", When(P6, P6), "knee past ankle at P6"),
        ("measure: head rise, at: P6", When(ADDRESS, P6), "head rise at P6"),
        (
            "measure: knee past ankle, from: top, to: P6",
            When(TOP, P6),
            "knee past ankle, top to P6",
        ),
        (
            "measure: knee past ankle, least_between: [P4, P7]",
            When(TOP, IMPACT, Extreme.LEAST),
            "least knee past ankle, top to impact",
        ),
        (
            "measure: head rise, largest_between: [address, impact]",
            When(ADDRESS, IMPACT, Extreme.LARGEST, ADDRESS),
            "largest head rise, address to impact",
        ),
        (
            "measure: head rise, furthest_between: [top, impact], against: top",
            When(TOP, IMPACT, Extreme.FURTHEST, TOP),
            "furthest head rise, top to impact, from top",
        ),
    ],
)
def test_a_target_says_how_its_measure_is_taken(target: str, when: When, title: str) -> None:
    (read,) = parse_plan(plan_text("{" + target + ", at_most: 5 cm}"), "p").targets
    assert (read.when, read.title) == (when, title)


def test_the_same_asked_in_two_ways_is_a_duplicate() -> None:
    (line,) = refusal(plan_text(RISE, "{measure: head rise, at: impact, at_most: 3 cm}"))
    assert "targets[2].measure: asks the same as target 1" in line


FAULTY_HEADS = [
    ("handedness: right", "handedness: rigth", 2, 'handedness: "rigth"', 'did you mean "right"?'),
    ("stature: 178 cm", "stature: 178", 3, "stature:", "needs a unit"),
    ("stature: 178 cm", "stature: 178 deg", 3, "stature:", "wrong unit"),
    ("stature: 178 cm", "stature: 17.8 m", 3, "stature:", "allowed: 80 cm to 250 cm"),
    ("view: face-on", "view: face on", 4, "view:", 'did you mean "face-on"?'),
    ("student: Heron", "student: ", 1, "student:", "empty"),
    ("student: Heron", "student: " + "x" * 99, 1, "student:", "at most 60"),
    ("view: face-on", "view: face-on\ncamera: {mirrored: 2}", 5, "camera.mirrored:", "true, false"),
    ("view: face-on", "view: face-on\ncamera: {field_of_view: 7 deg}", 5, "camera.", "20 deg to"),
    ("view: face-on", "view: face-on\ncamera: {fild_of_view: 70 deg}", 5, "camera.", "did you"),
    ("view: face-on", "view: face-on\nviews: 3", 5, "views: unknown key", 'did you mean "view"?'),
    ("view: face-on", "view: face-on\nview: face-on", 5, "view: given twice", "line 4"),
]


@pytest.mark.parametrize(("right", "wrong", "line", "key", "told"), FAULTY_HEADS)
def test_a_faulty_head_is_told(right: str, wrong: str, line: int, key: str, told: str) -> None:
    lines = refusal(plan_text(KNEE, head=HEAD.replace(right, wrong)))
    assert lines[0].startswith(f"plan.yaml:{line}: {key}")
    assert told in lines[0]
    assert len(lines) == 1


def test_each_missing_key_is_named() -> None:
    lines = refusal("notes: hello\n")
    missing = [line.split(": ")[1] for line in lines]
    assert missing == ["handedness", "stature", "student", "targets", "view"]


def test_a_measure_the_camera_cannot_see_is_refused() -> None:
    text = plan_text(KNEE, RISE, head=HEAD.replace("face-on", "down-the-line"))
    (line,) = refusal(text)
    assert line == (
        'plan.yaml:6: targets[1].measure: "knee past ankle" cannot be seen down-the-line; '
        "allowed views: face-on"
    )


def test_the_same_target_or_name_twice_is_refused() -> None:
    (same,) = refusal(plan_text(KNEE, KNEE.replace("5 cm", "6 cm")))
    assert "plan.yaml:7: targets[2].measure: asks the same as target 1" in same
    named = [KNEE.replace("{", "{name: a, "), RISE.replace("{", "{name: A, ")]
    (again,) = refusal(plan_text(*named))
    assert '"A" is the name of target 1 already' in again


def test_too_many_targets_are_refused() -> None:
    moments = ["P2", "P3", "P5", "P6", "top"]
    (line,) = refusal(plan_text(*(KNEE.replace("P6", moment) for moment in moments)))
    assert "has 5 targets; allowed: 1 to 4" in line


def test_every_fault_is_told_in_order_of_lines() -> None:
    head = HEAD.replace("right", "rigt").replace("178 cm", "178").replace("face-on", "over")
    faults = refusal(
        plan_text(KNEE.replace("5 cm", "5"), RISE.replace("impact", "inpact"), head=head)
    )
    numbers = [int(re.findall(r":(\d+): ", line)[0]) for line in faults]
    assert numbers == [2, 3, 4, 6, 7]


@pytest.mark.parametrize(
    ("text", "line", "told"),
    [
        ("", 1, "is empty"),
        ("# only a comment\n", 1, "is empty"),
        ("- a list\n", 1, "must be a mapping"),
        ("just words\n", 1, "must be a mapping"),
        ("student: [Heron\n", 2, "not valid YAML"),
        ("student: Heron\n  view: x\n", 2, "not valid YAML"),
        ("student: a\n---\nstudent: b\n", 2, "not valid YAML"),
        ("student: a\nnotes: \x07\n", 2, "forbidden character"),
        ("a: &x [1, 1]\n", 1, "anchors and aliases"),
        ("student: !!python/name:os.system ''\n", 1, "tags"),
        ("[" * 3000, 1, "nested more than"),
        ("? [a]\n: b\n", 1, "a key must be one word"),
    ],
)
def test_what_is_no_plan_at_all_is_refused(text: str, line: int, told: str) -> None:
    first = next(fault for fault in refusal(text) if told in fault)
    assert first.startswith(f"plan.yaml:{line}: ")


def test_a_bomb_of_aliases_is_refused_at_once() -> None:
    layers = ["a0: &a0 [x, x]"] + [
        f"a{i}: &a{i} [{', '.join([f'*a{i - 1}'] * 9)}]" for i in range(1, 9)
    ]
    assert all("anchors and aliases" in line for line in refusal("\n".join(layers)))


@given(st.text(max_size=300))
def test_any_text_is_a_plan_or_refused_line_by_line(text: str) -> None:
    for line in refusal(text):
        assert re.match(r"plan\.yaml:\d+: ", line)


class TestFiles:
    def test_a_missing_file_names_the_nearest(self, tmp_path: Path) -> None:
        (tmp_path / "heron.yaml").write_text(plan_text(KNEE))
        with pytest.raises(PlanError, match=r'heronn\.yaml: cannot be read.*mean "heron\.yaml"'):
            load_plan(tmp_path / "heronn.yaml")

    def test_a_folder_is_refused(self, tmp_path: Path) -> None:
        with pytest.raises(PlanError, match="cannot be read"):
            load_plan(tmp_path)

    def test_a_huge_file_is_refused(self, tmp_path: Path) -> None:
        path = tmp_path / "huge.yaml"
        path.write_text(plan_text(KNEE) + "#" * LARGEST_FILE_BYTES)
        with pytest.raises(PlanError, match="larger than 256 kB"):
            load_plan(path)

    def test_another_encoding_is_refused_with_its_line(self, tmp_path: Path) -> None:
        path = tmp_path / "latin.yaml"
        path.write_bytes(b"handedness: right\nstudent: H\xe9ron\n")
        with pytest.raises(PlanError, match=r"latin\.yaml:2: byte 0xe9 is not UTF-8"):
            load_plan(path)

    def test_a_byte_order_mark_is_no_fault(self, tmp_path: Path) -> None:
        path = tmp_path / "marked.yaml"
        path.write_text(plan_text(KNEE), encoding="utf-8-sig")
        assert load_plan(path).student == "Heron"


def test_the_schema_names_every_key_and_allows_no_other() -> None:
    schema = plan_schema()
    assert set(schema["required"]) == {"student", "handedness", "stature", "view", "targets"}
    target = schema["$defs"]["Target"]
    keys = {"measure", "at", "from", "to", "at_least", "between", "band", "tolerance", "against"}
    assert keys | {"largest_between", "least_between", "furthest_between"} <= set(
        target["properties"]
    )
    assert not schema["additionalProperties"]
    assert not target["additionalProperties"]
