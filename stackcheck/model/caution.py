"""Cautions: what to mind with one's hands, in our own words (common practice, no source).

A caution says what, why in half a sentence, and where the true value is. When one is shown is decided in
`stackcheck.result.cautions`.
"""

from __future__ import annotations

from stackcheck.value import Value


class Caution(Value, kw_only=True):
    id: str
    text: str


BANK: dict[str, str] = {
    "S1": (
        "Hold the machine on stands or a fixed support rated for it, on firm ground, wheels chocked. A jack "
        "lifts; it does not hold."
    ),
    "S2": "Before the axle comes out: what carries the weight of fork, wheel or shaft then?",
    "S3": "Lift with gear rated for the weight; know the weight; nobody under it.",
    "S4": "Unload it and keep it from tipping.",
    "E1": "Spring under load: release it slowly with a holder made for it, face out of the line, glasses on.",
    "E2": "A member that moved when it was loosened was under load. Find out why before clamping it again.",
    "E3": (
        "Switch off, lock, tag, try to start: nothing electrical, hydraulic, under pressure, lifted or hot may "
        "be able to move it. Your site's lock-off rule comes first."
    ),
    "E4": (
        "Pressure, hot or harmful liquid may be trapped even when valves are shut; water may run back when a "
        "seal is opened."
    ),
    "E5": "Isolate the battery and wait as the maker says; cables at the axle are easily crushed.",
    "E6": "Let the air out before undoing anything that holds rim halves.",
    "E7": (
        "Ring-test and look at the wheel, match its speed to the spindle, stand aside at first start: the "
        "maker's manual says how."
    ),
    "B1": (
        "The hub stands elsewhere than in the reference. Check disc in the carrier on both sides, pads, hose at "
        "full steer and full travel."
    ),
    "B2": "Pump the brake until it is firm before moving; test at walking pace in an open, empty place.",
    "B3": "Keep grease and cleaner off disc, drum and linings; contaminated linings are renewed.",
    "B4": "Dust of old linings may contain asbestos: do not blow, brush or sand it; wet wipe or a vacuum made for it.",
    "B5": "A ring or a thicker circlip takes up the travel, not the missing plate's share of the torque.",
    "W1": (
        "Wheels come off after work more often than at other times. Tighten by the maker's value and pattern; "
        "tighten again after the distance the maker gives."
    ),
    "W2": "A retention or anti-turn part may carry no load and still be what keeps the wheel in. Count it in.",
    "W3": "A member that floats finds its own place, in the sequence of the maker, before its clamp is tightened.",
    "W4": "Check thread in the nut: full engagement, and the locking hole or slot where it should be.",
    "W5": "Adjust, lock, then look again: locking changes it.",
    "R1": "Press only the ring that is the press fit. Load through the balls dents the tracks.",
    "R2": "A bearing taken out through its balls is not refitted.",
    "R3": "Never spin a bearing with compressed air; hold both rings; oil it at once.",
    "R4": "First bearing fully home, spacer tube in, second bearing only until it touches. Turn by hand after each.",
    "R5": (
        "Set end float or preload by the maker's method and turn the shaft while setting; feel alone is not a measure."
    ),
    "R6": (
        "Compare width, ring faces, seals and inner slack mark of another bearing with the listed one before fitting."
    ),
    "R7": "Renew both halves of a taper bearing together and do not mix pairs.",
    "R8": "Seals taken out are renewed; look which side faced the oil before prising.",
    "R9": "One bearing bad: look at its partner, the other wheel and whatever loaded it.",
    "R10": "Seal faces are not touched with fingers; set the working length from the maker's face, on a clean shaft.",
    "L1": "Single-use: new one fitted? Old ones go in the bin now, not in the tray.",
    "L2": (
        "Use a self-locking nut again only where the maker allows it and it still turns hard against its lock; "
        "on wheels, brakes and steering use a new one."
    ),
    "L3": "Split pin, tab or wire: new, of the full size, bent as the maker shows. A thin pin lets the nut walk.",
    "L4": "A crush sleeve crushes once. If over-tightened, a new sleeve: backing off leaves no preload.",
    "L5": "Thread compound changes the tightening value; use what the maker names, on clean threads.",
    "L6": "Circlip: home in its groove all round? Turn it a little. Stretched ones are renewed.",
    "T1": (
        "Tightening value from the maker's manual for this machine and year, with its thread condition (dry, "
        "oiled, compound)."
    ),
    "T2": "The tightening value has no thread condition: dry and oiled threads differ much in pull. Ask.",
    "T3": "Twelvefold (lb-ft, lb-in) or tenfold (N·m, kgf·m) slip possible: read the unit aloud.",
    "T4": "Turning a tightened nut onward reads friction, not its torque.",
    "M1": "A limit here is finer than the tool used; use a micrometer or dial.",
    "M2": "Measure the pack as a pack too: it reads thicker than its sum.",
    "M3": "Let parts reach room temperature before measuring.",
    "M5": (
        "Part found loose: which machine? Measure it, and count the packs of every job on the bench before any "
        "is closed."
    ),
    "P1": "Solvents and degreaser: air, no flame, gloves and glasses.",
    "X1": (
        "Where you are, some of this work may be reserved to licensed people or need inspection afterwards. Ask "
        "the local authority."
    ),
}
"""Caution id -> wording."""
