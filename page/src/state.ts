// SPDX-License-Identifier: GPL-3.0-or-later
/* state: the job that is open at the desk: its text, what the program says of it, what may be undone.
 *
 * One question is under way at a time, and only the newest that waits behind it is asked: so a value can be dragged as fast as hand and
 * machine go, and an old answer never comes over a new one. */
import {
    type Change,
    type DrawingAsk,
    type DrawingAnswer,
    type Finding,
    type Fix,
    type Model,
    type ReckonAnswer,
    type WholeEntry,
    api,
} from './api.js';
import { Saver } from './save.js';
import { afterQuiet, figures, sayRight, sayWrong } from './view.js';

const PROVE_QUIET_MS = 400;

function findingKey(finding: Finding): string {
    return `${finding.code}\n${finding.about}\n${finding.line}`;
}

export interface Shown {
    state: ReckonAnswer['state'];
    findings: Finding[];
    model: Model | null;
    tookUs: number;
}
/** A step of undoing: a text, or the number of a revision of the book that has it. */
type Past = { text: string; why: string } | { number: number; why: string };

export class JobState {
    text: string;
    shop: number;
    shown: Shown = { state: 'wrong', findings: [], model: null, tookUs: 0 };
    /** What is tried while a value is dragged; null when what is shown is the text itself. */
    trying: Change[] | null = null;
    readonly saver: Saver;
    private past: Past[];
    private future: { text: string; why: string }[] = [];
    private lastWhy = '';
    private listeners: ((kind: 'answer' | 'text' | 'saved') => void)[] = [];
    private busy = false;
    private dirty = false;
    private waiters: (() => void)[] = [];
    /** Set by the desk: the drawings that are in sight, what becomes of them, and that what they show may have changed. */
    wantedDrawings: (dragging: boolean) => DrawingAsk[] = () => [];
    moved: () => void = () => {};
    takeDrawing: (drawing: DrawingAnswer) => void = () => {};

    constructor(
        readonly id: number,
        readonly whole: WholeEntry,
    ) {
        this.text = whole.text;
        this.shop = whole.shop;
        this.past = [...whole.revisions]
            .sort((a, b) => a.number - b.number)
            .filter((one) => one.number < whole.number)
            .map((one) => ({ number: one.number, why: one.why }));
        this.saver = new Saver(
            'jobs',
            id,
            whole.number,
            () => this.title(),
            () => this.tell('saved'),
            (text) => this.takeOther(text),
        );
    }

    title(): string {
        return this.shown.model?.job.title ?? this.whole.entry.name;
    }

    /** The maker has taken what somebody else saved; what stood here comes back by undoing. */
    private takeOther(text: string): void {
        this.past.push({ text: this.text, why: 'Took the other one' });
        this.future = [];
        this.lastWhy = '';
        this.trying = null;
        this.text = text;
        this.tell('text');
        void this.refresh();
    }

    listen(run: (kind: 'answer' | 'text' | 'saved') => void): void {
        this.listeners.push(run);
    }
    private tell(kind: 'answer' | 'text' | 'saved'): void {
        if (kind === 'text') this.moved();
        for (const run of this.listeners) run(kind);
    }

    /** Asks the program anew, as soon as it is free; resolves when an answer to this state (or a newer one) is shown. */
    refresh(): Promise<void> {
        this.dirty = true;
        const done = new Promise<void>((resolve) => this.waiters.push(resolve));
        void this.work();
        return done;
    }

    private async work(): Promise<void> {
        if (this.busy) return;
        this.busy = true;
        while (this.dirty) {
            this.dirty = false;
            const waiters = this.waiters,
                changes = this.trying;
            this.waiters = [];
            try {
                const answer = await api.reckon({
                    text: this.text,
                    shop: this.shop,
                    job: this.id,
                    figures: figures() || null,
                    model: true,
                    cards: false,
                    prove: false,
                    drawings: this.wantedDrawings(changes !== null),
                    ...(changes ? { changes } : {}),
                });
                this.show(answer);
            } catch (fault) {
                sayWrong(fault);
            }
            for (const resolve of waiters) resolve();
        }
        this.busy = false;
    }

