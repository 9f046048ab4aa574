// SPDX-License-Identifier: GPL-3.0-or-later
/* solid: the whole as bodies to turn, to draw apart, to cut open and to point at. A bundle of its own, since most visits do
 * without it. All that the hand does on the canvas is there by buttons, sliders and lists too. */
import { fill, freshId, h } from './dom.js';
import { type Solids, type Stood, readSolids } from './solid_data.js';
import type { Look } from './solid_eye.js';
import { NEARER, take } from './solid_hand.js';
import { ShownList } from './solid_list.js';
import { type PickedSpot, Pointing, hitWords } from './solid_pointing.js';
import { Sections } from './solid_section.js';
import { Stage } from './solid_stage.js';

/** picked: a place on a piece was pointed at. */
export interface SolidUse { picked?: (spot: PickedSpot) => void }
/** update: shows what POST /api/solids answers; throws when it is no such answer. close: gives all back; nothing of it stays in
 *  the host. */
export interface SolidView { update: (data: unknown) => void; close: () => void }

/** Opens the view in `host`. A browser without WebGL is told so in words, and no bodies are shown. */
export function openSolid(host: HTMLElement, use: SolidUse = {}): SolidView {
    let stage: Stage;
    try {
        stage = new Stage();
    } catch (fault) {
        console.warn(fault);
        fill(host, h('p', { class: 'solid-none' }, 'This browser cannot show bodies: WebGL is missing or turned off. ',
            'The picture, the three views and the drawing of all drawn apart show the same.'));
        return { update: () => {}, close: () => fill(host) };
    }
    return new SolidPage(host, stage, use);
}

const lookChoices: [Look, string][] = [
    ['corner', 'Corner'], ['front', 'Front'], ['right', 'Right side'], ['back', 'Back'], ['above', 'Above'],
];
const planeChoices = [
    ['', 'Not cut'], ['0', 'from left to right'], ['1', 'from front to back'], ['2', 'from top to bottom'],
] as const;
const sideWords = [['left', 'right'], ['front', 'back'], ['top', 'bottom']] as const;
const DEPTHS = 1000;   // steps of the slider through the whole

function button(label: string, run: () => void, name = label): HTMLButtonElement {
    return h('button', { type: 'button', 'aria-label': name === label ? null : name, onclick: run }, label);
}

class SolidPage implements SolidView {
    private solids: Solids = { kinds: [], stood: [], steps: [], note: '' };
    private sections: Sections | null = null;
    private closed = false;
    private readonly leave: (() => void)[] = [];
    private readonly pointing: Pointing;
    private readonly shown: ShownList;

    private readonly stageHost = h('div', { class: 'solid-stage' });
    private readonly printed = h('div', { class: 'solid-printed' });   // stands in for the canvas on paper
    private readonly hover = h('p', { class: 'solid-hover small quiet' });
    private readonly note = h('p', { class: 'small quiet' });
    private readonly help = h('p', { class: 'small quiet no-print', id: freshId('help') },
        'Drag to turn, or use the arrow keys; + and − go nearer and farther, 0 shows the whole. ',
        'Drag with the right button or two fingers, or press Shift with the arrow keys, to move it aside. ',
        'A click points at a face.');

    private readonly apart = h('input', { type: 'range', min: 0, max: 1, step: 0.05, value: 0, id: freshId('apart'),
        oninput: () => this.takeApart() });
    private readonly stepWords = h('p', { class: 'solid-step' });
    private readonly apartRow = h('fieldset', { class: 'solid-apart' });

    private readonly plane = h('select', { id: freshId('plane'), onchange: () => void this.cut() },
        planeChoices.map(([value, label]) => h('option', { value }, label)));
    private readonly depth = h('input', { type: 'range', min: 0, max: DEPTHS, step: 5, value: DEPTHS / 2,
        'aria-label': 'How far through', oninput: () => void this.cut() });
    private readonly otherSide = h('input', { type: 'checkbox', onchange: () => void this.cut() });
    private readonly depthRow = h('div', { hidden: true });
    private readonly cutNote = h('p', { class: 'small quiet' });

    constructor(private readonly host: HTMLElement, private readonly stage: Stage, use: SolidUse) {
        this.pointing = new Pointing(stage, (spot) => use.picked?.(spot), () => this.shown.mark(this.pointing.chosen));
        this.shown = new ShownList(stage, (thing) => this.pointing.choose(thing));
        fill(host, h('div', { class: 'solid' }, this.leftSide(), this.rightSide()));
        this.takeCanvas();
        this.follow();
        stage.colours();
    }

    /* ---- what is on the page ---- */

    private leftSide(): HTMLElement {
        const { stage } = this;
        this.stageHost.append(stage.canvas, this.hover, this.printed);
        return h('div', { class: 'solid-left' },
            h('div', { class: 'row no-print', role: 'group', 'aria-label': 'Looked at from' },
                lookChoices.map(([look, label]) => button(label, () => stage.look(look))),
                button('Whole', () => stage.whole()), button('+', () => stage.zoomBy(NEARER), 'Nearer'),
                button('−', () => stage.zoomBy(1 / NEARER), 'Farther')),
            this.stageHost, this.note, this.help);
    }

    private rightSide(): HTMLElement {
        fill(this.apartRow, h('legend', {}, h('label', { for: this.apart.id }, 'Taken apart')), this.apart,
            h('div', { class: 'row' }, button('Together', () => this.stepTo(0)), button('One step back', () => this.stepBy(-1)),
                button('One step on', () => this.stepBy(1)), button('All apart', () => this.stepTo(this.solids.steps.length))),
            this.stepWords);
        fill(this.depthRow, this.depth, h('label', {}, this.otherSide, ' keep the other side'), this.cutNote);
        return h('div', { class: 'solid-right no-print' }, this.apartRow,
            h('fieldset', {}, h('legend', {}, h('label', { for: this.plane.id }, 'Cut open')), this.plane, this.depthRow),
            this.shown.element, this.pointing.element);
    }

