// SPDX-License-Identifier: GPL-3.0-or-later
/* run_ticks: ticks go into the book. One that could not be sent waits in this browser, with its job, and is sent again when the
 * program answers; so nothing that was ticked at the machine is lost when the radio or the program is away for a while. */
import { type Tick, Refused, api } from './api.js';
import { sayWrong } from './view.js';

interface Waiting { job: number; step: string; done: boolean; turn: number }

const STORE = 'ticks-not-yet-in-the-book';
const AGAIN_MS = 4000;
let turns = Date.now();

function waitingAll(): Waiting[] {
    try {
        const kept: unknown = JSON.parse(localStorage.getItem(STORE) ?? '[]');
        return Array.isArray(kept) ? (kept as Waiting[]).filter((one) => typeof one.step === 'string'
            && typeof one.job === 'number') : [];
    } catch {
        return [];
    }
}
function keep(list: Waiting[]): void {
    if (list.length) localStorage.setItem(STORE, JSON.stringify(list));
    else localStorage.removeItem(STORE);
}

/** The ticks of one job: those of the book, and over them those that are not yet in it. */
export class Ticks {
    private book = new Map<string, boolean>();

    /** changed: what is done, or what waits, is another than before. */
    constructor(private readonly job: number, first: readonly Tick[], private readonly changed: () => void) {
        this.take(first);
    }

    /** What the book says now. */
    take(ticks: readonly Tick[]): void {
        this.book = new Map(ticks.map((one) => [one.step, one.done]));
    }
    has(step: string): boolean {
        return this.mine().find((one) => one.step === step)?.done ?? this.book.get(step) ?? false;
    }
    waits(step: string): boolean {
        return this.mine().some((one) => one.step === step);
    }
    get waiting(): number {
        return this.mine().length;
    }
    set(step: string, done: boolean): void {
        turns += 1;
        keep([...waitingAll().filter((one) => one.job !== this.job || one.step !== step),
            { job: this.job, step, done, turn: turns }]);
        this.changed();
        void sendWaiting();
    }
    /** The program took it. */
    sent(ticks: readonly Tick[]): void {
        this.take(ticks);
        this.changed();
    }
    open(): void {
        shown.set(this.job, this);
        void sendWaiting();
    }
    close(): void {
        if (shown.get(this.job) === this) shown.delete(this.job);
    }
    private mine(): Waiting[] {
        return waitingAll().filter((one) => one.job === this.job);
    }
}

const shown = new Map<number, Ticks>();
let busy = false, timer = 0, said = '';

async function sendOne(next: Waiting): Promise<void> {
    const { ticks } = await api.tick(next.job, next.step, next.done);
    keep(waitingAll().filter((one) => one.turn !== next.turn || one.job !== next.job || one.step !== next.step));
    shown.get(next.job)?.sent(ticks);
}

/** Sends what waits, oldest first; what fails is tried again in a while. A tick of a job that is no longer there is let go. */
export async function sendWaiting(): Promise<void> {
    window.clearTimeout(timer);
    if (busy) return;
    busy = true;
    let next: Waiting | undefined;
    try {
        while ((next = waitingAll().sort((a, b) => a.turn - b.turn)[0])) await sendOne(next);
    } catch (fault) {
        const gone = fault instanceof Refused && fault.status === 404;
        if (gone) keep(waitingAll().filter((one) => one.job !== next?.job));
        if (String(fault) !== said && !(fault instanceof Refused && fault.status === 0)) sayWrong(fault);   // not each time
        said = String(fault);
        timer = window.setTimeout(() => void sendWaiting(), AGAIN_MS);
    } finally {
        busy = false;
    }
}
window.addEventListener('online', () => void sendWaiting());