    private show(answer: ReckonAnswer): void {
        if (!answer.good && this.trying) this.refused = answer.refused ?? [];
        else {
            this.refused = [];
            if (answer.findings.some((one) => one.fixes?.length)) this.proveSoon();
            const findings = answer.findings.map((one) => ({ ...one, fixes: this.proved.get(findingKey(one)) ?? [] }));
            this.shown = { state: answer.state, findings, model: answer.model ?? this.shown.model, tookUs: answer.took_us };
            for (const drawing of answer.drawings ?? []) this.takeDrawing(drawing);
        }
        this.tell('answer');
    }
    /* Which fixes really clear their findings takes a reckoning for each, so it is asked when the hand rests; until then a finding keeps
     * those that were proved for it before. */
    private proved = new Map<string, Fix[]>();
    private readonly proveSoon = afterQuiet(PROVE_QUIET_MS, () => void this.prove());
    private async prove(): Promise<void> {
        const { text } = this;
        if (this.trying || this.busy) return this.proveSoon();
        try {
            const { findings } = await api.reckon({ text, shop: this.shop, job: this.id, figures: figures() || null });
            if (text !== this.text || this.trying) return;
            this.proved = new Map(findings.map((one) => [findingKey(one), one.fixes ?? []]));
            this.shown = { ...this.shown, findings };
            this.tell('answer');
        } catch (fault) {
            sayWrong(fault);
        }
    }

    /** Why the value that is tried cannot be. */
    refused: Finding[] = [];

    /** Shows what changes would give, without keeping them; null ends the trying. */
    async attempt(changes: Change[] | null): Promise<void> {
        this.trying = changes;
        this.moved();
        await this.refresh();
    }

    /** Makes changes and keeps them. Gives what stands against it, [] when they were made. */
    async apply(changes: Change[], why: string): Promise<Finding[]> {
        this.trying = null;
        this.moved();
        try {
            const text = this.text,
                answer = await api.reckon({ text, shop: this.shop, job: this.id, changes });
            if (text !== this.text) return await this.apply(changes, why); // something else was changed meanwhile: this goes on top of it
            if (!answer.good) {
                void this.refresh();
                return answer.refused?.length ? answer.refused : answer.findings;
            }
            this.setText(answer.text ?? this.text, why);
            sayRight();
            return [];
        } catch (fault) {
            sayWrong(fault);
            return [
                {
                    level: 'wrong',
                    code: 'away',
                    about: '',
                    file: '',
                    line: 0,
                    column: 0,
                    what: 'This was not changed',
                    remedy: 'try again',
                },
            ];
        }
    }

    /** Takes a new text and saves it. Changes of the same kind in a row (typing) are undone together. */
    setText(text: string, why: string, save = true): void {
        if (text === this.text) return;
        const joins = why === 'Typed in the text' && this.lastWhy === why && this.past.length > 0;
        if (!joins) this.past.push({ text: this.text, why });
        this.future = [];
        this.lastWhy = why;
        this.text = text;
        this.tell('text');
        if (save) this.saver.save(text, why);
        else this.saver.keepHere(text);
        void this.refresh();
    }

    /** The typing has come to rest: what comes next is undone by itself. */
    rest(): void {
        this.lastWhy = '';
    }

    get undoWhy(): string | null {
        return this.past.length ? this.past[this.past.length - 1].why : null;
    }
    get redoWhy(): string | null {
        return this.future.length ? this.future[this.future.length - 1].why : null;
    }

    /** Undoing may have to ask the book; steps that are asked for meanwhile wait for it, in their order. */
    private inTurn: Promise<void> = Promise.resolve();
    private wait(run: () => void | Promise<void>): Promise<void> {
        const mine = this.inTurn.then(run);
        this.inTurn = mine.catch(() => {});
        return mine;
    }

    undo(): Promise<void> {
        return this.wait(() => this.undoOne());
    }
    redo(): Promise<void> {
        return this.wait(() => this.redoOne());
    }
    private async undoOne(): Promise<void> {
        const step = this.past[this.past.length - 1];
        if (!step) return;
        const text = 'text' in step ? step.text : (await api.text('jobs', this.id, step.number)).text;
        if (this.past[this.past.length - 1] !== step) return; // something new was made meanwhile: that stands
        this.past.pop();
        this.future.push({ text: this.text, why: step.why });
        this.become(text, `Undone: ${step.why || 'the last change'}`);
    }
    private redoOne(): void {
        const step = this.future.pop();
        if (!step) return;
        this.past.push({ text: this.text, why: step.why });
        this.become(step.text, `Done again: ${step.why || 'the change'}`);
    }
    private become(text: string, why: string): void {
        this.lastWhy = '';
        this.trying = null;
        this.text = text;
        this.tell('text');
        this.saver.save(text, why);
        void this.refresh();
    }
}
