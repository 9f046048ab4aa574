// SPDX-License-Identifier: GPL-3.0-or-later
/* whole: the piece of furniture at the head of the rod: as three views, as a picture, drawn apart, or as a body to turn and point at. */
import { type Change, type FaceSpot, type Texts, api } from './api.js';
import { fill, h } from './dom.js';
import type { Drawings } from './place.js';
import { afterQuiet, sayWrong } from './view.js';

/** What solid.ts gives; it comes as a bundle of its own, since most visits do without it. */
interface SolidModule {
    openSolid: (host: HTMLElement, use: { picked: (spot: FaceSpot) => void }) => SolidView;
}
interface SolidView {
    update: (data: unknown) => void;
    close: () => void;
}

const choices = [
    ['picture', 'Picture'],
    ['whole', 'Three views'],
    ['apart', 'Drawn apart'],
    ['turn', 'Turn it'],
] as const;
type Choice = (typeof choices)[number][0];
const QUIET_MS = 120;

export class WholeView {
    readonly element: HTMLElement;
    private readonly stage = h('div', { class: 'stage' });
    private readonly words = h('p', { class: 'pointed', role: 'status' });
    private readonly buttons: HTMLButtonElement[];
    private choice: Choice = 'picture';
    private solid: SolidView | null = null;
    private asked: AbortController | null = null;

    constructor(
        private readonly drawings: Drawings,
        private readonly texts: () => Texts,
        private readonly picked: (spot: FaceSpot) => void,
        private readonly forget: () => void,
    ) {
        this.buttons = choices.map(([choice, label]) =>
            h('button', { type: 'button', 'aria-pressed': 'false', onclick: () => void this.choose(choice) }, label),
        );
        this.element = h(
            'div',
            { class: 'sheet whole' },
            h('div', { class: 'row no-print', role: 'group', 'aria-label': 'Shown as' }, this.buttons),
            this.words,
            this.stage,
        );
        void this.choose('picture');
    }

    /** A line above the picture; '' takes it away. */
    tell(words: string): void {
        fill(
            this.words,
            words
                ? [
                      words,
                      ' ',
                      h(
                          'button',
                          {
                              type: 'button',
                              class: 'small',
                              onclick: () => {
                                  this.forget();
                                  this.tell('');
                              },
                          },
                          'Forget it',
                      ),
                  ]
                : '',
        );
    }

    private async choose(choice: Choice): Promise<void> {
        this.choice = choice;
        choices.forEach(([one], i) => this.buttons[i].setAttribute('aria-pressed', String(one === choice)));
        this.closeSolid();
        this.drawings.forget(this.stage);
        if (choice !== 'turn') {
            fill(this.stage, this.drawings.place(choice, '', `The whole: ${choices.find(([one]) => one === choice)?.[1]}`));
            return;
        }
        const place = h('div', { class: 'solid-host' });
        fill(this.stage, place);
        try {
            const address = '/solid.js',
                module = (await import(address)) as SolidModule;
            if (this.choice !== 'turn' || !place.isConnected) return;
            this.solid = module.openSolid(place, { picked: this.picked });
            await this.ask();
        } catch (fault) {
            sayWrong(fault);
        }
    }

    private async ask(): Promise<void> {
        if (!this.solid) return;
        this.asked?.abort();
        this.asked = new AbortController();
        try {
            this.solid.update(
                await api.solids({ ...this.texts(), ...(this.tried ? { changes: this.tried } : {}) }, this.asked.signal),
            );
        } catch (fault) {
            sayWrong(fault);
        }
    }
    private tried: Change[] | null = null;
    private readonly soon = afterQuiet(QUIET_MS, () => void this.ask());

    /** The text has changed. */
    refresh(): void {
        this.tried = null;
        if (this.solid) this.soon();
    }
    /** A value is being tried. */
    try(changes: Change[]): void {
        this.tried = changes;
        if (this.solid) this.soon();
    }

    private closeSolid(): void {
        this.asked?.abort();
        this.solid?.close();
        this.solid = null;
    }
    close(): void {
        this.closeSolid();
    }
}
