// SPDX-License-Identifier: GPL-3.0-or-later
/* solid_eye: where the bodies are looked at from. A parallel view, z upright: `round` turns the eye about the upright axis, from
 * the front towards the left; `up` lifts it above the floor; degrees. The corner view is isometric (ISO 5456-3), as in the
 * papers' pictures. */
import { type Box3, type DirectionalLight, Matrix4, type OrthographicCamera, Vector3 } from 'three';

export type Look = 'corner' | 'front' | 'right' | 'back' | 'above';
const looks: Record<Look, [number, number]> = {
    corner: [45, 35.2644], front: [0, 0], right: [-90, 0], back: [180, 0], above: [0, 90],
};
const TURN_DEG_PER_PX = 0.4, LOOK_MS = 220, ZOOM_LEAST = 0.2, ZOOM_MOST = 60;
const FIT_ROOM = 1.06;   // room around the whole
// a face that is looked at stands a little aside, so that it is seen to be a body
const FACE_ASIDE_DEG = 22, FACE_ABOVE_DEG = 18;

function radians(degrees: number): number {
    return degrees * Math.PI / 180;
}

export class Eye {
    private round = looks.corner[0];
    private up = looks.corner[1];
    private zoom = 1;
    private readonly middle = new Vector3();
    private halfHigh = 1;      // mm from the middle to the upper border, at zoom 1
    private moving: ((now: number) => boolean) | null = null;
    /** The reader has not moved nearer or aside since the whole was fitted in. */
    fitted = true;

    /** Unit vectors: to the right and up as it is seen, and toward the eye. */
    axes(): { right: Vector3; up: Vector3; toward: Vector3 } {
        const round = radians(this.round), up = radians(this.up);
        const right = new Vector3(Math.cos(round), -Math.sin(round), 0);
        const toward = new Vector3(-Math.sin(round) * Math.cos(up), -Math.cos(round) * Math.cos(up), Math.sin(up));
        return { right, up: new Vector3().crossVectors(toward, right), toward };
    }

    /** The box as large as there is room, in the middle. aspect: width to height of the picture. */
    fit(box: Box3, aspect: number): void {
        if (box.isEmpty()) return;
        const { right, up } = this.axes(), half = box.getSize(new Vector3()).multiplyScalar(0.5);
        const reach = (axis: Vector3): number => new Vector3(Math.abs(axis.x), Math.abs(axis.y), Math.abs(axis.z)).dot(half);
        box.getCenter(this.middle);
        this.halfHigh = FIT_ROOM * Math.max(reach(up), reach(right) / aspect, 1);
    }

    /** The next fit() counts from the beginning. */
    refit(): void {
        this.zoom = 1;
        this.fitted = true;
    }

    /** Goes to another look, in a moment or, smoothly, in some steps: step() makes them. */
    lookFrom(look: Look, smoothly: boolean): void {
        this.refit();
        this.moveTo(looks[look][0], looks[look][1], smoothly);
    }

    /** Until something that looks out this way looks at the reader. */
    lookAt(out: Vector3, smoothly: boolean): void {
        const up = Math.asin(Math.max(-1, Math.min(1, out.z))) * 180 / Math.PI, level = Math.hypot(out.x, out.y) < 1e-6;
        const round = level ? this.round : Math.atan2(-out.x, -out.y) * 180 / Math.PI + FACE_ASIDE_DEG;
        this.moveTo(round, up > 90 - 2 * FACE_ABOVE_DEG ? up - FACE_ABOVE_DEG : up + FACE_ABOVE_DEG, smoothly);
    }

    private moveTo(round: number, up: number, smoothly: boolean): void {
        const from = { round: this.round, up: this.up }, start = performance.now();
        const turn = ((round - from.round) % 360 + 540) % 360 - 180;   // the shorter way
        this.moving = (now) => {
            const share = smoothly ? Math.max(0, Math.min(1, (now - start) / LOOK_MS)) : 1,
                eased = share * share * (3 - 2 * share);
            this.round = from.round + eased * turn;
            this.up = from.up + eased * (up - from.up);
            return share < 1;
        };
    }

    /** One step of a movement; returns whether it has moved, and more is to come. */
    step(now: number): { moved: boolean; more: boolean } {
        if (!this.moving) return { moved: false, more: false };
        const more = this.moving(now);
        if (!more) this.moving = null;
        return { moved: true, more };
    }

    turnBy(dx: number, dy: number): void {
        this.moving = null;
        this.round += dx * TURN_DEG_PER_PX;
        this.up = Math.max(-90, Math.min(90, this.up + dy * TURN_DEG_PER_PX));
    }

    /** Returns the factor that was really possible. */
    zoomBy(factor: number): number {
        const before = this.zoom;
        this.fitted = false;
        this.zoom = Math.max(ZOOM_LEAST, Math.min(ZOOM_MOST, this.zoom * factor));
        return this.zoom / before;
    }

    /** What one pixel of the page shows of something square on; the picture is so many high. */
    mmOfPixel(high: number): number {
        return 2 * this.halfHigh / this.zoom / Math.max(1, high);
    }

    /** Moves the picture by pixels of the page; it is so many high. */
    shiftBy(dx: number, dy: number, high: number): void {
        this.fitted = false;
        const { right, up } = this.axes(), mm = this.mmOfPixel(high);
        this.middle.addScaledVector(right, -dx * mm).addScaledVector(up, dy * mm);
    }

    /** Sets the camera, and the lamp above the reader's left shoulder. far: no body lies farther from the middle, mm. */
    put(camera: OrthographicCamera, lamp: DirectionalLight, far: number, aspect: number): void {
        const { right, up, toward } = this.axes(), high = this.halfHigh / this.zoom, wide = high * aspect;
        Object.assign(camera, { left: -wide, right: wide, top: high, bottom: -high, near: 0.1, far: 2 * far });
        camera.updateProjectionMatrix();
        camera.position.copy(this.middle).addScaledVector(toward, far);
        camera.quaternion.setFromRotationMatrix(new Matrix4().makeBasis(right, up, toward));
        lamp.target.position.copy(this.middle);
        lamp.position.copy(this.middle).add(toward).addScaledVector(up, 0.9).addScaledVector(right, -0.5);
    }
}
