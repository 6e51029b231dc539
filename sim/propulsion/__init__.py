"""Engine and propeller: torque, thrust and the rotors they turn."""
