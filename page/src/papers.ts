// SPDX-License-Identifier: GPL-3.0-or-later
/* papers: all that is made of a job: the booklet, single sheets, files for other machines. They are made by the program, one set
 * for each revision; this page shows how far it is, and hands them out. */
import { type PaperFile, type WholeEntry, api } from './api.js';
import { sizeWords } from './book_files.js';
import { type Child, fill, h } from './dom.js';
import { jobHead } from './head.js';
import { viewSheets } from './papers_viewer.js';
import { sentence } from './run_parts.js';
import type { View } from './view.js';
import { sayRight, sayWrong, setTitle } from './view.js';

const LOOK_MS = 300;

/** Kinds of files in the order in which they are shown. A sheet is seen on the page, the rest is for other programs. */
const groups: { kind: string; title: string; words: string }[] = [
    { kind: 'pdf', title: 'Papers to print', words: 'Each paper by itself.' },
    { kind: 'svg', title: 'Single sheets', words: 'Sheet by sheet, to look at here or to print.' },
    { kind: 'dxf', title: 'Outlines for cutting machines (DXF)', words: 'Millimetres, true arcs.' },
    { kind: 'stl', title: 'Solids (STL)',
        words: 'Pieces with all their cuts, and templates with their holes, to turn on a screen or to print.' },
    { kind: 'csv', title: 'Tables (CSV)', words: '' }, { kind: 'json', title: 'Every figure (JSON)', words: '' },
    { kind: 'yaml', title: 'The texts of job and shop', words: 'Bring them into another book, or keep them by themselves.' },
];

const shownInBrowsers = ['pdf', 'svg', 'csv', 'json', 'yaml'];

const WHAT_IS_MADE = 'Booklet, templates true to size, setup cards, run sheet, drawings, cutting list, files for other machines.';

class Papers {
    private readonly make = h('div', { class: 'papers-make' });
    private readonly list = h('div', {});
    private work = 0;
    private left = false;

    constructor(host: HTMLElement, private readonly job: number, private readonly whole: WholeEntry, title: string) {
        const head = jobHead(job, 'papers', h('span', { class: 'name' }, title), () => {});
        head.querySelector('.figures')?.remove();   // papers are written as the job says
        const built = whole.ledger.length ? ' Sizes measured at the machine count in them.' : '';
        host.append(head, h('main', { class: 'papers' }, h('h1', {}, 'Papers'),
            h('p', { class: 'quiet' }, `Of revision ${whole.number}; sizes are written as the job says.${built}`),
            this.make, this.list));
    }

    async open(): Promise<void> {
        const { ready, files } = await api.papers(this.job, this.whole.number);
        if (ready) this.show(files);
        else {
            this.offer('');
            this.listFiles(files);   // the texts of job and shop are there without making
        }
    }

    private offer(words: string): void {
        const button = h('button', { type: 'button', class: 'main', onclick: () => void this.start() },
            words ? 'Make them again' : 'Make the papers');
        fill(this.make, words ? h('p', { role: 'status' }, words) : h('p', {}, WHAT_IS_MADE), button);
    }

    private async start(): Promise<void> {
        sayRight();
        try {
            this.work = (await api.booklet(this.job, this.whole.number)).work;
            await this.follow();
        } catch (fault) {
            sayWrong(fault);
            this.offer('');
        }
    }

    private async follow(): Promise<void> {
        const bar = h('progress', { 'aria-label': 'How much is done' }),
            words = h('p', { role: 'status' }, 'The papers are being made.');
        const stop = h('button',
            { type: 'button', onclick: () => { stop.disabled = true; void api.stop(this.work).catch(sayWrong); } }, 'Stop');
        fill(this.make, words, bar, stop);
        stop.focus();
        while (!this.left) {
            const now = await api.work(this.work);
            if (now.of > 0) {
                bar.max = now.of;
                bar.value = now.done;
            }
            const done = now.of > 0 ? `${now.done} of ${now.of} done` : 'begun';
            words.textContent = `The papers are being made: ${done}${now.what ? `, now ${now.what}` : ''}.`;
            if (now.state === 'done') return this.finished();
            if (now.state !== 'working') return this.offer(now.state === 'stopped' ? 'Stopped. No papers were made.'
                : sentence(now.error || 'The papers could not be made'));
            await new Promise((resolve) => window.setTimeout(resolve, LOOK_MS));
        }
    }

