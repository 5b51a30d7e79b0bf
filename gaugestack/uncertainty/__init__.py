"""How well a stack, a height or a sine bar's angle is known, by the GUM (JCGM 100:2008)."""
