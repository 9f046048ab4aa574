// SPDX-License-Identifier: GPL-3.0-or-later
/* solid_stage: the bodies on a canvas: what stands where, what a plane has cut, what lies under the pointer. It knows nothing of
 * buttons and lists. Nothing is drawn unless something has changed. */
import {
    AmbientLight, Box3, BufferAttribute, DirectionalLight, Group, LineSegments, Matrix4, Mesh, OrthographicCamera, Plane, Points,
    Raycaster, Scene, Vector2, Vector3, WebGLRenderer,
} from 'three';
import { type Kind, type Solids, type Spot, type Stood, goneBy, outOfFace } from './solid_data.js';
import { Eye, type Look } from './solid_eye.js';
import { Paint } from './solid_paint.js';
import type { CutWood, Sections } from './solid_section.js';
import { type Shapes, shapeOf, shapesOf, sideOf, skinOf } from './solid_shapes.js';

const RATIO_MOST = 2;      // pixels of the screen for each of the page: more is not seen
const TOUCH_MM = 0.05;     // a body that comes no farther over a plane only touches it
const HATCH_PX = 16;       // of the page for one square of hatching, near or far

/** A thing that stands: its group holds its skin, lines, short grain and, where a section passes, the cut wood. away: all of it
 *  lies on the side that the section takes off. */
export interface Thing {
    stood: Stood; kind: Kind; group: Group; skin: Mesh; home: Matrix4; shown: boolean; away: boolean; cut: Group | null;
    outline: LineSegments | null;
}
/** What lies under the pointer: a side of the blank (source 0), or a wall or bottom of the cut cuts[source - 1]. spot: in the
 *  piece's frame, mm. */
export interface Hit { thing: Thing; face: number; source: number; spot: Spot }
/** A plane square to an axis of the whole, `part` of the way through it, 0 to 1. greater: what has greater coordinates is
 *  kept. */
export interface SectionPlane { axis: 0 | 1 | 2; part: number; greater: boolean }

export class Stage {
    readonly canvas: HTMLCanvasElement;
    things: Thing[] = [];
    /** Names of kinds whose cut wood cannot be told. */
    open: string[] = [];
    private readonly renderer: WebGLRenderer;
    private readonly scene = new Scene();
    private readonly camera = new OrthographicCamera();
    private readonly lamp = new DirectionalLight(0xffffff, 1.3);
    private readonly paint = new Paint();
    private readonly eye = new Eye();
    private readonly shapes = new Map<Kind, Shapes>();
    private wanted = 0;        // the frame that is asked for, 0: none
    private plane: SectionPlane | null = null;
    private readonly clip = new Plane();
    private sections: Sections | null = null;
    private shortShown = true;
    private shaded: Mesh | null = null;
    private mark: Points | null = null;
    private closed = false;

    /** Throws when the browser has no WebGL. */
    constructor() {
        this.renderer = new WebGLRenderer({ antialias: true, alpha: true });
        this.renderer.localClippingEnabled = true;
        this.canvas = this.renderer.domElement;
        this.canvas.addEventListener('webglcontextrestored', () => this.ask());
        this.scene.add(new AmbientLight(0xffffff, 2.1), this.lamp, this.lamp.target);
    }

    /** Takes the page's colours as they are now. */
    colours(): void {
        this.paint.read(this.canvas);
        this.ask();
    }

    /* ---- what stands there ---- */

    /** Shows other bodies in the place of those that stood there, with so many steps of taking apart done. */
    show(solids: Solids, hidden: (stood: Stood) => boolean, steps: number): void {
        this.clear();
        this.things = solids.stood.map((stood) => this.thingOf(stood, solids.kinds[stood.kind], !hidden(stood)));
        this.takeApart(steps);
    }

