"""Texts made from others without a coverage-guided fuzzer: cut, doubled, moved, joined, with tokens put in.

    data = mutated(random.Random(1), seeds)

For the suite, which has to run wherever Python does; tests/fuzz/run.py follows
the coverage.
"""

from tests.fuzz.seeds import WORDS

_TOKENS = [word.encode("utf-8", "surrogatepass") for word in WORDS]
_MOST_CHANGES = 6
_CUTS = (0, 0, 1, 1, 2, 5, 20, 200)
_LONGEST = 4096


def mutated(chance, seeds):
    """Return one of the seeds with a few changes."""
    data = chance.choice(seeds)
    for _ in range(chance.randint(1, _MOST_CHANGES)):
        data = _changed(chance, data, seeds)
    return data[:_LONGEST]


def _changed(chance, data, seeds):
    """Return a text with one stretch of it replaced."""
    start = chance.randint(0, len(data))
    end = min(len(data), start + chance.choice(_CUTS))
    return data[:start] + _put(chance, data, (start, end), seeds) + data[end:]


def _put(chance, data, cut, seeds):
    """Return what stands in the place of a stretch."""
    stretch = data[slice(*cut)]
    match chance.randint(0, 6):
        case 0:
            return stretch * chance.choice((0, 2, 3, 50))
        case 1:
            return bytes([chance.randrange(256)])
        case 2:
            other = chance.choice(seeds)
            start = chance.randint(0, len(other))
            return other[start : start + chance.choice(_CUTS)]
        case 3:
            start = chance.randint(0, len(data))
            return data[start : start + chance.choice(_CUTS)]
        case 4:
            return str(chance.choice((0, 1, 59, 60, 99, 1000, 10**12, 10**30))).encode()
        case _:
            return chance.choice(_TOKENS)


def smaller(data, fails):
    """Return a shorter text that still fails: stretch after stretch is left out, ever shorter ones."""
    width = max(1, len(data) // 2)
    while width:
        start = 0
        while start < len(data):
            less = data[:start] + data[start + width :]
            if fails(less):
                data = less
            else:
                start += width
        width //= 2
    return data
