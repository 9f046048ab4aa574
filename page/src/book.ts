// SPDX-License-Identifier: GPL-3.0-or-later
/* book: all jobs and shops, with search, copy, bin and the ways in and out. Nothing is ever deleted: what is binned can be taken
 * out again. */
import { type Entry, type Shelf, api } from './api.js';
import { beginPart } from './book_begin.js';
import { bringFiles } from './book_bring.js';
import { fill, h, whenWords } from './dom.js';
import { download, fileStem } from './book_files.js';
import { Tablet } from './book_tablet.js';
import { sendWaiting } from './run_ticks.js';
import type { View } from './view.js';
import { afterQuiet, askLine, say, sayRight, sayWrong, setTitle } from './view.js';

const words: Record<Shelf, { one: string; address: (id: number) => string }> = {
    jobs: { one: 'job', address: (id) => `#/job/${id}` }, shops: { one: 'shop', address: (id) => `#/shop/${id}` },
};

const WELCOME_WORDS = 'The book has no job yet. Choose something to begin with, or bring a job file: all of it can be changed.';
const SHOP_WORDS = 'What a shop owns: the machine, cutters, followers, spacers. Each job is reckoned with one.';

class Book {
    private readonly jobs = h('div', { class: 'entries' });
    private readonly shops = h('div', { class: 'entries' });
    private readonly bin = h('div', { class: 'entries' });
    private readonly begin = h('section', { 'aria-labelledby': 'begin-title' });
    private readonly counted = h('p', { class: 'quiet', 'aria-live': 'polite' });
    private readonly welcome = h('div', {});
    private readonly bringRow = h('div', { class: 'row' });
    private readonly jobsHead = h('div', { class: 'row between-ends' }, h('h1', { id: 'jobs-title' }, 'Jobs'));
    private readonly search = h('input', { type: 'search', id: 'search', autocomplete: 'off', maxlength: 200,
        oninput: afterQuiet(200, () => void this.refresh()) });
    private readonly tablet = new Tablet();
    private turn = 0;
    private left = false;

    constructor(private readonly host: HTMLElement) {}

    async open(): Promise<void> {
        const files = h('input', { type: 'file', id: 'bring', multiple: true, accept: '.yaml,.yml,.txt', class: 'unseen',
            onchange: () => { void this.bring([...(files.files ?? [])]); files.value = ''; } });
        this.bringRow.append(files, h('label', { for: 'bring', class: 'button' }, 'Bring files'));
        const binned = h('details', { class: 'bin', ontoggle: () => { if (binned.open) void this.showBin(); } },
            h('summary', {}, 'The bin'), this.bin);
        this.host.append(this.head(), h('main', { class: 'book' }, this.welcome,
            h('section', { 'aria-labelledby': 'jobs-title', class: 'jobs' }, this.jobsHead, this.counted, this.jobs), this.begin,
            h('section', { 'aria-labelledby': 'shops-title' }, h('h2', { id: 'shops-title' }, 'Shops'),
                h('p', { class: 'quiet' }, SHOP_WORDS), this.shops), binned, this.tablet.element));
        this.drops();
        fill(this.begin, await beginPart());
        await this.refresh();
        void sendWaiting();
    }

    private head(): HTMLElement {
        return h('header', { class: 'head' }, h('div', {}, h('span', { class: 'name' }, 'Tuskwright'),
            h('label', { for: 'search' }, 'Search'), this.search));
    }

    private async refresh(): Promise<void> {
        const turn = ++this.turn, asked = this.search.value.trim();
        try {
            const [jobs, shops] = await Promise.all([api.list('jobs', asked), api.list('shops', asked)]);
            if (turn !== this.turn || this.left) return;
            fill(this.jobs, jobs.entries.map((one) => this.item('jobs', one)));
            fill(this.shops, shops.entries.length ? shops.entries.map((one) => this.item('shops', one))
                : h('p', { class: 'quiet' }, asked ? 'No shop has these words.'
                    : 'There is none yet: the first job brings one.'));
            const count = jobs.entries.length;
            this.counted.textContent = asked
                ? `${count === 0 ? 'No job has' : count === 1 ? '1 job has' : `${count} jobs have`} these words.` : '';
            this.empty(count === 0 && !asked);
        } catch (fault) {
            sayWrong(fault);
        }
    }

    /** An empty book shows the designs first. */
    private empty(is: boolean): void {
        const section = this.jobs.closest('section');
        if (!section) return;
        fill(this.welcome, is ? [h('h1', {}, 'Welcome'), h('p', {}, WELCOME_WORDS), this.bringRow] : null);
        if (!is) this.jobsHead.append(this.bringRow);
        (is ? this.welcome : section).after(this.begin);
        section.classList.toggle('empty', is);
    }

