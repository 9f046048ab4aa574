// SPDX-License-Identifier: GPL-3.0-or-later
/* save: a text of the book, saved revision by revision. One save at a time; what was typed meanwhile is saved after it. Until a save is
 * answered, the text lies in this browser's own store too, so that a crash of either side loses nothing. When somebody else has saved
 * in between, the maker chooses; nothing is ever saved over without being asked. */
import { type Shelf, Refused, api } from './api.js';
import { h } from './dom.js';
import { question, say, sayRight, sayWrong } from './view.js';

export type SaveState = 'saved' | 'waiting' | 'saving' | 'failed';

export interface Draft {
    text: string;
    number: number;
    when: number;
}

function draftKey(shelf: Shelf, id: number): string {
    return `draft/${shelf}/${id}`;
}
/** What was not saved when the page was last left, or null. */
export function keptDraft(shelf: Shelf, id: number): Draft | null {
    try {
        const kept = JSON.parse(localStorage.getItem(draftKey(shelf, id)) ?? 'null') as Draft | null;
        return kept && typeof kept.text === 'string' && typeof kept.number === 'number' ? kept : null;
    } catch {
        return null;
    }
}
export function dropDraft(shelf: Shelf, id: number): void {
    localStorage.removeItem(draftKey(shelf, id));
}

export class Saver {
    state: SaveState = 'saved';
    private wanted: { text: string; why: string; shop?: number } | null = null;
    private busy = false;

    /** number: the newest revision known here. `theirs` is called when the maker takes the text that somebody else has saved. */
    constructor(
        readonly shelf: Shelf,
        readonly id: number,
        public number: number,
        readonly name: () => string,
        private readonly changed: () => void,
        private readonly theirs: (text: string, number: number) => void,
    ) {}

    /** Keeps the text here without saving it: it cannot be read as a job yet. */
    keepHere(text: string): void {
        try {
            localStorage.setItem(
                draftKey(this.shelf, this.id),
                JSON.stringify({ text, number: this.number, when: Date.now() } satisfies Draft),
            );
        } catch {
            /* no room for it in this browser: it is saved in the book all the same */
        }
        this.state = 'waiting';
        this.changed();
    }

    save(text: string, why: string, shop?: number): void {
        this.wanted = { text, why, ...(shop === undefined ? {} : { shop }) };
        this.keepHere(text);
        void this.work();
    }

    /** Tries again what could not be saved. */
    again(): void {
        void this.work();
    }

    get pending(): boolean {
        return this.state !== 'saved';
    }

    private async work(): Promise<void> {
        if (this.busy) return;
        this.busy = true;
        while (this.wanted) {
            const now = this.wanted;
            this.state = 'saving';
            this.changed();
            try {
                this.number = (await api.save(this.shelf, this.id, this.number, now.text, now.why, now.shop)).number;
                if ((this.state as SaveState) === 'failed') sayRight();
                if (this.wanted === now) {
                    this.wanted = null;
                    dropDraft(this.shelf, this.id);
                    this.state = 'saved';
                }
            } catch (fault) {
                this.state = 'failed';
                if (!(fault instanceof Refused && fault.status === 409 && typeof fault.answer.newest === 'number')) {
                    sayWrong(fault);
                    break;
                }
                if (
                    !(await this.conflict(fault.answer.newest).catch((other) => {
                        sayWrong(other);
                        return false;
                    }))
                )
                    break;
            }
            this.changed();
        }
        this.busy = false;
        this.changed();
    }

    /** Asks what is to become of two changes of one revision. False: it stays open; the text stays here, and the head says that it is not saved. */
    private async conflict(newest: number): Promise<boolean> {
        const other = await api.text(this.shelf, this.id, newest);
        const choice = await question(
            'Somebody else has changed this too',
            [
                h(
                    'p',
                    {},
                    `While you worked from revision ${this.number}, revision ${newest} was saved in another window or on another device${other.why ? `: ${other.why}` : ''}.`,
                ),
                h(
                    'p',
                    {},
                    'Nothing is lost whichever you choose: what was saved there stays in the book, and yours comes back by Undo.',
                ),
            ],
            [
                { label: 'Keep both: mine as a copy', value: 'both', main: true },
                { label: 'Put mine over it', value: 'mine' },
                { label: 'Take the other one', value: 'theirs' },
            ],
        );
        if (choice === 'theirs') {
            this.wanted = null;
            this.number = newest;
            dropDraft(this.shelf, this.id);
            this.state = 'saved';
            this.theirs(other.text, newest);
        } else if (choice === 'mine') {
            this.number = newest;
        } else if (choice === 'both') {
            const made = await api.branch(
                this.shelf,
                this.id,
                this.number,
                `${this.name()}, other copy`,
                this.wanted?.text ?? '',
                'Kept beside another change',
            );
            this.wanted = null;
            dropDraft(this.shelf, this.id);
            this.state = 'saved';
            say('Yours is now a job of its own');
            location.hash = this.shelf === 'jobs' ? `#/job/${made.id}` : `#/shop/${made.id}`;
        }
        return choice !== '';
    }
}
