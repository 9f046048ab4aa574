// SPDX-License-Identifier: GPL-3.0-or-later
/* rod: the job laid out on one long page, as a joiner lays it out on a rod: the whole, its pieces and joints, findings, templates, the
 * run. Parts are kept while values change, so that focus and drawings stay; only what is new is made. */
import type { Finding, Fix, JointModel, Model, PieceModel, Step, TemplateModel, Value } from './api.js';
import { type Child, fill, freshId, h } from './dom.js';
import { findingList, findingWords } from './findings.js';
import type { Drawings } from './place.js';

export interface RodUse {
    drawings: Drawings;
    take: (value: Value, from: Element) => void;
    fix: (fix: Fix, finding: Finding) => void;
    showLine: (finding: Finding) => void;
    away: (of: 'pieces' | 'joints' | 'profiles', name: string) => void;
    rename: (of: 'pieces' | 'joints' | 'profiles', name: string) => void;
}

/* ---- figures ---- */

function figureButton(value: Value, use: RodUse): HTMLButtonElement {
    const button = h('button', { type: 'button', class: 'value' }, value.text || '–');
    button.addEventListener('click', () => use.take((button as HTMLButtonElement & { value_: Value }).value_, button));
    return button;
}

/** A list of figures, each a button that takes it in hand. */
class Figures {
    readonly element = h('table', { class: 'figures' });
    private readonly body = h('tbody');
    private ids = '';
    private rows = new Map<string, { button: HTMLButtonElement; written: HTMLElement }>();

    constructor(
        caption: string,
        private readonly use: RodUse,
    ) {
        this.element.append(h('caption', { class: 'unseen' }, caption), this.body);
    }

    update(values: Value[]): void {
        const ids = values.map((one) => one.id).join('\n');
        if (ids !== this.ids) {
            this.ids = ids;
            this.rows = new Map();
            fill(
                this.body,
                values.map((value) => {
                    const button = figureButton(value, this.use),
                        written = h('td', { class: 'quiet small' });
                    this.rows.set(value.id, { button, written });
                    return h(
                        'tr',
                        {},
                        h(
                            'th',
                            { scope: 'row' },
                            value.label,
                            value.symbol ? h('span', { class: 'quiet' }, ` ${value.symbol}`) : null,
                        ),
                        h('td', { class: 'number' }, button),
                        written,
                    );
                }),
            );
        }
        for (const value of values) {
            const row = this.rows.get(value.id);
            if (!row) continue;
            (row.button as HTMLButtonElement & { value_: Value }).value_ = value;
            row.button.classList.toggle('given', value.given);
            if (row.button.textContent !== (value.text || '–')) {
                row.button.classList.toggle('moved', row.button.textContent !== '');
                row.button.textContent = value.text || '–';
            } else row.button.classList.remove('moved');
            row.button.setAttribute('aria-label', `${value.label}: ${value.text}`);
            const plain = value.written === value.text || value.written === value.bare;
            row.written.textContent = value.given
                ? plain
                    ? 'given'
                    : value.written
                : !value.text
                  ? ''
                  : value.path
                    ? 'by rule'
                    : 'reckoned';
        }
        this.element.hidden = values.length === 0;
    }
}

/** Texts in an element, made anew only when they are others. */
function fillChanged(element: HTMLElement, texts: string[], make: (text: string) => HTMLElement): void {
    const now = texts.join('\n');
    if (element.dataset.shown === now) return;
    element.dataset.shown = now;
    fill(element, texts.map(make));
}

/** What stands against one thing, beside it. */
class Beside {
    readonly element = h('div', { class: 'beside' });
    private shown = '[]';

    constructor(
        private readonly use: RodUse,
        private readonly withAbout = false,
    ) {}

    update(findings: Finding[]): void {
        const now = JSON.stringify(findings);
        if (now === this.shown) return;
        this.shown = now;
        fill(this.element, findingList(findings, { fix: this.use.fix, show: this.use.showLine }, this.withAbout));
    }
}

function about(findings: Finding[], name: string): Finding[] {
    return findings.filter((one) => one.about === name);
}

