// SPDX-License-Identifier: GPL-3.0-or-later
/* bar: the figure in hand. It stands at the foot of the page, so that the drawing above stays in sight while its value is dragged: what
 * the figure is, how it is written, and the sum that it comes from. */
import type { Change, Finding, Value } from './api.js';
import { fill, freshId, h } from './dom.js';
import { findingList } from './findings.js';

/** What the bar needs of the desk. */
export interface BarUse {
    /** The figure as it now stands, while others are tried. */
    value: (id: string) => Value | null;
    /** How bare numbers are counted in this job: "mm" or "in". */
    units: () => string;
    attempt: (changes: Change[] | null) => Promise<void>;
    refused: () => Finding[];
    apply: (changes: Change[], why: string) => Promise<Finding[]>;
    whose: (value: Value) => string;
}

const DRAG_PX_PER_STEP = 4;

/** Steps of dragging: half a millimetre, a thirty-second of an inch, half a degree, one. */
function stepOf(value: Value, units: string): { of: number; write: (steps: number) => string } {
    if (value.unit === '°') return { of: 0.5, write: (n) => `${+(n * 0.5).toFixed(1)} deg` };
    const inches = units === 'in' || units === 'ft';
    if (value.unit === '' && inches && value.path.startsWith('amounts/'))
        return { of: 1 / 32, write: (n) => inchWords(n).replace(/ in$/, '') }; // mostly a size
    if (value.unit === '') return { of: 1, write: (n) => String(n) };
    if (!inches) return { of: 0.5, write: (n) => `${+(n * 0.5).toFixed(1)} mm` };
    return { of: 25.4 / 32, write: inchWords };
}

/** 45 thirty-seconds are "1 13/32 in". */
export function inchWords(steps: number): string {
    const size = Math.abs(steps),
        whole = Math.floor(size / 32);
    let over = size % 32,
        under = 32;
    while (over > 0 && over % 2 === 0) {
        over /= 2;
        under /= 2;
    }
    const text = over === 0 ? String(whole) : whole === 0 ? `${over}/${under}` : `${whole} ${over}/${under}`;
    return `${steps < 0 ? '-' : ''}${text} in`;
}

export class Bar {
    readonly element = h('section', { class: 'bar', hidden: true });
    private value: Value | null = null;
    private input: HTMLInputElement | HTMLSelectElement | null = null;
    private readonly faults = h('div', { role: 'alert' });
    private readonly now = h('output', { class: 'now' });
    private readonly sum = h('p', { class: 'sum' });
    private readonly rule = h('p', { class: 'quiet small' });
    private back: Element | null = null;
    private written = '';
    private stepped: { text: string; steps: number } | null = null;
    /** Why what was to be kept could not be; it stands until something else is tried. */
    private against: Finding[] = [];

    constructor(private readonly use: BarUse) {}

    get open(): boolean {
        return !this.element.hidden;
    }

    /** Takes a figure in hand. pointer: it was pressed with, and may be dragged at once. */
    take(value: Value, from: Element | null, pointer: PointerEvent | null = null): void {
        this.value = value;
        this.back = from;
        this.written = value.written || value.text;
        this.against = [];
        this.stepped = null;
        const id = freshId('bar'),
            title = h(
                'h2',
                { id },
                value.label,
                value.symbol ? h('span', { class: 'quiet' }, ` (${value.symbol})`) : null,
                h('span', { class: 'quiet small' }, ` ${this.use.whose(value)}`),
            );
        this.element.setAttribute('aria-labelledby', id);
        fill(this.faults);
        fill(
            this.element,
            h(
                'div',
                { class: 'bar-inside' },
                h(
                    'div',
                    { class: 'bar-head' },
                    title,
                    this.now,
                    h('button', { type: 'button', class: 'plain', onclick: () => this.leave() }, 'Close'),
                ),
                value.path ? this.form(value) : null,
                this.faults,
                h('div', { class: 'why' }, h('h3', {}, 'Why this number?'), this.sum, this.rule),
            ),
        );
        this.element.hidden = false;
        this.refresh();
        if (pointer && value.path && !value.choices) this.dragFrom(pointer, value);
        else (this.input ?? this.element.querySelector('button'))?.focus();
    }

    /** What was reckoned has changed: shows the figure as it now is. */
    refresh(): void {
        if (!this.value) return;
        const value = this.use.value(this.value.id) ?? this.value;
        this.now.textContent = value.text;
        this.sum.textContent =
            value.sum && value.sum !== 'given'
                ? value.sum
                : value.given
                  ? 'You give it: it stands in the text of the job.'
                  : value.rule
                    ? ''
                    : 'Nothing more is told of it.';
        this.rule.textContent = !value.rule
            ? ''
            : value.given
              ? `If you did not give it: ${value.rule}.`
              : `${value.rule[0].toUpperCase()}${value.rule.slice(1)}.`;
        this.rule.hidden = !value.rule;
        const refused = this.use.refused();
        fill(this.faults, findingList(refused.length ? refused : this.against, {}, false));
    }

