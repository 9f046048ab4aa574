// SPDX-License-Identifier: GPL-3.0-or-later
/* run: the job at the machine, one card at a time. Ticks and measured sizes are in the book, so that the run goes on where it
 * stopped on any device. The figures shown are those of one revision; when the desk saves another, it is said, and the maker
 * takes it when ready. */
import { type DrawingAsk, type Finding, type Model, type Step, type WholeEntry, api } from './api.js';
import { drawing, fill, h } from './dom.js';
import { findingList } from './findings.js';
import { jobHead } from './head.js';
import { stayAwake } from './run_awake.js';
import { type CardUse, cardElement, drawnSize, drawnStep, isMoved, showDone } from './run_card.js';
import { Ticks } from './run_ticks.js';
import type { View } from './view.js';
import { figures, sayWrong, setTitle } from './view.js';

const LOOK_AGAIN_MS = 15000;
const MM_PER_PX = 25.4 / 96;

function boxKey(step: Step, number: number): string {
    return `${step.key}/box/${number}`;
}

class Run {
    private model: Model | null = null;
    private drawn: Model | null = null;
    private findings: Finding[] = [];
    private at = 0;
    private last: { key: string; table: HTMLElement } | null = null;
    private readonly ticks: Ticks;
    private readonly head = h('div', { class: 'run-head' });
    private readonly news = h('div', { class: 'run-news', role: 'status' });
    private readonly hint = h('p', { class: 'run-hint', hidden: true });
    private readonly heard = h('p', { class: 'unseen', 'aria-live': 'polite' });
    private readonly place = h('main', { class: 'run', id: 'card' });
    private readonly backButton = h('button', { type: 'button', class: 'tall', onclick: () => this.go(this.at - 1) }, 'Back');
    private readonly listButton = h('button', { type: 'button', class: 'tall', onclick: () => this.list() });
    private readonly onButton = h('button', { type: 'button', class: 'tall main', onclick: () => this.tickAndGo() });
    private readonly bar = h('nav', { class: 'run-bar', 'aria-label': 'Cards' }, this.backButton, this.listButton, this.onButton);
    private timer = 0;
    private readonly leavers: (() => void)[] = [];
    private left = false;

    constructor(host: HTMLElement, private readonly job: number, private whole: WholeEntry) {
        this.ticks = new Ticks(job, whole.ticks, () => this.showTicks());
        host.append(this.head, this.hint, this.news, this.place, this.bar, this.heard);
    }

    private get steps(): Step[] {
        return this.model?.steps ?? [];
    }
    private get step(): Step | null {
        return this.steps[this.at] ?? null;
    }

    /** Reckons and shows; wanted: the card's number in the address, 0 for the first that is not ticked. */
    async open(wanted: number): Promise<void> {
        await this.reckon();
        if (this.left) return;
        this.at = wanted >= 1 ? Math.min(wanted, Math.max(1, this.steps.length)) - 1 : Math.max(0, this.firstOpen());
        this.ticks.open();
        this.show();
        this.listen();
    }

    private async reckon(): Promise<void> {
        const texts = { text: this.whole.text, shop: this.whole.shop }, ask = { figures: figures() || null, model: true };
        const now = await api.reckon({ ...texts, ...ask, job: this.job });
        const drawn = this.whole.ledger.length ? await api.reckon({ ...texts, ...ask }) : null;
        this.model = now.model ?? null;
        this.drawn = drawn?.model ?? null;
        this.findings = now.findings;
        setTitle(this.model?.job.title ?? this.whole.entry.name);
        fill(this.head, jobHead(this.job, 'run', h('span', { class: 'name' }, document.title), () => void this.again()));
    }

    /** Everything anew at the same card: after a measured size, another choice of units, a newer revision. */
    private async again(): Promise<void> {
        const key = this.step?.key;
        try {
            await this.reckon();
        } catch (fault) {
            sayWrong(fault);
            return;
        }
        const index = this.steps.findIndex((one) => one.key === key);
        this.at = index >= 0 ? index : Math.min(this.at, Math.max(0, this.steps.length - 1));
        fill(this.news);
        const y = window.scrollY;
        this.show();
        window.scrollTo(0, y);
    }

    private firstOpen(): number {
        return this.steps.findIndex((one) => !this.ticks.has(one.key));
    }

    /* ---- showing ---- */

    private show(): void {
        const step = this.step;
        this.bar.hidden = !step;
        if (!step || !this.model) {
            fill(this.place, h('h1', {}, 'There is nothing to run yet'),
                h('p', {}, this.findings.length ? 'Mend this first:' : 'The job has no steps.'),
                findingList(this.findings.filter((one) => one.level === 'wrong' || one.level === 'halt'), {}),
                h('p', {}, h('a', { class: 'button', href: `#/job/${this.job}` }, 'To the desk')));
            return;
        }
        history.replaceState(null, '', `#/job/${this.job}/run/${step.number}`);
        const picture = h('figure', { class: 'card-picture', 'aria-label': `Picture of ${step.name}`, hidden: true });
        fill(this.place, this.allDone() ? this.doneWords() : null,
            cardElement({ step, model: this.model, drawn: this.drawn, findings: this.findings, picture }, this.use(step)));
        void this.draw(step, picture);
        this.showTicks();
    }