    private takeCanvas(): void {
        const { stage, stage: { canvas } } = this;
        canvas.tabIndex = 0;
        canvas.setAttribute('role', 'application');
        canvas.setAttribute('aria-roledescription', 'bodies to turn');
        canvas.setAttribute('aria-describedby', this.help.id);
        take(canvas, {
            turn: (dx, dy) => stage.turnBy(dx, dy), shift: (dx, dy) => stage.shiftBy(dx, dy),
            zoom: (factor, x, y) => stage.zoomBy(factor, x, y),
            whole: () => stage.whole(), leave: () => fill(this.hover),
            hover: (x, y) => { const hit = stage.under(x, y); fill(this.hover, hit && hitWords(hit)); },
            click: (x, y) => { const hit = stage.under(x, y); if (hit) this.pointing.click(hit); },
        });
    }

    /** The page's size, colours and paper may change while it is open. */
    private follow(): void {
        const { stage, stageHost } = this, dark = window.matchMedia('(prefers-color-scheme: dark)');
        const size = new ResizeObserver(() => stage.resize(stageHost.clientWidth, stageHost.clientHeight));
        const colours = (): void => stage.colours();
        const print = (): void =>
            fill(this.printed, h('img', { src: stage.picture(), alt: stage.canvas.getAttribute('aria-label') }));
        size.observe(stageHost);
        dark.addEventListener('change', colours);
        window.addEventListener('beforeprint', print);
        this.leave.push(() => size.disconnect(), () => dark.removeEventListener('change', colours),
            () => window.removeEventListener('beforeprint', print));
    }

    /* ---- new bodies ---- */

    update(data: unknown): void {
        if (this.closed) return;
        this.solids = readSolids(data);
        this.apart.max = String(this.solids.steps.length);
        this.apartRow.hidden = !this.solids.stood.some((one) => one.moves.length > 0);
        const isHidden = (stood: Stood): boolean => this.shown.isHidden(stood, this.solids.kinds[stood.kind]);
        this.stage.show(this.solids, isHidden, Number(this.apart.value));
        fill(this.note, this.solids.note && `Note: ${this.solids.note}.`);
        this.tellStep();
        this.shown.refresh(this.solids);
        this.pointing.refresh();
        this.tellOpen();
    }

    /* ---- taken apart ---- */

    private stepTo(step: number): void {
        this.apart.value = String(Math.max(0, Math.min(this.solids.steps.length, step)));
        this.takeApart();
    }
    private stepBy(by: number): void {
        const now = Number(this.apart.value);
        this.stepTo(by > 0 ? Math.floor(now + 1 + 1e-9) : Math.ceil(now - 1 - 1e-9));
    }

    private takeApart(): void {
        this.stage.takeApart(Number(this.apart.value));
        this.tellStep();
        this.tellOpen();
    }

    private tellStep(): void {
        const words = this.wordsOf(Math.ceil(Number(this.apart.value) - 1e-9));
        const pieces = this.solids.stood.filter((one) => one.number > 0).length;
        fill(this.stepWords, words);
        this.apart.setAttribute('aria-valuetext', words);
        this.stage.canvas.setAttribute('aria-label',
            `The whole as bodies: ${pieces} ${pieces === 1 ? 'piece' : 'pieces'}. ${words}`);
    }

    /** Of a step of all groups, counted from 1; 0: none is done. */
    private wordsOf(step: number): string {
        const { steps } = this.solids;
        if (step === 0) return steps.length > 0 ? 'As it stands.' : '';
        const { number, group, words } = steps[step - 1], many = steps.filter((one) => one.group === group).length;
        const groups = steps.some((one) => one.group !== group) ? `, group ${group}` : '';
        return `Step ${number} of ${many}${groups}: ${words}.`;
    }

    /* ---- section ---- */

    private async cut(): Promise<void> {
        const axis = this.plane.value === '' ? null : Number(this.plane.value) as 0 | 1 | 2;
        this.depthRow.hidden = axis === null;
        if (axis === null) {
            this.stage.section(null, null);
            return;
        }
        const part = Number(this.depth.value) / DEPTHS, [from, to] = sideWords[axis], kept = this.otherSide.checked ? from : to,
            isUp = axis === 2;
        // heights count from below, the slider from the top
        this.stage.section({ axis, part: isUp ? 1 - part : part, greater: isUp === this.otherSide.checked }, this.sections);
        this.depth.setAttribute('aria-valuetext',
            `${Math.round(100 * part)} % of the way from ${from} to ${to}; the ${kept} is kept`);
        if (!this.sections) await this.beginSections();
        this.tellOpen();
    }

    private async beginSections(): Promise<void> {
        try {
            const begun = await Sections.begin();
            if (this.closed || this.sections) return;
            this.sections = begun;
            await this.cut();
        } catch (fault) {
            console.warn(fault);
            fill(this.cutNote, 'The cut wood cannot be shown: what reckons it did not load. The bodies are shown open.');
        }
    }

    private tellOpen(): void {
        if (!this.sections) return;
        fill(this.cutNote, this.stage.open.length > 0
            && `Shown open, since their skin does not close: ${this.stage.open.join(', ')}.`);
    }

    close(): void {
        this.closed = true;
        for (const one of this.leave) one();
        this.stage.close();
        fill(this.host);
    }
}
