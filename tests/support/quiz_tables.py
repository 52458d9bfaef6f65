"""Published values that keys of questions are worked out again from, apart from the program's own.

Each table names its document; a test compares none of them with the catalogue.
"""

from __future__ import annotations

from math import cos, pi, radians, sqrt

# ISO 898-1:2013, table 3: least tensile strength, least yield or proof strength, stress under
# proof load [MPa]; 8.8 up to and above 16 mm.
ISO_898_1 = {
    "4.6": (400, 240, 225), "5.6": (500, 300, 280), "5.8": (520, 420, 380),
    "6.8": (600, 480, 440), "8.8": (800, 640, 580), "9.8": (900, 720, 650),
    "10.9": (1040, 940, 830), "12.9": (1220, 1100, 970),
}  # fmt: skip
ISO_898_1_OVER_16 = {"8.8": (830, 660, 600)}
# ISO 3506-1, table of mechanical properties: Rm and Rp0.2 [MPa].
ISO_3506_1 = {"A2-70": (700, 450), "A4-80": (800, 600)}
# SAE J429, table 1: stress under proof load [ksi]; grade 2 above 3/4 in in the second.
SAE_J429 = {"SAE 2": 55, "SAE 5": 85, "SAE 8": 120}
SAE_J429_OVER = {"SAE 2": 33}
KSI_MPA = 6.894757  # NIST SP 811 (2008), table B.8
# ISO 262, selected sizes: pitch of the coarse thread [mm].
ISO_262_COARSE = {
    5: 0.8, 6: 1, 7: 1, 8: 1.25, 10: 1.5, 12: 1.75, 14: 2, 16: 2, 18: 2.5, 20: 2.5, 22: 2.5, 24: 3,
}  # fmt: skip
# ISO 4014, product grade A: across flats and least diameter of the bearing face [mm].
ISO_4014 = {
    5: (8, 6.88), 6: (10, 8.88), 7: (11, None), 8: (13, 11.63), 10: (16, 14.63), 12: (18, 16.63),
    14: (21, 19.37), 16: (24, 22.49), 18: (27, 25.34), 20: (30, 28.19), 22: (34, 31.71),
    24: (36, 33.61),
}  # fmt: skip
# ISO 273: medium and coarse clearance holes [mm].
ISO_273 = {
    5: (5.5, 5.8), 6: (6.6, 7), 7: (7.6, 8), 8: (9, 10), 10: (11, 12), 12: (13.5, 14.5),
    14: (15.5, 16.5), 16: (17.5, 18.5), 18: (20, 21), 20: (22, 24), 22: (24, 26), 24: (26, 28),
}  # fmt: skip
# ISO 898-2:1992, table of pairings (ISO 898-6:1994 the same for fine threads).
PAIRS = {"5.8": "5", "6.8": "6", "8.8": "8", "10.9": "10", "12.9": "12"}
# NIST SP 811 (2008), table B.8, and section 4 for the kilogram-force; in N·m.
NM = {
    "N·m": 1.0, "lbf·ft": 1.355818, "lbf·in": 0.1129848, "kgf·m": 9.80665, "kgf·cm": 0.0980665,
}  # fmt: skip
# TB 43-0218, section III: length of engagement over d.
ENGAGEMENT = {"aluminium": 1.5, "steel": 1.0}
# TM 9-2320-362-14&P, table F-1 (-10 % oiled, -20 % plated) and TM 10-6640-238-13, table G1.
CORRECTIONS = {"oiled": 0.9, "zinc plated": 0.8, "cadmium plated": 0.8}


def diameter_mm(size: str) -> float:
    """Return the nominal diameter of a designation [mm]."""
    if size.startswith("M"):
        return float(size[1:].partition("x")[0])
    whole, _, rest = size.rpartition("-")[0].rpartition("-")
    top, _, bottom = rest.partition("/")
    return 25.4 * (float(whole or 0) + float(top) / float(bottom or 1))


def pitch_mm(size: str) -> float:
    """Return the pitch of a designation, coarse where it names none [mm]."""
    if size.startswith("M"):
        named = size.partition("x")[2]
        return float(named) if named else ISO_262_COARSE[int(diameter_mm(size))]
    return 25.4 / float(size.rpartition("-")[2])


def area_mm2(size: str) -> float:
    """Return the stress area: ISO 898-1, 9.1.6.1, d0 = d - 0.9382 P; ASME B1.1, d - 0.9743/n."""
    give = 0.938194 if size.startswith("M") else 0.9743
    return pi / 4 * (diameter_mm(size) - give * pitch_mm(size)) ** 2


def stresses_mpa(name: str, d_mm: float) -> tuple[float, ...]:
    """Return tensile strength, yield strength and stress under proof load where printed [MPa]."""
    if name.startswith("SAE"):
        small = d_mm <= 0.75 * 25.4 + 0.01
        return (0.0, 0.0, (SAE_J429 if small else SAE_J429 | SAE_J429_OVER)[name] * KSI_MPA)
    if name.startswith("A"):
        return ISO_3506_1[name]
    return (ISO_898_1 if d_mm <= 16 else ISO_898_1 | ISO_898_1_OVER_16)[name]


def proof_n(size: str, name: str) -> float:
    """Return the proof load, area by stress (ISO 898-1:2013, table 5, before it is rounded)."""
    return area_mm2(size) * stresses_mpa(name, diameter_mm(size))[2]


def seat_mm(size: str) -> float:
    """Return D_Km = (d_w + d_h) / 2 under a hexagon head in a medium hole (VDI 2230-1:2003)."""
    d = int(diameter_mm(size))
    face = ISO_4014[d][1]
    assert face is not None
    return (face + ISO_273[d][0]) / 2


def torque_nm(size: str, preload_n: float, mu: float) -> float:
    """Return M = F (0.159 P + 0.577 d2 µ + D_Km/2 µ) (VDI 2230-1:2003, tightening torque)."""
    pitch = pitch_mm(size)
    d2 = diameter_mm(size) - 0.649519 * pitch
    return preload_n * (0.159 * pitch + 0.577 * d2 * mu + seat_mm(size) / 2 * mu) / 1000


def most_pull(order: list[int], count: int) -> float:
    """Return the longest sum of unit vectors of a circle's positions tightened so far."""
    east = north = worst = 0.0
    for number in order:
        turn = radians(360 / count * (number - 1))
        east, north = east + cos(turn - pi / 2), north + cos(turn)
        worst = max(worst, sqrt(east**2 + north**2))
    return worst