    private thingOf(stood: Stood, kind: Kind, shown: boolean): Thing {
        const shapes = this.shapes.get(kind) ?? shapesOf(kind), group = new Group(), m = stood.matrix;
        this.shapes.set(kind, shapes);
        const skin = new Mesh(shapes.skin, this.paint.roles), room = shapes.curves.room;
        const outline = room > 0 ? new LineSegments(shapeOf(new Float32Array(room)), this.paint.pencil) : null;
        group.add(skin, new LineSegments(shapes.lines, this.paint.pencil), ...this.shortOf(shapes));
        if (outline) {
            outline.frustumCulled = false;   // its places change
            group.add(outline);
        }
        group.matrixAutoUpdate = false;
        this.scene.add(group);
        const home = new Matrix4().set(m[0], m[3], m[6], m[9], m[1], m[4], m[7], m[10], m[2], m[5], m[8], m[11], 0, 0, 0, 1);
        return { stood, kind, group, skin, home, shown, away: false, cut: null, outline };
    }

    /** On the wood, and faintly through it. */
    private shortOf({ short }: Shapes): Mesh[] {
        if (!short) return [];
        const both = [new Mesh(short, this.paint.short), new Mesh(short, this.paint.shortInside)];
        both[1].renderOrder = 2;
        for (const one of both) {
            one.name = 'short';
            one.visible = this.shortShown;
        }
        return both;
    }

    private clear(): void {
        this.shade(null);
        this.markSpot(null);
        for (const thing of this.things) {
            this.dropCut(thing);
            thing.outline?.geometry.dispose();
            this.scene.remove(thing.group);
        }
        for (const { skin, lines, short } of this.shapes.values()) for (const one of [skin, lines, short]) one?.dispose();
        this.shapes.clear();
        this.sections?.forget();
        this.things = [];
    }

    /** Every thing where it is when so many steps of taking apart are done, the last of them in part. */
    takeApart(steps: number): void {
        for (const { stood, group, home } of this.things) {
            group.matrix.copy(home).premultiply(new Matrix4().makeTranslation(...goneBy(stood, steps)));
            group.updateMatrixWorld(true);
        }
        this.fit();
        this.cutAll();
    }

    setShown(thing: Thing, shown: boolean): void {
        thing.shown = shown;
        thing.group.visible = shown && !thing.away;
        this.ask();
    }

    showShort(shown: boolean): void {
        this.shortShown = shown;
        for (const { group } of this.things) for (const one of group.children) if (one.name === 'short') one.visible = shown;
        this.ask();
    }

    /** Around all things where they are, shown or not, so that nothing jumps when one is hidden. */
    private box(): Box3 {
        const box = new Box3(), corner = new Vector3();
        for (const { group, kind: { size } } of this.things)
            for (let c = 0; c < 8; c += 1)
                box.expandByPoint(corner.fromArray(size.map((n, k) => (c >> k & 1 ? n : 0))).applyMatrix4(group.matrix));
        return box;
    }

    /* ---- section ---- */

    /** Null: none. Until `sections` is there the bodies are cut open without the wood that is cut. */
    section(plane: SectionPlane | null, sections: Sections | null): void {
        this.plane = plane;
        this.sections = sections;
        this.cutAll();
    }

    private cutAll(): void {
        this.open = [];
        if (this.plane) this.setPlane(this.plane);
        for (const thing of this.things) {
            this.dropCut(thing);
            this.cutThing(thing);
        }
        this.clip.constant += TOUCH_MM / 2;   // sides that lie in the plane are seen
        this.paint.clip(this.plane ? [this.clip] : []);
        this.ask();
    }

    private setPlane({ axis, part, greater }: SectionPlane): void {
        const { min, max } = this.box(), at = min.getComponent(axis) + part * (max.getComponent(axis) - min.getComponent(axis));
        this.clip.normal.set(0, 0, 0).setComponent(axis, greater ? 1 : -1);
        this.clip.constant = greater ? -at : at;
    }

    private dropCut(thing: Thing): void {
        for (const one of thing.cut?.children ?? []) (one as Mesh).geometry.dispose();
        thing.cut?.removeFromParent();
        thing.cut = null;
    }