    leave(): void {
        if (this.element.hidden) return;
        const tried = this.value?.path && this.input && this.input.value !== this.written;
        this.element.hidden = true;
        this.value = null;
        if (tried) void this.use.attempt(null);
        if (this.back instanceof HTMLElement || this.back instanceof SVGElement) this.back.focus({ preventScroll: true });
    }

    private change(text: string): Change[] {
        return [{ kind: 'set', path: this.value?.path ?? '', value: text }];
    }

    private async keep(): Promise<void> {
        if (!this.value || !this.input) return;
        const value = this.value,
            text = this.input.value.trim();
        if (text === this.written && value.given) return this.leave();
        const faults = await this.use.apply(this.change(text), `${value.label} ${this.use.whose(value)}: ${text}`);
        if (faults.length) this.refuse(faults);
        else {
            this.written = this.input.value;
            this.leave();
        }
    }

    private form(value: Value): HTMLElement {
        const id = freshId('written');
        this.input = value.choices
            ? h(
                  'select',
                  { id, oninput: () => this.tried() },
                  value.choices.map((one) => h('option', { value: one }, one)),
              )
            : h('input', { id, autocomplete: 'off', spellcheck: 'false', maxlength: 200, oninput: () => this.tried() });
        this.input.value = this.written;
        const step = value.choices ? null : stepOf(value, this.use.units());
        return h(
            'form',
            {
                class: 'row',
                onsubmit: (event: Event) => {
                    event.preventDefault();
                    void this.keep();
                },
                onkeydown: (event: KeyboardEvent) => {
                    if (event.key === 'Escape') {
                        event.preventDefault();
                        this.leave();
                    }
                },
            },
            h('label', { for: id }, value.written ? 'Written' : 'To be written'),
            this.input,
            step
                ? [
                      h('button', { type: 'button', 'aria-label': 'Less', onclick: () => this.nudge(value, -1) }, '−'),
                      this.handle(value),
                      h('button', { type: 'button', 'aria-label': 'More', onclick: () => this.nudge(value, 1) }, '+'),
                  ]
                : null,
            h('button', { class: 'main' }, 'Keep'),
            value.written && value.given && value.path.split('/').length > 2 && value.path.startsWith('joints/')
                ? h('button', { type: 'button', onclick: () => void this.giveBack(value) }, 'Leave it to the rule')
                : null,
        );
    }

    private async giveBack(value: Value): Promise<void> {
        const faults = await this.use.apply(
            [{ kind: 'remove', path: value.path }],
            `${value.label} ${this.use.whose(value)} left to the rule`,
        );
        if (faults.length) this.refuse(faults);
        else this.leave();
    }

    private refuse(faults: Finding[]): void {
        this.against = faults;
        fill(this.faults, findingList(faults, {}, false));
    }

    private tried(): void {
        this.against = [];
        if (this.value && this.input) void this.use.attempt(this.change(this.input.value.trim()));
    }

    /** The number that is in the field now, in steps, or that of the figure when the field has a sum in it. */
    private stepsNow(value: Value): number {
        if (this.stepped && this.input?.value === this.stepped.text) return this.stepped.steps; // the answer to it may still be under way
        return Math.round((this.use.value(value.id) ?? value).value / stepOf(value, this.use.units()).of);
    }
    private put(value: Value, steps: number): void {
        if (!this.input) return;
        this.input.value = stepOf(value, this.use.units()).write(steps);
        this.stepped = { text: this.input.value, steps };
        this.tried();
    }
    private nudge(value: Value, by: number): void {
        this.put(value, this.stepsNow(value) + by);
    }

    /** A grip to drag left and right; arrow keys move it too. */
    private handle(value: Value): HTMLElement {
        const grip = h(
            'span',
            {
                class: 'grip',
                role: 'slider',
                tabindex: 0,
                'aria-label': `Drag ${value.label}`,
                'aria-valuenow': value.value,
                'aria-valuetext': value.text,
            },
            '◂ drag ▸',
        );
        grip.addEventListener('pointerdown', (event) => {
            event.preventDefault();
            this.dragFrom(event, value);
        });
        grip.addEventListener('keydown', (event) => {
            const by = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1, PageDown: -10, PageUp: 10 }[event.key];
            if (by === undefined) return;
            event.preventDefault();
            this.nudge(value, by);
            const now = this.use.value(value.id) ?? value;
            grip.setAttribute('aria-valuenow', String(now.value));
            grip.setAttribute('aria-valuetext', this.input?.value ?? now.text);
        });
        return grip;
    }

    private dragFrom(start: PointerEvent, value: Value): void {
        const from = this.stepsNow(value),
            x = start.clientX;
        let last = from;
        const move = (event: PointerEvent): void => {
            const steps = from + Math.round((event.clientX - x) / DRAG_PX_PER_STEP);
            if (steps === last) return;
            last = steps;
            event.preventDefault();
            document.body.classList.add('dragging');
            this.put(value, steps);
        };
        const end = (): void => {
            window.removeEventListener('pointermove', move);
            window.removeEventListener('pointerup', end);
            window.removeEventListener('pointercancel', end);
            document.body.classList.remove('dragging');
            if (this.open) this.input?.focus({ preventScroll: true });
        };
        window.addEventListener('pointermove', move);
        window.addEventListener('pointerup', end);
        window.addEventListener('pointercancel', end);
    }
}