/** Elements kept by name, in the order of a list. */
class Kept<T extends { name: string }, C extends { element: HTMLElement; update: (item: T, findings: Finding[]) => void }> {
    readonly element = h('div', { class: 'kept' });
    private cards = new Map<string, C>();

    constructor(
        private readonly make: (item: T) => C,
        private readonly drawings: Drawings,
    ) {}

    update(items: T[], findings: Finding[]): void {
        const names = new Set(items.map((one) => one.name));
        for (const [name, card] of this.cards) {
            if (names.has(name)) continue;
            this.drawings.forget(card.element);
            card.element.remove();
            this.cards.delete(name);
        }
        items.forEach((item, i) => {
            let card = this.cards.get(item.name);
            if (!card) {
                card = this.make(item);
                this.cards.set(item.name, card);
            }
            if (this.element.children[i] !== card.element)
                this.element.insertBefore(card.element, this.element.children[i] ?? null);
            card.update(item, findings);
        });
    }
}

/* ---- pieces, joints, templates ---- */

function cardHead(id: string, title: Child, small: HTMLElement, ...acts: Child[]): HTMLElement {
    return h('div', { class: 'card-head row' }, h('h3', { id }, title), small, h('span', { class: 'acts row no-print' }, acts));
}

/** What can be done with an entry of the job as a whole. */
function entryActs(use: RodUse, of: 'pieces' | 'joints' | 'profiles', name: string): HTMLElement[] {
    const act = (words: string, run: () => void) => h('button', { type: 'button', class: 'plain small', onclick: run }, words);
    return [act('Other name', () => use.rename(of, name)), act('Take away', () => use.away(of, name))];
}

function anchorOf(of: string, name: string): string {
    return `${of}-${name.replaceAll(' ', '-')}`;
}

class PieceCard {
    readonly element: HTMLElement;
    private readonly small = h('span', { class: 'quiet' });
    private readonly values: Figures;
    private readonly facts: Figures;
    private readonly beside: Beside;
    private readonly note = h('p', { class: 'quiet' });

    constructor(piece: PieceModel, use: RodUse) {
        const id = freshId('piece');
        this.values = new Figures(`Sizes of ${piece.name}`, use);
        this.facts = new Figures(`The wood of ${piece.name}`, use);
        this.beside = new Beside(use);
        this.element = h(
            'article',
            { class: 'sheet', 'aria-labelledby': id, id: anchorOf('piece', piece.name) },
            cardHead(
                id,
                piece.name,
                this.small,
                entryActs(use, 'pieces', piece.name),
            ),
            this.note,
            this.beside.element,
            h(
                'div',
                { class: 'with-drawing' },
                use.drawings.place('piece', piece.name, `Setting-out drawing of ${piece.name}`),
                h(
                    'div',
                    {},
                    this.values.element,
                    h(
                        'details',
                        {},
                        h('summary', {}, 'The wood'),
                        this.facts.element,
                        use.drawings.place('grain', piece.name, `Fibres and short grain of ${piece.name}`),
                    ),
                ),
            ),
        );
    }

    update(piece: PieceModel, findings: Finding[]): void {
        this.small.textContent = [
            `${piece.count} in a set`,
            piece.timber,
            piece.alike_to ? `alike to ${piece.alike_to}` : '',
            piece.mirror_of ? `mirror image of ${piece.mirror_of}` : '',
        ]
            .filter(Boolean)
            .join(' · ');
        this.note.textContent = piece.note;
        this.note.hidden = !piece.note;
        this.values.update(piece.values);
        this.facts.update(piece.facts);
        this.beside.update(about(findings, piece.name));
    }
}

class JointCard {
    readonly element: HTMLElement;
    private readonly small = h('span', { class: 'quiet' });
    private readonly values: Figures;
    private readonly beside: Beside;
    private readonly advice = h('ul', { class: 'small' });
    private readonly advised = h('details', {}, h('summary', {}, 'How makers go about it'), this.advice);
    private readonly unsaid: Figures;
    private readonly unsaidDetails: HTMLElement;

