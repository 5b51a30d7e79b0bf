"""One function a command, joining the areas into frozen answers.

    stock.load       the blocks at hand      stack.stack    heights to stacks
    angle.angle      an angle on a bar       taper.taper    a call-out to set-ups
    sets.show/check  what a set holds

Nothing here prints, or looks at clock, environment or working directory;
files are opened by inventory/ alone.  Import the module you need: each loads
only what its answer takes.
"""
