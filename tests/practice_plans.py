"""Practice sections of plans for tests."""

from baycue.plan.load import parse_plan
from baycue.plan.plan import Plan

HEAD = """\
student: Heron
handedness: right
stature: 178 cm
view: face-on
targets:
  - {measure: knee past ankle, at: P6, at_least: 5 cm}
practice:
"""


def practice_plan(section: str) -> Plan:
    """A plan with that ``practice`` section, indented by two."""
    return parse_plan(HEAD + section, "plan.yaml")
