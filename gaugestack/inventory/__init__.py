"""What we own: the only code that opens the user's files."""
