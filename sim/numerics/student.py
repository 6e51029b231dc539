"""Student's t: how far a mean of few values may lie from the truth."""

from __future__ import annotations


def student_95(freedoms: float) -> float:
    """Return how many standard errors each way hold 95 in 100.

    Parameters
    ----------
    freedoms : float
        Degrees of freedom of the standard error, above 0; infinite for one that is known.

    Examples
    --------
    >>> round(student_95(2.0), 3)
    4.303
    """
    from scipy.special import stdtrit

    return float(stdtrit(min(freedoms, 1e9), 0.975))
