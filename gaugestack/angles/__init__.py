"""Angles, tapers and the sine bar."""
