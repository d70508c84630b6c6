"""The words of the bench beside kinds and sizes: how a part feels and looks, how it came off, where it lay.

Each table leads what people type to the word that is kept. A word that is denied ("not gritty", "no rust") is none of
these and stays in the note; "no damage seen" and "not magnetic" are words of their own.
"""

from __future__ import annotations

import re

from stackcheck.pattern import Pattern

FEEL = {
    "smooth": r"smooth(?:ly)?|turns? (?:freely|smoothly)",
    "dry": r"dry",
    "stiff": r"stiff",
    "gritty": r"gritty|grit",
    "rumbly": r"rumbl(?:y|es|ing)",
    "notchy": r"notch(?:y|es|ed)",
    "loose": r"loose",
    "seized": r"seized(?: solid| up)?|stuck solid",
    "rough": r"rough",
    "tight": r"tight",
}
"""How a bearing turns."""
WHERE_IT_FEELS = (
    r"at (?:one|1|many|several|even|two|2) places?|straight ahead only|straight ahead|all round|in one place"
)
ONLY_FELT = frozenset({"gritty", "rumbly", "notchy"})
"""Said of a part that does not turn, these most often mean the bearing beside it."""
TURNING_KINDS = frozenset({
    "ball bearing", "angular bearing", "taper bearing", "needle bearing", "loose balls", "cone", "cup", "hub", "wheel",
    "bush", "axle", "shaft", "arbor", "pulley", "drum", "gear", "sprocket", "impeller", "mechanical seal",
})  # fmt: skip
"""Kinds of which a feel can be said: they turn, or something turns in them."""

LOOK = {
    "no damage seen": r"no (?:visible )?damage(?: seen)?|undamaged",
    "no marks seen": r"no marks seen",
    "no marking": r"no (?:markings?|numbers?|stamps?)|unmarked|not marked",
    "not magnetic": r"not magnetic|non[ -]?magnetic",
    "magnetic": r"magnetic",
    "no chamfer": r"no chamfers?",
    "lies flat": r"lies flat",
    "grease gone": r"grease gone|no grease|greaseless",
    "grease black": r"grease (?:is )?black|black grease",
    "grease milky": r"grease (?:is )?milky|milky grease",
    "red-brown dust on the outside": r"red[- ]brown dust(?: on (?:the )?outside)?|red dust(?: on (?:the )?outside)?",
    "shiny band off centre": r"shiny band off (?:centre|center)",
    "shiny ring on both faces": r"shiny rings? on both (?:faces|sides)",
    "ring has turned in its seat": r"ring (?:has )?turned in (?:its|the) seat|spun in (?:its|the) seat",
    "cage bent": r"cage bent|bent cage",
    "seal torn": r"seal torn|torn seal|lip torn|torn lip",
    "seal pushed in": r"seal pushed in",
    "lip hard": r"lips? (?:is |are )?hard|hard lips?",
    "lip soft": r"lips? (?:is |are )?soft|soft lips?",
    "old paint mark": r"old paint marks?",
    "paint mark": r"paint marks?",
    "witness mark": r"witness marks?",
    "marked by tool": r"marked by (?:a )?tool|tool marks?",
    "smeared metal": r"smeared(?: metal)?",
    "stripped thread": r"stripped threads?|threads? stripped",
    "loose fit": r"loose fit",
    "rust": r"rust(?:y|ed)?",
    "corroded": r"corroded",
    "blue or brown (heat)": r"blued|blue(?: from heat)?|brown(?: from heat)?|burnt|heat marks?",
    "pits": r"pit(?:s|ted)",
    "flaking": r"flak(?:ing|ed)|flakes",
    "dents": r"dent(?:s|ed)?",
    "scratches": r"scratch(?:es|ed)?|scored",
    "worn": r"worn",
    "grooved": r"grooved",
    "burred": r"burr(?:s|ed)?",
    "mushroomed": r"mushroomed",
    "bent": r"bent",
    "cracked": r"crack(?:s|ed)?",
    "broken": r"broken",
    "stretched": r"stretched",
    "crushed": r"crushed",
    "chafed": r"chafed",
    "painted": r"painted",
    "dirty": r"dirty",
    "greasy": r"greasy",
    "clean": r"clean",
    "chamfer": r"chamfer(?:s|ed)?",
    "used": r"used|not new",
    "new": r"new",
    "plain": r"plain",
    "nylon insert": r"nylon(?: insert)?|insert",
}
"""How a part looks; longer phrases stand before the words in them."""
CLOSURES = {
    "two rubber seals": r"(?:2|two) (?:rubber )?seals|sealed both sides|rubber seals|rubbers both sides",
    "one rubber seal": r"(?:1|one) (?:rubber )?seal|sealed (?:on )?(?:1|one) side|rubber seal",
    "two metal shields": r"(?:2|two) (?:metal )?shields|shielded both sides|metal shields",
    "one metal shield": r"(?:1|one) (?:metal )?shield|shielded (?:on )?(?:1|one) side",
    "no seals": r"no seals?|open",
    "sealed": r"sealed",
    "shielded": r"shielded|metal shield",
}
"""How a rolling bearing is closed; read on bearings only."""
LOCK_NUT = ("nut", "nylon insert", "lock nut with insert")
"""A kind that goes by another name with this look."""

