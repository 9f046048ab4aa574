// SPDX-License-Identifier: GPL-3.0-or-later
/* solid_curves: the outer lines of curved walls. A wall of chords has no edges there; where one chord looks at the reader and
 * the next looks away, the line between them is the outline, and it changes as the body turns. */
import type { Kind, Spot } from './solid_data.js';

const FLAT = 1e-9;   // chords that differ by less lie in one plane

/** A line between two chords and which way these look. */
interface Seam { from: number; to: number; left: Spot; right: Spot }

function normalOf(kind: Kind, triangle: number): Spot {
    const [a, b, c] = [0, 1, 2].map((k) => kind.points.subarray(3 * kind.triangles[3 * triangle + k]));
    const u = [b[0] - a[0], b[1] - a[1], b[2] - a[2]], v = [c[0] - a[0], c[1] - a[1], c[2] - a[2]];
    const n: Spot = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]], size = Math.hypot(...n);
    return size > 0 ? [n[0] / size, n[1] / size, n[2] / size] : [0, 0, 0];
}

function product(a: Spot, b: Spot): number {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

function seamsOf(kind: Kind): Seam[] {
    const count = kind.points.length / 3, drawn = new Set<number>(), open = new Map<number, Spot>(), seams: Seam[] = [];
    const keyOf = (a: number, b: number): number => Math.min(a, b) * count + Math.max(a, b);
    for (let i = 0; i < kind.edges.length; i += 2) drawn.add(keyOf(kind.edges[i], kind.edges[i + 1]));
    for (let t = 0; t < kind.triangles.length / 3; t += 1) {
        const normal = normalOf(kind, t);
        for (let k = 0; k < 3; k += 1) {
            const a = kind.triangles[3 * t + k], b = kind.triangles[3 * t + (k + 1) % 3];
            const key = keyOf(a, b), other = open.get(key);
            if (drawn.has(key)) continue;
            if (!other) open.set(key, normal);
            else if (product(normal, other) < 1 - FLAT) seams.push({ from: a, to: b, left: other, right: normal });
        }
    }
    return seams;
}

export class Curves {
    private readonly seams: Seam[];

    constructor(private readonly kind: Kind) {
        this.seams = seamsOf(kind);
    }

    /** At most so many numbers outlines() gives. */
    get room(): number {
        return 6 * this.seams.length;
    }

    /** Puts the ends of the lines into `numbers` for one who stands `toward` (in the kind's frame, far away); returns how many
     *  numbers. */
    outlines(toward: Spot, numbers: Float32Array): number {
        let used = 0;
        for (const { from, to, left, right } of this.seams) {
            if (product(left, toward) > 0 === product(right, toward) > 0) continue;
            numbers.set(this.kind.points.subarray(3 * from, 3 * from + 3), used);
            numbers.set(this.kind.points.subarray(3 * to, 3 * to + 3), used + 3);
            used += 6;
        }
        return used;
    }
}
