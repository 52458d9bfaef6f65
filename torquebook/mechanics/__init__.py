"""Formulas of screwed joints: floats in, floats or small frozen tuples out.

No tables, no files, no scatter inside a formula: data stand in ``specs/``, and
``scatter.spread`` turns a formula of floats into one of bands.

"Above 0" and "finite" in the docstrings mean 1e-6 and 1e12 (``limits``).

Every argument has one name, symbol and unit throughout. ``tests/mechanics`` compares
this list with every signature and docstring.

==================== ======= ===== ==================================================
name                 symbol  unit  meaning
==================== ======= ===== ==================================================
d_mm                 d       mm    nominal (major) diameter of the thread
pitch_mm             P       mm    pitch of the thread
d2_mm                d2      mm    pitch diameter
d0_mm                d0      mm    diameter of the stress cross-section
inner_mm             d_h     mm    inner diameter of the bearing area (the hole)
outer_mm             d_w     mm    outer diameter of the bearing area
bearing_mm           D_Km    mm    effective diameter for friction under the head
stress_area_mm2      A_s     mm2   stress area of the thread
proof_stress_mpa     S_p     MPa   stress under proof load
tensile_strength_mpa R_m     MPa   tensile strength
yield_mpa            R_p0.2  MPa   yield strength or 0.2 % proof strength
preload_n            F       N     preload
proof_load_n         F_p     N     proof load
torque_nm            M       N·m   tightening torque
mu_thread            mu_G    1     coefficient of friction in the thread
mu_head              mu_K    1     coefficient of friction under the head
k                    K       1     nut factor
share                nu      1     share of the yield strength that is used
edition              -       -     edition of VDI 2230-1
torque               M       -     tightening torque, as a band in N·m
preload              F       -     preload, as a band in N
thread_friction      mu_G    -     friction in the thread, as a band
head_friction        mu_K    -     friction under the head, as a band
deviation            -       1     deviation of the tool, as a share of the torque
alpha_a              alpha_A 1     tightening factor F_max / F_min
formula              -       -     a function of floats
bands                -       -     its arguments by name, as bands
wrench_length_mm     L       mm    wrench, from the middle of the grip to the drive
extension_mm         E       mm    adapter, from the drive to the fastener
angle_deg            theta   °     angle
flats                -       1     flats of a hexagon
turns                -       1     turns
clamp_length_mm      l_K     mm    clamp length: the parts between head and nut or thread
free_thread_mm       l_Gew   mm    loaded thread outside nut or hole
shank_length_mm      l_1     mm    length of the shank
shank_mm             d_1     mm    diameter of the shank
parts_outer_mm       D_A     mm    outer diameter of the clamped parts
modulus_mpa          E_S     MPa   modulus of elasticity of the screw
thread_modulus_mpa   E_M     MPa   modulus of elasticity of nut or part with the thread
parts_modulus_mpa    E_P     MPa   modulus of elasticity of the clamped parts
bolt_mm_per_n        delta_S mm/N  resilience of the screw
slope                tan     1     slope of the cone in the clamped parts, tan phi
sections             -       -     lengths of a screw
layers               -       -     clamped parts
head                 -       -     "hexagon" or "socket"
joint                -       -     "through" (a nut) or "tapped"
elongation           A       1     elongation after fracture, as a share
strain_share         -       1     share of the uniform strain that is used
angle                theta   -     angle, as a band in °
thread               -       -     diameters that torque and yield act on
grip                 -       -     resilience of a joint, length of screw that yields
grips                -       -     what the joint may be, the likely one first
strength             -       -     proof load, yield, tensile strength, uniform strain
strengths            -       -     what the screw may be, the likely one first
points               -       -     how many points of a curve
pair                 -       -     an external and an internal thread that mate
engagement_mm        m_eff   mm    length over which full threads engage
engaged_mm           m       mm    length of engagement, chamfers included
lost_pitches         -       1     pitches that chamfers and incomplete threads take
across_mm            s       mm    width across flats of a nut, or a boss's diameter
dilation             C1      1     factor by which a nut's dilation weakens threads
ratio                R_S     1     strength of the internal thread per external
shear_ratio          -       1     shear strength per tensile strength
external_shear_mpa   tau_BG  MPa   shear strength of the external thread
internal_shear_mpa   tau_BN  MPa   shear strength of the internal thread
breaking_load_n      F_m     N     load at which the bolt breaks
load_n               F       N     load that threads are to carry
limit_mpa            p_G     MPa   limiting pressure under head, washer or nut
washer_mm            -       mm    outer diameter of a washer
thickness_mm         h_S     mm    thickness of a washer
spread               -       1     widening of the load in a washer, per thickness
thread_mm            -       mm    settling in the thread
seat_mm              -       mm    settling under head and nut together
interface_mm         -       mm    settling of one interface between clamped parts
interfaces           -       1     interfaces between clamped parts
settling_mm          f_Z     mm    settling of the whole joint
parts_mm_per_n       delta_P mm/N  resilience of the clamped parts
loss_share           -       1     share of the preload that settling may cost
drag_nm              -       N·m   prevailing torque of a self-locking nut
drag_rule            -       -     rule by which drag is added: "added" or "third"
window               -       -     retightening over installation torque, as a band
scatter              -       1     published scatter of a method, ± share of preload
==================== ======= ===== ==================================================
"""
