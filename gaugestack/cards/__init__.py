"""What we hand over: pure strings, for a screen or for a script."""