    private use(step: Step): CardUse {
        return {
            done: this.ticks.has(step.key), waits: this.ticks.waits(step.key),
            box: (number) => this.ticks.has(boxKey(step, number)),
            tickBox: (number, done) => this.ticks.set(boxKey(step, number), done),
            untick: () => { this.ticks.set(step.key, false); this.onButton.focus(); },
            last: this.last?.key === step.key ? this.last.table : null,
            measure: {
                job: this.job, revision: () => this.whole.number,
                texts: () => ({ text: this.whole.text, shop: this.whole.shop, job: this.job }),
                keys: () => (/1\/64/.test(figures() || this.model?.job.figures || '') ? 'text' : 'decimal'),
                drawn: (one) => (this.model ? drawnSize(this.model, one) : ''),
                isNewHalt: (one) => one.level === 'halt'
                    && !this.findings.some((had) => had.code === one.code && had.about === one.about),
                accepted: async (table) => {
                    this.last = { key: step.key, table };
                    this.whole = await api.entry('jobs', this.job);
                    await this.again();
                },
            },
        };
    }

    private allDone(): boolean {
        return this.steps.length > 0 && this.firstOpen() < 0;
    }
    private doneWords(): HTMLElement {
        return h('p', { class: 'run-done' }, h('strong', {}, 'Every step is ticked: the run is done.'), ' ',
            h('a', { href: `#/job/${this.job}/papers` }, 'To the papers'));
    }

    private showBar(step: Step): void {
        const done = this.ticks.has(step.key), end = this.at === this.steps.length - 1;
        this.backButton.disabled = this.at === 0;
        this.onButton.textContent = done ? (end ? 'To what is open' : 'Go on') : end ? 'Tick' : 'Tick and go on';
        this.onButton.disabled = done && end && this.firstOpen() < 0;
    }

    /** What is ticked, on the card and in the bar; what is typed on the card stays. */
    private showTicks(): void {
        const step = this.step, card = this.place.querySelector<HTMLElement>('.card');
        if (!step || !card) return;
        showDone(card, this.use(step));
        this.showBar(step);
        const count = this.steps.filter((one) => this.ticks.has(one.key)).length, waiting = this.ticks.waiting;
        fill(this.listButton, 'Steps', h('span', { class: 'count' }, ` ${count} of ${this.steps.length} done`));
        const line = this.bar.querySelector('.not-yet');
        if (!waiting) line?.remove();
        else if (!line) this.bar.prepend(h('p', { class: 'not-yet', role: 'status' },
            'Not yet in the book: it is sent when the program answers.'));
    }

    /** The picture of the card; of a step without one that of its joint. */
    private async draw(step: Step, place: HTMLElement): Promise<void> {
        const joint = this.model?.joints.some((one) => one.name === step.joint) ? 'joint'
            : this.model?.profiles.some((one) => one.name === step.joint) ? 'profile' : null;
        const what = step.card ? 'card' : joint;
        if (!what) return;
        place.hidden = false;
        const width_mm = Math.min(400, Math.max(70, Math.floor(place.clientWidth * MM_PER_PX)));
        const ask: DrawingAsk = { what, name: what === 'card' ? step.key : step.joint, width_mm };
        try {
            const answer = await api.reckon({ text: this.whole.text, shop: this.whole.shop, job: this.job,
                figures: figures() || null, drawings: [ask] });
            const svg = answer.drawings?.[0]?.svg;
            place.hidden = !svg;
            if (svg) place.replaceChildren(still(drawing(svg)));
        } catch (fault) {
            place.hidden = true;
            if (this.step === step) sayWrong(fault);
        }
    }

    /* ---- going on ---- */

    private go(to: number): void {
        const target = Math.min(Math.max(to, 0), this.steps.length - 1);
        if (target === this.at) return;
        this.at = target;
        this.show();
        window.scrollTo(0, this.topOfCard());
        const step = this.step;
        if (step) this.heard.textContent = `Card ${step.number} of ${this.steps.length}: ${step.name}`;
    }

    /** Where the card begins when the head is not held in sight (on phones). */
    private topOfCard(): number {
        const head = this.head.querySelector('.head');
        return head && getComputedStyle(head).position === 'static' ? this.place.offsetTop : 0;
    }

    private tickAndGo(): void {
        const step = this.step;
        if (!step) return;
        const was = this.ticks.has(step.key), end = this.at === this.steps.length - 1;
        if (!was) this.ticks.set(step.key, true);
        if (end && this.firstOpen() >= 0 && was) this.go(this.firstOpen());
        else if (end) this.show();
        else this.go(this.at + 1);
    }

