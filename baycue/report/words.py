"""The words that reports share."""

from baycue.swing.swing import CheckpointName
from baycue.verdict.verdict import TargetVerdict

IN_WORDS = {
    CheckpointName.ADDRESS: "still at the ball",
    CheckpointName.TAKEAWAY: "the club sets off",
    CheckpointName.P2: "shaft parallel, going back",
    CheckpointName.P3: "lead arm parallel, going back",
    CheckpointName.TOP: "the hands turn round",
    CheckpointName.P5: "lead arm parallel, coming down",
    CheckpointName.P6: "shaft parallel, coming down",
    CheckpointName.IMPACT: "the club is back at the ball",
    CheckpointName.P8: "shaft parallel, going through",
    CheckpointName.FINISH: "the hands come to rest",
}
"""What each checkpoint is; parallel means parallel to the ground (common practice, no source)."""


def answer_word(answer: TargetVerdict) -> str:
    """The outcome, but "not measured" where there was nothing to call."""
    return answer.outcome.value if answer.measurement else "not measured"


def asked_and_margin(answer: TargetVerdict) -> str:
    """``asked: at least 5.0 cm; 6.1 cm short``, or why there is no figure.

    In two lines for a range, where the margin also says from which end it counts.
    """
    said = answer.said
    if said is None:
        return answer.reason.removeprefix(f"{answer.target_name}: ")
    if not said.bound.startswith("between"):
        return f"asked: {said.bound}; {said.margin}"
    end = "low" if said.margin.endswith(("short", "above")) else "high"
    link = " of" if said.margin.endswith("short") else ""
    return f"asked: {said.bound};\n{said.margin}{link} the {end} end"
