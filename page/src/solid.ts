// SPDX-License-Identifier: GPL-3.0-or-later
/* solid: the whole as bodies to turn, to draw apart, to cut and to point at. A bundle of its own, since most visits do without it.
 * All that the pointer does on the canvas is there by buttons, sliders and lists too. */
import type { FaceSpot } from './api.js';
import { type Child, fill, freshId, h } from './dom.js';
import { type Kind, type Solids, axesOfFace, faceWords, readSolids, spotOnFace } from './solid_data.js';
import { Sections } from './solid_section.js';
import { type Hit, type Look, Stage, type Thing } from './solid_stage.js';

/** A place that was pointed at; `cut` says whose wall or bottom it is, '' for a side of the piece. at: from the left end; across: of a face or an
 *  end from the face edge, of an edge from the back; mm. */
export interface PickedSpot extends FaceSpot { number: number; cut: string }
export interface SolidUse { picked?: (spot: PickedSpot) => void }
export interface SolidView { update: (data: unknown) => void; close: () => void }

const lookChoices: [Look, string][] = [['corner', 'Corner'], ['front', 'Front'], ['right', 'Right side'], ['back', 'Back'], ['above', 'Above']];
const planeChoices = [['', 'Not cut'], ['0', 'from left to right'], ['1', 'from front to back'], ['2', 'from top to bottom']] as const;
const sideWords = [['left', 'right'], ['front', 'back'], ['top', 'bottom']] as const;
const CLICK_PX = 5;             // a pointer that has moved no farther has clicked
const KEY_PX = 25, KEY_ZOOM = 1.25, WHEEL = 0.0015;

/** Opens the view in `host`. A browser without WebGL is told so, in words, and the view stays without bodies. */
export function openSolid(host: HTMLElement, use: SolidUse = {}): SolidView {
    try {
        return new SolidPage(host, new Stage(), use);
    } catch (fault) {
        console.warn(fault);
        fill(host, h('p', { class: 'solid-none' }, 'This browser cannot show bodies: WebGL is missing or turned off. The picture, the three views and the drawing of all drawn apart show the same.'));
        return { update: () => {}, close: () => fill(host) };
    }
}

function button(label: string, run: () => void, attributes: Record<string, string> = {}): HTMLButtonElement {
    return h('button', { type: 'button', onclick: run, ...attributes }, label);
}

/** From where along and across a face are counted. */
function fromWords(face: number): [string, string] {
    if (face >= 4) return ['From the face edge', 'From the back'];
    return ['From the left end', face < 2 ? 'From the face edge' : 'From the back'];
}

function percent(part: number): string {
    return `${Math.round(100 * part)} %`;
}

class SolidPage implements SolidView {
    private solids: Solids = { kinds: [], stood: [], steps: [], note: '' };
    private sections: Sections | null = null;
    private chosen = '';           // name of the thing whose faces can be pointed at
    private readonly hidden = new Set<string>();
    private readonly pointers = new Map<number, { x: number; y: number }>();
    private moved = 0;             // px since the pointer went down
    private closed = false;
    private readonly leave: (() => void)[] = [];

    private readonly stageHost = h('div', { class: 'solid-stage' });
    private readonly hover = h('p', { class: 'solid-hover small quiet' });
    private readonly told = h('p', { class: 'solid-told', role: 'status' });
    private readonly note = h('p', { class: 'small quiet' });
    private readonly help = h('p', { class: 'small quiet', id: freshId('help') }, 'Drag to turn, or use the arrow keys; + and − go nearer and farther, 0 shows the whole. ',
        'Drag with the right button, two fingers, or Shift and the arrow keys to move it aside. A click points at a face.');

    private readonly apart = h('input', { type: 'range', min: 0, max: 1, step: 0.05, value: 0, id: freshId('apart'), oninput: () => this.takeApart() });
    private readonly stepWords = h('p', { class: 'solid-step' });
    private readonly apartRow = h('fieldset', { class: 'solid-apart' });

    private readonly plane = h('select', { id: freshId('plane'), onchange: () => void this.cut() }, planeChoices.map(([value, label]) => h('option', { value }, label)));
    private readonly depth = h('input', { type: 'range', min: 0, max: 1000, step: 5, value: 500, id: freshId('depth'), oninput: () => void this.cut() });
    private readonly otherSide = h('input', { type: 'checkbox', id: freshId('other'), onchange: () => void this.cut() });
    private readonly depthRow: HTMLElement;
    private readonly cutNote = h('p', { class: 'small quiet' });

