// SPDX-License-Identifier: GPL-3.0-or-later
/* solid_stage: the bodies on a canvas: where they are looked at from, what is drawn, what lies under the pointer. It knows nothing of
 * buttons and lists. Parallel view, z up; nothing is drawn unless something has changed. */
import {
    AmbientLight, Box3, BufferAttribute, BufferGeometry, CanvasTexture, Color, DirectionalLight, Group, LineBasicMaterial, LineSegments, type Material, Matrix4, Mesh,
    MeshBasicMaterial, MeshLambertMaterial, OrthographicCamera, Plane, Points, PointsMaterial, Raycaster, RepeatWrapping, Scene, Vector2, Vector3, WebGLRenderer,
} from 'three';
import { Curves } from './solid_curves.js';
import { type Kind, type Solids, type Spot, type Stood, goneBy, outOfFace } from './solid_data.js';
import type { CutWood, Sections } from './solid_section.js';

export type Look = 'corner' | 'front' | 'right' | 'back' | 'above';
const looks: Record<Look, [number, number]> = { corner: [45, 35.2644], front: [0, 0], right: [-90, 0], back: [180, 0], above: [0, 90] };   // degrees: round, up

const RATIO_MOST = 2;          // pixels of the screen for each of the page: more is not seen
const TURN_DEG_PER_PX = 0.4, LOOK_MS = 220, ZOOM_LEAST = 0.2, ZOOM_MOST = 60, FIT_ROOM = 1.06;
const TOUCH_MM = 0.05;         // a body that comes no farther over the plane only touches it
const HATCH_PX = 64, HATCH_PART = 90;   // of the whole's size between lines of hatching

/** A thing that stands: its group holds the body, its lines and its short grain. away: all of it lies on the side that a section takes off. */
export interface Thing { stood: Stood; kind: Kind; group: Group; body: Mesh; own: Matrix4; shown: boolean; away: boolean; cap: Group | null; outline: LineSegments | null }
/** What lies under the pointer: a side of the blank, or a wall or bottom of the cut `cut`. spot: in the piece's frame, mm. */
export interface Hit { thing: Thing; face: number; source: number; spot: Spot }
/** A plane square to an axis of the whole: what is kept lies on the side of greater coordinates, or of smaller ones. part: 0 to 1 through the whole. */
export interface SectionPlane { axis: 0 | 1 | 2; part: number; greater: boolean }

function numbersOf(geometry: BufferGeometry, positions: Float32Array): BufferGeometry {
    geometry.setAttribute('position', new BufferAttribute(positions, 3));
    return geometry;
}

const ROLES = 4;   // side grain, end grain, what tools have cut, hardware: each has its colour
function roleOf(kind: Kind, triangle: number): number {
    if (kind.bought) return 3;
    return kind.source[triangle] > 0 ? 2 : kind.face[triangle] >= 4 ? 1 : 0;
}

interface KindShapes { body: BufferGeometry; lines: BufferGeometry; short: BufferGeometry | null; order: number[]; curves: Curves }

function shapesOf(kind: Kind): KindShapes {
    const count = kind.triangles.length / 3, order = Array.from({ length: count }, (_, t) => t).sort((a, b) => roleOf(kind, a) - roleOf(kind, b) || a - b);
    const positions = new Float32Array(count * 9), body = new BufferGeometry();
    order.forEach((triangle, i) => {
        for (let k = 0; k < 3; k += 1) positions.set(kind.points.subarray(3 * kind.triangles[3 * triangle + k], 3 * kind.triangles[3 * triangle + k] + 3), 9 * i + 3 * k);
    });
    numbersOf(body, positions).computeVertexNormals();
    for (let role = 0, from = 0; role < ROLES; role += 1) {
        const many = order.filter((triangle) => roleOf(kind, triangle) === role).length;
        if (many > 0) body.addGroup(3 * from, 3 * many, role);
        from += many;
    }
    const lines = new Float32Array(kind.edges.length * 3);
    kind.edges.forEach((point, i) => lines.set(kind.points.subarray(3 * point, 3 * point + 3), 3 * i));
    return { body, lines: numbersOf(new BufferGeometry(), lines), short: shortShape(kind), order, curves: new Curves(kind) };
}

