"""The words of the trade for what is special on a fastener, and for what it went through."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from torquebook.catalogue.lookup import plain

if TYPE_CHECKING:
    from collections.abc import Mapping

    from torquebook.records.reuse import Feature, History

_FEATURES: Final[Mapping[Feature, tuple[str, ...]]] = {
    "stretch": (
        "stretch bolt", "torque to yield", "tty", "torque-to-yield bolt", "waisted", "one-way bolt"
    ),
    "angle tightened": ("by angle", "angle", "torque and angle", "torque angle", "angle stage"),
    "adhesive patch": (
        "adhesive", "pre-applied adhesive", "pre-coated", "microencapsulated", "locker patch",
        "threadlock patch", "pre-applied locker",
    ),
    "nylon patch": ("polyamide patch", "nylon pellet", "plastic patch", "polyamide"),
    "locking nut": (
        "self-locking nut", "lock nut", "locknut", "self-locking", "prevailing torque nut",
        "prevailing nut", "stiff nut",
    ),
    "nylon-insert nut": (
        "nylon insert", "nylon nut", "nylon insert locknut", "nylon insert lock nut",
        "nylon locknut", "nylon lock nut", "nylon-insert locking nut", "polyamide insert nut",
    ),
    "all-metal locking nut": (
        "all-metal nut", "all metal", "all-metal locknut", "all-metal lock nut",
        "distorted thread nut", "crimped nut",
    ),
    "rotating part": ("rotating", "turning part", "part turns"),
    "cotter pin": ("split pin", "cotter"),
    "lock wire": ("lockwire", "safety wire", "locking wire"),
    "spring washer": ("spring lock washer", "split washer", "split lock washer"),
    "toothed washer": ("tooth washer", "toothed lock washer", "serrated washer", "star washer"),
    "tab washer": ("lock tab", "locking tab", "tab lock washer", "locking plate"),
    "castellated nut": ("castle nut", "slotted nut", "castellated"),
    "staked nut": ("staked", "stake nut", "peened nut"),
    "aluminium": ("aluminum", "aluminium bolt", "aluminum bolt"),
    "exhaust nut": ("copper-plated nut", "exhaust manifold nut", "manifold nut"),
    "exhaust stud": ("exhaust manifold stud", "manifold stud"),
    "driveline": (
        "driveshaft", "drive shaft", "propeller shaft", "propshaft", "prop shaft",
        "driveshaft bolt", "propeller-shaft bolt", "caliper carrier", "caliper bolt",
        "driveline bolt",
    ),
    "suspension": ("subframe", "subframe bolt", "suspension bolt", "control arm bolt"),
    "ribbed head": ("ribbed", "rib", "ribs", "serrated head", "ribbed flange"),
    "flywheel": ("flywheel bolt",),
    "clutch cover": ("clutch cover bolt", "pressure plate", "pressure plate bolt", "clutch bolt"),
    "wheel": ("wheel bolt", "wheel nut", "wheel stud", "lug nut", "lug bolt"),
    "crush washer": (
        "copper washer", "aluminium washer", "aluminum washer", "drain plug washer",
        "sealing washer", "drain washer", "copper ring",
    ),
    "bonded seal": ("bonded washer", "bonded sealing washer"),
    "circlip": ("snap ring", "retaining ring"),
    "roll pin": ("spring pin", "tension pin"),
    "dowel": ("dowel pin", "locating dowel"),
    "coil insert": ("thread insert", "wire thread insert", "screw-locking insert", "coil"),
    "structural A325": ("A325",),
    "structural A490": ("A490",),
    "galvanised": ("galvanized", "hot dip galvanised", "hot dip galvanized", "hot dip"),
    "electroplated": (
        "electro-plated", "zinc plated", "zinc-plated", "electro zinc", "electrogalvanised",
        "plated",
    ),
    "pickled": ("acid cleaned",),
    "over 390 HV": ("390 HV", "hardened over 390 HV"),
    "plain": ("plain bolt", "plain nut", "plain screw"),
}  # fmt: skip

_HISTORIES: Final[Mapping[History, tuple[str, ...]]] = {
    "elastic": ("elastic range", "stayed elastic"),
    "past yield": ("yielded", "beyond yield"),
    "may be past yield": ("maybe past yield",),
    "found loose": ("loose", "came loose", "worked loose"),
    "tightened repeatedly": ("tightened often", "retightened often", "many times"),
    "corroded": ("rusty", "rust", "rusted", "corrosion"),
    "pitted": ("pits", "pitting"),
    "damaged thread": ("thread damaged", "bad thread", "galled thread", "galled"),
    "tapered shank": ("necked", "tapered", "thinned shank"),
    "came out with its nut": ("came out with the nut", "stud came out"),
}

#: Words that mean more than one thing, with what they may mean.
DOUBTFUL: Final[Mapping[str, tuple[str, ...]]] = {
    "head bolt": ("stretch bolt", "plain bolt"),
    "cylinder head bolt": ("stretch bolt", "plain bolt"),
    "alloy bolt": ("aluminium bolt", "plain bolt"),
    "patch": ("adhesive patch", "nylon patch"),
    "patched": ("adhesive patch", "nylon patch"),
    "lock washer": ("spring washer", "toothed washer", "tab washer"),
    "washer": ("crush washer", "spring washer", "toothed washer", "tab washer"),
    "pin": ("cotter pin", "roll pin", "dowel"),
    "insert": ("coil insert", "nylon-insert nut"),
    "seal": ("bonded seal", "crush washer"),
    "stud": ("exhaust stud", "wheel stud", "plain"),
    "structural": ("structural A325", "structural A490"),
    "clutch": ("clutch cover",),
    "nylon": ("nylon-insert nut", "nylon patch"),
    "locked": ("locking nut", "adhesive patch", "nylon patch"),
    "exhaust": ("exhaust nut", "exhaust stud"),
}

#: Words that say nothing of what is special.
IDLE: Final = frozenset(
    {"a", "an", "the", "and", "with", "of", "on", "in", "bolt", "bolts", "screw", "screws", "nut"}
    | {"nuts", "fastener", "used", "old", "hexagon", "steel", "x"}
)
#: What stands before "head" where a head's kind is meant, which says nothing of reuse.
HEADS: Final = frozenset({"hexagon", "hex", "socket", "flange", "cap", "button", "countersunk"})
#: Words that take the next one back: whoever writes them is told to leave both out.
NOT: Final = frozenset({"no", "not", "never", "without", "non"})

#: Every word with what it means.
FEATURES: Final[Mapping[str, Feature]] = {
    plain(word): name for name, others in _FEATURES.items() for word in (name, *others)
}
HISTORIES: Final[Mapping[str, History]] = {
    plain(word): name for name, others in _HISTORIES.items() for word in (name, *others)
}
#: The longest of them, in words.
MOST_WORDS: Final = max(len(word.split()) for word in (*FEATURES, *HISTORIES, *DOUBTFUL))