    private readonly short = h('input', { type: 'checkbox', checked: true, id: freshId('short'), onchange: () => this.stage.showShort(this.short.checked) });
    private readonly shortRow = h('div', {});
    private readonly shortList = h('ul', { class: 'solid-short small', tabindex: 0, 'aria-label': 'Places of short grain' });

    private readonly list = h('ul', { class: 'solid-list' });
    private readonly pointing = h('div', { class: 'solid-pointing' });

    constructor(private readonly host: HTMLElement, private readonly stage: Stage, private readonly use: SolidUse) {
        this.depthRow = h('div', { class: 'solid-depth', hidden: true }, h('label', { for: this.depth.id, class: 'unseen' }, 'How far through'), this.depth,
            h('label', {}, this.otherSide, ' keep the other side'), this.cutNote);
        fill(host, h('div', { class: 'solid' }, this.leftSide(), this.rightSide()));
        this.canvasTurns();
        this.follow();
        stage.colours();
    }

    /* ---- what is on the page ---- */

    private leftSide(): HTMLElement {
        const { canvas } = this.stage;
        canvas.tabIndex = 0;
        canvas.setAttribute('role', 'application');
        canvas.setAttribute('aria-roledescription', 'bodies to turn');
        canvas.setAttribute('aria-describedby', this.help.id);
        this.stageHost.append(canvas, this.hover);
        return h('div', { class: 'solid-left' },
            h('div', { class: 'row no-print', role: 'group', 'aria-label': 'Looked at from' }, lookChoices.map(([look, label]) => button(label, () => this.stage.look(look, true))),
                button('Whole', () => this.stage.whole()), button('+', () => this.stage.zoomBy(KEY_ZOOM), { 'aria-label': 'Nearer' }),
                button('−', () => this.stage.zoomBy(1 / KEY_ZOOM), { 'aria-label': 'Farther' })),
            this.stageHost, this.note, this.help);
    }

    private rightSide(): HTMLElement {
        fill(this.apartRow, h('legend', {}, h('label', { for: this.apart.id }, 'Taken apart')), this.apart,
            h('div', { class: 'row' }, button('Together', () => this.stepTo(0)), button('One step back', () => this.stepBy(-1)), button('One step on', () => this.stepBy(1)),
                button('All apart', () => this.stepTo(this.solids.steps.length))), this.stepWords);
        fill(this.shortRow, h('label', {}, this.short, ' Short grain'), h('p', { class: 'small quiet' }, h('span', { class: 'solid-swatch', 'aria-hidden': 'true' }),
            ' wood that is shorter along the grain than it is high, so that it may split off'), this.shortList);
        return h('div', { class: 'solid-right no-print' }, this.apartRow,
            h('fieldset', {}, h('legend', {}, h('label', { for: this.plane.id }, 'Cut open')), this.plane, this.depthRow), h('fieldset', {}, h('legend', {}, 'Shown'), this.shortRow,
                h('details', { open: true }, h('summary', {}, 'Pieces and parts'), h('p', { class: 'row' }, button('Show all', () => this.showAll(true)), button('Hide all', () => this.showAll(false))),
                    this.list)), h('fieldset', {}, h('legend', {}, 'Point at a place'), this.pointing, this.told));
    }

    /** The page's size, colours and paper may change while it is open. */
    private follow(): void {
        const seen = new ResizeObserver(() => this.stage.resize(this.stageHost.clientWidth, this.stageHost.clientHeight));
        seen.observe(this.stageHost);
        const dark = window.matchMedia('(prefers-color-scheme: dark)'), colours = (): void => this.stage.colours();
        dark.addEventListener('change', colours);
        this.leave.push(() => seen.disconnect(), () => dark.removeEventListener('change', colours));
    }

    /* ---- new bodies ---- */

    update(data: unknown): void {
        if (this.closed) return;
        this.solids = readSolids(data);
        this.apart.max = String(this.solids.steps.length);
        this.stage.show(this.solids, (stood) => this.hidden.has(this.keyOf(stood.name, this.solids.kinds[stood.kind])));
        fill(this.note, this.solids.note && `Note: ${this.solids.note}.`);
        this.apartRow.hidden = !this.solids.stood.some((one) => one.moves.length > 0);
        this.takeApart();
        this.listShort();
        this.listThings();
        this.pointAt(this.stage.things.find((thing) => this.nameOf(thing) === this.chosen) ?? null);
        void this.cut();
    }

