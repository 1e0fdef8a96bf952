"""
The work of one analysis by NumPy and SciPy, as somebody writes it who knows them: grid, axis and sign of the swing, filters and
derivatives over the whole recording, strides turned into world directions, orientation by integrated rate from rest to rest,
features and what was learned, spectra, fits. It does less than the analysis (no uncertainties, no reasons, no checks of axes,
clipping, losses and other activity), and its contacts are not judged: it is there to be timed.

argv: samples (float64: sensors x (time, acceleration x y z, angular rate x y z) x samples), a learned model (JSON), rate in Hz.
"""

import base64
import json
import sys
import time

import numpy as np
from scipy import interpolate, linalg, optimize, signal
from scipy.integrate import cumulative_trapezoid
from scipy.spatial.transform import Rotation

RATE = float(sys.argv[3])
SENSORS = np.fromfile(sys.argv[1]).reshape(-1, 7, int(np.fromfile(sys.argv[1]).size / 14))
PLACES = np.arange(-15, 76) / 100  # of a stride


def _column(text, kind):
    return np.frombuffer(base64.b64decode(text), kind)


with open(sys.argv[2]) as _file:
    _model = json.load(_file)
_kernel, _forest = _model["kernel"], _model["forest"]
NUMBERS = _kernel["numbers"]
CENTRE, SCALE = _column(_kernel["centre"], "<f4")[:NUMBERS], _column(_kernel["scale"], "<f4")[:NUMBERS]
WEIGHT, DUAL = _column(_kernel["weight"], "<f4"), _column(_kernel["dual"], "<f4")
AXES = _column(_kernel["axes"], "<i2").reshape(len(WEIGHT), NUMBERS) / 32000
POINTS = _column(_kernel["points"], "<i2").reshape(-1, len(WEIGHT)) / 4000
ROOTS, FEATURE = _column(_forest["roots"], "<u4").astype(int), _column(_forest["feature"], "<u2")
THRESHOLD, RIGHT = _column(_forest["threshold"], "<i2"), _column(_forest["right"], "<i2").astype(int)


def low_pass(x, cutoff_hz, rate=RATE):
    if cutoff_hz >= 0.45 * rate:
        return x
    return signal.sosfiltfilt(signal.butter(2, cutoff_hz, fs=rate, output="sos"), x)


def grid(stamps, columns):
    at = stamps[0] + np.arange(int((stamps[-1] - stamps[0]) * RATE) + 1) / RATE
    return interpolate.CubicHermiteSpline(stamps, columns, np.gradient(columns, stamps, axis=1), axis=1)(at)


def plane_of(axis):
    one = np.cross(axis, [1, 0, 0] if abs(axis[0]) < 0.6 else [0, 1, 0])
    one /= np.linalg.norm(one)
    return one, np.cross(axis, one)


def turned(angle, a, b):
    c, s = np.cos(angle), np.sin(angle)
    return c * a - s * b, s * a + c * b


def swing_axis(acc, gyr):
    active = gyr[:, np.einsum("ij,ij->j", gyr, gyr) > 4]
    axis = np.linalg.eigh(active @ active.T)[1][:, -1]
    slow = low_pass(np.vstack([acc, axis @ gyr]), 20)[:, ::10]
    one, other = plane_of(axis)
    together, rate = 0, RATE / 10
    for start in range(0, slow.shape[1] - 200, 100):
        part = slow[:, start : start + 200]
        angle = signal.detrend(cumulative_trapezoid(part[3], dx=1 / rate, initial=0))
        x, y = turned(angle, one @ part[:3], other @ part[:3])
        up, forward = x * x.mean() + y * y.mean(), x * y.mean() - y * x.mean()
        integral = lambda values: signal.detrend(cumulative_trapezoid(values, dx=1 / rate, initial=0))
        together += np.nan_to_num(np.corrcoef(integral(integral(up)), integral(forward))[0, 1])
    return axis if together >= 0 else -axis


def jerk(acc, cutoff_hz):
    return np.sqrt((np.gradient(low_pass(acc, cutoff_hz), 1 / RATE, axis=1) ** 2).sum(0))


def jerk_and_snap(acc, cutoff_hz):
    low = low_pass(acc, cutoff_hz)
    first = (low[:, 2:] - low[:, :-2]) * RATE / 2
    second = (low[:, :-2] - 2 * low[:, 1:-1] + low[:, 2:]) * RATE**2
    return np.sqrt((first**2).sum(0)), np.sqrt((second**2).sum(0))