    /** A body on one side of the plane is there or not; one that it passes through gets its cut wood. */
    private cutThing(thing: Thing): void {
        const { kind, group } = thing, { normal, constant } = this.clip.clone().applyMatrix4(group.matrix.clone().invert());
        const reach = (side: (a: number, b: number) => number): number =>
            [0, 1, 2].reduce((sum, k) => sum + side(0, normal.getComponent(k) * kind.size[k]), constant);
        thing.away = this.plane !== null && reach(Math.max) <= TOUCH_MM;
        group.visible = thing.shown && !thing.away;
        if (!this.plane || !this.sections || thing.away || reach(Math.min) >= -TOUCH_MM || kind.triangles.length === 0) return;
        const wood = this.sections.cut(kind, [normal.x, normal.y, normal.z], -constant);
        if (wood) this.putCut(thing, wood, this.plane.axis);
        else if (!this.open.includes(kind.name)) this.open.push(kind.name);
    }

    private putCut(thing: Thing, wood: CutWood, axis: number): void {
        const ground = shapeOf(wood.triangles);
        ground.setAttribute('uv', new BufferAttribute(this.hatchPlaces(thing, wood.triangles, axis), 2));
        const hatch = new Mesh(ground, this.paint.hatch);
        hatch.renderOrder = 1;
        thing.cut = new Group().add(new Mesh(ground, thing.kind.bought ? this.paint.cutMetal : this.paint.cutWood), hatch,
            new LineSegments(shapeOf(wood.outline), this.paint.cutLine));
        thing.group.add(thing.cut);
        thing.group.updateMatrixWorld(true);
    }

    /** mm along the two axes of the plane. Of kinds that stand next to each other in the job the hatching leans to other sides, or
     *  is closer, so that neighbours are told apart. */
    private hatchPlaces({ stood, group }: Thing, triangles: Float32Array, axis: number): Float32Array {
        const places = new Float32Array(triangles.length / 3 * 2), spot = new Vector3();
        const close = stood.kind & 2 ? 1.6 : 1, lean = stood.kind & 1 ? -close : close;
        for (let i = 0; i < triangles.length / 3; i += 1) {
            spot.fromArray(triangles, 3 * i).applyMatrix4(group.matrix);
            places[2 * i] = lean * spot.getComponent((axis + 1) % 3);
            places[2 * i + 1] = close * spot.getComponent((axis + 2) % 3);
        }
        return places;
    }

    /* ---- choosing ---- */

    /** Shades a thing, or of it only what a face and a source say. Null: nothing. */
    shade(thing: Thing | null, side?: { face: number; source: number }): void {
        this.shaded?.removeFromParent();
        this.shaded?.geometry.dispose();
        const shape = thing && (side ? sideOf(thing.kind, side.face, side.source) : skinOf(thing.kind));
        this.shaded = shape && new Mesh(shape, this.paint.chosen);
        this.hang(thing, this.shaded);
    }

    /** A ring round a place of a thing, in its own frame. Null: none. */
    markSpot(at: { thing: Thing; spot: Spot } | null): void {
        this.mark?.removeFromParent();
        this.mark?.geometry.dispose();
        this.mark = at && new Points(shapeOf(new Float32Array(at.spot)), this.paint.mark);
        if (this.mark) this.mark.renderOrder = 3;
        this.hang(at?.thing ?? null, this.mark);
    }

    private hang(thing: Thing | null, what: Mesh | Points | null): void {
        if (thing && what) {
            thing.group.add(what);
            thing.group.updateMatrixWorld(true);
        }
        this.ask();
    }

    /** What lies under a place of the canvas, in pixels of the page from its upper left corner. Null: nothing, or wood that is
     *  cut. */
    under(x: number, y: number): Hit | null {
        const { width, height } = this.canvas.getBoundingClientRect(), ray = new Raycaster();
        ray.setFromCamera(new Vector2(2 * x / width - 1, 1 - 2 * y / height), this.camera);
        const seen = this.things.filter(({ group }) => group.visible).flatMap(({ skin, cut }) =>
            (cut ? [skin, cut.children[0]] : [skin]));
        for (const hit of ray.intersectObjects(seen, false)) {
            const thing = this.things.find(({ skin }) => skin === hit.object);
            if (!thing) return null;
            if (this.plane && this.clip.distanceToPoint(hit.point) < 0) continue;
            const triangle = this.shapes.get(thing.kind)?.order[hit.faceIndex ?? 0] ?? 0,
                spot = thing.group.worldToLocal(hit.point.clone());
            return { thing, face: thing.kind.face[triangle], source: thing.kind.source[triangle],
                spot: [spot.x, spot.y, spot.z] };
        }
        return null;
    }