    /* ---- drawn apart ---- */

    private stepTo(step: number): void {
        this.apart.value = String(Math.max(0, Math.min(this.solids.steps.length, step)));
        this.takeApart();
    }
    private stepBy(by: number): void {
        const now = Number(this.apart.value);
        this.stepTo(by > 0 ? Math.floor(now + 1 + 1e-9) : Math.ceil(now - 1 - 1e-9));
    }

    private takeApart(): void {
        const now = Number(this.apart.value), of = this.solids.steps.length, step = Math.ceil(now - 1e-9), words = step > 0 ? this.solids.steps[step - 1] : null;
        this.stage.takeApart(now);
        const group = this.solids.steps.some((one) => one.group > 1) && words ? `, group ${words.group}` : '';
        const text = words ? `Step ${words.number} of ${this.solids.steps.filter((one) => one.group === words.group).length}${group}: ${words.words}.`
            : of > 0 ? 'As it stands.' : '';
        fill(this.stepWords, text);
        this.apart.setAttribute('aria-valuetext', text);
        this.describe(text);
        this.tellOpen();
    }

    private describe(how: string): void {
        const pieces = this.solids.stood.filter((one) => one.number > 0).length;
        this.stage.canvas.setAttribute('aria-label', `The whole as bodies: ${pieces} ${pieces === 1 ? 'piece' : 'pieces'}. ${how}`);
    }

    /* ---- section ---- */

    private async cut(): Promise<void> {
        const axis = this.plane.value === '' ? null : Number(this.plane.value) as 0 | 1 | 2;
        this.depthRow.hidden = axis === null;
        if (axis === null) {
            this.stage.section(null, null);
            fill(this.cutNote);
            return;
        }
        const part = Number(this.depth.value) / 1000, [from, to] = sideWords[axis], kept = this.otherSide.checked ? from : to;
        // z counts from below; the slider goes from the top
        this.stage.section({ axis, part: axis === 2 ? 1 - part : part, greater: (axis !== 2) !== this.otherSide.checked }, this.sections);
        this.depth.setAttribute('aria-valuetext', `${percent(part)} of the way from ${from} to ${to}; the ${kept} is kept`);
        if (this.sections) this.tellOpen();
        else await this.beginSections();
    }

    private async beginSections(): Promise<void> {
        try {
            const begun = await Sections.begin();
            if (this.closed) return;
            this.sections ??= begun;
            await this.cut();
        } catch (fault) {
            console.warn(fault);
            fill(this.cutNote, 'The cut wood cannot be shown: its reckoning did not load. The bodies are shown open.');
        }
    }

    private tellOpen(): void {
        if (!this.sections || this.plane.value === '') return;
        fill(this.cutNote, this.stage.open.length > 0 && `Shown open, since the skin does not close: ${this.stage.open.join(', ')}.`);
    }

    /* ---- lists ---- */

    private listShort(): void {
        const found = this.solids.kinds.filter((kind) => kind.short.length > 0);
        this.short.disabled = found.length === 0;
        this.stage.showShort(this.short.checked);
        fill(this.shortList, found.length === 0 ? h('li', {}, 'None was found.') : found.flatMap((kind) => kind.short.map((one) => h('li', {}, `${kind.name}: ${one.words}`))));
    }

    /** Names of pieces have their number; parts of one joint share a name. */
    private keyOf(name: string, kind: Kind): string {
        return kind.piece ? name : kind.joint ? `${name} (${kind.joint})` : name;
    }
    private nameOf(thing: Thing): string {
        return this.keyOf(thing.stood.name, thing.kind);
    }

    private listThings(): void {
        const byName = new Map<string, Thing[]>();
        for (const thing of this.stage.things) byName.set(this.nameOf(thing), [...byName.get(this.nameOf(thing)) ?? [], thing]);
        fill(this.list, [...byName].map(([name, things]) => this.rowOf(name, things)));
    }

