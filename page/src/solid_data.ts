// SPDX-License-Identifier: GPL-3.0-or-later
/* solid_data: the program's answer for the 3D view, its lists of numbers read from base64. Frames and units:
 * src/sheet/solid_json.h. */

export type Spot = [number, number, number];

export interface ShortGrain { words: string; hold: number; boxes: Float32Array }
/** A piece or part as triangles in its own frame. */
export interface Kind {
    name: string; piece: string; part: string; joint: string; bought: boolean; size: Spot; closed: boolean;
    points: Float32Array; triangles: Uint32Array; source: Uint16Array; face: Uint8Array; edges: Uint32Array;
    cuts: string[]; short: ShortGrain[];
}
export interface Move { step: number; by: Spot }
export interface Stood { kind: number; name: string; number: number; group: number; matrix: number[]; moves: Move[] }
export interface Step { number: number; group: number; words: string }
export interface Solids { kinds: Kind[]; stood: Stood[]; steps: Step[]; note: string }

/** As the program sends it. */
type Sent = Record<string, unknown>;

function bytesOf(base64: unknown): ArrayBuffer {
    const text = atob(String(base64 ?? ''));
    const bytes = new Uint8Array(text.length);
    for (let i = 0; i < text.length; i += 1) bytes[i] = text.charCodeAt(i);
    return bytes.buffer;
}

function shortOf(sent: Sent): ShortGrain {
    return { words: String(sent.words), hold: Number(sent.hold), boxes: new Float32Array(bytesOf(sent.boxes)) };
}

function kindOf(sent: Sent): Kind {
    return {
        name: String(sent.name), piece: String(sent.piece ?? ''), part: String(sent.part ?? ''), joint: String(sent.joint ?? ''),
        bought: sent.bought === true, size: sent.size as Spot, closed: sent.closed === true,
        points: new Float32Array(bytesOf(sent.points)), triangles: new Uint32Array(bytesOf(sent.triangles)),
        source: new Uint16Array(bytesOf(sent.source)), face: new Uint8Array(bytesOf(sent.face)),
        edges: new Uint32Array(bytesOf(sent.edges)),
        cuts: sent.cuts as string[], short: (sent.short as Sent[]).map(shortOf),
    };
}

/** Throws an Error with words when it is no such answer. */
export function readSolids(data: unknown): Solids {
    const sent = data as Sent | null;
    const isOne = sent && [sent.kinds, sent.stood, sent.steps].every(Array.isArray);
    if (!isOne) throw new Error('The program sent no bodies to show.');
    const kinds = (sent.kinds as Sent[]).map(kindOf);
    return { kinds, stood: laidAside(kinds, sent.stood as Stood[]), steps: sent.steps as Step[], note: String(sent.note ?? '') };
}

/* ---- loose groups ---- */

interface Extent { least: Spot; most: Spot }
const ASIDE_MM = 100;          // between groups that no joint binds
const DEEPER_THAN_FIRST = 2;   // a column of them may be so much deeper than the first group

function widen(extent: Extent, spot: Spot): void {
    for (let k = 0; k < 3; k += 1) {
        extent.least[k] = Math.min(extent.least[k], spot[k]);
        extent.most[k] = Math.max(extent.most[k], spot[k]);
    }
}
const nowhere = (): Extent => ({ least: [Infinity, Infinity, Infinity], most: [-Infinity, -Infinity, -Infinity] });

/** Around each group, by its number, from home to all apart. */
function extentsOf(kinds: Kind[], stood: Stood[]): Map<number, Extent> {
    const own = kinds.map((kind) => {
        const extent = nowhere();
        for (let i = 0; i + 2 < kind.points.length; i += 3) widen(extent, [kind.points[i], kind.points[i + 1], kind.points[i + 2]]);
        return extent;
    });
    const groups = new Map<number, Extent>();
    for (const one of stood) {
        const { kind, group, matrix: m } = one, gone = goneBy(one, Infinity);
        const extent = groups.get(group) ?? nowhere(), { least, most } = own[kind];
        groups.set(group, extent);
        for (let corner = 0; corner < 8; corner += 1) {
            const [x, y, z] = [0, 1, 2].map((k) => (corner >> k & 1 ? most[k] : least[k]));
            const home = [0, 1, 2].map((k) => m[k] * x + m[k + 3] * y + m[k + 6] * z + m[k + 9]) as Spot;
            widen(extent, home);
            widen(extent, home.map((value, k) => value + gone[k]) as Spot);
        }
    }
    return groups;
}

/** The program stands groups that no joint binds in one row, so that none touches another; a screen is better filled when
 *  they lie behind each other at the right of the first. Within a group nothing moves. */
function laidAside(kinds: Kind[], stood: Stood[]): Stood[] {
    const groups = [...extentsOf(kinds, stood)].sort((a, b) => a[0] - b[0]);
    if (groups.length < 3) return stood;
    const first = groups[0][1], deep = (first.most[1] - first.least[1]) * DEEPER_THAN_FIRST, by = new Map<number, Spot>();
    let x = first.most[0] + ASIDE_MM, y = first.least[1], far = x;
    for (const [group, { least, most }] of groups.slice(1)) {
        if (y > first.least[1] && y + most[1] - least[1] > first.least[1] + deep) [x, y] = [far + ASIDE_MM, first.least[1]];
        by.set(group, [x - least[0], y - least[1], 0]);
        far = Math.max(far, x + most[0] - least[0]);
        y += most[1] - least[1] + ASIDE_MM;
    }
    return stood.map((one) => {
        const gone = by.get(one.group);
        return gone ? { ...one, matrix: one.matrix.map((value, k) => value + (k >= 9 ? gone[k - 9] : 0)) } : one;
    });
}

/* ---- faces ---- */

/** In the order of the program's tw_face. */
export const faceWords = ['face', 'back', 'face edge', 'back edge', 'left end', 'right end'] as const;
const axisOfFace = [2, 2, 1, 1, 0, 0], farOfFace = [true, false, false, true, false, true];

/** Which axes of the piece run along and across a face: its length and what is square to it; of an end its width and its
 *  thickness. */
export function axesOfFace(face: number): { along: number; across: number } {
    if (face >= 4) return { along: 1, across: 2 };
    return { along: 0, across: face < 2 ? 1 : 2 };
}
/** Outward, in the piece's frame. */
export function outOfFace(face: number): Spot {
    const out: Spot = [0, 0, 0];
    out[axisOfFace[face]] = farOfFace[face] ? 1 : -1;
    return out;
}
/** A place on a face of the blank, by shares from 0 to 1 along and across it. */
export function spotOnFace(kind: Kind, face: number, along: number, across: number): Spot {
    const axes = axesOfFace(face), spot: Spot = [0, 0, 0];
    spot[axes.along] = along * kind.size[axes.along];
    spot[axes.across] = across * kind.size[axes.across];
    spot[axisOfFace[face]] = farOfFace[face] ? kind.size[axisOfFace[face]] : 0;
    return spot;
}

/** How far a thing has gone when the first `steps` steps of taking apart are done, the last of them in part. */
export function goneBy(stood: Stood, steps: number): Spot {
    const gone: Spot = [0, 0, 0];
    for (const move of stood.moves) {
        const share = Math.min(1, Math.max(0, steps - move.step + 1));
        for (let k = 0; k < 3; k += 1) gone[k] += share * move.by[k];
    }
    return gone;
}
