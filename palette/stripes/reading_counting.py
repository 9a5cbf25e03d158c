"""Picks counted in the threads of each stripe, where the picture shows them.

Beat and yarn are uneven: two stripes of as many picks are seldom exactly as wide. Where the light
and shade of single picks can be followed, their rate within a stripe says how densely it was
beaten. The rate is that of the band round the known spacing (its analytic signal: Gabor 1946),
every row counting by how strongly the threads show there.
"""

from __future__ import annotations

import itertools

import numpy as np
from numpy.typing import NDArray

from palette.stripes.reading_threads import Threads

__all__ = ["TRUST", "beaten"]

Array = NDArray[np.float64]

_BAND = 0.16  # width of the band, as a part of the rate
_GROUP = 24  # cells side by side whose threads are followed together
TRUST = 8.0  # picks at which half of what the threads say is believed
_MOST = 0.1  # denser or looser than usual


def beaten(cells: Array, edges: Array, threads: Threads, slope: float, shares: Array) -> Array:
    """Shares of the stripes in picks, from their shares in length.

    Parameters
    ----------
    cells : ndarray of shape (cells, height, 3)
        Logarithm of light in narrow columns of the straightened cloth.
    edges : ndarray of shape (stripes + 1,)
        Rows between the stripes.
    threads : Threads
    slope : float
        Logarithm of the size of a pick at the last row as a part of that at the first.
    shares : ndarray of shape (stripes,)

    Returns
    -------
    ndarray of shape (stripes,)
        Unchanged where threads cannot be counted; the more picks a stripe has, the more it is
        what the threads say.
    """
    if threads.counted <= 0:
        return shares
    turning = _turning(cells, threads.period)
    place = (np.arange(len(turning)) + 0.5) / len(turning) - 0.5
    usual = np.exp(-slope * place) / threads.period
    picks = np.diff(edges) / threads.period
    rates = np.ones(len(shares))
    for k, (start, stop) in enumerate(itertools.pairwise(edges.tolist())):
        rows = slice(int(start), max(int(np.ceil(stop)), int(start) + 1))
        turn = turning[rows].sum()
        if turn.imag > 0:  # a turn of less than half a circle: more than two rows to a pick
            rates[k] = np.angle(turn) / (2 * np.pi) / usual[rows].mean()
    wide = picks >= min(6.0, float(picks.max()))
    rates = np.clip(rates / np.median(rates[wide]), 1 - _MOST, 1 + _MOST)
    counted = shares * rates ** (picks / (picks + TRUST))
    return np.asarray(counted / counted.sum())


def _turning(cells: Array, period: float) -> NDArray[np.complex128]:
    """Turn of the threads' phase from row to row, as long as they are strong."""
    light = np.nan_to_num(cells.mean(axis=2))
    height = light.shape[1]
    frequency = np.fft.fftfreq(height)
    band = 2 * np.exp(-0.5 * ((frequency * period - 1) / _BAND) ** 2) * (frequency > 0)
    turning = np.zeros(height, dtype=complex)
    for group in np.array_split(np.arange(len(light)), max(1, len(light) // _GROUP)):
        change = np.diff(light[group].mean(axis=0), prepend=light[group, 0].mean())
        typical = 1.4826 * float(np.median(np.abs(change))) + 1e-9
        change = np.clip(change, -3.5 * typical, 3.5 * typical)  # edges of stripes
        signal = np.fft.ifft(np.fft.fft(change) * band)
        turning[1:] += signal[1:] * np.conj(signal[:-1])
    return turning