/** All boxes of short grain of a kind as one shape; sides that two boxes share stay out of sight inside. */
function shortShape(kind: Kind): BufferGeometry | null {
    const numbers: number[] = [];
    const quads = [[0, 2, 3, 1], [4, 5, 7, 6], [0, 1, 5, 4], [2, 6, 7, 3], [0, 4, 6, 2], [1, 3, 7, 5]];   // corner bits: x 4, y 2, z 1; seen from outside
    for (const { boxes } of kind.short) {
        for (let i = 0; i < boxes.length; i += 6) {
            const corner = (c: number): Spot => [boxes[i + (c & 4 ? 3 : 0)], boxes[i + (c & 2 ? 4 : 1)], boxes[i + (c & 1 ? 5 : 2)]];
            for (const [a, b, c, d] of quads) numbers.push(...corner(a), ...corner(c), ...corner(b), ...corner(a), ...corner(d), ...corner(c));
        }
    }
    return numbers.length > 0 ? numbersOf(new BufferGeometry(), new Float32Array(numbers)) : null;
}

/** A square of slanting lines that repeats; drawn in white, coloured by its material. */
function hatchTexture(): CanvasTexture {
    const canvas = document.createElement('canvas');
    canvas.width = canvas.height = HATCH_PX;
    const pen = canvas.getContext('2d');
    if (pen) {
        pen.strokeStyle = '#fff';
        pen.lineWidth = HATCH_PX / 10;
        for (const shift of [-HATCH_PX, 0, HATCH_PX]) {
            pen.moveTo(shift - 4, HATCH_PX + 4);
            pen.lineTo(shift + HATCH_PX + 4, -4);
        }
        pen.stroke();
    }
    const texture = new CanvasTexture(canvas);
    texture.wrapS = texture.wrapT = RepeatWrapping;
    return texture;
}

function ringTexture(): CanvasTexture {
    const canvas = document.createElement('canvas');
    canvas.width = canvas.height = 64;
    const pen = canvas.getContext('2d');
    if (pen) {
        pen.strokeStyle = '#fff';
        pen.lineWidth = 10;
        pen.arc(32, 32, 24, 0, 2 * Math.PI);
        pen.stroke();
        pen.fillStyle = '#fff';
        pen.fillRect(28, 28, 8, 8);
    }
    return new CanvasTexture(canvas);
}

export class Stage {
    readonly canvas: HTMLCanvasElement;
    things: Thing[] = [];
    private readonly renderer: WebGLRenderer;
    private readonly scene = new Scene();
    private readonly camera = new OrthographicCamera(-1, 1, 1, -1, 0.1, 10);
    private readonly lamp = new DirectionalLight(0xffffff, 1.3);
    private readonly shapes = new Map<Kind, KindShapes>();
    private readonly woods = Array.from({ length: ROLES }, () => new MeshLambertMaterial({ polygonOffset: true, polygonOffsetFactor: 2, polygonOffsetUnits: 8 }));
    private readonly pencil = new LineBasicMaterial();
    private readonly shortWood = new MeshBasicMaterial({ polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 4 });
    private readonly shortInside = new MeshBasicMaterial({ transparent: true, opacity: 0.3, depthTest: false });
    private readonly capGround = new MeshBasicMaterial({ polygonOffset: true, polygonOffsetFactor: 2, polygonOffsetUnits: 8 });
    private readonly capMetal = new MeshBasicMaterial({ polygonOffset: true, polygonOffsetFactor: 2, polygonOffsetUnits: 8 });
    private readonly capHatch = new MeshBasicMaterial({ map: hatchTexture(), transparent: true });
    private readonly capLine = new LineBasicMaterial();
    private readonly chosen = new MeshBasicMaterial({ transparent: true, opacity: 0.5, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 4 });
    private readonly mark = new PointsMaterial({ size: 18, sizeAttenuation: false, map: ringTexture(), transparent: true, depthTest: false });
    private readonly overlay: Material[] = [this.shortInside, this.mark];
    private round = looks.corner[0];
    private up = looks.corner[1];
    private zoom = 1;
    private wanted = 0;      // the frame that is asked for, 0: none
    private fitted = true;   // the reader has not moved nearer or aside since the whole was fitted
    private middle = new Vector3();
    private halfHigh = 1;
    private steps = 0;
    private plane: SectionPlane | null = null;
    private readonly clip = new Plane();
    private pitch = 1;       // mm between lines of hatching
    private sections: Sections | null = null;
    private shortShown = true;
    private highlighted: Mesh[] = [];
    private marked: { thing: Thing; points: Points } | null = null;
    private closed = false;
    open: string[] = [];     // names of kinds whose cut wood cannot be told

