"""A plan as it is written, which travels to other processes and machines."""

import hashlib
from dataclasses import dataclass

from baycue.plan.load import parse_plan
from baycue.plan.plan import Plan


@dataclass(frozen=True, slots=True)
class PlanText:
    """A plan file's name and text."""

    name: str
    text: str

    @property
    def sha256(self) -> str:
        """The digest of the text, hexadecimal."""
        return hashlib.sha256(self.text.encode()).hexdigest()

    def parsed(self) -> Plan:
        """The plan itself; raises PlanError."""
        return parse_plan(self.text, self.name)