    constructor(joint: JointModel, use: RodUse, profile: boolean) {
        const id = freshId('joint');
        this.values = new Figures(`Figures of ${joint.name}`, use);
        this.unsaid = new Figures(`What else can be said of ${joint.name}`, use);
        this.unsaidDetails = h('details', {}, h('summary', {}, 'What else can be said'), this.unsaid.element);
        this.beside = new Beside(use);
        this.element = h(
            'article',
            { class: 'sheet', 'aria-labelledby': id, id: anchorOf('joint', joint.name) },
            cardHead(
                id,
                joint.name,
                this.small,
                entryActs(use, profile ? 'profiles' : 'joints', joint.name),
            ),
            this.beside.element,
            h(
                'div',
                { class: 'with-drawing' },
                use.drawings.place(profile ? 'profile' : 'joint', joint.name, `Drawing of ${joint.name}`),
                h('div', {}, this.values.element, this.unsaidDetails, this.advised),
            ),
        );
    }

    update(joint: JointModel, findings: Finding[]): void {
        this.small.textContent = [joint.kind, `${joint.count} in all`, joint.pieces.join(' and ')].filter(Boolean).join(' · ');
        this.values.update(joint.values.filter((one) => one.text !== ''));
        const unsaid = joint.values.filter((one) => one.text === '');
        this.unsaid.update(unsaid);
        this.unsaidDetails.hidden = unsaid.length === 0;
        this.beside.update(about(findings, joint.name));
        fillChanged(this.advice, joint.advice, (one) => h('li', {}, one));
        this.advised.hidden = joint.advice.length === 0;
    }
}

class TemplateCard {
    readonly element: HTMLElement;
    private readonly values: Figures;
    private readonly title = h('span', { class: 'quiet' });
    private readonly making = h('div', { class: 'small' });

    constructor(template: TemplateModel, use: RodUse) {
        const id = freshId('template');
        this.values = new Figures(`Figures of template ${template.name}`, use);
        this.element = h(
            'article',
            { class: 'sheet', 'aria-labelledby': id, id: anchorOf('template', template.name) },
            cardHead(id, template.name, this.title),
            h(
                'div',
                { class: 'with-drawing' },
                use.drawings.place('template', template.name, `Template ${template.name}`),
                h('div', {}, this.values.element, h('details', {}, h('summary', {}, 'Making it'), this.making)),
            ),
        );
    }

    update(template: TemplateModel): void {
        this.title.textContent = template.title;
        this.values.update(template.values);
        fillChanged(
            this.making,
            [template.making, template.guides, template.clearing, ...template.notes].filter(Boolean),
            (one) => h('p', {}, one),
        );
    }
}

/* ---- the run ---- */

function stepRow(step: Step, job: number, done: boolean): HTMLElement {
    return h(
        'tr',
        { class: done ? 'done' : '' },
        h('td', { class: 'number' }, String(step.number)),
        h(
            'td',
            {},
            h('a', { href: `#/job/${job}/run/${step.number}` }, step.name),
            done ? h('span', { class: 'quiet' }, ' (done)') : null,
        ),
        h('td', { class: 'small' }, step.tally),
        h('td', { class: 'small quiet' }, step.change),
    );
}

/* ---- all of it ---- */

export const rodPlaces = [
    ['whole', 'The piece of furniture'],
    ['pieces', 'Pieces'],
    ['joints', 'Joints'],
    ['findings', 'Findings'],
    ['templates', 'Templates'],
    ['run', 'Run'],
    ['papers', 'Papers'],
] as const;

export interface RodParts {
    whole: Child;
    addPiece: Child;
    addJoint: Child;
    papers: Child;
}