    /** Throws when the browser has no WebGL. */
    constructor() {
        this.renderer = new WebGLRenderer({ antialias: true, alpha: true });
        this.canvas = this.renderer.domElement;
        this.renderer.localClippingEnabled = true;
        this.scene.matrixWorldAutoUpdate = true;
        this.scene.add(new AmbientLight(0xffffff, 2.1), this.lamp, this.lamp.target);
        this.canvas.addEventListener('webglcontextrestored', () => this.ask());
    }

    /* ---- colours ---- */

    /** Reads the page's colours as they are now. */
    colours(): void {
        const style = getComputedStyle(this.canvas), read = (name: string, fallback: string): Color => new Color(style.getPropertyValue(name).trim() || fallback);
        this.woods[0].color = read('--wood', '#ead7ae');
        this.woods[1].color = read('--wood-end', '#d2b384');
        this.woods[2].color = read('--wood-cut', '#f3e7cb');
        for (const material of [this.woods[3], this.capMetal]) material.color = read('--metal', '#a9adb0');
        this.pencil.color = read('--pencil', '#2f2a22');
        this.capGround.color = read('--wood-end', '#d2b384');
        this.capHatch.color = read('--hatch', '#7a6f5e');
        this.capLine.color = read('--knife', '#1c1813');
        for (const material of [this.shortWood, this.shortInside]) material.color = read('--short', '#b4462a');
        for (const material of [this.chosen, this.mark]) material.color = read('--accent', '#9c3a1f');
        this.ask();
    }

    /* ---- what stands there ---- */

    /** Shows other bodies; what is hidden stays so, by its name. */
    show(solids: Solids, hidden: (stood: Stood) => boolean): void {
        this.clear();
        this.things = solids.stood.map((stood) => this.thingOf(stood, solids.kinds[stood.kind], !hidden(stood)));
        this.place();
        if (this.fitted) this.fit();
        this.cutAll();
    }

    private thingOf(stood: Stood, kind: Kind, shown: boolean): Thing {
        let shapes = this.shapes.get(kind);
        if (!shapes) this.shapes.set(kind, shapes = shapesOf(kind));
        const group = new Group(), body = new Mesh(shapes.body, this.woods), m = stood.matrix;
        group.add(body, new LineSegments(shapes.lines, this.pencil));
        if (shapes.short) {
            const inside = new Mesh(shapes.short, this.shortInside), outside = new Mesh(shapes.short, this.shortWood);
            inside.name = outside.name = 'short';
            inside.renderOrder = 2;
            inside.visible = outside.visible = this.shortShown;
            group.add(outside, inside);
        }
        const outline = shapes.curves.room > 0 ? new LineSegments(numbersOf(new BufferGeometry(), new Float32Array(shapes.curves.room)), this.pencil) : null;
        if (outline) {
            outline.frustumCulled = false;
            group.add(outline);
        }
        group.matrixAutoUpdate = false;
        group.visible = shown;
        this.scene.add(group);
        const own = new Matrix4().set(m[0], m[3], m[6], m[9], m[1], m[4], m[7], m[10], m[2], m[5], m[8], m[11], 0, 0, 0, 1);
        return { stood, kind, group, body, own, shown, away: false, cap: null, outline };
    }

    private clear(): void {
        this.highlight([]);
        this.markSpot(null);
        for (const thing of this.things) {
            this.dropCap(thing);
            thing.outline?.geometry.dispose();
            this.scene.remove(thing.group);
        }
        for (const { body, lines, short } of this.shapes.values()) for (const shape of [body, lines, short]) shape?.dispose();
        this.shapes.clear();
        this.sections?.forget();
        this.things = [];
    }

    /** Every thing where it is when so many steps of taking apart are done. */
    private place(): void {
        for (const thing of this.things) {
            const gone = goneBy(thing.stood, this.steps);
            thing.group.matrix.copy(thing.own).premultiply(new Matrix4().makeTranslation(gone[0], gone[1], gone[2]));
            thing.group.updateMatrixWorld(true);
        }
    }

    takeApart(steps: number): void {
        this.steps = steps;
        this.place();
        if (this.fitted) this.fit();
        this.cutAll();
    }

    setShown(thing: Thing, shown: boolean): void {
        thing.shown = shown;
        thing.group.visible = shown && !thing.away;
        this.ask();
    }

    showShort(shown: boolean): void {
        this.shortShown = shown;
        for (const thing of this.things) for (const child of thing.group.children) if (child.name === 'short') child.visible = shown;
        this.ask();
    }

