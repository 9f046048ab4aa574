// SPDX-License-Identifier: GPL-3.0-or-later
/* book_tablet: how a phone or tablet in the shop gets in: the address to open there and the code, which the desk alone shows. */
import { type Network, Refused, api } from './api.js';
import { type Child, fill, freshId, h } from './dom.js';
import { sayWrong } from './view.js';

const LOOK_MS = 20000;

function minutesWords(seconds: number): string {
    const minutes = Math.max(1, Math.round(seconds / 60));
    return minutes === 1 ? 'Good for about a minute' : `Good for ${minutes} minutes`;
}

export class Tablet {
    readonly element: HTMLElement;
    private readonly place = h('div', {});
    private shown = '';
    private readonly timer = window.setInterval(() => { if (document.visibilityState === 'visible') void this.look(); }, LOOK_MS);

    constructor() {
        const id = freshId('tablet');
        this.element = h('section', { 'aria-labelledby': id, class: 'tablet' }, h('h2', { id }, 'Tablet in the shop'),
            this.place);
        void this.look();
    }

    private async look(): Promise<void> {
        try {
            this.show(await api.network());
        } catch (fault) {
            if (!this.shown) fill(this.place,
                h('p', {}, fault instanceof Refused ? `${fault.what}.` : 'It is not known whether tablets may come in.'));
        }
    }

    /** Drawn anew only when something else is to be said, so that the focus stays where it is. */
    private show(network: Network): void {
        const state = JSON.stringify({ ...network, expires_s: Math.round(network.expires_s / 60) });
        if (state === this.shown) return;
        const focused = this.place.contains(document.activeElement);
        this.shown = state;
        fill(this.place, this.words(network));
        if (focused) this.place.querySelector('button')?.focus();
    }

    private words(network: Network): Child {
        if (!network.on) return h('p', {}, 'To use the cards on a phone or tablet in the shop, start the program with ',
            h('code', {}, 'tuskwright serve --on-network'), '. Do so only in a network of your own.');
        if (!network.desk) return h('p', {}, 'This device is let in. A code for another one stands on the screen at the desk.');
        const renew = h('button', { type: 'button', onclick: () => void api.networkCode().then((now) => this.show(now),
            sayWrong) }, 'A new code');
        if (network.code === null) return [h('p', {}, 'No code is good at the moment: each lets in one device.'), renew];
        const code = network.code.replace(/^(\d{3})(\d{3})$/, '$1 $2');
        return [h('p', {}, 'On the phone or tablet, open ',
            network.addresses.map((one, index) => [index ? ' or ' : '', h('strong', { class: 'address' }, one)]),
                ' and type this code:'),
        h('p', { class: 'code' }, code), h('p', { class: 'quiet' }, `${minutesWords(network.expires_s)}, for one device.`),
            renew];
    }

    leave(): void {
        window.clearInterval(this.timer);
    }
}
