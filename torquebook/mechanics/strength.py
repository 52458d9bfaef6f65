"""Loads of a screw from its stress area and the stresses of its class."""

from __future__ import annotations

from torquebook.mechanics import limits

_ISO_898 = "ISO 898-1"


def proof_load(stress_area_mm2: float, proof_stress_mpa: float) -> float:
    """Proof load of a screw, bolt, stud or nut, in N.

    Parameters
    ----------
    stress_area_mm2 : float
        A_s, nominal stress area [mm2]
    proof_stress_mpa : float
        S_p, stress under proof load [MPa]

    Returns
    -------
    float
        F_p = A_s · S_p

    Valid range
    -----------
    Both finite and above 0.

    Raises
    ------
    OutOfRange
        If a value is not finite and above 0.

    Source
    ------
    ISO 898-1, 2009/2013, proof loads of coarse threads, as reprinted in
    tests/published/iso898_1_loads.csv; nuts: ISO 898-2.

    Example
    -------
    M10, 8.8: the table prints 33 700 N; 58.0 mm² × 580 MPa gives 33 640 N, the table is
    rounded.

    >>> proof_load(58.0, 580)
    33640.0
    """
    limits.positive(_ISO_898, stress_area_mm2=stress_area_mm2, proof_stress_mpa=proof_stress_mpa)
    return stress_area_mm2 * proof_stress_mpa


def tensile_load(stress_area_mm2: float, tensile_strength_mpa: float) -> float:
    """Minimum ultimate tensile load of a screw, bolt or stud, in N.

    Parameters
    ----------
    stress_area_mm2 : float
        A_s, nominal stress area [mm2]
    tensile_strength_mpa : float
        R_m, minimum tensile strength [MPa]

    Returns
    -------
    float
        F_m = A_s · R_m

    Valid range
    -----------
    Both finite and above 0.

    Raises
    ------
    OutOfRange
        If a value is not finite and above 0.

    Source
    ------
    ISO 898-1, 2009/2013, minimum ultimate tensile loads of coarse threads, as reprinted
    in tests/published/iso898_1_loads.csv.

    Example
    -------
    M12, 9.8: one page prints 75 900 N; 84.3 mm² × 900 MPa gives 75 870 N, the table is
    rounded.

    >>> tensile_load(84.3, 900)
    75870.0
    """
    limits.positive(
        _ISO_898, stress_area_mm2=stress_area_mm2, tensile_strength_mpa=tensile_strength_mpa
    )
    return stress_area_mm2 * tensile_strength_mpa


def yield_load(stress_area_mm2: float, yield_mpa: float) -> float:
    """Load at the yield strength in pure tension, in N.

    Parameters
    ----------
    stress_area_mm2 : float
        A_s, nominal stress area [mm2]
    yield_mpa : float
        R_eL, R_p0.2 or R_pf, yield strength [MPa]

    Returns
    -------
    float
        F = A_s · R_p0.2

    Valid range
    -----------
    Both finite and above 0.

    Raises
    ------
    OutOfRange
        If a value is not finite and above 0.

    Source
    ------
    ISO 898-1:2013, mechanical properties: the ratio S_p / R_p0.2 that the table prints
    is the ratio of proof load to this load.

    Example
    -------
    8.8 to 16 mm: the table prints S_p / R_p0.2 = 0.91; 580 / 640 gives 0.906, the table
    is rounded.

    >>> proof_load(58.0, 580) / yield_load(58.0, 640)
    0.906
    """
    limits.positive(_ISO_898, stress_area_mm2=stress_area_mm2, yield_mpa=yield_mpa)
    return stress_area_mm2 * yield_mpa


def utilisation(preload_n: float, proof_load_n: float) -> float:
    """Share of the proof load that a preload uses (1 is all of it).

    Parameters
    ----------
    preload_n : float
        F, preload [N]
    proof_load_n : float
        F_p, proof load [N]

    Returns
    -------
    float
        F / F_p

    Valid range
    -----------
    F finite and 0 or above, F_p finite and above 0. The result may exceed 1.

    Raises
    ------
    OutOfRange
        If a value lies outside the valid range.

    Source
    ------
    SAE J429, clamp load tables: clamp = 75 % of proof stress × stress area, as reprinted
    in tests/published/sae_j429.csv.

    Example
    -------
    1/4-20 UNC, grade 2: the page prints 1312 lbf at 75 % of the proof load 1749 lbf; the
    lbf cancel.

    >>> utilisation(1312, 1749)
    0.750
    """
    limits.not_negative(_ISO_898, preload_n=preload_n)
    limits.positive(_ISO_898, proof_load_n=proof_load_n)
    return preload_n / proof_load_n
