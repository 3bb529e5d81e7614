"""What a workshop's own proved jobs make of the priors: counts with a rule, small beside any measurement.

All faults begin alike. Each job in which a fault was proved adds a fifth to that fault's weight, up to three
times: no more than symptoms and codes together may do. Common practice, no source.
"""

from collections.abc import Mapping

A_JOB = 0.2
MOST = 3.0


def weights(proved_jobs: Mapping[str, int]) -> dict[str, float]:
    """The weight of each fault proved before, by the number of jobs that proved it; others weigh 1. [-]

    >>> weights({"charge_air_leak": 3, "vanes_sticking": 40})
    {'charge_air_leak': 1.6, 'vanes_sticking': 3.0}
    """
    return {fault: round(min(MOST, 1.0 + A_JOB * count), 1) for fault, count in proved_jobs.items() if count}
