"""Append records to the ledger of a set, naming each one once it is acknowledged.

python writer.py SET_FILE NAME CALLS EVENTS_A_CALL [LARGEST_FILE]
"""

import datetime as dt
import resource
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from gaugestack.errors import GaugestackError  # the path comes first
from gaugestack.inventory.events import Event, Kind  # the path comes first
from gaugestack.inventory.ledger import append  # the path comes first
from gaugestack.inventory.setfile import load_set  # the path comes first


def main():
    set_path, name, calls, events = sys.argv[1], sys.argv[2], int(sys.argv[3]), int(sys.argv[4])
    if len(sys.argv) > 5:
        resource.setrlimit(resource.RLIMIT_FSIZE, (int(sys.argv[5]), resource.RLIM_INFINITY))
    block_set, _ = load_set(set_path)
    block = block_set.blocks[0]
    for call in range(calls):
        jobs = [f"{name} {call} {number}" for number in range(events)]
        said = [
            Event(kind=Kind.USED, on=dt.date(2026, 2, 3), size=block.nominal, unit=block.unit, job=job)
            for job in jobs
        ]
        try:
            append(set_path, block_set, said, dt.datetime.now())  # noqa: DTZ005  # the wall's clock
        except GaugestackError as error:
            print(f"refused: {error.problems[0].sentence}", flush=True)
            return
        print("\n".join(jobs), flush=True)


main()
