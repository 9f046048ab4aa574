// SPDX-License-Identifier: GPL-3.0-or-later
/* shop: the text of a shop: machine, cutters, followers, spacers. It is checked by reckoning the job that was changed last with
 * it, and saved when it is asked for, so that no half-typed size gets into other jobs. */
import { type Entry, type Finding, type WholeEntry, api } from './api.js';
import { download, fileStem } from './book_files.js';
import { fill, h, whenWords } from './dom.js';
import { findingList, findingWords } from './findings.js';
import { Saver, dropDraft, keptDraft } from './save.js';
import { TextField } from './text.js';
import { type View, afterQuiet, question, say, sayWrong, setTitle } from './view.js';

const TYPING_QUIET_MS = 400;

class Shop {
    private readonly field: TextField;
    private readonly saver: Saver;
    private readonly state = h('span', { class: 'quiet small', role: 'status' });
    private readonly saveButton = h('button', { type: 'button', class: 'main', onclick: () => this.save() }, 'Save');
    private readonly found = h('div', { class: 'sheet', 'aria-live': 'polite' });
    private savedText: string;
    private readonly checkSoon = afterQuiet(TYPING_QUIET_MS, () => void this.check());
    private turn = 0;

    constructor(host: HTMLElement, private readonly id: number, private readonly whole: WholeEntry,
        private readonly job: { entry: Entry; text: string } | null) {
        this.savedText = whole.text;
        this.field = new TextField('The text of the shop', () => { this.saver.keepHere(this.field.text); this.checkSoon(); });
        this.saver = new Saver('shops', id, whole.number, () => whole.entry.name, () => this.showState(),
            (text) => this.take(text));
        host.append(h('header', { class: 'head' }, h('div', {}, h('a', { href: '#/' }, 'Book'),
            h('span', { class: 'name' }, whole.entry.name), this.state,
            h('button', { type: 'button', onclick: () => download(this.field.text, `${fileStem(whole.entry.name)}.yaml`,
                'application/yaml') }, 'Save as file'), this.saveButton)),
        h('main', { class: 'shop' }, h('h1', {}, whole.entry.name),
            h('p', { class: 'quiet' }, 'All jobs with this shop are reckoned anew with what is saved here.'),
            this.field.element, this.found));
    }

    /** The text that somebody else has saved stands here now. */
    private take(text: string): void {
        this.saving = null;
        this.savedText = text;
        this.field.text = text;
        void this.check();
    }

    async open(): Promise<void> {
        const draft = keptDraft('shops', this.id);
        this.field.text = this.whole.text;
        if (draft && draft.text !== this.whole.text) await this.offerDraft(draft.text, draft.when);
        else dropDraft('shops', this.id);
        this.showState();
        await this.check();
    }

    private async offerDraft(text: string, when: number): Promise<void> {
        const answer = await question('There is a text that was not saved',
            h('p', {}, `It was typed ${whenWords(when / 1000)} in this browser.`),
            [{ label: 'Go on with it', value: 'take', main: true }, { label: 'Drop it', value: 'drop', danger: true },
                { label: 'Leave it for later', value: '' }]);
        if (answer === 'take') {
            this.field.text = text;
            this.saver.keepHere(text);
        } else if (answer === 'drop') dropDraft('shops', this.id);
    }

    private get changed(): boolean {
        return this.field.text !== this.savedText;
    }

    private showState(): void {
        const { saver } = this, saved = `Revision ${saver.number}, saved`;
        const words = { saved, saving: 'Saving …', waiting: this.changed ? 'Changed, not saved' : saved,
            failed: 'Not saved; kept on this page' };
        if (saver.state === 'saved' && this.saving !== null) {
            this.savedText = this.saving;
            this.saving = null;
            say(`Saved: revision ${saver.number}`);
        }
        this.state.textContent = words[saver.state];
        this.saveButton.disabled = !this.changed && saver.state !== 'failed';
    }

    private saving: string | null = null;
    private save(): void {
        this.saving = this.field.text;
        this.saver.save(this.field.text, 'Changed the text of the shop');
    }

    /** Reckons a job with it; what stands against the shop itself is marked in the text, the rest told below. */
    private async check(): Promise<void> {
        const turn = ++this.turn, text = this.field.text;
        this.showState();
        if (!this.job) {
            fill(this.found, h('p', { class: 'quiet' }, 'It is checked as soon as there is a job to reckon with it.'));
            return;
        }
        try {
            const { findings } = await api.reckon({ text: this.job.text, shop_text: text });
            if (turn === this.turn) this.show(findings);
        } catch (fault) {
            sayWrong(fault);
        }
    }

    private show(findings: Finding[]): void {
        const ofShop = (one: Finding): boolean => /^shop\b|\/shop/.test(one.file);
        const own = findings.filter(ofShop), rest = findings.filter((one) => !ofShop(one));
        this.field.show(own);
        fill(this.found, h('h2', {}, 'Checked with ', this.job?.entry.name ?? ''),
            h('p', {}, own.length ? `In the shop's text: ${findingWords(own)}.` : 'Nothing stands against the shop\'s text.'),
            findingList(own.filter((one) => one.level !== 'wrong'), { show: (one) => this.field.go(one.line, one.column) }),
            rest.length ? [h('p', {}, `In the job: ${findingWords(rest)}.`),
                findingList(rest.filter((one) => one.level === 'halt'), {})] : null);
    }

    /** What is not saved lies in this browser until the shop is opened again. */
    leave(): void {
        if (this.changed) say('The shop is not saved; its text is kept in this browser');
    }
}

async function newestJob(shop: number): Promise<{ entry: Entry; text: string } | null> {
    const { entries } = await api.list('jobs');
    let first: { entry: Entry; text: string } | null = null;
    for (const entry of entries.slice(0, 8)) {
        const whole = await api.entry('jobs', entry.id);
        if (whole.shop === shop) return { entry, text: whole.text };
        first ??= { entry, text: whole.text };
    }
    return first;
}

export const shop: View = async (host, parts) => {
    const id = Number(parts[0]), whole = await api.entry('shops', id);
    setTitle(whole.entry.name);
    const one = new Shop(host, id, whole, await newestJob(id));
    await one.open();
    return () => one.leave();
};