    /* ---- section ---- */

    /** Null: none. `sections` is given once it is loaded; until then the bodies are cut open without the wood that is cut. */
    section(plane: SectionPlane | null, sections: Sections | null): void {
        this.plane = plane;
        this.sections = sections;
        this.cutAll();
    }

    private cutAll(): void {
        const plane = this.plane, clips = plane ? [this.clip] : [];
        for (const thing of this.things) this.dropCap(thing);
        if (plane) {
            const box = this.box();
            this.pitch = box.getSize(new Vector3()).length() / HATCH_PART;
            const from = box.min.getComponent(plane.axis), to = box.max.getComponent(plane.axis), at = from + plane.part * (to - from);
            this.clip.normal.set(0, 0, 0).setComponent(plane.axis, plane.greater ? 1 : -1);
            this.clip.constant = plane.greater ? -at : at;
            this.open = [];
        }
        for (const thing of this.things) this.cutThing(thing);
        if (plane) this.clip.constant += TOUCH_MM / 2;   // sides that lie in the plane are seen
        for (const material of [...this.woods, this.pencil, this.shortWood, this.shortInside, this.chosen]) material.clippingPlanes = clips;
        this.ask();
    }

    private dropCap(thing: Thing): void {
        if (!thing.cap) return;
        for (const child of thing.cap.children) (child as Mesh).geometry.dispose();
        thing.group.remove(thing.cap);
        thing.cap = null;
    }

    /** A body on one side of the plane is there or not; one that it passes through gets its cut wood. */
    private cutThing(thing: Thing): void {
        const local = this.clip.clone().applyMatrix4(thing.group.matrix.clone().invert()), { normal } = local, { size } = thing.kind;
        const low = [0, 1, 2].reduce((sum, k) => sum + Math.min(0, normal.getComponent(k) * size[k]), local.constant);
        const high = [0, 1, 2].reduce((sum, k) => sum + Math.max(0, normal.getComponent(k) * size[k]), local.constant);
        thing.away = this.plane !== null && high <= TOUCH_MM;
        thing.group.visible = thing.shown && !thing.away;
        if (!this.plane || !this.sections || low >= -TOUCH_MM || thing.away || thing.kind.triangles.length === 0) return;
        const wood = this.sections.cut(thing.kind, [normal.x, normal.y, normal.z], -local.constant);
        if (wood) this.putCap(thing, wood);
        else if (!this.open.includes(thing.kind.name)) this.open.push(thing.kind.name);
    }

    private putCap(thing: Thing, wood: CutWood): void {
        const ground = numbersOf(new BufferGeometry(), wood.triangles), outline = numbersOf(new BufferGeometry(), wood.outline);
        ground.setAttribute('uv', new BufferAttribute(this.hatchPlaces(thing, wood.triangles), 2));
        const hatch = new Mesh(ground, this.capHatch);
        hatch.renderOrder = 1;
        thing.cap = new Group();
        thing.cap.add(new Mesh(ground, thing.kind.bought ? this.capMetal : this.capGround), hatch, new LineSegments(outline, this.capLine));
        thing.group.add(thing.cap);
        thing.group.updateMatrixWorld(true);
    }

    /** Hatching runs on over all bodies, but leans the other way in every second, so that neighbours are told apart. */
    private hatchPlaces(thing: Thing, triangles: Float32Array): Float32Array {
        const places = new Float32Array(triangles.length / 3 * 2), spot = new Vector3(), axis = this.plane?.axis ?? 0;
        const turn = this.things.indexOf(thing) % 2 ? -1 : 1;
        for (let i = 0; i < triangles.length; i += 3) {
            spot.fromArray(triangles, i).applyMatrix4(thing.group.matrix);
            places[i / 3 * 2] = turn * spot.getComponent((axis + 1) % 3) / this.pitch;
            places[i / 3 * 2 + 1] = spot.getComponent((axis + 2) % 3) / this.pitch;
        }
        return places;
    }

    /* ---- choosing ---- */

    /** Shades all of these things, or of one of them only what a face and source say. */
    highlight(things: Thing[], face = -1, source = 0): void {
        for (const mesh of this.highlighted) {
            mesh.removeFromParent();
            mesh.geometry.dispose();
        }
        this.highlighted = things.map((thing) => {
            const mesh = new Mesh(face < 0 ? thing.body.geometry.clone() : this.faceShape(thing.kind, face, source), this.chosen);
            mesh.geometry.clearGroups();
            thing.group.add(mesh);
            return mesh;
        });
        for (const thing of things) thing.group.updateMatrixWorld(true);
        this.ask();
    }

