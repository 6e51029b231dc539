"""Names of honest parts pass, and names under which a working gun part is asked for are refused."""

import pytest

from sim.display.inert import refused_key

HONEST = [
    "roller_pin",
    "pivot_pin",
    "dowel_pin",
    "split_pin",
    "hinge_pin",
    "spring_pin",
    "pin_length",
    "bore_line",
    "bearing_bore",
    "shaft_bore",
    "hub_bore",
    "guard_round",
    "round_corner",
    "round_head",
    "round_openings",
    "mast_bolt",
    "bolt_circle",
    "bolt_length",
    "bolt_torque",
    "eye_bolt",
    "bolt_spacing",
    "gas_strut",
    "hammer_finish",
    "trigger_lamp",
    "muzzle_lamp",
    "barrel_outline",
    "receiver_outline",
    "magazine_rack",
    "striker_plate",
    "primer_paint",
    "cartridge_lamp",
    "belt_length",
    "belt_width",
    "feed_roller",
    "lamp_timer",
    "recoil_label",
    "light_barrier",
    "infrared_receiver",
    "chamber_label",
    "breech_outline",
    "cam_follower",
    "spring_seat",
    "lever_knob",
]
DANGEROUS = [
    "firing_pin",
    "firing_pin_travel",
    "firing_pin_spring",
    "sear",
    "sear_engagement",
    "auto_sear",
    "trigger_sear",
    "trigger",
    "trigger_pull",
    "trigger_motor",
    "trigger_linkage",
    "chamber",
    "chamber_length",
    "chamber_pressure",
    "breech",
    "breech_face",
    "breechblock",
    "headspace",
    "barrel",
    "barrel_length",
    "barrel_liner",
    "gun_barrel",
    "bore",
    "bore_diameter",
    "rifling",
    "rifling_twist",
    "caliber",
    "muzzle",
    "muzzle_velocity",
    "receiver",
    "upper_receiver",
    "bolt_carrier",
    "bolt_face",
    "bolt_travel",
    "hammer",
    "hammer_spring",
    "striker_energy",
    "magazine",
    "magazine_spring",
    "belt_feed",
    "feed_pawl",
    "cartridge",
    "cartridge_case",
    "live_round",
    "round_diameter",
    "ammunition",
    "bullet_mass",
    "propellant",
    "powder_charge",
    "gas_port",
    "gas_piston",
    "recoil_spring",
    "firing_solenoid",
    "solenoid",
    "rate_of_fire",
]


def test_there_are_forty_of_each():
    assert len(set(HONEST)) >= 40
    assert len(set(DANGEROUS)) >= 40


@pytest.mark.parametrize("key", HONEST)
def test_an_honest_part_is_not_accused(key):
    assert refused_key(key) is None


@pytest.mark.parametrize("key", DANGEROUS)
def test_a_gun_part_is_refused_with_what_to_show_instead(key):
    said = refused_key(key)
    assert said is not None
    assert "is a part of a working gun, which a display never has; show " in said
    assert refused_key(key.replace("_", "-").upper()) == said
