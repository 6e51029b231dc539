"""What the airframe must carry: load cases, bolts, trusses."""