    private rowOf(name: string, things: Thing[]): HTMLElement {
        const many = things.length > 1 ? `${name}, ${things.length} of them` : name;
        const shown = h('input', { type: 'checkbox', checked: !this.hidden.has(name), 'aria-label': `Show ${many}`, onchange: () => this.setShown(name, things, shown.checked) });
        const isPiece = things[0].kind.piece !== '';
        const label: Child = isPiece ? button(name, () => this.pointAt(things[0]), { class: 'plain', 'aria-pressed': 'false', 'data-name': name }) : h('span', {}, many);
        return h('li', {}, shown, label);
    }

    private setShown(name: string, things: Thing[], shown: boolean): void {
        if (shown) this.hidden.delete(name);
        else this.hidden.add(name);
        for (const thing of things) this.stage.setShown(thing, shown);
    }
    private showAll(shown: boolean): void {
        for (const thing of this.stage.things) this.setShown(this.nameOf(thing), [thing], shown);
        this.listThings();
        this.markRow();
    }

    private markRow(): void {
        for (const one of this.list.querySelectorAll('button')) one.setAttribute('aria-pressed', String(one.dataset.name === this.chosen));
    }

    /* ---- pointing ---- */

    /** A piece whose faces can be pointed at by lists and sliders. */
    private pointAt(thing: Thing | null): void {
        const changed = this.chosen !== (thing ? this.nameOf(thing) : '');
        this.chosen = thing ? this.nameOf(thing) : '';
        this.markRow();
        if (!thing) {
            this.stage.highlight([]);
            this.stage.markSpot(null);
            fill(this.pointing, h('p', { class: 'small' }, 'Click on a face, or choose a piece in the list above.'));
            return;
        }
        if (changed || this.pointing.childElementCount < 2) this.formFor(thing, 0, 0.5, 0.5);
        this.stage.highlight([thing]);
    }

    /** face, along, across: what it begins with. */
    private formFor(thing: Thing, face: number, along: number, across: number): void {
        const slider = (value: number, stem: string): HTMLInputElement => h('input', { type: 'range', min: 0, max: 100, value: Math.round(100 * value), id: freshId(stem) });
        const select = h('select', { id: freshId('face') }, faceWords.map((words, i) => h('option', { value: i, selected: i === face }, words)));
        const sliders = [slider(along, 'along'), slider(across, 'across')], labels = sliders.map((one) => h('label', { for: one.id })), name = this.chosen;
        const current = (): Thing => this.stage.things.find((one) => this.nameOf(one) === name) ?? thing;
        const hit = (): Hit => ({ thing: current(), face: Number(select.value), source: 0,
            spot: spotOnFace(current().kind, Number(select.value), Number(sliders[0].value) / 100, Number(sliders[1].value) / 100) });
        const label = (): void => labels.forEach((one, i) => fill(one, fromWords(Number(select.value))[i], ` (${sliders[i].value} %)`));
        const show = (): void => {
            label();
            this.stage.highlight([current()], hit().face, 0);
            this.stage.markSpot(hit());
        };
        select.addEventListener('change', () => { show(); this.stage.lookAt(current(), Number(select.value)); });
        for (const one of sliders) one.addEventListener('input', show);
        label();
        fill(this.pointing, h('p', {}, h('strong', {}, name)), h('label', { for: select.id }, 'On its'), select, labels[0], sliders[0], labels[1], sliders[1],
            button('Point here', () => this.tellPicked(hit()), { class: 'main' }));
    }

    /** A click on the canvas: what it hit is chosen, and the form shows it. */
    private pick(hit: Hit): void {
        const { thing, face, spot } = hit, axes = axesOfFace(face), isPiece = thing.kind.piece !== '';
        this.pointAt(null);
        this.chosen = isPiece ? this.nameOf(thing) : '';
        this.markRow();
        if (isPiece) this.formFor(thing, face, spot[axes.along] / thing.kind.size[axes.along], spot[axes.across] / thing.kind.size[axes.across]);
        this.tellPicked(hit);
    }

    /** Shades it, marks it, says it in words and hands it on. */
    private tellPicked(hit: Hit): void {
        const { thing, face, source, spot } = hit, axes = axesOfFace(face), { size, piece, cuts } = thing.kind;
        this.stage.highlight([thing], face, source);
        this.stage.markSpot(hit);
        fill(this.told, `Pointed at ${this.wordsOf(hit)}, ${percent(spot[axes.along] / size[axes.along])} along and ${percent(spot[axes.across] / size[axes.across])} across.`);
        if (!piece) return;
        this.use.picked?.({ piece, number: thing.stood.number, face: faceWords[face], at: spot[0], across: face === 2 || face === 3 ? spot[2] : spot[1], cut: source > 0 ? cuts[source - 1] : '' });
    }

