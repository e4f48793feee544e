"""Write a plan to start from, with a comment on every line."""

from dataclasses import dataclass
from pathlib import Path

from rich.console import Console

from baycue.commands.folders import refuse_unwritable
from baycue.plan.load import parse_plan
from baycue.plan.stance import View
from baycue.plan.target import USUAL_BAND
from baycue.plan.writing import as_yaml

_HEAD = """\
# A plan for one student. Change what stands here, then: baycue plan check {file}
# Every number is a placeholder and no advice; the coach's word is what counts.
#
# Before you swing: check that nobody, no screen and no camera stands within the club's reach.
# Stop if anything hurts. The facility's rules, local codes and your own coach come first.

{facts}
camera:
  mirrored: false          # true if the webcam flips its picture
  field_of_view: 70 deg    # horizontal, from the camera's data sheet

# Two or three targets at most. All that decide must pass; "baycue plan measures" lists what can
# be measured. Lengths carry their unit: cm, mm, m or in.
# A value within {band:g} sigmas of its bound is "too close to call"; "band: 1.6" below a bound
# wants to be surer, "band: 1" calls more answers.
targets:
"""
_KNEE = """\
  - measure: knee past ankle
    at: P6                 # shaft parallel to the ground on the way down
    at_least: 3 cm         # or at_most, or between: [2 cm, 6 cm]
    cue: knee over the toes
"""
_HEAD_RISE = """\
  - measure: head rise
    from: address
    to: impact
    at_most: 4 cm
    cue: stay down through the ball
"""
_TEMPO = """\
  - measure: tempo
    between: [2.5, 3.5]
    watch_only: true       # shown, does not decide
"""
_TARGETS = {
    View.FACE_ON: (_KNEE, _HEAD_RISE, _TEMPO),
    View.DOWN_THE_LINE: (_HEAD_RISE, _TEMPO),
}


@dataclass(frozen=True, slots=True)
class NewPlanRequest:
    """The student's facts as the coach writes them."""

    file: Path
    student: str
    handedness: str
    stature: str
    view: str


def run_plan_new(request: NewPlanRequest, console: Console) -> None:
    """Write the file; PlanError for facts that no plan may hold, OutputError if it exists."""
    refuse_unwritable(request.file)
    text = starter(request)
    parse_plan(text, str(request.file))
    with request.file.open("x", encoding="utf-8") as file:
        file.write(text)
    console.print(f"Written: {request.file}. Open it in an editor.", soft_wrap=True, markup=False)


def starter(request: NewPlanRequest) -> str:
    """The plan's text."""
    facts = as_yaml(
        {
            "student": request.student,
            "handedness": request.handedness,
            "stature": request.stature,
            "view": request.view,
        }
    )
    view = next((v for v in View if v.value == request.view.strip().lower()), View.FACE_ON)
    head = _HEAD.format(file=request.file.name, facts=facts, band=USUAL_BAND)
    return head + "\n".join(_TARGETS[view])