    /* ---- looking ---- */

    private get smoothly(): boolean {
        return !window.matchMedia('(prefers-reduced-motion: reduce)').matches;
    }
    private get aspect(): number {
        return Math.max(1, this.canvas.clientWidth) / Math.max(1, this.canvas.clientHeight);
    }

    look(look: Look): void {
        this.eye.lookFrom(look, this.smoothly);
        this.ask();
    }
    /** Turns until a face of a thing looks at the reader. */
    lookAt(thing: Thing, face: number): void {
        this.eye.lookAt(new Vector3(...outOfFace(face)).transformDirection(thing.group.matrix), this.smoothly);
        this.ask();
    }
    /** The whole in the middle again, from where it is looked at. */
    whole(): void {
        this.eye.refit();
        this.fit();
    }
    turnBy(dx: number, dy: number): void {
        this.eye.turnBy(dx, dy);
        this.ask();
    }
    /** x, y: the place that stays where it is, in pixels of the page from the upper left corner; the middle when not given. */
    zoomBy(factor: number, x = this.canvas.clientWidth / 2, y = this.canvas.clientHeight / 2): void {
        const done = this.eye.zoomBy(factor);
        this.shiftBy((1 - done) * (x - this.canvas.clientWidth / 2), (1 - done) * (y - this.canvas.clientHeight / 2));
    }
    shiftBy(dx: number, dy: number): void {
        this.eye.shiftBy(dx, dy, this.canvas.clientHeight);
        this.ask();
    }

    private fit(): void {
        if (this.eye.fitted) this.eye.fit(this.box(), this.aspect);
        this.ask();
    }

    /** The canvas has another size, in pixels of the page. */
    resize(width: number, height: number): void {
        this.renderer.setPixelRatio(Math.min(RATIO_MOST, window.devicePixelRatio || 1));
        this.renderer.setSize(width, height, false);
        this.fit();
    }

    /* ---- drawing ---- */

    private ask(): void {
        if (this.wanted || this.closed) return;
        this.wanted = requestAnimationFrame((now) => {
            this.wanted = 0;
            const { moved, more } = this.eye.step(now);
            if (moved && this.eye.fitted) this.eye.fit(this.box(), this.aspect);
            this.draw();
            if (more) this.ask();
        });
    }

    private draw(): void {
        const { min, max } = this.box();
        this.eye.put(this.camera, this.lamp, this.things.length > 0 ? 2 * min.distanceTo(max) + 10 : 10, this.aspect);
        this.paint.hatchEach(HATCH_PX * this.eye.mmOfPixel(this.canvas.clientHeight));
        this.outlineCurves(this.eye.axes().toward);
        this.renderer.render(this.scene, this.camera);
    }

    /** The outer lines of curved walls, as they are seen from here. */
    private outlineCurves(toward: Vector3): void {
        for (const { kind, group, outline } of this.things) {
            const curves = this.shapes.get(kind)?.curves;
            if (!curves || !outline) continue;
            const own = toward.clone().transformDirection(group.matrix.clone().invert()),
                places = outline.geometry.getAttribute('position');
            outline.geometry.setDrawRange(0, curves.outlines([own.x, own.y, own.z], places.array as Float32Array) / 3);
            places.needsUpdate = true;
        }
    }

    /** What is seen now, as the address of a picture: paper does not take the canvas. */
    picture(): string {
        this.draw();
        return this.canvas.toDataURL('image/png');
    }

    /** Gives all memory of the graphics back. */
    close(): void {
        this.closed = true;
        cancelAnimationFrame(this.wanted);
        this.clear();
        this.paint.close();
        this.renderer.dispose();
        this.renderer.forceContextLoss();
    }
}