    private faceShape(kind: Kind, face: number, source: number): BufferGeometry {
        const numbers: number[] = [];
        for (let t = 0; t < kind.face.length; t += 1) {
            if (kind.face[t] !== face || kind.source[t] !== source) continue;
            for (let k = 0; k < 3; k += 1) numbers.push(...kind.points.subarray(3 * kind.triangles[3 * t + k], 3 * kind.triangles[3 * t + k] + 3));
        }
        return numbersOf(new BufferGeometry(), new Float32Array(numbers));
    }

    /** A ring round a place of a thing, in its own frame. */
    markSpot(at: { thing: Thing; spot: Spot } | null): void {
        this.marked?.points.removeFromParent();
        this.marked?.points.geometry.dispose();
        this.marked = null;
        if (at) {
            const points = new Points(numbersOf(new BufferGeometry(), new Float32Array(at.spot)), this.mark);
            points.renderOrder = 3;
            at.thing.group.add(points);
            at.thing.group.updateMatrixWorld(true);
            this.marked = { thing: at.thing, points };
        }
        this.ask();
    }

    /** What lies under a place of the canvas, in pixels of the page from its upper left corner. Null: nothing, or wood that a section has cut. */
    under(x: number, y: number): Hit | null {
        const { width, height } = this.canvas.getBoundingClientRect(), ray = new Raycaster();
        ray.setFromCamera(new Vector2(2 * x / width - 1, 1 - 2 * y / height), this.camera);
        const bodies = this.things.filter((thing) => thing.group.visible).flatMap((thing) => [thing.body, ...(thing.cap ? [thing.cap.children[0]] : [])]);
        for (const hit of ray.intersectObjects(bodies, false)) {
            const thing = this.things.find((one) => one.body === hit.object);
            if (!thing) return null;
            if (this.plane && this.clip.distanceToPoint(hit.point) < 0) continue;
            const triangle = this.shapes.get(thing.kind)?.order[hit.faceIndex ?? 0] ?? 0, own = thing.group.worldToLocal(hit.point.clone());
            return { thing, face: thing.kind.face[triangle], source: thing.kind.source[triangle], spot: [own.x, own.y, own.z] };
        }
        return null;
    }

    /* ---- looking ---- */

    /** Turns until a face of a thing looks at the reader, a little from the side. */
    lookAt(thing: Thing, face: number): void {
        const out = new Vector3(...outOfFace(face)).transformDirection(thing.group.matrix);
        const up = Math.asin(Math.max(-1, Math.min(1, out.z))) * 180 / Math.PI, round = Math.hypot(out.x, out.y) < 1e-6 ? this.round : Math.atan2(-out.x, -out.y) * 180 / Math.PI;
        this.moveTo(round + 22, Math.max(-75, Math.min(75, up + (up > 50 ? -18 : 18))), true);
    }

    look(look: Look, smoothly: boolean): void {
        this.zoom = 1;
        this.fitted = true;
        this.moveTo(looks[look][0], looks[look][1], smoothly);
    }

    /** The whole in the middle again, from where it is looked at. */
    whole(): void {
        this.zoom = 1;
        this.fitted = true;
        this.fit();
    }

    private moveTo(round: number, up: number, smoothly: boolean): void {
        const from = [this.round, this.up], turn = ((round - from[0]) % 360 + 540) % 360 - 180, start = performance.now();
        const still = window.matchMedia('(prefers-reduced-motion: reduce)').matches;
        this.moving = (now: number): boolean => {
            const share = smoothly && !still ? Math.min(1, (now - start) / LOOK_MS) : 1, eased = share * share * (3 - 2 * share);
            this.round = from[0] + eased * turn;
            this.up = from[1] + eased * (up - from[1]);
            if (this.fitted) this.fit();
            return share < 1;
        };
        this.ask();
    }
    private moving: ((now: number) => boolean) | null = null;

    turnBy(dx: number, dy: number): void {
        this.moving = null;
        this.round += dx * TURN_DEG_PER_PX;
        this.up = Math.max(-90, Math.min(90, this.up + dy * TURN_DEG_PER_PX));
        this.ask();
    }

    zoomBy(factor: number): void {
        this.fitted = false;
        this.zoom = Math.max(ZOOM_LEAST, Math.min(ZOOM_MOST, this.zoom * factor));
        this.ask();
    }