def stride_frame(acc, rate, norm, axis, a, b):
    margin = int(0.1 * RATE)
    start, end = max(0, a - margin), min(len(rate), b + margin)
    part = rate[start:end]
    angle = cumulative_trapezoid(part, dx=1 / RATE, initial=0)
    angle -= angle[a - start] + (angle[b - start] - angle[a - start]) / (b - a) * (np.arange(len(part)) - (a - start))
    one, other = plane_of(axis)
    flat = np.vstack([one, other]) @ acc[:, start:end]
    ex, ey = flat[:, a - start : b - start].mean(1)
    length = np.hypot(ex, ey)
    along, across = (flat[0] * ex + flat[1] * ey) / length, (flat[0] * ey - flat[1] * ex) / length
    x, y = turned(angle, *flat)
    mx, my = x[a - start : b - start].mean(), y[a - start : b - start].mean()
    mean = np.hypot(mx, my)
    columns = np.vstack([part, (x * mx + y * my) / mean, (x * my - y * mx) / mean, along, across, norm[start:end]])
    stride_s = (b - a) / RATE
    return start, low_pass(columns, 17.5 / stride_s), low_pass(part, 10.5 / stride_s)


def stride_lengths(acc, gyr, strides):
    """All strides at a time, sample by sample: only the products of rotations wait for each other."""
    longest = max(b - a for a, b in strides)
    rows = np.array([np.minimum(a + np.arange(longest + 1), b) for a, b in strides]).T
    rate = gyr.T[rows]
    moves = (rows[1:] > rows[:-1])[..., None]
    x, y, z, w = np.moveaxis(
        Rotation.from_rotvec((moves * (rate[1:] + rate[:-1]) / (2 * RATE)).reshape(-1, 3))
        .as_quat()
        .reshape(longest, len(strides), 4),
        -1,
        0,
    )
    steps = np.stack([w, z, -y, x, -z, w, x, y, y, -x, w, z, -x, -y, -z, w], -1).reshape(longest, len(strides), 4, 4)
    turns = np.empty((longest, len(strides), 4, 1))
    now = np.zeros((len(strides), 4, 1))
    now[:, 3] = 1
    for k in range(longest):
        now = steps[k] @ now
        turns[k] = now
    world = Rotation.from_quat(turns.reshape(-1, 4)).apply(acc.T[rows[1:]].reshape(-1, 3)).reshape(longest, -1, 3)
    world = np.where(moves, world, 0)
    gravity = world.sum(0) / moves.sum(0)
    velocity = cumulative_trapezoid(np.where(moves, world - gravity, 0), dx=1 / RATE, axis=0, initial=0)
    way = cumulative_trapezoid(np.where(moves, velocity, 0), dx=1 / RATE, axis=0, initial=0)
    up = gravity / np.linalg.norm(gravity, axis=1)[:, None]
    heights = np.einsum("ksi,si->ks", way, up)
    return np.linalg.norm(way[-1] - heights[-1][:, None] * up, axis=1)


def features(frame, slow, snap, start, stride):
    """Instants by extremes, crossings and onsets, each in the part of the stride that it may lie in."""
    rate, up = frame[0], frame[1]
    n = frame.shape[1]
    turn = int(np.argmin(rate[: int(0.7 * n)]))
    window = slice(max(start + turn - int(0.12 * RATE), 1), start + turn)
    jump = snap[window]
    ratio = jump[9:] / (np.convolve(jump, np.ones(9) / 9, "valid")[: len(jump) - 9] + 1e-9)
    onset = window.start + (int(np.argmax(ratio)) if len(ratio) else 0)
    late = slice(turn, min(n, turn + int(0.5 * stride)))
    push = turn + signal.argrelextrema(slow[late], np.less)[0]
    off = int(push[-1]) if len(push) else turn
    above = np.flatnonzero(np.diff(np.sign(up[late] - 9.81)))
    return onset - start, off, above


def shape_of(frame, jolts, anchor, off, stride):
    at = anchor + PLACES * stride
    index = np.arange(frame.shape[1])
    columns = [np.interp(at, index, column) for column in (*frame, jolts)]
    scales = _model["scales"]
    shape = np.rint(np.clip(np.concatenate([c * s for c, s in zip(columns, scales)]), -32768, 32767))
    slope = 5 * np.diff(shape[: len(PLACES)])
    return np.concatenate([shape, slope, [1e4 * (off - anchor) / stride, 1e4 * stride / RATE]])


def ask_kernel(shapes):
    own = ((shapes[:, :NUMBERS] - CENTRE) / SCALE) @ AXES.T * WEIGHT
    squares = (own**2).sum(1)[:, None] - 2 * own @ POINTS.T + (POINTS**2).sum(1)
    return np.exp(-_kernel["gamma"] * squares) @ DUAL + _kernel["offset"], np.sqrt(np.maximum(0, squares.min(1)))