    private wordsOf({ thing, face, source }: Hit): string {
        return source > 0 ? `${thing.stood.name}: ${thing.kind.cuts[source - 1]}` : `${thing.stood.name}, ${faceWords[face]}`;
    }

    /* ---- pointer and keys on the canvas ---- */

    private canvasTurns(): void {
        const { canvas } = this.stage;
        canvas.addEventListener('pointerdown', (event) => {
            this.pointers.set(event.pointerId, { x: event.clientX, y: event.clientY });
            if (this.pointers.size === 1) this.moved = 0;
            canvas.setPointerCapture(event.pointerId);
        });
        canvas.addEventListener('pointermove', (event) => this.pointerMoved(event));
        canvas.addEventListener('pointerup', (event) => {
            const alone = this.pointers.size === 1 && this.pointers.delete(event.pointerId);
            this.pointers.delete(event.pointerId);
            if (alone && this.moved < CLICK_PX && event.button === 0) this.click(event);
        });
        canvas.addEventListener('pointercancel', (event) => this.pointers.delete(event.pointerId));
        canvas.addEventListener('pointerleave', () => fill(this.hover));
        canvas.addEventListener('contextmenu', (event) => event.preventDefault());
        canvas.addEventListener('wheel', (event) => {
            if (document.activeElement !== canvas && !event.ctrlKey) return;   // the page scrolls on over a view that is not in use
            event.preventDefault();
            this.stage.zoomBy(Math.exp(-event.deltaY * WHEEL * (event.deltaMode === 1 ? 16 : 1)));
        }, { passive: false });
        canvas.addEventListener('keydown', (event) => { if (this.key(event)) event.preventDefault(); });
    }

    private hitOf(event: PointerEvent): Hit | null {
        const box = this.stage.canvas.getBoundingClientRect();
        return this.stage.under(event.clientX - box.left, event.clientY - box.top);
    }

    private click(event: PointerEvent): void {
        const hit = this.hitOf(event);
        if (hit) this.pick(hit);
    }

    private pointerMoved(event: PointerEvent): void {
        const from = this.pointers.get(event.pointerId);
        if (!from) {
            const hit = event.pointerType === 'mouse' ? this.hitOf(event) : null;
            fill(this.hover, hit && this.wordsOf(hit));
            return;
        }
        const dx = event.clientX - from.x, dy = event.clientY - from.y, others = [...this.pointers].filter(([id]) => id !== event.pointerId).map(([, at]) => at);
        this.moved += Math.hypot(dx, dy);
        this.pointers.set(event.pointerId, { x: event.clientX, y: event.clientY });
        if (others.length > 0) {
            const before = Math.hypot(from.x - others[0].x, from.y - others[0].y), now = Math.hypot(event.clientX - others[0].x, event.clientY - others[0].y);
            if (before > 1) this.stage.zoomBy(now / before);
            this.stage.shiftBy(dx / 2, dy / 2);
        } else if (event.buttons & 6 || event.shiftKey) this.stage.shiftBy(dx, dy);
        else if (this.moved >= CLICK_PX) this.stage.turnBy(dx, dy);
    }

    private key(event: KeyboardEvent): boolean {
        if (event.ctrlKey || event.metaKey || event.altKey) return false;
        const ways: Record<string, [number, number]> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }, way = ways[event.key];
        if (way && event.shiftKey) this.stage.shiftBy(way[0] * KEY_PX, way[1] * KEY_PX);
        else if (way) this.stage.turnBy(way[0] * KEY_PX, way[1] * KEY_PX);
        else if (event.key === '+' || event.key === '=') this.stage.zoomBy(KEY_ZOOM);
        else if (event.key === '-') this.stage.zoomBy(1 / KEY_ZOOM);
        else if (event.key === '0' || event.key === 'Home') this.stage.whole();
        else return false;
        return true;
    }

    close(): void {
        this.closed = true;
        for (const one of this.leave) one();
        this.stage.close();
        fill(this.host);
    }
}
