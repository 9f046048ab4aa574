// SPDX-License-Identifier: GPL-3.0-or-later
/* solid_section: the wood that a plane cuts. manifold-3d trims each body by the plane; the triangles that lie in it are the cut
 * wood. */
import Module, { type Manifold, type ManifoldToplevel } from 'manifold-3d';
import type { Kind, Spot } from './solid_data.js';

const IN_PLANE_MM = 1e-3;   // corners of 32-bit floats lie this near to the plane they are in

/** Cut wood in the kind's own frame: triangles, three corners each, and its outline, two ends each. */
export interface CutWood { triangles: Float32Array; outline: Float32Array }

/** Trimmed bodies leave a closed skin; what of it is new is the cut wood. Corners are counted to find the lines that only one
 *  triangle has. */
function cutWoodOf(trimmed: Manifold, original: number, normal: Spot, offset: number): CutWood {
    const mesh = trimmed.getMesh(), numbers: number[] = [], sides = new Map<string, [number, number]>();
    const at = (point: number): Spot => {
        const k = point * mesh.numProp;
        return [mesh.vertProperties[k], mesh.vertProperties[k + 1], mesh.vertProperties[k + 2]];
    };
    const isIn = (point: number): boolean => {
        const p = at(point);
        return Math.abs(p[0] * normal[0] + p[1] * normal[1] + p[2] * normal[2] - offset) < IN_PLANE_MM;
    };
    for (let run = 0; run < mesh.runOriginalID.length; run += 1) {
        if (mesh.runOriginalID[run] === original) continue;
        for (let t = mesh.runIndex[run]; t < mesh.runIndex[run + 1]; t += 3) {
            const corners = [mesh.triVerts[t], mesh.triVerts[t + 1], mesh.triVerts[t + 2]];
            if (!corners.every(isIn)) continue;
            corners.forEach((a, k) => {
                const b = corners[(k + 1) % 3], back = `${b} ${a}`;
                numbers.push(...at(a));
                if (!sides.delete(back)) sides.set(`${a} ${b}`, [a, b]);
            });
        }
    }
    const outline = [...sides.values()].flatMap(([a, b]) => [...at(a), ...at(b)]);
    return { triangles: new Float32Array(numbers), outline: new Float32Array(outline) };
}

/** Keeps the bodies of kinds in the library's memory, which is not the browser's to free: call forget(). */
export class Sections {
    private readonly bodies = new Map<Kind, { body: Manifold | null; original: number }>();
    private constructor(private readonly library: ManifoldToplevel) {}

    /** address: where the library's wasm is. */
    static async begin(address = '/manifold.wasm'): Promise<Sections> {
        const library = await Module({ locateFile: () => address });
        library.setup();
        return new Sections(library);
    }

    private bodyOf(kind: Kind): { body: Manifold | null; original: number } {
        let known = this.bodies.get(kind);
        if (known) return known;
        known = { body: null, original: this.library.Manifold.reserveIDs(1) };
        if (kind.closed && kind.triangles.length > 0) {
            try {
                const mesh = new this.library.Mesh({ numProp: 3, vertProperties: kind.points, triVerts: kind.triangles,
                    runIndex: new Uint32Array([0, kind.triangles.length]), runOriginalID: new Uint32Array([known.original]) });
                known.body = new this.library.Manifold(mesh);
            } catch {
                known.body = null;   // a skin that the library does not take: the body is shown open
            }
        }
        this.bodies.set(kind, known);
        return known;
    }

    /** What of the kind the plane cuts, the side that the normal shows being kept: normal . p = offset in the kind's frame.
     *  Null: it cannot be told. */
    cut(kind: Kind, normal: Spot, offset: number): CutWood | null {
        const { body, original } = this.bodyOf(kind);
        if (!body) return null;
        const trimmed = body.trimByPlane(normal, offset);
        try {
            return cutWoodOf(trimmed, original, normal, offset);
        } finally {
            trimmed.delete();
        }
    }

    forget(): void {
        for (const { body } of this.bodies.values()) body?.delete();
        this.bodies.clear();
    }
}