export class Rod {
    readonly element: HTMLElement;
    private readonly amounts: Figures;
    private readonly measured = h('div');
    private readonly pieces: Kept<PieceModel, PieceCard>;
    private readonly joints: Kept<JointModel, JointCard>;
    private readonly profiles: Kept<JointModel, JointCard>;
    private readonly profilesHead = h('h3', { hidden: true }, 'Shaped edges');
    private readonly templates: Kept<TemplateModel, TemplateCard>;
    private readonly findings: Beside;
    /** What keeps the text from being read as a job stands first. */
    private readonly unreadable: Beside;
    private readonly verdict = h('p', { class: 'verdict', role: 'status' });
    private readonly steps = h('tbody');
    private readonly runLines = h('p', { class: 'quiet' });
    private stepsShown = '';

    constructor(
        private readonly job: number,
        use: RodUse,
        parts: RodParts,
        private readonly isDone: (step: Step) => boolean,
    ) {
        this.amounts = new Figures('Main sizes', use);
        this.pieces = new Kept((piece) => new PieceCard(piece, use), use.drawings);
        this.joints = new Kept((joint) => new JointCard(joint, use, false), use.drawings);
        this.profiles = new Kept((joint) => new JointCard(joint, use, true), use.drawings);
        this.templates = new Kept((template) => new TemplateCard(template, use), use.drawings);
        this.findings = new Beside(use, true);
        this.unreadable = new Beside(use, true);
        const section = (id: string, ...children: Child[]) => {
            const words = rodPlaces.find((one) => one[0] === id)?.[1] ?? id,
                heading = freshId('heading');
            return h(
                'section',
                { id: `rod-${id}`, 'aria-labelledby': heading, class: 'rod-part' },
                h('h2', { id: heading, tabindex: -1 }, words),
                children,
            );
        };
        this.element = h(
            'div',
            { class: 'rod' },
            section(
                'whole',
                this.verdict,
                this.unreadable.element,
                parts.whole,
                h('h3', {}, 'Main sizes'),
                this.amounts.element,
                this.measured,
            ),
            section('pieces', this.pieces.element, parts.addPiece),
            section('joints', this.joints.element, this.profilesHead, this.profiles.element, parts.addJoint),
            section('findings', this.findings.element),
            section('templates', this.templates.element),
            section(
                'run',
                this.runLines,
                h(
                    'table',
                    { class: 'steps' },
                    h(
                        'thead',
                        {},
                        h(
                            'tr',
                            {},
                            ['Card', 'Step', 'How many', 'What changes'].map((one) => h('th', { scope: 'col' }, one)),
                        ),
                    ),
                    this.steps,
                ),
            ),
            section('papers', parts.papers),
        );
    }

    update(model: Model | null, findings: Finding[]): void {
        this.verdict.textContent = `${findingWords(findings)}.`.replace(/^./, (first) => first.toUpperCase());
        this.verdict.className = `verdict ${findings.some((one) => one.level === 'halt' || one.level === 'wrong') ? 'level-halt' : ''}`;
        this.findings.update(findings);
        this.unreadable.update(findings.filter((one) => one.level === 'wrong'));
        (this.amounts.element.previousElementSibling as HTMLElement).hidden = !model?.amounts.length;
        if (!model) return;
        this.amounts.update(model.amounts);
        fill(
            this.measured,
            model.measured.length
                ? [
                      h('h3', {}, 'As built'),
                      h('p', {}, 'These were measured and count in place of the drawn ones:'),
                      h(
                          'ul',
                          {},
                          model.measured.map((one) =>
                              h('li', {}, `${one.label}: `, h('strong', {}, one.built), ` (drawn ${one.drawn})`),
                          ),
                      ),
                  ]
                : null,
        );
        this.pieces.update(model.pieces, findings);
        this.joints.update(model.joints, findings);
        this.profiles.update(model.profiles, findings);
        this.profilesHead.hidden = model.profiles.length === 0;
        this.templates.update(model.templates, findings);
        this.runLines.textContent = model.run_lines;
        const steps = JSON.stringify(model.steps.map((one) => [one.number, one.name, one.tally, one.change, this.isDone(one)]));
        if (steps === this.stepsShown) return;
        this.stepsShown = steps;
        fill(
            this.steps,
            model.steps.map((one) => stepRow(one, this.job, this.isDone(one))),
        );
    }
}