    private async finished(): Promise<void> {
        const { files } = await api.papers(this.job, this.whole.number);
        if (this.left) return;
        this.show(files);
        this.list.querySelector<HTMLElement>('.first a')?.focus();
    }

    /* ---- the list ---- */

    private address(file: PaperFile, show: boolean): string {
        return api.paperAddress(this.job, this.whole.number, file.name, show);
    }

    private show(files: PaperFile[]): void {
        fill(this.make, h('p', { role: 'status' },
            'The papers are ready. Print at 100 %, never “fit to page”, and lay a rule on the scale bar.'));
        this.listFiles(files);
    }

    private listFiles(files: PaperFile[]): void {
        const booklet = files.find((one) => one.name === 'booklet.pdf'), rest = files.filter((one) => one !== booklet);
        fill(this.list, booklet ? this.paper(booklet, rest, true) : null, groups.map(({ kind, title, words }) => {
            const of = rest.filter((one) => one.kind === kind);
            if (!of.length) return null;
            return h('section', {}, h('h2', {}, title), words ? h('p', { class: 'quiet' }, words) : null,
                kind === 'svg' ? this.sheets(of) : of.map((one) => this.paper(one, of, false)));
        }));
    }

    /** Many: seen one after the other, or each by itself. */
    private sheets(of: PaperFile[]): Child[] {
        return [h('p', {}, h('button', { type: 'button', class: 'all-sheets', onclick: () => this.view(of, 0) },
            `See all ${of.length}, sheet by sheet`)),
            h('details', {}, h('summary', {}, 'Each sheet by itself'), of.map((one) => this.paper(one, of, false)))];
    }
    private view(files: PaperFile[], first: number): void {
        viewSheets(files, first, (one, show) => this.address(one, show));
    }

    private about(file: PaperFile): string {
        const pages = file.pages > 1 ? `${file.pages} pages, ` : file.pages === 1 ? '1 page, ' : '';
        return `${file.name} · ${pages}${sizeWords(file.bytes)}`;
    }

    private paper(file: PaperFile, siblings: PaperFile[], first: boolean): HTMLElement {
        const named = (words: string): Record<string, string> => ({ 'aria-label': `${words}: ${file.title}` });
        const printed = file.kind === 'pdf', see = printed ? 'See and print' : 'See';
        const look = (): HTMLElement => (file.kind === 'svg'
            ? h('button', { type: 'button', ...named(see), onclick: () => this.view(siblings, siblings.indexOf(file)) }, see)
            : h('a', { class: 'button', ...named(see), href: this.address(file, true), target: '_blank', rel: 'noopener' }, see));
        return h('article', { class: first ? 'paper first' : 'paper', 'data-name': file.name },
            h('div', {}, h(first ? 'h2' : 'h3', {}, file.title), file.purpose ? h('p', {}, sentence(file.purpose)) : null,
                file.true_size ? h('p', { class: 'true-size' }, printed ? 'True to size: print at 100 %.' : 'True to size.')
                    : null,
                h('p', { class: 'quiet small' }, this.about(file))),
            h('div', { class: 'row acts' }, shownInBrowsers.includes(file.kind) ? look() : null,
                h('a', { class: first ? 'button main' : 'button', ...named('Download'), href: this.address(file, false),
                    download: '' }, 'Download')));
    }

    leave(): void {
        this.left = true;
    }
}

export const papers: View = async (host, parts) => {
    const job = Number(parts[0]), whole = await api.entry('jobs', job);
    const { model } = await api.reckon({ text: whole.text, shop: whole.shop, job, model: true });
    const title = model?.job.title ?? whole.entry.name;
    setTitle(title);
    const one = new Papers(host, job, whole, title);
    await one.open();
    return () => one.leave();
};