CAME_OFF = {
    "very hard": r"very hard|with (?:a )?(?:long bar|heat)",
    "by hand": r"by hand|finger tight|hand tight",
    "spanner": r"(?:with |by )?(?:a |the )?(?:spanner|wrench|socket)",
    "puller": r"(?:with |by )?(?:a |the )?puller",
    "hammer": r"(?:with |by )?(?:a |the )?hammer|hammered (?:off|out)|drifted (?:off|out)|driven out",
    "press": r"pressed (?:off|out)|with (?:a |the )?press",
    "cut": r"cut off|sawn off",
    "pulled by the inner ring": r"pulled by (?:the )?inner(?: ring)?",
    "pulled by the outer ring": r"pulled by (?:the )?outer(?: ring)?",
}
LAY = Pattern(
    r"\b(?:(?P<fell>fell out|dropped out|fell off|found loose|place not seen)"
    r"|(?:(?:found|lay|lying|was|loose)? ?(?:in|on|from) (?:the |my |a )?)?"
    r"(?P<where>drip tray|oil tray|tray|floor|rag|sump|drain pan|ground))\b",
    re.IGNORECASE,
)
"""Where a part lay whose place nobody saw."""
UNKNOWN = Pattern(
    r"\b(?:i )?(?:don'?t|do not|dunno|dont) ?know(?: what(?: this is| it is)?)?\b|\bno idea(?: what)?\b|\bdunno\b"
    r"|\bunknown(?: part)?\b|\bnot sure what(?: this is| it is)?\b|^\s*\?+",
    re.IGNORECASE,
)
SAME = Pattern(r"\b(?:the )?same as (?:on )?(?:the )?(?:other|opposite) (?:side|end|one)\b", re.IGNORECASE)
SAME_BOTH_WAYS = Pattern(r"\b(?:same both ways|either way(?= round\b|$))", re.IGNORECASE)
STUCK = Pattern(
    r"^\s*stuck(?: together)?\s*:|[,;]\s*(?:all )?stuck(?: together)?\s*$|\bstuck together\b|\bas one lump\b"
    r"|^\s*lump\s*:",
    re.IGNORECASE,
)
CARD = Pattern(
    r"\b(?:photo )?(?:card|photo|picture|pic) (?:no\.? ?|number )?(?P<card>\d{1,4})(?!\w|[.,/]\d)", re.IGNORECASE
)
NOTE = Pattern(r"\bnote\s*:.*$", re.IGNORECASE | re.DOTALL)
READ_BACK = Pattern(
    r"\b(?:turns|look|came off)\s*:|\bsum [\d.]+ mm \([\d.]+ in\)|\bpack not measured\b|\bmarking not said\b"
    r"|(?<=side), not measured\b",
    re.IGNORECASE,
)
"""Words that only the reading back adds."""
COMPARED = Pattern(
    r"\b(?:by )?[\d.,/]+(?: \d+/\d+)? ?(?:mm|in\b|inch(?:es)?|thou|um|µm|\")? ?(?:too )?"
    r"(?:short(?:er)?|longer|too long|thinner|thicker|wider|narrower|undersize|oversize|under|over|too \w+)\b"
    r"(?: than \w+(?: \w+)?)?"
    r"|\b(?:too )?(?:short|long|thin|thick|under|over|wide|out|off|longer|shorter|thinner|thicker) by "
    r"(?:about )?[\d.,/]+(?: \d+/\d+)? ?(?:mm|in\b|inch(?:es)?|thou|um|µm|\")?",
    re.IGNORECASE,
)
"""A figure that says how far a part is from something: no size, and compared with what nobody said."""

NO_LENGTH = Pattern(
    r"(?<![\w.,/])[\d.,/]+ ?(?:N[·.]?m|N/mm|kN|N|kg|g|lbf?(?:[·. ](?:ft|in))?|ft|deg(?:rees)?|°C?|bar|psi|km|hours?"
    r"|hrs?|min|teeth|splines?|holes?|slots?"
    r"|turns?|times|days?|weeks?|years?|%|tpi)(?!\w)"
)
"""A figure that is no length: a torque, a number of teeth, an age."""
_DENIED = r"(?<!\bno )(?<!\bnot )(?<!\bnever )(?<!\bwithout )(?<!n't )(?<!\bnot a )"


def one_of(words: dict[str, str], *, behind: str = "") -> Pattern:
    """A pattern of all phrases of a table, the first that stands at a spot counts; what was said instead is denied."""
    phrases = "|".join(f"(?:{phrase})" for phrase in words.values())
    return Pattern(rf"{_DENIED}\b(?P<word>{phrases})\b{behind}", re.IGNORECASE)


def word_for(typed: str, words: dict[str, str]) -> str:
    """The word that is kept for a typed phrase of a table."""
    return next(word for word, phrase in words.items() if re.fullmatch(phrase, typed, re.IGNORECASE))


FEELS = one_of(FEEL, behind=rf"(?: (?P<where>{WHERE_IT_FEELS})\b)?")
LOOKS = Pattern(
    r"(?:\b(?P<of>(?:inner|outer) rings?|cage|lips?|tabs?|rollers?|balls|threads?|bore|faces?"
    rf"|(?:one|both) faces?) )?{one_of(LOOK).pattern}"
    r"(?: (?P<at>on (?:the )?(?:\w+ )?(?:face|side|end|ring)s?|inside|at one end)\b)?",
    re.IGNORECASE,
)
LOOKS_LIKE = Pattern(r"\blooks (?P<word>[a-z]+)\b", re.IGNORECASE)
CLOSED = one_of(CLOSURES)
CAME = Pattern(rf"(?:\bcame (?:off|out) )?{one_of(CAME_OFF).pattern}", re.IGNORECASE)