    /** Moves the picture by pixels of the page. */
    shiftBy(dx: number, dy: number): void {
        this.fitted = false;
        const { right, up } = this.axes(), mm = 2 * this.halfHigh / this.zoom / Math.max(1, this.canvas.clientHeight);
        this.middle.addScaledVector(right, -dx * mm).addScaledVector(up, dy * mm);
        this.ask();
    }

    private axes(): { right: Vector3; up: Vector3; toward: Vector3 } {
        const round = this.round * Math.PI / 180, up = this.up * Math.PI / 180;
        const toward = new Vector3(-Math.sin(round) * Math.cos(up), -Math.cos(round) * Math.cos(up), Math.sin(up)), right = new Vector3(Math.cos(round), -Math.sin(round), 0);
        return { right, up: new Vector3().crossVectors(toward, right), toward };
    }

    /** Around all things where they are, shown or not, so that nothing jumps when one is hidden. */
    private box(): Box3 {
        const box = new Box3(), corner = new Vector3();
        for (const { group, kind } of this.things)
            for (let c = 0; c < 8; c += 1) box.expandByPoint(corner.set(c & 1 ? kind.size[0] : 0, c & 2 ? kind.size[1] : 0, c & 4 ? kind.size[2] : 0).applyMatrix4(group.matrix));
        return box;
    }

    private fit(): void {
        const box = this.box();
        if (box.isEmpty()) return;
        const { right, up } = this.axes(), half = box.getSize(new Vector3()).multiplyScalar(0.5);
        const reach = (axis: Vector3): number => Math.abs(axis.x) * half.x + Math.abs(axis.y) * half.y + Math.abs(axis.z) * half.z;
        box.getCenter(this.middle);
        this.halfHigh = FIT_ROOM * Math.max(reach(up), reach(right) / this.aspect(), 1);
        this.ask();
    }

    private aspect(): number {
        return Math.max(1, this.canvas.clientWidth) / Math.max(1, this.canvas.clientHeight);
    }

    /** The canvas has another size. */
    resize(width: number, height: number): void {
        this.renderer.setPixelRatio(Math.min(RATIO_MOST, window.devicePixelRatio || 1));
        this.renderer.setSize(width, height, false);
        if (this.fitted) this.fit();
        this.ask();
    }

    /* ---- drawing ---- */

    private ask(): void {
        if (this.wanted || this.closed) return;
        this.wanted = requestAnimationFrame((now) => {
            this.wanted = 0;
            if (this.moving && !this.moving(now)) this.moving = null;
            this.draw();
            if (this.moving) this.ask();
        });
    }

    /** The outer lines of curved walls, as they are seen from here. */
    private outlineCurves(toward: Vector3): void {
        for (const { kind, group, outline } of this.things) {
            const curves = this.shapes.get(kind)?.curves;
            if (!curves || !outline) continue;
            const own = toward.clone().transformDirection(group.matrix.clone().invert()), place = outline.geometry.attributes.position as BufferAttribute;
            outline.geometry.setDrawRange(0, curves.outlines([own.x, own.y, own.z], place.array as Float32Array) / 3);
            place.needsUpdate = true;
        }
    }

    private draw(): void {
        const { right, up, toward } = this.axes(), far = this.box().getSize(new Vector3()).length() * 2 + 10, high = this.halfHigh / this.zoom, wide = high * this.aspect();
        Object.assign(this.camera, { left: -wide, right: wide, top: high, bottom: -high, near: 0.1, far: 2 * far });
        this.camera.updateProjectionMatrix();
        this.camera.position.copy(this.middle).addScaledVector(toward, far);
        this.camera.quaternion.setFromRotationMatrix(new Matrix4().makeBasis(right, up, toward));
        this.lamp.target.position.copy(this.middle);
        this.lamp.position.copy(this.middle).addScaledVector(toward, 1).addScaledVector(up, 0.9).addScaledVector(right, -0.5);
        this.outlineCurves(toward);
        this.renderer.render(this.scene, this.camera);
    }

    /** Gives all memory of the graphics back. */
    close(): void {
        this.closed = true;
        cancelAnimationFrame(this.wanted);
        this.clear();
        for (const material of [...this.woods, this.pencil, this.shortWood, this.capGround, this.capMetal, this.capHatch, this.capLine, this.chosen, ...this.overlay]) material.dispose();
        this.capHatch.map?.dispose();
        this.mark.map?.dispose();
        this.renderer.dispose();
        this.renderer.forceContextLoss();
    }
}
