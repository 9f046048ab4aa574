// SPDX-License-Identifier: GPL-3.0-or-later
/* solid_shapes: what is drawn of one kind of piece or part, in its own frame: its skin, its lines, its short grain. */
import { BufferAttribute, BufferGeometry } from 'three';
import { Curves } from './solid_curves.js';
import type { Kind, Spot } from './solid_data.js';

/** Side grain, end grain, what tools have cut, hardware: each has its colour. */
export const ROLES = 4;

/** order: which triangle of the kind the n-th of the skin is; those of one role stand together. */
export interface Shapes {
    skin: BufferGeometry; lines: BufferGeometry; short: BufferGeometry | null; order: number[]; curves: Curves;
}

function roleOf(kind: Kind, triangle: number): number {
    if (kind.bought) return 3;
    if (kind.source[triangle] > 0) return 2;
    return kind.face[triangle] >= 4 ? 1 : 0;
}

/** Three numbers for each place. */
export function shapeOf(places: Float32Array): BufferGeometry {
    return new BufferGeometry().setAttribute('position', new BufferAttribute(places, 3));
}

function put(kind: Kind, points: ArrayLike<number>): Float32Array {
    const places = new Float32Array(points.length * 3);
    for (let i = 0; i < points.length; i += 1) places.set(kind.points.subarray(3 * points[i], 3 * points[i] + 3), 3 * i);
    return places;
}

function cornersOf(kind: Kind, triangles: number[]): number[] {
    return triangles.flatMap((t) => [...kind.triangles.subarray(3 * t, 3 * t + 3)]);
}

export function shapesOf(kind: Kind): Shapes {
    const order = Array.from({ length: kind.triangles.length / 3 }, (_, t) => t);
    order.sort((a, b) => roleOf(kind, a) - roleOf(kind, b) || a - b);
    const skin = shapeOf(put(kind, cornersOf(kind, order)));
    skin.computeVertexNormals();
    for (let role = 0, from = 0; role < ROLES; role += 1) {
        const many = order.filter((triangle) => roleOf(kind, triangle) === role).length;
        if (many > 0) skin.addGroup(3 * from, 3 * many, role);
        from += many;
    }
    return { skin, lines: shapeOf(put(kind, kind.edges)), short: shortOf(kind), order, curves: new Curves(kind) };
}

/** The triangles that one side of the blank, or one cut (source over 0), has given. */
export function sideOf(kind: Kind, face: number, source: number): BufferGeometry {
    const all = Array.from({ length: kind.face.length }, (_, t) => t);
    return shapeOf(put(kind, cornersOf(kind, all.filter((t) => kind.face[t] === face && kind.source[t] === source))));
}

/** All triangles, in one colour. */
export function skinOf(kind: Kind): BufferGeometry {
    return shapeOf(put(kind, kind.triangles));
}

/** All boxes of short grain as one shape; sides that two boxes share stay out of sight inside. */
function shortOf(kind: Kind): BufferGeometry | null {
    // corners by bits: 4 for the far x, 2 for y, 1 for z; the four of each side counter-clockwise as seen from outside
    const sides = [[0, 1, 3, 2], [4, 6, 7, 5], [0, 4, 5, 1], [2, 3, 7, 6], [0, 2, 6, 4], [1, 5, 7, 3]];
    const places: number[] = [];
    for (const { boxes } of kind.short) {
        for (let i = 0; i < boxes.length; i += 6) {
            const at = (c: number): Spot => [boxes[i + (c & 4 ? 3 : 0)], boxes[i + (c & 2 ? 4 : 1)], boxes[i + (c & 1 ? 5 : 2)]];
            for (const [a, b, c, d] of sides) places.push(...at(a), ...at(b), ...at(c), ...at(a), ...at(c), ...at(d));
        }
    }
    return places.length > 0 ? shapeOf(new Float32Array(places)) : null;
}
