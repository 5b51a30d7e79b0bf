"""Which blocks: pure code, integers in and values out."""