    private async showBin(): Promise<void> {
        try {
            const [jobs, shops] = await Promise.all([api.list('jobs', '', true), api.list('shops', '', true)]);
            const all = [...jobs.entries.map((one) => this.binItem('jobs', one)),
                ...shops.entries.map((one) => this.binItem('shops', one))];
            fill(this.bin, all.length ? all : h('p', { class: 'quiet' }, 'The bin is empty.'));
        } catch (fault) {
            sayWrong(fault);
        }
    }

    private item(shelf: Shelf, one: Entry): HTMLElement {
        const act = (label: string, run: () => Promise<void>): HTMLElement => h('button', { type: 'button', class: 'plain',
            'aria-label': `${label}: ${one.name}`, onclick: () => void this.attempt(run) }, label);
        const run = shelf === 'jobs' ? h('a', { class: 'button', href: `#/job/${one.id}/run`,
            'aria-label': `At the machine: ${one.name}` }, 'At the machine') : null;
        const when = `changed ${whenWords(one.changed_s)} · revision ${one.newest}${one.from ? ' · a copy' : ''}`;
        return h('article', { class: 'entry', 'data-id': one.id },
            h(shelf === 'jobs' ? 'h2' : 'h3', { class: 'entry-name' }, h('a', { href: words[shelf].address(one.id) }, one.name)),
            h('p', { class: 'quiet small' }, when),
            h('div', { class: 'row acts' }, run, act('Copy', () => this.copy(shelf, one)),
                act('Rename', () => this.rename(shelf, one)), act('Save as file', () => saveAsFile(shelf, one)),
                act('Bin', () => this.toBin(shelf, one))));
    }

    private binItem(shelf: Shelf, one: Entry): HTMLElement {
        const out = (): void => void this.attempt(() => this.takeOut(shelf, one));
        return h('article', { class: 'entry' }, h('h2', { class: 'entry-name' }, one.name),
            h('p', { class: 'quiet small' }, `${words[shelf].one}, in the bin since ${whenWords(one.binned_s)}`),
            h('div', { class: 'row acts' },
                h('button', { type: 'button', 'aria-label': `Take out: ${one.name}`, onclick: out }, 'Take out')));
    }

    private async attempt(run: () => Promise<void>): Promise<void> {
        try {
            sayRight();
            await run();
        } catch (fault) {
            sayWrong(fault);
        }
    }

    private async copy(shelf: Shelf, one: Entry): Promise<void> {
        const name = await askLine('Copy', 'Name of the copy', `${one.name}, copy`, 'Copy');
        if (!name) return;
        await api.copy(shelf, one.id, name);
        await this.refresh();
        say(`Copied: ${name}`);
    }
    private async rename(shelf: Shelf, one: Entry): Promise<void> {
        const name = await askLine('Rename', 'New name in the book', one.name, 'Rename');
        if (!name || name === one.name) return;
        await api.rename(shelf, one.id, name);
        await this.refresh();
        say(`Renamed: ${name}`);
    }
    private async toBin(shelf: Shelf, one: Entry): Promise<void> {
        await api.bin(shelf, one.id);
        await this.refresh();
        if (this.bin.closest('details')?.open) await this.showBin();
        this.search.focus();
        say(`In the bin: ${one.name}`, { label: 'Undo', run: () => void this.attempt(() => this.takeOut(shelf, one)) });
    }
    private async takeOut(shelf: Shelf, one: Entry): Promise<void> {
        await api.unbin(shelf, one.id);
        await this.refresh();
        if (this.bin.closest('details')?.open) await this.showBin();
        say(`Out of the bin: ${one.name}`);
    }

    /* ---- files ---- */

    private async bring(files: File[]): Promise<void> {
        await this.attempt(async () => {
            const brought = await bringFiles(files);
            if (brought.length === 1) say(`In the book: ${brought[0]}`);
            else if (brought.length) say(`${brought.length} files are in the book`);
        });
        await this.refresh();
    }

    private drops(): void {
        const over = (event: DragEvent): void => {
            if (!event.dataTransfer?.types.includes('Files')) return;
            event.preventDefault();
            this.host.classList.toggle('dropping', event.type === 'dragover');
        };
        this.host.addEventListener('dragover', over);
        this.host.addEventListener('dragleave', over);
        this.host.addEventListener('drop', (event) => {
            over(event);
            void this.bring([...(event.dataTransfer?.files ?? [])]);
        });
    }

    leave(): void {
        this.left = true;
        this.tablet.leave();
    }
}

async function saveAsFile(shelf: Shelf, one: Entry): Promise<void> {
    const whole = await api.entry(shelf, one.id);
    download(whole.text, `${fileStem(one.name)}.yaml`, 'application/yaml');
    say(`Saved as a file: ${one.name}, revision ${whole.number}`);
}

export const book: View = async (host) => {
    setTitle('Tuskwright');
    const one = new Book(host);
    try {
        await one.open();
    } catch (fault) {
        one.leave();
        throw fault;
    }
    return () => one.leave();
};
