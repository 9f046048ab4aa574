// SPDX-License-Identifier: GPL-3.0-or-later
/* solid_paint: the colours of wood, lines and marks, taken from the page's own. Faces lie a hair behind lines, so that lines are
 * whole. */
import {
    CanvasTexture, Color, LineBasicMaterial, type Material, MeshBasicMaterial, MeshLambertMaterial, type Plane, PointsMaterial,
    RepeatWrapping,
} from 'three';
import { ROLES } from './solid_shapes.js';

const TEXTURE_PX = 64;
const behind = { polygonOffset: true, polygonOffsetFactor: 2, polygonOffsetUnits: 8 };
// in front of the wood, behind its lines
const lessBehind = { polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 4 };

/** A square that is drawn in white; its material colours it. */
function textureOf(draw: (pen: CanvasRenderingContext2D) => void): CanvasTexture {
    const canvas = document.createElement('canvas');
    canvas.width = canvas.height = TEXTURE_PX;
    const pen = canvas.getContext('2d');
    if (pen) {
        pen.strokeStyle = pen.fillStyle = '#fff';
        draw(pen);
    }
    return new CanvasTexture(canvas);
}

/** Slanting lines that go on from square to square. */
function hatching(): CanvasTexture {
    const texture = textureOf((pen) => {
        pen.lineWidth = TEXTURE_PX / 10;
        for (const shift of [-TEXTURE_PX, 0, TEXTURE_PX]) {
            pen.moveTo(shift - 4, TEXTURE_PX + 4);
            pen.lineTo(shift + TEXTURE_PX + 4, -4);
        }
        pen.stroke();
    });
    texture.wrapS = texture.wrapT = RepeatWrapping;
    return texture;
}

function ring(): CanvasTexture {
    const middle = TEXTURE_PX / 2;
    return textureOf((pen) => {
        pen.lineWidth = TEXTURE_PX / 6;
        pen.arc(middle, middle, middle - TEXTURE_PX / 8, 0, 2 * Math.PI);
        pen.stroke();
        pen.fillRect(middle - 4, middle - 4, 8, 8);
    });
}

export class Paint {
    readonly roles = Array.from({ length: ROLES }, () => new MeshLambertMaterial(behind));
    readonly pencil = new LineBasicMaterial();
    readonly short = new MeshBasicMaterial(lessBehind);
    readonly shortInside = new MeshBasicMaterial({ transparent: true, opacity: 0.3, depthTest: false });
    readonly cutWood = new MeshBasicMaterial(behind);
    readonly cutMetal = new MeshBasicMaterial(behind);
    readonly hatch = new MeshBasicMaterial({ map: hatching(), transparent: true });
    readonly cutLine = new LineBasicMaterial();
    readonly chosen = new MeshBasicMaterial({ transparent: true, opacity: 0.5, ...lessBehind });
    readonly mark = new PointsMaterial({ size: 18, sizeAttenuation: false, map: ring(), transparent: true, depthTest: false });

    /** Reads the page's colours as they are now for an element. */
    read(element: Element): void {
        const style = getComputedStyle(element);
        const give = (name: string, ...materials: { color: Color }[]): void => {
            const words = style.getPropertyValue(name).trim();
            if (words) for (const material of materials) material.color = new Color(words);
        };
        give('--wood', this.roles[0]);
        give('--wood-end', this.roles[1], this.cutWood);
        give('--wood-cut', this.roles[2]);
        give('--metal', this.roles[3], this.cutMetal);
        give('--pencil', this.pencil);
        give('--hatch', this.hatch);
        give('--knife', this.cutLine);
        give('--short', this.short, this.shortInside);
        give('--accent', this.chosen, this.mark);
    }

    /** One square of hatching for so many mm. */
    hatchEach(mm: number): void {
        this.hatch.map?.repeat.set(1 / mm, 1 / mm);
    }

    /** What a section takes off is not drawn; the cut wood itself always is. */
    clip(planes: Plane[]): void {
        for (const one of [...this.roles, this.pencil, this.short, this.shortInside, this.chosen]) one.clippingPlanes = planes;
    }

    close(): void {
        const all: Material[] = [...this.roles, this.pencil, this.short, this.shortInside, this.cutWood, this.cutMetal,
            this.hatch, this.cutLine, this.chosen, this.mark];
        for (const one of all) one.dispose();
        this.hatch.map?.dispose();
        this.mark.map?.dispose();
    }
}