def ask_forest(shapes):
    """All trees of all contacts go down a level at a time."""
    nodes = np.broadcast_to(ROOTS, (len(shapes), len(ROOTS))).copy()
    rows = np.arange(len(shapes))[:, None]
    while True:
        asked = FEATURE[nodes]
        inner = asked != 0xFFFF
        if not inner.any():
            break
        left = shapes[rows, np.where(inner, asked, 0)] <= THRESHOLD[nodes]
        nodes += np.where(inner, np.where(left, 1, RIGHT[nodes]), 0)
    down, off = THRESHOLD[nodes] / 20000, RIGHT[nodes] / 20000
    return down.mean(1), off.mean(1), down.std(1), off.std(1)


def smooth_speeds(ways, edges):
    """The speed of each step from its neighbours: ways over two steps each, and little bending."""
    speeds = []
    for k in range(len(edges) - 1):
        low, high = max(0, k - 5), min(len(edges) - 1, k + 6)
        m = high - low
        lengths = np.diff(edges[low : high + 1])
        cover = np.zeros((max(m - 1, 0), m))
        for row in range(m - 1):
            cover[row, row : row + 2] = lengths[row : row + 2]
        bend = np.diff(np.eye(m), 2, axis=0)
        left = np.vstack([cover / 0.03, bend / 0.1])
        right = np.concatenate([ways[low : low + m - 1] / 0.03, np.zeros(len(bend))])
        speeds.append(linalg.lstsq(left, right)[0][k - low])
    return np.array(speeds)


STAGES = {}


def _stage(name, started):
    now = time.process_time()
    STAGES[name] = STAGES.get(name, 0) + now - started
    return now


def analysis():
    STAGES.clear()
    touchdowns, contacts = [], 0
    for sensor in SENSORS:
        now = time.process_time()
        columns = grid(sensor[0], sensor[1:])
        acc, gyr = columns[:3], columns[3:]
        norm = np.sqrt((acc**2).sum(0))
        now = _stage("grid", now)
        axis = swing_axis(acc, gyr)
        rate = axis @ gyr
        now = _stage("axis and sign", now)
        motion = np.maximum(low_pass(np.sqrt((gyr**2).sum(0)), 12), np.abs(low_pass(norm, 12) - 9.81))
        slow = low_pass(rate, 7)
        _, snap = jerk_and_snap(acc, 300)
        now = _stage("filters and derivatives", now)
        peaks, _ = signal.find_peaks(slow, 4, distance=int(0.36 * RATE))
        strides = [(a, b) for a, b in zip(peaks, peaks[1:]) if b - a < 1.6 * RATE]
        frames = [stride_frame(acc, rate, norm, axis, a, b) for a, b in strides]
        now = _stage("strides", now)
        usual_s = np.median([b - a for a, b in strides]) / RATE
        jolts = low_pass(jerk(acc, 40 / usual_s), 17.5 / usual_s)
        shapes, instants = [], []
        for (start, frame, low), (a, b) in zip(frames, strides):
            down, off, _ = features(frame, low, snap, start, b - a)
            part = jolts[start : start + frame.shape[1]]
            shapes.append(shape_of(frame, part, down, off, b - a))
            instants.append((start, frame, part, down, off, b - a))
        now = _stage("features", now)
        shift, _ = ask_kernel(np.array(shapes))
        seen = [shape_of(f, p, down + s * n, off, n) for (_, f, p, down, off, n), s in zip(instants, shift)]
        ask_forest(np.array(seen))
        now = _stage("learned", now)
        lengths = stride_lengths(acc, gyr, strides)
        now = _stage("orientation", now)
        run = slice(strides[0][0], strides[-1][1])
        density = signal.welch(acc[:, run], RATE, "hann", 500, 250, 512)[1].sum(0)
        np.convolve(10 * np.log10(density), np.ones(5) / 5, "same")
        total = np.cumsum(signal.welch(norm[run][:8192], RATE, "hann", 256)[1])
        np.searchsorted(total, 0.9 * total[-1])
        now = _stage("spectra", now)
        edges = np.array([(start + down) / RATE for start, _, _, down, _, _ in instants])
        speeds = smooth_speeds(lengths[:-1], np.sort(edges))
        optimize.curve_fit(
            lambda t, top, tau: top * (1 - np.exp(-t / tau)),
            edges[: len(speeds)] - edges[0] + 0.2,
            np.abs(speeds) + 0.1,
            [8, 1],
            bounds=([0.1, 0.05], [30, 30]),
        )
        now = _stage("fits", now)
        contacts += len(strides)
        touchdowns.append((motion < 1).sum())
    return {"contacts": contacts, "stages": STAGES}
