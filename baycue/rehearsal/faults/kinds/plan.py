"""The plan's file in the coach's editor."""

import shutil

from baycue.rehearsal.faults.bay import Bay
from baycue.rehearsal.faults.fault import Deed, Fault

_NOT_TAKEN, _TAKEN = "not taken; the one before goes on", "saved and taken"


def _write(text: str) -> Deed:
    def deed(bay: Bay) -> None:
        bay.plan.write_text(text)

    return deed


def _replace(old: str, new: str) -> Deed:
    def deed(bay: Bay) -> None:
        text = bay.plan.read_text()
        assert old in text, f"{bay.plan}: the plan holds no {old!r}"
        bay.plan.write_text(text.replace(old, new))

    return deed


def _restore(bay: Bay) -> None:
    if bay.plan.is_dir():
        bay.plan.rmdir()
    bay.plan.unlink(missing_ok=True)
    shutil.copy(bay.files.plan, bay.plan)


def _delete(bay: Bay) -> None:
    bay.plan.unlink()


def _make_a_folder(bay: Bay) -> None:
    bay.plan.unlink()
    bay.plan.mkdir()


def _fill_with_noise(bay: Bay) -> None:
    bay.plan.write_bytes(bytes(range(256)) * 64)


def _forbid(bay: Bay) -> None:
    bay.plan.chmod(0)


def _ask_less(bay: Bay) -> None:
    """The same swing passes by it."""
    _replace("at_least: 5 cm", "at_least: -20 cm")(bay)
    bay.expects |= {"PASS"}


def _broken(name: str, done: str, deed: Deed) -> Fault:
    return Fault(name, done, deed, _restore, _NOT_TAKEN, _TAKEN)


FAULTS = (
    _broken("plan-broken", "saved with a checkpoint P66", _replace("at: P6", "at: P66")),
    _broken("plan-cut-short", "saved with nothing in it", _write("")),
    _broken("plan-deleted", "deleted", _delete),
    _broken("plan-a-folder", "a folder in its place", _make_a_folder),
    _broken("plan-noise", "16 KB of noise in its place", _fill_with_noise),
    _broken("plan-unreadable", "made unreadable", _forbid),
    Fault("plan-eased", "saved with an easier target", _ask_less, told=_TAKEN),
    Fault(
        "plan-of-another",
        "saved with another student's name",
        _replace("student: ", "student: Alder, not "),
        told=_TAKEN,
    ),
)
