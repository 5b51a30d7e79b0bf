"""Gauge-block stacks, sine bars and tapers."""
