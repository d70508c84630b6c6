"""What must hold in a reference, rule by rule, in the words of its file: gaps, limits, states, pairings, joints,
supports.
"""

from __future__ import annotations

from stackcheck.model.limits import ForceLimit, Limit, Pairing, StateLimit
from stackcheck.model.reference import Gap, Reference
from stackcheck.model.state import State
from stackcheck.units import in_inches
from stackcheck.value import Value


class Rule(Value, kw_only=True):
    """What must hold, as the file says it; limits that were written in inches also in mm.

    `is_state`: how warm the machine is somewhere, which nobody is asked to keep.
    """

    said: str
    is_state: bool = False
    limits_mm: tuple[float | None, float | None] | None = None
    mm: str = ""

    @property
    def told(self) -> object:
        """What two rules are the same by: limits by their figures, however they are written."""
        return self.said if self.limits_mm is None else self.limits_mm


def _limits_rule(rule: Gap | Limit | Pairing) -> Rule:
    limits = tuple(None if value is None else round(value, 6) for value in (rule.least_mm, rule.most_mm))
    if in_inches(rule.text):
        least, _, most = rule.text.partition("..")
        said = f"{least} to {most}" if least and most else f"at least {least}" if least else f"at most {most}"
        return Rule(said=said, limits_mm=limits, mm=limits_text(*limits, 3))
    return Rule(said=limits_text(*limits) or "no limits", limits_mm=limits)


def _rule_of(limit: ForceLimit | StateLimit) -> Rule:
    least, _, most = limit.text.partition("..")
    amounts = f"{least} to {most}" if least and most else f"at least {least}" if least else f"at most {most}"
    return Rule(said=f"{limit.of}{f', {limit.state}' if limit.state else ''}: {amounts}")


def _state_rule(state: State) -> Rule:
    apart = (f"{name} {amount.text}" for name, amount in state.apart)
    return Rule(said=", ".join([state.temperature.text, *apart]), is_state=True)


def told_rules(reference: Reference) -> dict[str, Rule]:
    gaps = [item for stack in reference.stacks for item in stack.items if isinstance(item, Gap)]
    told = {gap.name: _limits_rule(gap) for gap in gaps}
    told |= {limit.what: _limits_rule(limit) for limit in reference.limits}
    told |= {limit.what: _rule_of(limit) for limit in (*reference.force_limits, *reference.state_limits)}
    told |= {f"state {state.name}": _state_rule(state) for state in reference.states}
    told |= {pairing.what: _limits_rule(pairing) for pairing in reference.pairings}
    for joint in reference.joints:
        amounts = [amount.text for amount in (joint.torque, joint.angle) if amount]
        shank = "; ".join(section.words for section in joint.shank)
        told[joint.name] = Rule(
            said=", ".join(filter(None, (joint.thread, *amounts, joint.thread_condition, joint.locked_by, shank)))
        )
    for support in reference.supports:
        sizes = (support.stiffness, support.outside, support.bore, support.reach, support.free_position)
        amounts = [amount.text for amount in sizes if amount]
        says = {"floats": support.floating, "pinched after it has settled": support.pinched_after_settling}
        words = ", ".join(
            filter(None, (*amounts, support.material, support.end, *(word for word, so in says.items() if so)))
        )
        told[f"support {support.place}"] = Rule(said=words or "named")
    return told


def limits_text(least: float | None, most: float | None, digits: int = 6) -> str:
    """ "2.50..4.00 mm"; an open side stays empty, as the files write it."""
    if least is None and most is None:
        return ""
    return "..".join("" if value is None else _figure(value, digits) for value in (least, most)) + " mm"


def _figure(value_mm: float, digits: int) -> str:
    """To a hundredth, or as far as it goes."""
    text = f"{value_mm:.{digits}f}".rstrip("0")
    return text.ljust(text.index(".") + 3, "0")
