"""What is done in each step in which the whole display is put together."""

from __future__ import annotations

TEXTS = {
    "Plates and bearings": (
        "Deburr every plate. Ream or bore holes with a class; tap threads in holes drilled to the tables. Set the "
        "bearings into base and rear plate "
        "with retaining compound, flush with the front face, shafts through them until it is hard. Bolt base, "
        "mast, front panel and rear plate together."
    ),
    "Foot and walls": (
        "Screw the foot to the mast and the walls to foot, front panel and each other. The backboard stays off."
    ),
    "Shafts and drive": (
        "Slide the shafts in from the rear with sleeves, pulleys and belts; drill pulleys and shafts together "
        "and drive the cross pins. Shafts must turn freely with no play to be felt along them."
    ),
    "Brake": (
        "On the bench screw the disc to its hub, and glue the magnets to the keepers, opposite poles facing; "
        "keep the keepers far apart: they snap together and pinch. Slide disc and hub on the shaft and drive "
        "the cross pin, then screw keepers and spacers to the rear plate; the disc must not touch a magnet."
    ),
    "Lead plate": (
        "On the bench screw lever post and spring block to the lead plate, from behind. Screw the caps to the "
        "base, and in front of its cap pin the collar of a separate propeller shaft. Lay the thrust washer "
        "and the lead plate on its cap, then the keeper. Set stop bush, friction spring and screw so that the "
        "plate stays where it is put and moves by hand."
    ),
    "Follower, spring and sensor": (
        "Mount the follower on its bushes, free to move with no play to be felt across. Put the spring "
        "between block and seat. Screw on flag, roller and sensor. Set the sensor so that the lamp changes at "
        "half lift, with a feeler gauge below the roller."
    ),
    "Cam": (
        "Pin the hub to the shaft. Turn blade 1 to the bore line (next step), turn the cam until its line 0 "
        "points to where the roller stands when it is down, and screw it to the hub."
    ),
    "Propeller": (
        "Pin its hub to the shaft; screw the propeller between hub and clamp. Balance it until it stays at any angle."
    ),
    "Drive by hand or motor, with slip clutch": (
        "With a crank, screw the grip to its arm first. Put flange, friction discs, driving part and pressure "
        "disc on the shaft in the order of the picture. Tighten the screw of the clutch until it slips at the "
        "torque of the test sheet, measured with a spring balance."
    ),
    "Target, lamp and rear of the guard": (
        "Screw the solid outline of the gun to the backboard and set the lamp into it. Wire as in the "
        "diagram. Screw the backboard to the walls. Clamp the foot to the table, or screw it down."
    ),
    "Cover": (
        "Screw frame and cover to the base with screws that need a tool, the lever post through its slot; "
        "then screw the knob on the post, outside. Measure openings and gaps by the test sheet and sign the "
        "checklist before anyone turns the display."
    ),
}
"""Title of a step -> what is done in it; common practice, no source."""
TESTS = (
    "Turn the shafts by hand through a whole turn at lead 0 and at full lead: nothing touches.",
    "Measure each opening and each gap of the guard: none beyond the limits of the checks.",
    "Pull the grip with a spring balance: it slips at the force of the checks or below.",
    "Turn as fast as can be for one minute: speed below its limit, at most three flashes in 1 s.",
    "Push with 100 N at the top in the worst direction: no leg lifts; clamps tight.",
    "At lead 0 and at full lead the lamp comes on and goes out where the page of the cam says.",
    "Turn the propeller by hand with the lamp's plug out: the roller never leaves the cam.",
)
"""What is tried on the finished display; common practice, no source."""
