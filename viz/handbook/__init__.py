"""The handbook: pages and notebooks for designers, educators and builders."""
