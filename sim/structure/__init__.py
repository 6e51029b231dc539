"""What the engine mount must carry: load cases, bolts, and a welded truss."""
