"""Synonyms of the trade: words and phrases that name one thing in different shops.

Each line is a group; whoever looks for one of its names finds records that use another. They
are plain terms (common practice, British and American), no names of makers.
"""

from __future__ import annotations

from typing import Final

SYNONYMS: Final[tuple[tuple[str, ...], ...]] = (
    ("driveshaft", "drive shaft", "cv shaft", "half shaft", "halfshaft", "axle shaft"),
    ("propeller shaft", "prop shaft", "propshaft", "cardan shaft", "tail shaft"),
    ("universal joint", "u joint", "cardan joint", "hooke joint"),
    ("bell housing", "bellhousing", "clutch housing"),
    ("spigot bearing", "pilot bearing", "spigot bush", "pilot bush"),
    ("release bearing", "throwout bearing", "throw out bearing", "thrust bearing"),
    ("release fork", "clutch fork", "throwout fork"),
    ("clutch cover", "pressure plate"),
    ("clutch disc", "clutch disk", "driven plate", "friction plate"),
    ("sump", "oil pan"),
    ("spanner", "wrench"),
    ("gearbox", "transmission"),
    ("transfer case", "transfer box", "transfer gearbox"),
    ("power take off", "pto"),
    ("differential", "diff", "axle carrier"),
    ("crown wheel", "ring gear"),
    ("kerb", "curb"),
    ("tyre", "tire"),
    ("damper", "shock absorber"),
    ("wishbone", "control arm", "a arm"),
    ("anti roll bar", "sway bar", "stabiliser bar", "stabilizer bar"),
    ("track rod", "tie rod"),
    ("kingpin", "king pin", "swivel pin"),
    ("stub axle", "steering knuckle", "swivel"),
    ("u bolt", "spring bolt"),
    ("cylinder head", "head gasket"),
    ("rocker cover", "valve cover", "cam cover"),
    ("big end", "connecting rod", "con rod", "conrod"),
    ("main bearing", "main cap"),
    ("gudgeon pin", "piston pin", "wrist pin"),
    ("crankshaft pulley", "crank pulley", "vibration damper", "harmonic balancer"),
    ("inlet manifold", "intake manifold"),
    ("silencer", "muffler"),
    ("alternator", "generator", "dynamo"),
    ("spark plug", "sparking plug"),
    ("glow plug", "heater plug"),
    ("paraffin", "kerosene"),
    ("aluminium", "aluminum"),
    ("hexagon socket", "socket head"),
    ("hexagon", "hex"),
    ("self locking nut", "nylon insert nut", "locknut", "lock nut"),
    ("thread locker", "threadlocker", "locking compound"),
    ("circlip", "snap ring", "retaining ring"),
    ("split pin", "cotter pin"),
    ("roll pin", "spring pin"),
    ("grub screw", "set screw"),
    ("galvanised", "galvanized", "hot dip"),
    ("grey", "gray"),
    ("coil insert", "thread insert"),
)