    private listItem(step: Step, index: number, choose: () => void): HTMLElement {
        const done = this.ticks.has(step.key), here = index === this.at;
        const quiet = (words: string): HTMLElement => h('span', { class: 'quiet' }, words);
        const mark = h('span', { class: 'mark' }, done ? '✓' : String(step.number),
            h('span', { class: 'unseen' }, done ? ' done' : ' open'));
        const moved = isMoved(step, drawnStep(this.drawn, step)) ? h('span', { class: 'moved' }, ' · moved') : null;
        const name = h('span', {}, step.name, here ? quiet(' · shown now') : null, moved,
            this.ticks.waits(step.key) ? quiet(' · not yet in the book') : null);
        return h('li', {}, h('button', { type: 'button', class: done ? 'done' : '', onclick: choose,
            ...(here ? { 'aria-current': 'step', autofocus: true } : {}) }, mark, name));
    }

    private list(): void {
        const away = (): void => dialog.close();
        const dialog = h('dialog', { class: 'run-list', 'aria-label': 'All steps' },
            h('div', { class: 'row' }, h('h2', {}, 'All steps'),
                h('button', { type: 'button', class: 'tall', onclick: away }, 'Close')),
            h('ol', {}, this.steps.map((step, index) => this.listItem(step, index, () => { dialog.close(); this.go(index); }))));
        window.addEventListener('hashchange', away);
        dialog.addEventListener('close', () => {
            window.removeEventListener('hashchange', away);
            dialog.remove();
            this.listButton.focus();
        });
        document.body.append(dialog);
        dialog.showModal();
        dialog.querySelector('[aria-current]')?.scrollIntoView({ block: 'center' });
    }

    /* ---- while it is open ---- */

    private listen(): void {
        const keys = (event: KeyboardEvent): void => {
            if (event.altKey || event.ctrlKey || event.metaKey || document.querySelector('dialog[open]')) return;
            if (event.target instanceof Element && event.target.closest('input, select, textarea, [role="slider"]')) return;
            if (event.key === 'ArrowRight') this.go(this.at + 1);
            else if (event.key === 'ArrowLeft') this.go(this.at - 1);
        };
        const seen = (): void => { if (document.visibilityState === 'visible') void this.lookAgain(); };
        document.addEventListener('keydown', keys);
        document.addEventListener('visibilitychange', seen);
        this.timer = window.setInterval(seen, LOOK_AGAIN_MS);
        this.leavers.push(() => document.removeEventListener('keydown', keys),
            () => document.removeEventListener('visibilitychange', seen),
            () => window.clearInterval(this.timer),
            stayAwake((words) => { this.hint.textContent = words; this.hint.hidden = !words; }));
        this.swipes();
    }

    /** A wide stroke sideways turns the card. */
    private swipes(): void {
        let x = 0, y = 0, on = false;
        const start = (event: TouchEvent): void => {
            on = event.touches.length === 1
                && !(event.target instanceof Element && event.target.closest('input, button, summary, a, .wide-table'));
            x = event.touches[0].clientX;
            y = event.touches[0].clientY;
        };
        const end = (event: TouchEvent): void => {
            const dx = event.changedTouches[0].clientX - x, dy = event.changedTouches[0].clientY - y;
            if (on && Math.abs(dx) > 90 && Math.abs(dy) < 45) this.go(this.at + (dx < 0 ? 1 : -1));
            on = false;
        };
        this.place.addEventListener('touchstart', start, { passive: true });
        this.place.addEventListener('touchend', end, { passive: true });
    }

    /** Ticks of other devices are taken at once; another revision or measured size is only told of, never put under the
     *  maker's hands. */
    private async lookAgain(): Promise<void> {
        let now: WholeEntry;
        try {
            now = await api.entry('jobs', this.job);
        } catch {
            return;   // the program is away for a while: ticks wait, the card stays
        }
        if (this.left) return;
        this.ticks.take(now.ticks);
        this.showTicks();
        if (now.number !== this.whole.number || now.ledger.length !== this.whole.ledger.length) this.tellNews(now);
    }

    private tellNews(now: WholeEntry): void {
        const words = now.number !== this.whole.number
            ? `The job was changed at the desk: revision ${now.number}. This card still shows revision ${this.whole.number}.`
            : 'A size was measured on another device. This card does not have it yet.';
        if (this.news.textContent?.startsWith(words)) return;
        fill(this.news, h('p', {}, words, ' ',
            h('button', { type: 'button', class: 'tall', onclick: () => { this.whole = now; void this.again(); } },
                'Show the new figures')));
    }

    leave(): void {
        this.left = true;
        this.ticks.close();
        for (const run of this.leavers) run();
    }
}

/** A drawing to look at: its texts do not act here. */
function still(svg: SVGSVGElement): SVGSVGElement {
    svg.classList.add('drawing');
    for (const text of svg.querySelectorAll('[data-from], [data-why]')) {
        for (const name of ['tabindex', 'role', 'aria-label', 'data-from', 'data-why']) text.removeAttribute(name);
        text.classList.remove('t-from');
    }
    return svg;
}

export const run: View = async (host, parts) => {
    const job = Number(parts[0]);
    const one = new Run(host, job, await api.entry('jobs', job));
    await one.open(Number(parts[2] ?? 0) || 0);
    return () => one.leave();
};
